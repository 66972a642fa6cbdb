"""Cards on the pages of a home printer: apart, within the margins, all of them."""

from itertools import combinations
from random import Random

import pytest

from indexer.errors import PrintError
from queries.cards.sheets import GAP, MARK_TO, PAGE_MARGIN, sheets_of
from queries.lengths import UM_PER_INCH as INCH

A4 = (210_000, 297_000)
LETTER = (17 * INCH // 2, 11 * INCH)


def test_cards_lie_apart_within_the_margins() -> None:
    """Also with their cutting marks, on 200 random orders of cards."""
    random = Random(5)
    sides = [2 * INCH, 3 * INCH, 4 * INCH, 6 * INCH, 50_000, 100_000]
    for _ in range(200):
        paper = random.choice([A4, LETTER])
        sizes = [(random.choice(sides), random.choice(sides)) for _ in range(random.randint(1, 30))]
        pages = sheets_of(sizes, paper)
        assert [place.number for page in pages for place in page] == list(range(len(sizes)))
        for page in pages:
            for place in page:
                size = (place.height, place.width) if place.is_turned else (place.width, place.height)
                assert size == sizes[place.number]
                assert min(place.x, place.y) >= PAGE_MARGIN + MARK_TO
                assert place.x + place.width <= paper[0] - PAGE_MARGIN - MARK_TO
                assert place.y + place.height <= paper[1] - PAGE_MARGIN - MARK_TO
            for a, b in combinations(page, 2):
                beside = a.x + a.width + GAP <= b.x or b.x + b.width + GAP <= a.x
                assert beside or a.y + a.height + GAP <= b.y or b.y + b.height + GAP <= a.y


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("size", [(3, 4), (4, 3)])
def test_four_usual_cards_go_on_a_page(size: tuple[int, int], paper: tuple[int, int]) -> None:
    """Wide ones are turned for it."""
    pages = sheets_of([(size[0] * INCH, size[1] * INCH)] * 8, paper)
    assert [len(page) for page in pages] == [4, 4]


def test_a_card_larger_than_the_paper_is_refused() -> None:
    """With the setting that helps."""
    with pytest.raises(PrintError, match=r"8x8 in is larger than the home paper .*home\.paper"):
        sheets_of([(8 * INCH, 8 * INCH)], A4)


def test_no_cards_need_no_page() -> None:
    """Nothing in, nothing out."""
    assert sheets_of([], A4) == []
