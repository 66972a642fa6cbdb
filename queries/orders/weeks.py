"""The weeks that an order is for, and how they stand. Pure."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from queries.orders.values import Order, OrderedPiece
from queries.week_log import UNTOLD, Word
from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class WeekOfOrder:
    """A week that an order has pieces for; `under_way` are the names of other orders with more of it, sent and not
    arrived."""

    week: Week
    word: Word
    under_way: tuple[str, ...] = ()

    @property
    def waits_for_prints(self) -> bool:
        return len(self.other_waits) < len(self.word.waiting_for)

    @property
    def other_waits(self) -> tuple[str, ...]:
        """What it waits for besides prints."""
        return tuple(wait for wait in self.word.waiting_for if wait.partition(":")[0] != "prints")


def weeks_with_pieces(pieces: Iterable[OrderedPiece], rule: WeekRule) -> tuple[Week, ...]:
    """The weeks that pieces are for, in order."""
    return tuple(sorted({week for piece in pieces if (week := rule.whole_week_told(piece.week))}))


def weeks_of_order(
    order: Order, orders: Iterable[Order], words: Mapping[Week, Word], rule: WeekRule
) -> tuple[WeekOfOrder, ...]:
    """The weeks of an order, in order, each with its word and the other orders that hold more of it."""
    others = [
        (other.name, weeks_with_pieces(other.pieces, rule))
        for other in orders
        if other.state == "sent" and other.id != order.id
    ]
    return tuple(
        WeekOfOrder(week, words.get(week, UNTOLD), tuple(name for name, weeks in others if week in weeks))
        for week in weeks_with_pieces(order.pieces, rule)
    )
