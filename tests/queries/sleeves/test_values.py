"""Faces and their pockets."""

from itertools import combinations

import pytest

from queries.sleeves.by_rule import sleeves_by_rule
from queries.sleeves.values import Box, Sleeve, in_reading_order
from tests.queries.sleeves.made_sleeves import many

ALL = [*sleeves_by_rule(), *(sleeve for sleeve, _, _ in many(seed=5))]


def overlap(one: Box, other: Box) -> float:
    """Square inches."""
    across = min(one.x + one.width, other.x + other.width) - max(one.x, other.x)
    down = min(one.y + one.height, other.y + other.height) - max(one.y, other.y)
    return max(across, 0) * max(down, 0)


def test_the_back_is_the_mirror_image() -> None:
    """Heights stay, left becomes right, and the numbers begin at the top left anew."""
    face = Sleeve("steps", 9, 4, (Box(0, 0, 6, 4), Box(6, 0, 3, 2), Box(6, 2, 3, 2)), "drawn")
    assert face.back().pockets == (Box(0, 0, 3, 2), Box(3, 0, 6, 4), Box(0, 2, 3, 2))
    assert (face.back().name, face.back().width, face.back().height) == ("steps", 9, 4)


def test_the_back_of_the_back_is_the_front() -> None:
    """To the last digit, in millimetres and odd fractions too."""
    for sleeve in ALL:
        assert sleeve.back().back() == sleeve


@pytest.mark.parametrize("face", ["front", "back"])
def test_pockets_lie_on_the_page_and_never_overlap(face: str) -> None:
    """On both faces, with the same pockets on both."""
    for sleeve in ALL:
        pockets = sleeve.pockets if face == "front" else sleeve.back().pockets
        assert sum(overlap(one, other) for one, other in combinations(pockets, 2)) < 1e-6
        for box in pockets:
            assert min(box.x, box.y) >= -1e-8
            assert min(box.width, box.height) > 0
            assert box.x + box.width <= sleeve.width + 1e-8
            assert box.y + box.height <= sleeve.height + 1e-8
        assert sorted((box.y, box.width, box.height) for box in pockets) == sorted(
            (box.y, box.width, box.height) for box in sleeve.pockets
        )


def test_pockets_stand_in_reading_order() -> None:
    """By the top edge, then by the left one, on both faces."""
    for sleeve in ALL:
        for face in (sleeve, sleeve.back()):
            edges = [(box.y, box.x) for box in face.pockets]
            assert edges == sorted(edges)
    lower, right, left = Box(0, 1, 1, 1), Box(3, 0, 1, 4), Box(0, 0, 1, 1)
    assert in_reading_order([lower, right, left]) == (left, right, lower)
