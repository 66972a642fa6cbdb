"""weeksheaf reprint"""

import pytest

from queries.orders.told import orders
from tests.queries.cli.conftest import Person
from tests.queries.cli.told_orders import W14, W15, tell_order_of


def again(person: Person) -> list[tuple[str, tuple[str, ...]]]:
    """What is to be printed again: prints and pockets."""
    from contextlib import closing

    from indexer.store.opening import open_for_reading

    with closing(open_for_reading(person.index)) as connection:
        (order,) = orders(connection)
    return [(item.print, tuple(pocket for _, pocket in item.pieces)) for item in order.reprints]


def test_a_whole_print(person: Person) -> None:
    """All its pieces; the line that prints them comes with it."""
    tell_order_of(person, "sent", pockets=((W14, "L4"), (W15, "R2")))
    assert person.says("reprint", "o01-01.jpg").splitlines() == [
        "To be printed again, of o01-01: 2026-W14/L4, 2026-W15/R2",
        "The next order has it: weeksheaf prints 2026-W14 2026-W15 FOLDER",
    ]
    assert again(person) == [("o01-01", ("L4", "R2"))]


def test_a_card_is_printed_again_where_cards_are_asked_for(person: Person) -> None:
    """The line that prints it asks for them: without, the next order would not have it."""
    tell_order_of(person, "sent", pockets=((W14, "L4"), (W14, "R2")), cards=("R2",))
    assert person.says("reprint", "o01-01").splitlines()[1:] == [
        "The next order has it: weeksheaf prints 2026-W14 FOLDER --journal",
        "The card is printed with --journal; one of lines, with --handwritten instead.",
    ]
    assert person.json("reprint", "o01-01", "L4")["next"] == "weeksheaf prints 2026-W14 FOLDER"


def test_pieces_of_a_print(person: Person) -> None:
    """Only those named, by pocket, with the week where two have it."""
    tell_order_of(person, "arrived", pockets=((W14, "L4"), (W15, "L4")))
    line = person.error("reprint", "o01-01", "L4")
    assert line == "pocket L4 of print o01-01 is of several weeks; name one: 2026-W14/L4, 2026-W15/L4"
    assert person.json("reprint", "table/o01-01.jpg", "2026-04-08/l4") == {
        "print": "o01-01",
        "pieces": [{"week": "2026-W15", "pocket": "L4"}],
        "next": "weeksheaf prints 2026-W15 FOLDER",
    }
    assert again(person) == [("o01-01", ("L4",))]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["o01-01", "R9"], "has no piece for pocket R9"),
        (["o01-01", "L1", "2026-W99/L4"], "no week 2026-W99"),
        (["o01-01", "someday/L4"], "'someday' is not a week"),
        (["o01-07"], "has no print"),
        (["o02-01"], "no order"),
        (["the blurry one"], "name it like o12-07"),
    ],
)
def test_nothing_is_told_of_what_is_not_there(person: Person, words: list[str], says: str) -> None:
    """One line says what there is."""
    tell_order_of(person, "sent")
    assert says in person.error("reprint", *words)
    assert again(person) == []


@pytest.mark.parametrize("state", [[], ["dropped"]])
def test_only_what_went_to_the_lab(person: Person, state: list[str]) -> None:
    """An order that did not is written again by `prints`."""
    tell_order_of(person, *state)
    assert "did not go to the lab; plan its weeks again: weeksheaf prints" in person.error("reprint", "o01-01")


def test_the_print_is_named(person: Person) -> None:
    """Without one nothing can be done."""
    person.misuse("reprint")
