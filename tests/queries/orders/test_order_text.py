"""What an order holds as the text that is kept"""

import json
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from queries.orders.order_text import content_in, order_text, reprint_in, reprint_text
from queries.orders.values import OrderedPiece, OrderedPrint, Reprint
from tests.queries.orders.made_orders import W14, W15, order

whole = st.integers(0, 10**7)
pieces = st.builds(
    OrderedPiece,
    st.dates(),
    st.text(),
    st.text(),
    st.lists(st.text()).map(tuple),
    whole, whole, whole, whole,
    st.booleans(),
)  # fmt: skip
prints = st.builds(OrderedPrint, st.text(), st.lists(pieces, max_size=3).map(tuple))


@given(st.text(st.characters(exclude_categories=())), st.lists(prints, max_size=3).map(tuple), whole)
def test_an_order_comes_back_as_it_was_told(folder: str, printed: tuple[OrderedPrint, ...], least: int) -> None:
    """Whatever its names hold, a folder that is no text too; the text is one line of ASCII."""
    text = order_text(replace(order(1), folder=folder, prints=printed, lower_bound=least))
    assert text.isascii()
    assert "\n" not in text
    assert content_in(text) == (folder, printed, least)


@given(st.text(), st.lists(st.tuples(st.dates(), st.text())).map(tuple))
def test_a_reprint_comes_back_as_it_was_told(name: str, again: tuple[tuple[date, str], ...]) -> None:
    """The moment comes from the word that it stands in."""
    assert reprint_in(reprint_text(Reprint(name, again, "then")), "now") == Reprint(name, again, "now")


def said() -> dict[str, object]:
    document: dict[str, object] = json.loads(order_text(order(1, [(W14, "L1", "a", ("k",)), (W15, "L2", "b")])))
    return document


def test_fields_that_are_new_are_passed_over() -> None:
    """A later version may tell more; what may be missing has its default."""
    document = said()
    document["weight"] = 1
    piece = document["prints"][0]["pieces"][0]  # type: ignore[index]
    piece["glossy"] = True
    del piece["turned"], piece["keys"]
    content = content_in(json.dumps(document))
    assert content
    assert content.prints[0].pieces[0] == OrderedPiece(W14, "L1", "a", (), 0, 0, 76_200, 101_600, turned=False)


@pytest.mark.parametrize(
    "damage",
    [
        {"form": 2}, {"form": None}, {"folder": None, "prints": None}, {"prints": 5}, {"prints": [{}]},
        {"lower_bound": "7"}, {"lower_bound": True}, {"prints": [{"name": "o01-01", "pieces": [{"week": "never"}]}]},
        {"prints": [{"name": "o01-01", "pieces": [{"week": "2026-03-30", "pocket": "L1", "mark": "a", "x": 0.5}]}]},
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_nothing(damage: dict[str, object]) -> None:
    """No half of it is taken for an order."""
    assert content_in(json.dumps(said() | damage)) is None


@pytest.mark.parametrize("text", ["", "{", "[]", "5", '{"form":1}', '{"a":' * 100_000])
def test_what_is_no_document_is_nothing(text: str) -> None:
    """Neither an order nor a reprint."""
    assert content_in(text) is None
    assert reprint_in(text, "now") is None
