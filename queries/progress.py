"""Which weeks there are, what each holds, and how far it has come."""

import json
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, time
from itertools import pairwise

from indexer.errors import WeekError
from queries.photos import Photo
from queries.settings import Settings
from queries.weeks import Week, WeekRule

#: More empty weeks in a row than this become one line.
MOST_EMPTY_ROWS = 8
FINISHED = frozenset({"done", "skipped"})


@dataclass(frozen=True, slots=True)
class Word:
    """One entry of a week's log. `told_at` is UTC."""

    uuid: str
    told_at: str
    state: str
    waiting_for: tuple[str, ...]
    note: str


UNTOLD = Word("", "", "open", (), "")


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


def week_table(connection: sqlite3.Connection, settings: Settings) -> WeekTable:
    """Every week from the first to the last photo, those with none too, and every week that something was told of."""
    rule, starts_at = settings.week_rule, settings.day_starts_at
    words = latest_words(connection, rule)
    late = _late_counts(connection, words, starts_at)
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


def latest_words(connection: sqlite3.Connection, rule: WeekRule) -> dict[Week, Word]:
    """What holds for each week that anything was told of, by the week that holds the told week's fourth day."""
    rows = connection.execute("SELECT * FROM week_state ORDER BY told_at, uuid")
    return {week: _word(row) for row in rows if (week := _week_told(row, rule))}


def log_of(connection: sqlite3.Connection, week: Week, rule: WeekRule) -> list[Word]:
    """All that was told of a week, oldest first."""
    rows = connection.execute("SELECT * FROM week_log ORDER BY told_at, uuid")
    return [_word(row) for row in rows if _week_told(row, rule) == week]


@dataclass(frozen=True, slots=True)
class Finished:
    """A done week against today's photos: `late` photos are in the week and not on the page, `gone` keys the reverse.

    `edits` tells of a late photo's key which photo of the page it took the place of; that one is not among the gone.
    """

    late: Sequence[Photo] = ()
    gone: Sequence[str] = ()
    edits: Mapping[str, str] = field(default_factory=dict)


def compare_with_page(connection: sqlite3.Connection, word: Word, photos: Sequence[Photo]) -> Finished:
    """What changed in a week since it was marked done; nothing when it is not done."""
    if word.state != "done":
        return Finished()
    held = connection.execute("SELECT photo_key FROM week_holding WHERE log_uuid = ? ORDER BY photo_key", (word.uuid,))
    keys = [key for (key,) in held]
    late = [photo for photo in photos if photo.key not in set(keys)]
    followed = connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at, uuid")
    edits = {new: old for old, new in followed if old in set(keys) and new in {photo.key for photo in late}}
    gone = set(keys) - {photo.key for photo in photos} - set(edits.values())
    return Finished(late, sorted(gone), edits)


def _late_counts(connection: sqlite3.Connection, words: Mapping[Week, Word], starts_at: time) -> Counter[Week]:
    """How many photos turned up in each done week after it was marked so."""
    done = {week.first_day.isoformat(): week for week, word in words.items() if word.state == "done"}
    asked = json.dumps([[first, week.next_first_day.isoformat(), words[week].uuid] for first, week in done.items()])
    rows = connection.execute(_LATE, {"weeks": asked, "shift": _shift(starts_at)})
    return Counter({done[first]: count for first, count in rows})


def _counts_by_day(connection: sqlite3.Connection, starts_at: time) -> dict[date, DayCount]:
    rows = connection.execute(_DAYS, {"shift": _shift(starts_at)})
    return {date.fromisoformat(day): DayCount(*counts) for day, *counts in rows if day and day >= _FIRST_DAY}


def _with(row: WeekRow, count: DayCount) -> WeekRow:
    return replace(
        row,
        photos=row.photos + count.photos,
        keepers=row.keepers + count.photos,
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


def _word(row: sqlite3.Row) -> Word:
    return Word(row["uuid"], row["told_at"], row["state"], tuple(json.loads(row["waiting_for"])), row["note"])


def _week_told(row: sqlite3.Row, rule: WeekRule) -> Week | None:
    """The week that shows a word, or None at the edge of the calendar, where this rule has no whole week for it."""
    try:
        return rule.week_holding_told(date.fromisoformat(row["first_day"]))
    except WeekError:
        return None


def _shift(starts_at: time) -> str:
    """SQLite's date modifier that moves the small hours to the day they belong to."""
    return f"-{starts_at.hour * 60 + starts_at.minute} minutes"


#: The album day of a photo in SQL, the same as `weeks.day_of` gives (a test holds the two together).
_DAY = "CASE precision WHEN 'day' THEN taken ELSE date(taken, :shift) END"

#: The night before it belongs to no day, as in `weeks.day_of`.
_FIRST_DAY = date.min.isoformat()

_DAYS = f"""
SELECT {_DAY} AS day, count(*), sum(shape = 'portrait'), sum(shape = 'landscape'), sum(shape = 'square'), sum(doubtful)
FROM photo
WHERE present AND precision IN ('second', 'minute', 'day')
GROUP BY day
"""

_WITHOUT_DAY = "SELECT count(*) FROM photo WHERE present AND precision NOT IN ('second', 'minute', 'day')"

_LATE = f"""
SELECT json_extract(asked.value, '$[0]') AS first_day, count(*)
FROM json_each(:weeks) AS asked
JOIN photo ON taken >= json_extract(asked.value, '$[0]') AND taken < date(json_extract(asked.value, '$[1]'), '+1 day')
WHERE present AND precision IN ('second', 'minute', 'day')
  AND {_DAY} >= json_extract(asked.value, '$[0]') AND {_DAY} < json_extract(asked.value, '$[1]')
  AND NOT EXISTS (SELECT 1 FROM week_holding
                  WHERE log_uuid = json_extract(asked.value, '$[2]') AND photo_key = photo.key)
GROUP BY first_day
"""
