"""The sleeves that come with the tool: made by a rule, 12 x 12 inches, named by what they hold. Pure.

Rows 4 inches high, each filled to 12 inches from 6x4 ("wide") and 3x4 ("tall") pockets; the same turned by 90 degrees:
columns 4 inches wide, each filled from 4x6 ("tall") and 4x3 ("low") ones; and the plain grids. Three such rows always
fill the page: 24 a + 12 b = 144. After the comma a name says what each row holds, from the top (each column, from the
left): a `pair` of large pockets, `four` small ones, or where the large one stands among the small.
"""

from collections.abc import Sequence
from functools import cache
from itertools import product

from queries.sleeves.values import Box, Sleeve, in_reading_order

PAGE = 12.0
#: The sides of the pockets along a row, by the row's word; the words of columns beside those of rows.
_ROWS = {"pair": (6.0, 6.0), "left": (6.0, 3.0, 3.0), "middle": (3.0, 6.0, 3.0), "right": (3.0, 3.0, 6.0),
         "four": (3.0, 3.0, 3.0, 3.0)}  # fmt: skip
_OF_COLUMNS = {"left": "top", "right": "bottom"}
_DEPTH = 4.0
_WITH_WORDS: dict[tuple[str, ...], str] = {
    ("left", "middle", "right"): "stepping",
    ("right", "middle", "left"): "stepping back",
}
#: Grids of longer pockets are left out: the next, 3:1, would cut half of a 3:2 photo away.
_LONGEST = 2.0
#: At home until something else is told: one with as many tall pockets as wide ones, one with twice as many.
TICKED = frozenset({"3 wide + 6 tall, stepping", "4 wide + 4 tall, pair-four-pair"})


@cache
def sleeves_by_rule() -> tuple[Sleeve, ...]:
    """All of them, the plainest first."""
    rowed = [_of_rows(words) for words in product(_ROWS, repeat=3)]
    turned = [_turned(words) for words in product(_ROWS, repeat=3)]
    known = {sleeve.pockets for sleeve in (*rowed, *turned)}
    grids = [grid for count in product(range(1, 5), repeat=2) if (grid := _grid(*count)).pockets not in known]
    shapely = [grid for grid in grids if _length(grid.pockets[0]) <= _LONGEST]
    return tuple(sorted((*rowed, *turned, *shapely), key=_plainness))


def is_plain(sleeve: Sleeve) -> bool:
    """Whether it looks the same in a mirror and upside down."""
    return not _turns(sleeve)


def _of_rows(words: Sequence[str]) -> Sleeve:
    boxes = []
    for number, word in enumerate(words):
        x = 0.0
        for width in _ROWS[word]:
            boxes.append(Box(x, number * _DEPTH, width, _DEPTH))
            x += width
    return _sleeve(_name(words, "wide", "tall"), boxes)


def _turned(words: Sequence[str]) -> Sleeve:
    """Rows become columns: the corner at the top left stays, right becomes down."""
    boxes = [Box(box.y, box.x, box.height, box.width) for box in _of_rows(words).pockets]
    return _sleeve(_name(words, "tall", "low", _OF_COLUMNS), boxes)


def _grid(columns: int, rows: int) -> Sleeve:
    width, height = PAGE / columns, PAGE / rows
    boxes = [Box(x * width, y * height, width, height) for y in range(rows) for x in range(columns)]
    shape = "square" if columns == rows else "wide" if width > height else "tall"
    return _sleeve(f"{columns * rows} {shape}", boxes)


def _name(words: Sequence[str], large: str, small: str, others: dict[str, str] | None = None) -> str:
    """ "3 wide + 6 tall, stepping"."""
    sides = [side for word in words for side in _ROWS[word]]
    counts = ((sides.count(6.0), large), (sides.count(3.0), small))
    held = " + ".join(f"{count} {what}" for count, what in counts if count)
    if set(words) in ({"pair"}, {"four"}):
        return held
    said = [(others or {}).get(word, word) for word in words]
    return f"{held}, {_WITH_WORDS.get(tuple(words)) or (f'all {said[0]}' if len(set(said)) == 1 else '-'.join(said))}"


def _sleeve(name: str, boxes: Sequence[Box]) -> Sleeve:
    return Sleeve(name, PAGE, PAGE, in_reading_order(boxes), "by rule")


def _plainness(sleeve: Sleeve) -> tuple[bool, int, int, int, str]:
    """A key to sort by: the same whichever way it is turned, few sizes, symmetrical, few pockets."""
    sizes = {(box.width, box.height) for box in sleeve.pockets}
    return not is_plain(sleeve), len(sizes), _turns(sleeve), len(sleeve.pockets), sleeve.name


def _turns(sleeve: Sleeve) -> int:
    """How many of mirroring and turning upside down make another drawing."""
    flipped = in_reading_order(Box(box.x, PAGE - box.y - box.height, box.width, box.height) for box in sleeve.pockets)
    return (sleeve.back().pockets != sleeve.pockets) + (flipped != sleeve.pockets)


def _length(box: Box) -> float:
    return max(box.width, box.height) / min(box.width, box.height)
