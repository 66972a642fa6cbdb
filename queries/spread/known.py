"""What the plan of a week's spread rests on: the week's photos, what was told of the weeks, and the plans kept."""

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import time

from queries.photos import Photo, photos_of_week
from queries.spread.faces_of_week import bound_pages
from queries.spread.kept import KeptPlans, album_neighbours, kept_plans
from queries.spread.values import Bound, KeptPlan, Side
from queries.week_log import UNTOLD, Word, latest_words
from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class Known:
    """The week, its photos in the order they were lived, and by week what was told and planned."""

    week: Week
    photos: Sequence[Photo]
    words: Mapping[Week, Word]
    plans: KeptPlans
    bound: Mapping[Side, Bound]
    starts_at: time

    @property
    def own(self) -> KeptPlan | None:
        """The plan that the week has."""
        return self.plans.by_week.get(self.week)

    @property
    def is_done(self) -> bool:
        return self.words.get(self.week, UNTOLD).state == "done"

    @property
    def is_skipped(self) -> bool:
        return self.words.get(self.week, UNTOLD).state == "skipped"

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(photo.key for photo in self.photos)


def known_of_week(connection: sqlite3.Connection, week: Week, rule: WeekRule, starts_at: time) -> Known:
    """All of it from the index."""
    words, plans = latest_words(connection, rule), kept_plans(connection, rule)
    bound = bound_pages(*album_neighbours(week, words, rule), plans.by_week)
    return Known(week, photos_of_week(connection, week, starts_at), words, plans, bound, starts_at)
