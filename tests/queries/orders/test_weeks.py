"""The weeks that an order is for"""

from datetime import date

from queries.orders.weeks import weeks_of_order, weeks_with_pieces
from queries.week_log import UNTOLD, Word
from queries.weeks import WeekRule
from tests.queries.orders.made_orders import RULE, W14, W15, order

WAITING = Word("", "", "waiting", ("supplies:brads", "prints:second try"), "")


def test_each_week_once_and_in_order() -> None:
    """Whichever print its pieces are on."""
    told = order(1, [(W15, "L1", "a"), (W14, "L1", "b")], [(W15, "L2", "c")])
    assert weeks_with_pieces(told.pieces, RULE) == (RULE.week_of(W14), RULE.week_of(W15))


def test_a_week_at_the_edge_of_the_calendar_is_none() -> None:
    """Under a rule that has no whole week there."""
    assert RULE.whole_week_told(date(9999, 12, 31)) is None
    assert weeks_with_pieces(order(1, [(date(9999, 12, 31), "L1", "a")]).pieces, RULE) == ()
    assert WeekRule(6, 1).whole_week_told(date(2026, 3, 29)) == WeekRule(6, 1).week_of(date(2026, 3, 29))


def test_a_week_told_when_weeks_began_on_sunday() -> None:
    """Its fourth day says which week it is now: not the one in which its Sunday lies."""
    assert RULE.whole_week_told(date(2026, 3, 29)) == RULE.week_of(W14)


def test_other_orders_under_way_are_named() -> None:
    """Those that were sent, have not arrived and hold more of the week; not planned or dropped ones."""
    mine = order(1, [(W14, "L1", "a"), (W15, "L1", "b")], state="arrived")
    others = [
        order(number, [(week, "L2", "c")], state=state)
        for number, (week, state) in enumerate(
            [(W14, "sent"), (W14, "planned"), (W14, "arrived"), (W14, "dropped"), (W15, "sent"), (W14, "sent")], 2
        )
    ]
    first, second = weeks_of_order(mine, [mine, *others], {RULE.week_of(W14): WAITING}, RULE)
    assert (first.week.first_day, first.word, first.under_way) == (W14, WAITING, ("o02", "o07"))
    assert (first.waits_for_prints, first.other_waits) == (True, ("supplies:brads",))
    assert (second.word, second.under_way, second.waits_for_prints) == (UNTOLD, ("o06",), False)
    sent = order(9, [(W14, "L1", "a")])
    assert weeks_of_order(sent, [sent], {}, RULE)[0].under_way == ()
