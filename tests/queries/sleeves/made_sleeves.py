"""Random drawings: pages cut edge to edge by a guillotine, some of their parts made holes."""

import random

from queries.sleeves.notation import MARKS, sleeve_of
from queries.sleeves.sizes import Size
from queries.sleeves.values import Sleeve

CELLS = (Size(1, 1, "in"), Size(1, 0.5, "in"), Size(25.4, 25.4, "mm"), Size(13, 17, "mm"), Size(0.75, 1 / 3, "in"))


def random_drawing(dice: random.Random) -> str:
    """A sound drawing of 3 to 12 cells each way, with at least one pocket; its letters are in no order."""
    columns, rows = dice.randint(3, 12), dice.randint(3, 12)
    parts = [(0, 0, columns, rows)]
    for _ in range(dice.randint(0, 9)):
        parts.extend(cut(dice, parts.pop(dice.randrange(len(parts)))))
    marks = dice.sample(MARKS, len(parts))
    holes = dice.sample(range(1, len(parts)), dice.randint(0, len(parts) // 3)) if len(parts) > 1 else []
    canvas = [[""] * columns for _ in range(rows)]
    for number, (left, top, right, bottom) in enumerate(parts):
        for y in range(top, bottom):
            canvas[y][left:right] = ["." if number in holes else marks[number]] * (right - left)
    return "\n".join(map("".join, canvas))


def cut(dice: random.Random, part: tuple[int, int, int, int]) -> list[tuple[int, int, int, int]]:
    """The part in two, or itself where it is one cell wide or high."""
    left, top, right, bottom = part
    if dice.random() < 0.5 and right - left > 1:
        x = dice.randrange(left + 1, right)
        return [(left, top, x, bottom), (x, top, right, bottom)]
    if bottom - top > 1:
        y = dice.randrange(top + 1, bottom)
        return [(left, top, right, y), (left, y, right, bottom)]
    return [part]


def random_sleeve(dice: random.Random) -> tuple[Sleeve, Size, str]:
    """A sleeve of a random drawing, with its cell and the drawing; the page is 1 inch or more each way."""
    cell, drawing = dice.choice(CELLS), random_drawing(dice)
    return sleeve_of("harbour", cell, drawing), cell, drawing


def many(seed: int, count: int = 300) -> list[tuple[Sleeve, Size, str]]:
    dice = random.Random(seed)
    return [random_sleeve(dice) for _ in range(count)]
