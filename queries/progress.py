"""Which weeks there are, what each holds, and how far it has come."""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, time
from itertools import pairwise

from queries.album_days import ALBUM_DAY, HAS_DAY, shift_of
from queries.finished import late_counts
from queries.settings import Settings
from queries.week_log import UNTOLD, Word, latest_words
from queries.weeks import Week, WeekRule

#: More empty weeks in a row than this become one line.
MOST_EMPTY_ROWS = 8
FINISHED = frozenset({"done", "skipped"})


@dataclass(frozen=True, slots=True)
class WeekRow:
    """A week as the table shows it: counts of its photos, and what was last told of it."""

    week: Week
    word: Word = UNTOLD
    photos: int = 0
    keepers: int = 0
    portrait: int = 0
    landscape: int = 0
    square: int = 0
    doubtful: int = 0
    late: int = 0

    @property
    def is_ready(self) -> bool:
        """Photos are there and nothing is waited for: a week that could be made tonight."""
        return bool(self.photos) and self.word.state in ("open", "started")


@dataclass(frozen=True, slots=True)
class Gap:
    """A run of empty weeks too long to list."""

    first: Week
    last: Week
    weeks: int


@dataclass(frozen=True, slots=True)
class WeekTable:
    """`lines` in calendar order, newest last. `outside` counts doubtful photos whose weeks lie outside the table's
    span: a doubtful time does not stretch it."""

    lines: Sequence[WeekRow | Gap] = field(default_factory=tuple)
    outside: int = 0

    @property
    def rows(self) -> list[WeekRow]:
        return [line for line in self.lines if isinstance(line, WeekRow)]

    @property
    def gaps(self) -> list[Gap]:
        return [line for line in self.lines if isinstance(line, Gap)]


@dataclass(frozen=True, slots=True)
class DayCount:
    """The photos of one album day."""

    photos: int
    portrait: int
    landscape: int
    square: int
    doubtful: int
    keepers: int


def week_table(connection: sqlite3.Connection, settings: Settings) -> WeekTable:
    """Every week from the first to the last photo, those with none too, and every week that something was told of."""
    rule, starts_at = settings.week_rule, settings.day_starts_at
    words = latest_words(connection, rule)
    late = late_counts(connection, words, starts_at)
    table = lay_out(_counts_by_day(connection, starts_at), words, rule)
    (without_day,) = connection.execute(_WITHOUT_DAY).fetchone()
    return replace(
        table,
        outside=table.outside + without_day,
        lines=[replace(line, late=late[line.week]) if isinstance(line, WeekRow) else line for line in table.lines],
    )


def lay_out(days: Mapping[date, DayCount], words: Mapping[Week, Word], rule: WeekRule) -> WeekTable:
    """Sort counted days and told words into weeks. Pure."""
    told = {week for week, word in words.items() if word.state != "open" or word.note}
    rows = {week: WeekRow(week, word) for week, word in words.items()}
    outside = 0
    for day, count in days.items():
        week = rule.whole_week_of(day)
        if week:
            rows[week] = _with(rows.get(week) or WeekRow(week), count)
        else:
            outside += count.photos
    rows = {week: row for week, row in rows.items() if row.photos or week in told}  # a word taken back lists no week
    settled = [row.week for row in rows.values() if row.photos > row.doubtful]
    span = [*settled, *told] if settled else list(rows)  # where every time is doubtful, all are shown
    if span:
        first, last = min(span), max(span)
        outside += sum(row.photos for week, row in rows.items() if not first <= week <= last)
        rows = {week: row for week, row in rows.items() if first <= week <= last}
    return WeekTable(list(_filled(sorted(rows.values(), key=lambda row: row.week), rule)), outside)


def choose(
    table: WeekTable,
    *,
    unfinished: bool = False,
    ready: bool = False,
    since: date | None = None,
    until: date | None = None,
) -> WeekTable:
    """The lines that are asked for, with no gap before the first week or after the last. Pure.

    Doubtful photos outside the whole table are told of only where the whole table was asked for.
    """

    def is_wanted(line: WeekRow | Gap) -> bool:
        first, last = (line.week, line.week) if isinstance(line, WeekRow) else (line.first, line.last)
        if (since and last.last_day < since) or (until and first.first_day > until):
            return False
        if isinstance(line, Gap):
            return not ready
        return not (unfinished and line.word.state in FINISHED) and not (ready and not line.is_ready)

    lines = [line for line in table.lines if is_wanted(line)]
    listed = [place for place, line in enumerate(lines) if isinstance(line, WeekRow)]
    lines = lines[listed[0] : listed[-1] + 1] if listed else []
    return replace(table, lines=lines, outside=0 if since or until else table.outside)


def _counts_by_day(connection: sqlite3.Connection, starts_at: time) -> dict[date, DayCount]:
    rows = connection.execute(_DAYS, {"shift": shift_of(starts_at)})
    return {date.fromisoformat(day): DayCount(*counts) for day, *counts in rows if day and day >= _FIRST_DAY}


def _with(row: WeekRow, count: DayCount) -> WeekRow:
    return replace(
        row,
        photos=row.photos + count.photos,
        keepers=row.keepers + count.keepers,
        portrait=row.portrait + count.portrait,
        landscape=row.landscape + count.landscape,
        square=row.square + count.square,
        doubtful=row.doubtful + count.doubtful,
    )


def _filled(rows: Iterable[WeekRow], rule: WeekRule) -> Iterator[WeekRow | Gap]:
    """The rows with the empty weeks between them, a long run of which is one gap."""
    ordered = list(rows)
    yield from ordered[:1]
    for before, after in pairwise(ordered):
        empty = (after.week.first_day - before.week.first_day).days // 7 - 1
        if empty > MOST_EMPTY_ROWS:
            first = rule.week_of(before.week.next_first_day)
            yield Gap(first, rule.week_of(date.fromordinal(after.week.first_day.toordinal() - 1)), empty)
        elif empty:
            yield from (WeekRow(week) for week in list(rule.between(before.week, after.week))[1:-1])
        yield after


#: The night before it belongs to no day, as in `weeks.day_of`.
_FIRST_DAY = date.min.isoformat()

#: LIMIT -1 limits nothing: it makes SQLite work each photo's shape out once and not in each sum anew.
_DAYS = f"""
SELECT day, count(*), sum(shape = 'portrait'), sum(shape = 'landscape'), sum(shape = 'square'),
       sum(doubtful), sum(keeper)
FROM (SELECT {ALBUM_DAY} AS day, shape, doubtful, keeper
      FROM photo
      WHERE present AND {HAS_DAY}
      LIMIT -1)
GROUP BY day
"""

_WITHOUT_DAY = f"SELECT count(*) FROM photo WHERE present AND doubtful AND NOT coalesce({HAS_DAY}, 0)"
