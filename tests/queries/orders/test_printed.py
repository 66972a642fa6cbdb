"""What of a week is printed already"""

import random
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from queries.orders.printed import Left, PrintedBefore, left_to_print, photos_printed_before, planned_too
from queries.orders.values import Order, OrderState
from queries.weeks import Week, WeekRule
from tests.queries.orders.made_orders import RULE, W14, W15, again, order

LATER = "2026-05-01T00:00:00.000000Z"


@dataclass(frozen=True, slots=True)
class Wanted:
    """A piece as printing knows it."""

    week: Week
    pocket: str
    mark: str

    @property
    def name(self) -> str:
        return f"{self.week.name} {self.pocket}"


def wanted(first_day: date, **marks: str) -> list[Wanted]:
    """One piece a pocket."""
    return [Wanted(RULE.week_of(first_day), pocket, mark) for pocket, mark in marks.items()]


def names(left: Left[Wanted]) -> tuple[list[str], list[str]]:
    """The pockets still to be printed, and those printed before."""
    return [piece.pocket for piece in left.to_print], [piece.pocket for piece in left.before]


def test_what_a_sent_order_holds_is_printed() -> None:
    """By week and mark: another mark, another week or no order at all is still to be printed."""
    told = [order(1, [(W14, "L1", "a"), (W14, "L2", "b")], [(W15, "L3", "c")])]
    left = left_to_print(wanted(W14, L1="a", L2="B", L3="c"), told, RULE)
    assert names(left) == (["L2", "L3"], ["L1"])
    assert left.before == (PrintedBefore("2026-W14 L1", RULE.week_of(W14), "L1", 1, "o01-01"),)


def test_only_what_went_to_the_lab_is_printed() -> None:
    """A planned order may never be sent, a dropped one never will."""
    for state, printed in (("planned", False), ("dropped", False), ("sent", True), ("arrived", True)):
        told = [order(1, [(W14, "L1", "a")], state=state)]
        assert bool(left_to_print(wanted(W14, L1="a"), told, RULE).before) is printed, state


def test_a_piece_may_have_moved_to_another_pocket() -> None:
    """It is the same print that goes there."""
    told = [order(1, [(W14, "L1", "a")])]
    assert names(left_to_print(wanted(W14, R8="a"), told, RULE)) == ([], ["R8"])


def test_equal_pieces_count_as_often_as_they_were_ordered() -> None:
    """Two lined cards of three are there; those whose own pocket was printed are the ones."""
    told = [order(1, [(W14, "L2", "lined"), (W14, "R1", "lined")])]
    assert names(left_to_print(wanted(W14, L1="lined", L2="lined", R1="lined"), told, RULE)) == (["L1"], ["L2", "R1"])
    assert names(left_to_print(wanted(W14, L1="lined", L4="lined", R4="lined"), told, RULE)) == (["R4"], ["L1", "L4"])


def test_pieces_told_to_be_printed_again_are() -> None:
    """Only those that were named, until an order told later holds them."""
    told = [order(1, [(W14, "L1", "a"), (W14, "L2", "b")], again=(again("o01-01", (W14, "L2"), at=LATER),))]
    assert names(left_to_print(wanted(W14, L1="a", L2="b"), told, RULE)) == (["L2"], ["L1"])
    told.append(order(2, [(W14, "L2", "b")], at="2026-05-02T09:00:00.000000Z"))
    assert names(left_to_print(wanted(W14, L1="a", L2="b"), told, RULE)) == ([], ["L1", "L2"])


def test_a_piece_printed_twice_is_printed_again_when_told_so() -> None:
    """An older print of it, put aside or lost long ago, does not stand in for the one that went wrong."""
    told = [
        order(1, [(W14, "L1", "a")]),
        order(2, [(W14, "L1", "a")], again=(again("o02-01", (W14, "L1"), at=LATER),)),
    ]
    assert names(left_to_print(wanted(W14, L1="a"), told, RULE)) == (["L1"], [])


def test_one_of_several_equal_pieces_printed_again() -> None:
    """The others stay printed."""
    cards: list[tuple[date, str, str]] = [(W14, pocket, "lined") for pocket in ("L1", "L2", "L3")]
    told = [order(1, [*cards], again=(again("o01-01", (W14, "L2"), at=LATER),))]
    assert names(left_to_print(wanted(W14, L1="lined", L2="lined", L3="lined"), told, RULE)) == (["L2"], ["L1", "L3"])


