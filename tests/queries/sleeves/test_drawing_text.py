"""Pages drawn as text."""

import pytest

from queries.sleeves.by_rule import sleeves_by_rule
from queries.sleeves.drawing_text import draw_page
from queries.sleeves.notation import sleeve_of
from queries.sleeves.sizes import Size
from queries.sleeves.values import Box, Sleeve
from tests.queries.sleeves.made_sleeves import many


def drawn(sleeve: Sleeve, columns: int = 80) -> list[str]:
    labelled = [(box, (f"p{number:02}",)) for number, box in enumerate(sleeve.pockets, 1)]
    return draw_page(sleeve.width, sleeve.height, labelled, columns)


def read_back(lines: list[str], label: str) -> tuple[int, int, int, int]:
    """The frame around a label, found by going out from it to the nearest border: left, top, right, bottom."""
    (y,) = (number for number, line in enumerate(lines) if label in line)
    x = lines[y].index(label)
    left, right = max(lines[y].rfind(edge, 0, x) for edge in "|+"), min(at(lines[y], edge, x) for edge in "|+")
    column = [line[left + 1] for line in lines]
    top = max(number for number in range(y) if column[number] in "-+")
    return left, top, right, min(number for number in range(y, len(lines)) if column[number] in "-+")


def at(line: str, edge: str, start: int) -> int:
    found = line.find(edge, start)
    return found if found >= 0 else len(line)


def test_a_page_is_drawn_to_scale() -> None:
    """Six letters an inch across, three down; neighbours share their border, holes stay blank."""
    sleeve = sleeve_of("x", Size(1, 1, "in"), "AAB\n..B")
    assert drawn(sleeve) == [
        "+-----------+-----+",
        "|    p01    |     |",
        "|           |     |",
        "+-----------+ p02 |",
        "|           |     |",
        "|           |     |",
        "+-----------+-----+",
    ]


def test_a_drawn_page_read_back_is_the_page() -> None:
    """Every frame lies at its pocket's edges, on both faces of all that are made by rule."""
    for sleeve in sleeves_by_rule():
        for face in (sleeve, sleeve.back()):
            lines = drawn(face)
            assert (len(lines), {len(line) for line in lines}) == (37, {73})
            for number, box in enumerate(face.pockets, 1):
                left, top, right, bottom = read_back(lines, f"p{number:02}")
                assert Box(left / 6, top / 3, (right - left) / 6, (bottom - top) / 3) == box


@pytest.mark.parametrize("columns", [38, 60, 80, 200])
def test_a_page_never_outgrows_its_columns(columns: int) -> None:
    """Nor 79, however many there are; all lines are equally long."""
    for sleeve, _, _ in many(seed=7, count=100):
        lines = drawn(sleeve, columns)
        assert len({len(line) for line in lines}) == 1
        assert len(lines[0]) <= min(columns, 80)


def test_labels_are_left_away_where_they_do_not_fit() -> None:
    """A narrow pocket shows the lines that are short enough, never a part of one; a flat one the first lines."""
    lines = draw_page(4, 1, [(Box(0, 0, 1, 1), ("R1", "150x100mm")), (Box(1, 0, 3, 1), ("one", "two", "three"))])
    assert lines == [
        "+-----+-----------------+",
        "| R1  |       one       |",
        "|     |       two       |",
        "+-----+-----------------+",
    ]


def test_a_pocket_too_small_for_any_label_is_still_drawn() -> None:
    """Borders fall together, and nothing is written over them."""
    assert draw_page(1, 1, [(Box(0, 0, 0.1, 0.1), ("L1",)), (Box(0.5, 0, 0.5, 0.34), ("L2",))]) == [
        "++-+--+",
        "|  +--+",
        "|     |",
        "+-----+",
    ]
