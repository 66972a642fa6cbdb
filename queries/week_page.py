"""All that is known of one week: its photos, what was told of it, its own words, and the orders of its prints."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field

from queries.finished import Finished, compare_with_page
from queries.notes import Note, notes_of_week
from queries.orders.told import orders
from queries.orders.values import Order
from queries.orders.weeks import weeks_with_pieces
from queries.photos import Photo, photos_of_week
from queries.settings import Settings
from queries.week_log import UNTOLD, Word, log_of
from queries.weeks import Week


@dataclass(frozen=True, slots=True)
class WeekPage:
    """A week: its photos in the order they were lived, its log, what was done and came later, its notes and orders."""

    week: Week
    photos: Sequence[Photo]
    log: Sequence[Word] = ()
    finished: Finished = field(default_factory=Finished)
    notes: Sequence[Note] = ()
    orders: Sequence[Order] = ()

    @property
    def word(self) -> Word:
        """What was told of it last."""
        return self.log[-1] if self.log else UNTOLD


def week_page(connection: sqlite3.Connection, week: Week, settings: Settings) -> WeekPage:
    """The week as the index has it; orders that were dropped are left out."""
    rule = settings.week_rule
    photos = photos_of_week(connection, week, settings.day_starts_at)
    log = log_of(connection, week, rule)
    finished = compare_with_page(connection, log[-1] if log else UNTOLD, photos)
    of_week = [
        order
        for order in orders(connection)
        if order.state != "dropped" and week in weeks_with_pieces(order.pieces, rule)
    ]
    return WeekPage(week, photos, log, finished, notes_of_week(connection, week, rule), of_week)
