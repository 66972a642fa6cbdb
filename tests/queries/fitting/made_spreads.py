"""Invented photos and sleeves for the fitting tests."""

import random

from queries.fitting.values import Opening, Picture, openings_of
from queries.sleeves.values import Box, Sleeve

#: Pixels of the usual shapes: 4:3, 3:2, 16:9, square, and one that is small.
SIZES = ((4032, 3024), (6000, 4000), (4608, 2592), (3024, 3024), (1024, 768))


def picture(number: int, width: int = 4032, height: int = 3024, *, rank: int | None = None, **more: float) -> Picture:
    return Picture(f"key{number:03}", f"c{number:03}", width, height, number if rank is None else rank, number, **more)


def pictures(count: int, seed: int = 0, *, upright: float = 0.4) -> list[Picture]:
    """So many photos of mixed shapes, ranks shuffled against the story."""
    draw = random.Random(seed)
    ranks = draw.sample(range(count), count)
    made = []
    for number in range(count):
        width, height = draw.choice(SIZES)
        if draw.random() < upright:
            width, height = height, width
        made.append(picture(number, width, height, rank=ranks[number]))
    return made


def sleeve(name: str, *rows: tuple[float, ...], height: float = 4.0) -> Sleeve:
    """Rows of pockets of these widths, all of one height."""
    boxes = []
    for line, widths in enumerate(rows):
        for at, width in enumerate(widths):
            boxes.append(Box(sum(widths[:at]), line * height, width, height))
    return Sleeve(name, max(map(sum, rows)), height * len(rows), tuple(boxes), "drawn")


def openings(left: tuple[tuple[float, ...], ...], right: tuple[tuple[float, ...], ...] = ()) -> tuple[Opening, ...]:
    return openings_of(sleeve("left", *left) if left else None, sleeve("right", *right) if right else None)