def test_two_orders_of_one_number_are_kept_apart() -> None:
    """What is printed again of one is not taken off the other, which another computer told."""
    told = [
        order(1, [(W14, "L1", "a")], again=(again("o01-01", (W14, "L1"), at=LATER),)),
        order(1, [(W14, "L1", "b")], id="f" * 32),
    ]
    assert names(left_to_print(wanted(W14, L1="a", L2="b"), told, RULE)) == (["L1"], ["L2"])


def test_weeks_that_begin_on_another_day_now() -> None:
    """The week is the one that holds the fourth day of the week as it was told."""
    sunday = WeekRule(6, 1)
    told = [order(1, [(W14, "L1", "a")])]
    piece = Wanted(sunday.week_holding_told(W14), "L1", "a")
    assert left_to_print([piece], told, sunday).to_print == ()
    assert left_to_print([piece], [order(1, [(date(9999, 12, 31), "L1", "a")])], sunday).to_print == (piece,)


def test_pieces_left_are_what_the_orders_lack() -> None:
    """On random orders without reprints: of each week and mark as many are left as are wanted more than ordered."""
    for seed in range(300):
        dice = random.Random(seed)
        said = [(dice.choice((W14, W15)), f"L{dice.randint(1, 4)}", dice.choice("abc")) for _ in range(12)]
        states: list[OrderState] = ["planned", "sent", "arrived", "dropped"]
        told = [order(number, list(said[number : number + 3]), state=dice.choice(states)) for number in range(1, 8, 3)]
        pieces = [Wanted(RULE.week_of(week), pocket, mark) for week, pocket, mark in dice.choices(said, k=6)]
        left = left_to_print(pieces, told, RULE)
        ordered = Counter((piece.week, piece.mark) for one in told if one.went for piece in one.pieces)
        lacking = Counter((piece.week.first_day, piece.mark) for piece in pieces) - ordered
        assert Counter((piece.week.first_day, piece.mark) for piece in left.to_print) == lacking
        assert sorted(item.name for item in (*left.to_print, *left.before)) == sorted(piece.name for piece in pieces)
        assert {item.print for item in left.before} <= {item.name for one in told if one.went for item in one.prints}


# --------------------------------------------------------------------------------------------------------- photos


def told_twice() -> list[Order]:
    """A kite in week 14, then in week 15 with a gull; a cat in an order never sent."""
    return [
        order(2, [(W15, "R1", "m2", ("kite", "gull"))]),
        order(1, [(W14, "L1", "m1", ("kite",))], state="arrived"),
        order(3, [(W15, "R2", "m3", ("cat",))], state="planned"),
    ]


def numbers(found: Mapping[str, tuple[Order, Week]]) -> dict[str, tuple[int, date]]:
    """By photo: the order's number and the week's first day."""
    return {key: (order.number, week.first_day) for key, (order, week) in found.items()}


def test_what_another_order_has_that_was_not_sent() -> None:
    """By week and mark, in whichever pocket, and the order planned last; sent and dropped ones are another matter."""
    one, two = order(1, [(W14, "L1", "a")], state="planned"), order(2, [(W14, "L9", "a")], state="planned")
    pieces = [*wanted(W14, L1="a", L2="b"), *wanted(W15, L1="a")]
    found = planned_too(pieces, [two, one], RULE)
    assert {name: held.number for name, held in found.items()} == {"2026-W14 L1": 2}
    for state in ("sent", "arrived", "dropped"):
        assert planned_too(pieces, [order(1, [(W14, "L1", "a")], state=state)], RULE) == {}


def test_photos_printed_before_in_any_week_and_size() -> None:
    """The print made last is named; what never went to the lab was not printed."""
    found = photos_printed_before(["kite", "gull", "cat", "pier"], told_twice(), RULE)
    assert numbers(found) == {"kite": (2, W15), "gull": (2, W15)}


def test_a_photo_edited_since_was_printed_before() -> None:
    """Under the key it had then, however often it was edited; edits that go round in a ring end."""
    edits = {"kite 3": ("kite 2",), "kite 2": ("kite",), "pier": ("quay",), "quay": ("pier",)}
    assert numbers(photos_printed_before(["kite 3", "pier"], told_twice(), RULE, edits)) == {"kite 3": (2, W15)}


def test_a_print_to_be_made_again_is_none_made_before() -> None:
    """Nobody has to be warned of what was asked for; an earlier print of the photo still counts."""
    first, second = (
        told_twice()[1],
        order(2, [(W15, "R1", "m2", ("kite", "gull"))], again=(again("o02-01", (W15, "R1"), at=LATER),)),
    )
    assert numbers(photos_printed_before(["kite", "gull"], [first, second], RULE)) == {"kite": (1, W14)}
