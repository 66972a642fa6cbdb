"""Turns and mirrors put together: the eight orientations, and what a sequence of HEIF transformations comes to.

Every orientation is a mirror image left to right, or not, that is then turned clockwise by some quarters. The numbers
are the values of the Exif tag Orientation (CIPA DC-008; TIFF 6.0 tag 274).
"""

from dataclasses import dataclass

_BY_TURN = {
    (False, 0): 1,
    (True, 0): 2,
    (False, 2): 3,
    (True, 2): 4,
    (True, 3): 5,
    (False, 1): 6,
    (True, 1): 7,
    (False, 3): 8,
}


@dataclass(frozen=True, slots=True)
class Turn:
    """First mirrored left to right or not, then turned clockwise by `quarters`."""

    mirrored: bool = False
    quarters: int = 0

    @property
    def orientation(self) -> int:
        """The Exif value, 1..8, that turns the stored picture in this way."""
        return _BY_TURN[self.mirrored, self.quarters]

    @property
    def swaps_sides(self) -> bool:
        return self.quarters % 2 == 1

    def then_irot(self, angle: int) -> "Turn":
        """Turned further by `irot` (ISO/IEC 23008-12, 6.5.10): quarters anti-clockwise."""
        return Turn(self.mirrored, (self.quarters - angle) % 4)

    def then_imir(self, axis: int) -> "Turn":
        """Mirrored further by `imir` (ISO/IEC 23008-12, 6.5.12): 0 exchanges top and bottom, 1 left and right."""
        # A mirror behind a turn is the opposite turn behind the mirror; top to bottom is left to right and half a turn.
        half = 0 if axis else 2
        return Turn(not self.mirrored, (half - self.quarters) % 4)
