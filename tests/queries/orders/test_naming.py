"""Which order, print or piece is meant"""

import pytest

from indexer.errors import PrintError
from queries.orders.naming import order_named, piece_words, pieces_named, print_named
from tests.queries.orders.made_orders import RULE, W14, W15, order

TWINS = "3fa9c2d1-0000-4000-8000-000000000001", "3fa9c2d1-0000-4000-8000-0000000000a2"
ONE, TWO = order(1, [(W14, "L1", "a")]), order(12, *([(W14, "L4", "b"), (W15, "L4", "c"), (W15, "R1", "d")],) * 11)
MINE, THEIRS = (order(3, [(week, "L1", "a")], id=id_) for week, id_ in zip((W14, W15), TWINS, strict=True))
ALL = (ONE, MINE, THEIRS, TWO)


@pytest.mark.parametrize("text", ["12", "o12", "O12", " 012 ", "o0012"])
def test_an_order_by_its_number(text: str) -> None:
    """As people and labs write it."""
    assert order_named(text, ALL, RULE) is TWO


def test_two_orders_of_one_number_are_named_by_their_ids() -> None:
    """The line names both with their weeks, and as few letters as tell them apart."""
    with pytest.raises(PrintError) as caught:
        order_named("o3", ALL, RULE)
    line = str(caught.value)
    assert f"{TWINS[0][:35]}: planned 3 Apr 2026 for 2026-W14; {TWINS[1][:35]}: planned 3 Apr 2026 for 2026-W15" in line
    assert order_named(TWINS[1][:35], ALL, RULE) is THEIRS
    assert order_named(TWINS[1].upper(), ALL, RULE) is THEIRS
    with pytest.raises(PrintError, match="is 2 orders"):
        order_named(TWINS[1][:8], ALL, RULE)


def test_letters_of_an_id_that_are_all_digits() -> None:
    """A number goes before them; six tell an order apart."""
    twins = [order(7, id="12345678-0"), order(7, id="92345678-0")]
    assert order_named("123456", twins, RULE) is twins[0]
    with pytest.raises(PrintError, match=r"123456: planned.*; 923456: planned"):
        order_named("7", twins, RULE)


@pytest.mark.parametrize("text", ["77", "o", "", "x12", "-1", "1.5", "9" * 400, "o12-07", "\u0661\u0662"])
def test_no_such_order(text: str) -> None:
    """The line says which there are."""
    with pytest.raises(PrintError, match="weeksheaf order lists them: o01, o03, o12"):
        order_named(text, ALL, RULE)


def test_no_order_at_all() -> None:
    """The line says what makes one."""
    with pytest.raises(PrintError, match="weeksheaf prints WEEK FOLDER"):
        order_named("1", (), RULE)


@pytest.mark.parametrize(
    "text", ["o12-07", "12-7", "O12-07.jpg", "prints/o12-07.JPG", "C:\\prints\\o12-07.jpeg", "o12-1/o12-07.jpg"]
)
def test_a_print_by_its_name_or_file(text: str) -> None:
    """As it stands on its back, and as the shell completes it."""
    assert print_named(text, ALL, RULE) == (TWO, TWO.prints[6])


def test_a_print_of_one_of_two_orders() -> None:
    """The first letters of the order's id stand in for its number."""
    assert print_named(f"{TWINS[1]}-01", ALL, RULE) == (THEIRS, THEIRS.prints[0])
    with pytest.raises(PrintError, match="is 2 orders"):
        print_named("o03-01", ALL, RULE)


@pytest.mark.parametrize(
    ("text", "says"),
    [("o12", "name it like o12-07"), ("o12-12", "it has o12-01 to o12-11"), ("o01-00", "it has o01-01"),
     ("o77-01", "no order 'o77'"), ("", "name it like"), ("o12-07.png", "name it like"), ("guide.pdf", "name it like")],
)  # fmt: skip
def test_no_such_print(text: str, says: str) -> None:
    """The line says what it is called, or which there are."""
    with pytest.raises(PrintError, match=says):
        print_named(text, ALL, RULE)


def test_pieces_of_a_print() -> None:
    """All without a pocket; with one, that alone, in the order they stand on the print and each once."""
    item = TWO.prints[0]
    assert pieces_named(item, [], RULE) == list(item.pieces)
    named = pieces_named(item, [(None, "r1"), (W14, "L4"), (None, "R1")], RULE)
    assert [piece_words(piece, RULE) for piece in named] == ["2026-W14/L4", "2026-W15/R1"]


@pytest.mark.parametrize(
    ("pocket", "says"),
    [((None, "L4"), "of several weeks; name one: 2026-W14/L4, 2026-W15/L4$"),
     ((None, "L9"), "has no piece for pocket L9; it has 2026-W14/L4, 2026-W15/L4, 2026-W15/R1"),
     ((W14, "R1"), "has no piece for pocket R1")],
)  # fmt: skip
def test_a_pocket_that_is_not_clear(pocket: tuple[None, str], says: str) -> None:
    """The line lists what can be named."""
    with pytest.raises(PrintError, match=says):
        pieces_named(TWO.prints[0], [pocket], RULE)
