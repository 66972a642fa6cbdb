"""How a picture stands with the small ones behind it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from queries.pull.sheet_cells import (
    CODE_LINE,
    SHEET_WIDTH,
    STEP,
    aside_rows,
    cell_of,
    fitted,
    moved,
    print_size,
    row_height,
    strips,
)
from queries.pull.sheet_values import CAPTION, COLUMNS, GUTTER, PRINT, TILE, Entry, Print, Small

SHAPES = st.sampled_from([(4, 3), (3, 4), (3, 2), (2, 3), (1, 1), (9, 16), (30, 1), (1, 30), (0, 0)])
SMALLS = st.lists(SHAPES, max_size=60).map(lambda shapes: [small(number, *size) for number, size in enumerate(shapes)])


def small(number: int, width: int = 4, height: int = 3, *note: str) -> Small:
    return Small(f"{number:05}", width, height, None, note)


def entry(behind: list[Small], width: int = 4, height: int = 3) -> Entry:
    return Entry("3f9a2", None, "09:15", False, False, width, height, None, tuple(behind))


def code_box(place: Print) -> tuple[int, int, int, int]:
    """The room of a code of five letters: 50 x 15 pixels above its baseline, as the font that is used needs."""
    return place.code_x, place.code_y - 13, place.code_x + 50, place.code_y + 2


def box(place: Print) -> tuple[int, int, int, int]:
    return place.x, place.y, place.x + place.width, place.y + place.height


def overlap(one: tuple[int, int, int, int], other: tuple[int, int, int, int]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@given(SMALLS, SHAPES)
def test_no_picture_is_lost_and_every_code_can_be_read(smalls: list[Small], shape: tuple[int, int]) -> None:
    """However many pictures stand behind one, each is shown once, and nothing lies over any code or the caption."""
    cell = cell_of(entry(smalls, *shape))
    assert [place.small for place in cell.prints] + list(cell.rest) == smalls
    caption = (0, 0, TILE, CAPTION - 4)
    things = [*map(box, cell.prints), (0, cell.tile.y, cell.tile.width, 0), caption]
    codes = [code_box(place) for place in cell.prints]
    for number, code in enumerate(codes):
        assert not any(overlap(code, thing) for thing in things)
        assert not any(overlap(code, other) for other in codes[number + 1 :])


@given(SMALLS, SHAPES)
def test_a_cell_keeps_to_its_columns(smalls: list[Small], shape: tuple[int, int]) -> None:
    """What stands beside a picture stays within the columns that the cell says it takes, and within its height."""
    cell = cell_of(entry(smalls, *shape))
    right = cell.span * TILE + (cell.span - 1) * GUTTER
    assert 1 <= cell.span <= COLUMNS
    for place in cell.prints:
        assert place.x >= 0
        assert place.x + place.width <= right
        assert -cell.above <= place.y
        assert place.y + place.height + CODE_LINE <= cell.below


@given(SMALLS, SHAPES)
def test_most_of_every_picture_shows(smalls: list[Small], shape: tuple[int, int]) -> None:
    """Prints that overlap hide a quarter of each other at most."""
    cell = cell_of(entry(smalls, *shape))
    tile = (0, cell.tile.y, cell.tile.width, 0)
    for number, place in enumerate(cell.prints):
        left, top, right, bottom = box(place)
        above = [each for each in [tile, *map(box, cell.prints[:number])] if overlap(each, (left, top, right, bottom))]
        assert all(each[2] - left <= PRINT - STEP for each in above)


@pytest.mark.parametrize(
    ("count", "span", "rest"), [(0, 1, 0), (1, 1, 0), (3, 1, 0), (4, 2, 0), (12, 3, 0), (40, 4, 18)]
)
def test_columns_grow_with_the_pictures(count: int, span: int, rest: int) -> None:
    """A few stand below, more beside, and what is too many for four columns follows in rows of its own."""
    cell = cell_of(entry([small(number) for number in range(count)]))
    assert (cell.span, len(cell.rest)) == (span, rest)


@given(SMALLS)
def test_rows_hold_every_picture_within_the_sheet(smalls: list[Small]) -> None:
    """Both kinds of rows keep order and width."""
    for rows in (list(strips(smalls)), list(aside_rows(smalls))):
        assert [place.small for row in rows for place in row] == smalls
        for row in rows:
            assert all(place.x >= 0 and place.x + place.width <= SHEET_WIDTH for place in row)
            assert all(place.y >= 0 for place in row)
            assert len({place.y + place.height for place in row}) == 1


def test_notes_take_room() -> None:
    """A row is as high as its tallest print, its codes, and its longest notes."""
    plain, noted = [small(0), small(1, 3, 4)], [small(0), small(1, 3, 4, "copy of 3f9a2", "2025-W52")]
    assert row_height(plain) == print_size(plain[1])[1] + CODE_LINE
    assert row_height(noted) > row_height(plain)
    assert row_height([]) == CODE_LINE


def test_a_print_is_moved_with_its_code() -> None:
    """Code and print keep together."""
    (place,) = cell_of(entry([small(0)])).prints
    there = moved(place, 10, 20)
    assert (there.x - place.x, there.code_x - place.code_x) == (10, 10)
    assert (there.y - place.y, there.code_y - place.code_y) == (20, 20)


def test_pictures_fit_without_being_cropped() -> None:
    """The longer side fills the tile and the other keeps the proportion."""
    assert fitted(4000, 3000) == (TILE, round(TILE * 3 / 4))
    assert fitted(3000, 4000) == (round(TILE * 3 / 4), TILE)
    assert fitted(500, 500) == (TILE, TILE)
