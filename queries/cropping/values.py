"""Which part of a picture is shown: the value that the rooms hand to each other."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Window:
    """An upright rectangle of the upright picture, in fractions of its sides, 0 at the left and at the top."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Share of the picture's width."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Share of the picture's height."""
        return self.bottom - self.top

    @property
    def share(self) -> float:
        """Share of the picture's area, 0..1."""
        return self.width * self.height

    def holds(self, other: "Window") -> bool:
        """Whether the other one lies wholly inside."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


WHOLE = Window(0.0, 0.0, 1.0, 1.0)
