"""Both pages of a spread drawn as text"""

import pytest

from queries.fitting.values import Filled, Opening, Plan
from queries.sleeves.by_rule import sleeves_by_rule
from queries.sleeves.values import Box, Sleeve
from queries.spread.text import drawing, lost_words
from queries.spread.values import Page
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER, kept, pair, plan, wide

CODES = {KITE: "kite1", PIER: "pier2", GULL: "gull3", CAT: "cat44"}


def drawn(*sleeves: Sleeve, columns: int = 80) -> list[str]:
    """Two pages of cards."""
    pages, filled = [], []
    for side, sleeve in zip(("left", "right"), sleeves, strict=True):
        pages.append(Page(side, sleeve.name, "front", sleeve.width, sleeve.height))  # type: ignore[arg-type]
        filled += [
            Filled(Opening(f"{side[0].upper()}{number}", side, box), "card", (), None, "")  # type: ignore[arg-type]
            for number, box in enumerate(sleeve.pockets, 1)
        ]
    return drawing(pages, Plan(tuple(filled), True, 0, 1, 0, ()), {}, columns)


def test_pages_stand_side_by_side_where_there_is_room() -> None:
    """Each pocket has its name and its code; what is cut off and cards are shown."""
    made = kept(wide("L1", KITE), wide("L2", number=1), pair("R1", PIER, GULL), wide("R2", CAT, number=1))
    assert drawing(made.pages, made.plan, CODES, 60)[0].split() == ["left", "right"]
    text = "\n".join(drawing(made.pages, made.plan, CODES, 60))
    for word in ("L1", "kite1", "-11 %", "L2", "card", "R1", "pier2 gull3", "R2", "cat44"):
        assert text.count(word) == (2 if word == "-11 %" else 1)


def test_the_whole_drawing() -> None:
    """A drawing as it is read: 3 columns and 1.5 rows to the inch."""
    made = kept(wide("L1", KITE), wide("L2", number=1), pair("R1", PIER, GULL), wide("R2", CAT, number=1))
    assert drawing(made.pages, made.plan, CODES, 42) == [
        "left                  right",
        "+-----------------+   +-----------------+",
        "|                 |   |                 |",
        "|       L1        |   |       R1        |",
        "|      kite1      |   |   pier2 gull3   |",
        "|      -11 %      |   |                 |",
        "|                 |   |                 |",
        "+-----------------+   +-----------------+",
        "|                 |   |                 |",
        "|       L2        |   |       R2        |",
        "|      card       |   |      cat44      |",
        "|                 |   |      -11 %      |",
        "|                 |   |                 |",
        "+-----------------+   +-----------------+",
    ]


@pytest.mark.parametrize("columns", [60, 80, 100, 200])
def test_every_sleeve_by_rule_is_readable(columns: int) -> None:
    """No line is longer than the terminal is wide, and every pocket has its name in it."""
    for sleeve in sleeves_by_rule():
        lines = drawn(sleeve.back(), sleeve, columns=columns)
        assert max(map(len, lines)) <= columns
        words = " ".join(lines).replace("|", " ").replace("+", " ").split()
        names = [f"{letter}{number}" for letter in "LR" for number in range(1, len(sleeve.pockets) + 1)]
        assert [words.count(name) for name in names] == [1] * len(names), sleeve.name


def test_where_there_is_no_room_the_right_page_stands_below() -> None:
    """At 60 columns two pages of 12 inches stand one above the other."""
    page = Sleeve("whole", 12, 12, (Box(0, 0, 12, 12),), "drawn")
    lines = drawn(page, page, columns=60)
    assert [line for line in lines if line in ("left", "right")] == ["left", "right"]


def test_pages_of_different_heights_stand_at_the_top() -> None:
    """A half-width page and a low one side by side: what is below the lower one is bare."""
    tall, low = Sleeve("tall", 6, 12, (Box(0, 0, 6, 12),), "drawn"), Sleeve("low", 12, 4, (Box(0, 0, 12, 4),), "drawn")
    lines = drawn(tall, low)
    assert lines[1].count("+") == 4
    assert lines[-1].count("+") == 2


def test_many_codes_take_as_many_lines_as_they_need() -> None:
    """A collage in a narrow pocket lists its photos below each other."""
    box = Box(0, 0, 3, 6)
    cells = pair("L1", KITE, PIER)
    narrow = Filled(Opening("L1", "left", box), "collage", cells.photos, cells.collage, "")
    made = drawing(kept().pages, plan(narrow), CODES, 42)
    assert [line.split("|")[1].strip() for line in made if "kite1" in line or "pier2" in line] == ["kite1", "pier2"]


@pytest.mark.parametrize(
    ("kept_share", "words"), [(1.0, ""), (0.996, ""), (0.99, "1 %"), (8 / 9, "11 %"), (0.0, "100 %")]
)
def test_what_is_lost(kept_share: float, words: str) -> None:
    """In whole per cent; what nobody would see is nothing."""
    assert lost_words(kept_share) == words


def test_a_name_is_never_cut_to_another_one() -> None:
    """Of twelve pockets an inch wide, R10 to R12 have no room for their names at three letters an inch."""
    narrow = Sleeve("narrow", 12, 12, tuple(Box(x, 0, 1, 12) for x in range(12)), "drawn")
    text = "\n".join(drawn(narrow, narrow, columns=80))
    assert [text.count(f"{side}{number}") for side in "LR" for number in (1, 2, 9)] == [1] * 6
