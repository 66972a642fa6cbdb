"""Orders made up for tests: a piece is (first day of its week, pocket, mark, keys)."""

from datetime import date
from uuid import UUID

from queries.orders.values import Order, OrderedPiece, OrderedPrint, OrderState, Reprint
from queries.weeks import WeekRule

RULE = WeekRule()
W14, W15 = date(2026, 3, 30), date(2026, 4, 6)
PieceSaid = tuple[date, str, str] | tuple[date, str, str, tuple[str, ...]]


def order(
    number: int,
    *prints: list[PieceSaid],
    state: OrderState = "sent",
    again: tuple[Reprint, ...] = (),
    at: str = "",
    id: str = "",  # noqa: A002
) -> Order:
    """An order planned on that day of April 2026 unless `at` says another moment, and sent an hour later."""
    planned = at or f"2026-04-{number:02}T09:00:00.000000Z"
    went = planned.replace("T09", "T10") if state in ("sent", "arrived") else None
    sheets = tuple(
        OrderedPrint(f"o{number:02}-{place:02}", tuple(map(piece, pieces))) for place, pieces in enumerate(prints, 1)
    )
    arrived = went if state == "arrived" else None
    name = id or str(UUID(int=number))
    return Order(name, number, f"/prints/{number}", sheets, len(sheets), state, planned, went, arrived, again)


def piece(said: PieceSaid) -> OrderedPiece:
    week, pocket, mark, *keys = said
    return OrderedPiece(week, pocket, mark, keys[0] if keys else (), 0, 0, 76_200, 101_600)


def again(print_name: str, *pieces: tuple[date, str], at: str) -> Reprint:
    return Reprint(print_name, pieces, at)
