"""Where pieces may lie on the paper: what the lab does not trim, or all of it when they are shrunk afterwards. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.errors import PrintError
from queries.cutting.trees import Form, Kind
from queries.cutting.values import Paper, Rect, Tight
from queries.lengths import UM_PER_INCH, inches_meant


@dataclass(frozen=True, slots=True)
class Space:
    """A width and a height that pieces are packed into.

    `exempts`: a piece that is longer than the space, but not than the paper, spans the space along that axis by itself
    and keeps its size. Nothing can lie beside it there, so it may reach into the trimmed edges. Without `exempts`, all
    on the print is shrunk until it lies in the usable area.
    """

    width: int
    height: int
    exempts: bool

    def forms(self, kinds: Sequence[Kind], paper: Paper) -> tuple[Form, ...]:
        """Every way in which a piece of each kind may lie in this space."""
        made: list[Form] = []
        for number, (short, long) in enumerate(kinds):
            for width, height in dict.fromkeys(((short, long), (long, short))):
                room_x, room_y = (min(width, self.width), min(height, self.height)) if self.exempts else (width, height)
                fits_paper = width <= paper.width and height <= paper.height
                if fits_paper and room_x <= self.width and room_y <= self.height:
                    made.append(Form(number, room_x, room_y, width, height))
        return tuple(made)


def usable(paper: Paper) -> Rect:
    """The paper less what the lab may take. Raises PrintError where nothing is left."""
    trim = paper.trim
    width, height = paper.width - trim.left - trim.right, paper.height - trim.top - trim.bottom
    if width <= 0 or height <= 0:
        raise PrintError("print.lab_trim takes the whole print; set it smaller: settings print.lab_trim")
    return Rect(trim.left, trim.top, width, height)


def spaces_of(paper: Paper, tight: Tight) -> tuple[Space, ...]:
    """The spaces to try for a print, the best first; the last one holds whatever any of them holds."""
    free = usable(paper)
    spaces = [Space(free.width, free.height, exempts=True)]
    if tight == "shrink":
        spaces += [
            Space(width, height, exempts=False)
            for width, height in dict.fromkeys(
                ((paper.width, free.height), (free.width, paper.height), (paper.width, paper.height))
            )
            if (width, height) != (free.width, free.height)
        ]
    return tuple(spaces)


def refuse_larger(name: str, sides: Kind, paper: Paper) -> None:
    """Raises PrintError for a piece that does not fit the paper even when turned."""
    if sides[0] > min(paper.width, paper.height) or sides[1] > max(paper.width, paper.height):
        raise PrintError(
            f"{name} is {_inches(sides[0])}x{_inches(sides[1])} in, larger than the lab's paper of "
            f"{_inches(paper.width)}x{_inches(paper.height)} in; {_way_out(sides, paper)}"
        )


def _way_out(sides: Kind, paper: Paper) -> str:
    """Who asked for pieces apart, and told a lab's size of inches in millimetres, sees them refused for a hair."""
    meant = inches_meant(paper.width, paper.height)
    if meant and sides[0] <= min(meant) and sides[1] <= max(meant):
        size = "x".join(f"{side / UM_PER_INCH:g}" for side in meant)
        return f"where its name stands for inches, say so: weeksheaf settings print.size {size}in"
    return "set print.size, or plan the week without that pocket"


def _inches(length: int) -> str:
    return f"{length / UM_PER_INCH:.2f}".rstrip("0").rstrip(".")
