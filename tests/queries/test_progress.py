"""Which weeks there are and how far each has come."""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, datetime, time, timedelta
from pathlib import Path
from uuid import uuid4

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from indexer import open_for_writing
from indexer.store.opening import transaction
from indexer.store.week_log import tell_week
from queries import progress
from queries.progress import (
    MOST_EMPTY_ROWS,
    UNTOLD,
    DayCount,
    Gap,
    WeekRow,
    WeekTable,
    Word,
    choose,
    compare_with_page,
    latest_words,
    lay_out,
    log_of,
)
from queries.weeks import Week, WeekRule, day_of

patient = settings(deadline=None)
ISO = WeekRule()
DONE = Word("1", "2026-04-20T09:00:00.000000Z", "done", (), "")

rules = st.builds(WeekRule, st.integers(0, 6), st.integers(1, 7))
#: Days that cluster, so that gaps of all lengths come up.
some_days = st.dates(date(2025, 12, 1), date(2026, 6, 30))
#: Days near the edges of the calendar too, where weeks reach out of it.
all_days = st.one_of(some_days, st.dates(), st.sampled_from([date.min, date(1, 1, 9), date(9999, 12, 30), date.max]))
clock_times = st.times().map(lambda moment: moment.replace(second=0, microsecond=0)).filter(lambda at: at.hour < 12)


def is_empty(line: WeekRow | Gap) -> bool:
    return isinstance(line, WeekRow) and not line.photos and not line.word.uuid


@st.composite
def day_counts(draw: st.DrawFn) -> DayCount:
    shapes = [draw(st.integers(0, 5)) for _ in range(3)]
    photos = sum(shapes)
    assume(photos)
    return DayCount(photos, *shapes, draw(st.sampled_from([0, photos, draw(st.integers(0, photos))])))


counted_days = st.dictionaries(some_days, day_counts(), max_size=8)
all_counted_days = st.dictionaries(all_days, day_counts(), max_size=8)


def settled(photos: int = 1) -> DayCount:
    return DayCount(photos, 0, photos, 0, 0)


def doubtful(photos: int = 1) -> DayCount:
    return DayCount(photos, 0, photos, 0, photos)


def week(name: str) -> Week:
    return ISO.week_named(int(name[:4]), int(name[6:]))


def shown(table: WeekTable) -> list[str]:
    return [line.week.name if isinstance(line, WeekRow) else f"{line.weeks} empty" for line in table.lines]


# -------------------------------------------------------------------------------------------- the album day in SQL


@pytest.fixture(scope="module")
def photos() -> Iterator[sqlite3.Connection]:
    """A bare table in the place of the `photo` view."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("CREATE TABLE photo (key, taken, precision, shape, doubtful, present)")
        connection.execute("CREATE TABLE week_holding (log_uuid, photo_key)")
        yield connection


capture_times = st.one_of(
    st.tuples(st.datetimes().map(lambda at: at.isoformat(timespec="seconds")), st.just("second")),
    st.tuples(st.datetimes().map(lambda at: at.isoformat(timespec="minutes")), st.just("minute")),
    st.tuples(st.dates().map(date.isoformat), st.just("day")),
    st.tuples(st.dates().map(lambda day: day.isoformat()[:7]), st.just("month")),
    st.tuples(st.dates().map(lambda day: day.isoformat()[:4]), st.just("year")),
    st.just((None, "unknown")),
    st.tuples(
        st.sampled_from(["0001-01-01T00:10:00", "0001-01-01T11:59:59", "9999-12-31T23:59:59", "2024-02-29T00:00:00"]),
        st.just("second"),
    ),
)


@patient
@given(taken=capture_times, starts_at=clock_times)
def test_the_album_day_in_sql_is_that_of_the_calendar(
    photos: sqlite3.Connection, taken: tuple[str | None, str], starts_at: time
) -> None:
    """For every capture time and start of the day, counting in SQL gives the day that `day_of` gives."""
    photos.execute("DELETE FROM photo")
    photos.execute("INSERT INTO photo VALUES ('k', ?, ?, 'square', 0, 1)", taken)
    day = day_of(*taken, starts_at)
    assert progress._counts_by_day(photos, starts_at) == ({day: DayCount(1, 0, 0, 1, 0)} if day else {})


@patient
@given(st.lists(capture_times, max_size=12), clock_times, st.data())
def test_late_counts_in_sql_are_those_of_the_calendar(
    photos: sqlite3.Connection, taken: list[tuple[str | None, str]], starts_at: time, data: st.DataObject
) -> None:
    """The photos counted as late are those whose day lies in a done week and that the week's list lacks."""
    days = [day_of(*item, starts_at) for item in taken]
    weeks = {found for day in days if day and (found := ISO.whole_week_of(day)) and found.next_first_day < date.max}
    held = {place for place in range(len(taken)) if data.draw(st.booleans())}
    photos.execute("DELETE FROM photo")
    photos.execute("DELETE FROM week_holding")
    words = {found: Word(found.name, "", "done", (), "") for found in weeks}
    for place, (text, precision) in enumerate(taken):
        photos.execute("INSERT INTO photo VALUES (?, ?, ?, 'square', 0, 1)", (str(place), text, precision))
    photos.executemany(
        "INSERT INTO week_holding VALUES (?, ?)", [(found.name, str(place)) for found in weeks for place in held]
    )
    expected = {
        found: late
        for found in weeks
        if (late := sum(bool(day and day in found and place not in held) for place, day in enumerate(days)))
    }
    assert progress._late_counts(photos, words, starts_at) == expected


def test_photos_that_are_not_there_do_not_count(photos: sqlite3.Connection) -> None:
    """A missing photo is counted nowhere."""
    photos.execute("DELETE FROM photo")
    photos.execute("INSERT INTO photo VALUES ('k', '2026-04-01', 'day', 'square', 0, 0)")
    assert progress._counts_by_day(photos, time(0)) == {}


# ------------------------------------------------------------------------------------------------------- lay_out


@patient
@given(all_counted_days, st.sets(all_days, max_size=4), rules)
def test_no_photo_is_lost_or_doubled(days: dict[date, DayCount], told: set[date], rule: WeekRule) -> None:
    """Every counted photo stands in exactly one row, or in the count of those outside."""
    table = lay_out(days, words_of(told, rule), rule)
    assert sum(row.photos for row in table.rows) + table.outside == sum(count.photos for count in days.values())
    for row in table.rows:
        inside = [count for day, count in days.items() if day in row.week]
        for name in ("photos", "portrait", "landscape", "square", "doubtful"):
            assert getattr(row, name) == sum(getattr(count, name) for count in inside)
        assert row.keepers == row.photos


@patient
@given(counted_days, st.sets(some_days, max_size=4), rules)
def test_every_week_of_the_span_is_shown_once(days: dict[date, DayCount], told: set[date], rule: WeekRule) -> None:
    """From the first line to the last every week is a row or part of one gap, in the order of the calendar."""
    table = lay_out(days, words_of(told, rule), rule)
    covered = []
    for line in table.lines:
        weeks = [line.week] if isinstance(line, WeekRow) else list(rule.between(line.first, line.last))
        assert isinstance(line, WeekRow) or line.weeks == len(weeks)
        covered += weeks
    assert covered == (list(rule.between(covered[0], covered[-1])) if covered else [])


@patient
@given(counted_days, st.sets(some_days, max_size=4), rules)
def test_only_long_runs_of_empty_weeks_are_gaps(days: dict[date, DayCount], told: set[date], rule: WeekRule) -> None:
    """A gap is longer than eight weeks, has a row that is not empty on both sides, and no shorter run is one."""
    lines = lay_out(days, words_of(told, rule), rule).lines
    assert all(line.weeks > MOST_EMPTY_ROWS for line in lines if isinstance(line, Gap))
    for place, line in enumerate(lines):
        if isinstance(line, Gap):
            assert not any(is_empty(row) for row in lines[place - 1 : place + 2 : 2])
    marks = "".join("e" if is_empty(line) else "." for line in lines)
    assert "e" * (MOST_EMPTY_ROWS + 1) not in marks


@patient
@given(all_counted_days, rules)
def test_doubtful_times_do_not_stretch_the_span(days: dict[date, DayCount], rule: WeekRule) -> None:
    """Where any photo's time is settled, the first and the last row hold such a photo."""
    table = lay_out(days, {}, rule)
    if any(count.photos > count.doubtful and rule.whole_week_of(day) for day, count in days.items()):
        for row in (table.rows[0], table.rows[-1]):
            assert row.photos > row.doubtful


def words_of(days: set[date], rule: WeekRule) -> dict[Week, Word]:
    return {found: DONE for day in days if (found := rule.whole_week_of(day))}


def test_eight_empty_weeks_are_rows_and_nine_a_gap() -> None:
    """The border between rows and a line is more than eight."""
    first = date(2026, 1, 5)
    eight = lay_out({first: settled(), first + timedelta(weeks=9): settled()}, {}, ISO)
    nine = lay_out({first: settled(), first + timedelta(weeks=10): settled()}, {}, ISO)
    assert len(eight.rows) == 10
    assert shown(nine) == ["2026-W02", "9 empty", "2026-W12"]
    assert nine.gaps == [Gap(week("2026-W03"), week("2026-W11"), 9)]


def test_a_doubtful_photo_inside_the_span_stands_in_its_week() -> None:
    """Doubt does not put a photo out of a week between settled ones."""
    table = lay_out(
        {date(2026, 3, 2): settled(), date(2026, 3, 10): doubtful(2), date(2026, 3, 16): settled()}, {}, ISO
    )
    assert [(row.photos, row.doubtful) for row in table.rows] == [(1, 0), (2, 2), (1, 0)]


def test_where_every_time_is_doubtful_all_are_shown() -> None:
    """A library without one settled time still shows its weeks."""
    assert shown(lay_out({date(2026, 3, 2): doubtful()}, {}, ISO)) == ["2026-W10"]


def test_a_told_week_outside_the_span_is_shown_with_its_doubtful_photos() -> None:
    """What was told of is never left out, and its photos count there."""
    table = lay_out({date(2026, 3, 2): settled(), date(2020, 3, 2): doubtful(3)}, {week("2020-W10"): DONE}, ISO)
    assert shown(table) == ["2020-W10", "312 empty", "2026-W10"]
    assert (table.rows[0].photos, table.outside) == (3, 0)


def test_a_doubtful_photo_between_the_span_and_a_told_week_stands_in_its_row() -> None:
    """A week that is listed lists its photos: none hides in a row that says it has none."""
    days = {date(2026, 3, 2): settled(), date(2026, 3, 9): doubtful()}
    table = lay_out(days, {week("2026-W12"): DONE}, ISO)
    assert [(row.week.name, row.photos) for row in table.rows] == [("2026-W10", 1), ("2026-W11", 1), ("2026-W12", 0)]
    assert table.outside == 0


def test_nothing_known_is_an_empty_table() -> None:
    """Without photos and words there is no line."""
    assert lay_out({}, {}, ISO) == WeekTable([], 0)


# -------------------------------------------------------------------------------------------------------- choose


def table() -> WeekTable:
    """A done week of 2025, a gap, and weeks 10 to 13 of 2026: done, waiting, open with photos, open without."""
    first = WeekRow(week("2025-W19"), DONE, photos=1)
    rows = (
        WeekRow(week("2026-W10"), DONE, photos=1),
        WeekRow(week("2026-W11"), Word("2", "", "waiting", ("prints",), ""), photos=1),
        WeekRow(week("2026-W12"), photos=1),
        WeekRow(week("2026-W13")),
    )
    return WeekTable([first, Gap(week("2025-W20"), week("2026-W09"), 42), *rows], 7)


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        ({}, ["2025-W19", "42 empty", "2026-W10", "2026-W11", "2026-W12", "2026-W13"]),
        ({"unfinished": True}, ["2026-W11", "2026-W12", "2026-W13"]),
        ({"ready": True}, ["2026-W12"]),
        ({"since": date(2026, 3, 15)}, ["2026-W11", "2026-W12", "2026-W13"]),
        ({"since": date(2025, 12, 1)}, ["2026-W10", "2026-W11", "2026-W12", "2026-W13"]),
        ({"until": date(2026, 3, 2)}, ["2025-W19", "42 empty", "2026-W10"]),
        ({"until": date(2026, 3, 1)}, ["2025-W19"]),
        ({"since": date(2026, 3, 9), "until": date(2026, 3, 9)}, ["2026-W11"]),
        ({"since": date(2026, 4, 1), "until": date(2026, 1, 1)}, []),
    ],
)
def test_what_is_asked_for(asked: dict[str, object], expected: list[str]) -> None:
    """Each choice leaves what it says, and they add up; those outside are told of only for the whole time."""
    chosen = choose(table(), **asked)  # type: ignore[arg-type]
    assert shown(chosen) == expected
    assert chosen.outside == (0 if asked.keys() & {"since", "until"} else 7)


@pytest.mark.parametrize("state", ["open", "started", "waiting", "done", "skipped"])
@pytest.mark.parametrize("count", [0, 1])
def test_ready(state: str, count: int) -> None:
    """A week is ready with photos and nothing to wait for."""
    row = WeekRow(week("2026-W10"), Word("1", "", state, (), ""), photos=count)
    assert row.is_ready == (count == 1 and state in ("open", "started"))


# ------------------------------------------------------------------------------------------------- words of a week


@pytest.fixture
def index(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    with closing(open_for_writing(tmp_path / "index.db", create=True)) as connection:
        yield connection


def tell(connection: sqlite3.Connection, first_day: date, state: str, *holding: str) -> None:
    with transaction(connection):
        tell_week(connection, first_day, state, holding=holding)


def test_the_word_told_last_holds(index: sqlite3.Connection) -> None:
    """The latest word is the state; the log has them all, oldest first."""
    for state in ("started", "done", "open"):
        tell(index, date(2026, 3, 30), state)
    assert [word.state for word in log_of(index, week("2026-W14"), ISO)] == ["started", "done", "open"]
    assert latest_words(index, ISO)[week("2026-W14")].state == "open"


@patient
@given(st.lists(st.tuples(st.integers(0, 8), st.integers(0, 6)), min_size=1, max_size=8), rules)
def test_words_show_in_the_week_that_holds_the_fourth_day(told: list[tuple[int, int]], rule: WeekRule) -> None:
    """Whatever rules words were told under, each shows in the one week that holds its fourth day, the latest on top,
    and the state is that of the log's last word."""
    firsts = [date(2026, 1, 5) + timedelta(weeks=weeks, days=shift) for weeks, shift in told]
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("CREATE TABLE week_log (uuid, told_at, first_day, state, waiting_for, note)")
        connection.execute(_STATE_VIEW)
        for place, first in enumerate(firsts):
            row = (str(uuid4()), f"2026-04-20T09:00:{place:02}.000000Z", first.isoformat(), "done", "[]", str(place))
            connection.execute("INSERT INTO week_log VALUES (?, ?, ?, ?, ?, ?)", row)
        latest = latest_words(connection, rule)
        logs = {found: log_of(connection, found, rule) for found in latest}
    assert sorted(int(word.note) for log in logs.values() for word in log) == list(range(len(firsts)))
    for found, log in logs.items():
        assert all(firsts[int(word.note)] + timedelta(days=3) in found for word in log)
        assert latest[found] == log[-1]


#: As the first migration has it, without the index around it.
_STATE_VIEW = """
CREATE VIEW week_state AS SELECT * FROM week_log
WHERE NOT EXISTS (SELECT 1 FROM week_log AS later WHERE later.first_day = week_log.first_day
                  AND (later.told_at, later.uuid) > (week_log.told_at, week_log.uuid))
"""


def test_the_view_here_is_the_view_of_the_index(index: sqlite3.Connection) -> None:
    """The test above reads the same view as the tool does."""
    (sql,) = index.execute("SELECT sql FROM sqlite_schema WHERE name = 'week_state'").fetchone()
    rest = " ".join(sql.split()).partition("WHERE NOT EXISTS")[2]
    assert rest == " ".join(_STATE_VIEW.split()).partition("WHERE NOT EXISTS")[2]


def test_only_a_done_week_is_compared_with_its_page(index: sqlite3.Connection) -> None:
    """A week that is not done has nothing late and nothing gone; a done one names the keys that are gone."""
    tell(index, date(2026, 3, 30), "done", "aaaa", "bbbb")
    done = log_of(index, week("2026-W14"), ISO)[-1]
    found = compare_with_page(index, done, [])
    assert (found.late, found.gone) == ([], ["aaaa", "bbbb"])
    assert compare_with_page(index, UNTOLD, []).gone == ()


def test_waits_come_back_as_they_were_told(index: sqlite3.Connection) -> None:
    """A word's waits are kept in order."""
    with transaction(index):
        tell_week(index, date(2026, 3, 30), "waiting", waiting_for=["words", "supplies:blue"], note="n")
    (word,) = log_of(index, week("2026-W14"), ISO)
    assert (word.waiting_for, word.note) == (("words", "supplies:blue"), "n")
    assert datetime.fromisoformat(word.told_at).tzinfo
    assert json.dumps(word.waiting_for)


def test_a_word_taken_back_lists_no_week() -> None:
    """A mark typed for a wrong week, told open again, leaves no row far from the photos."""
    rule, far = WeekRule(), date(2030, 2, 11)
    counted = {date(2026, 3, 30): DayCount(2, 1, 1, 0, 0)}
    told = {rule.week_of(far): Word("u", "2026-04-01T00:00:00.000000Z", "open", (), "")}
    assert [row.week.name for row in lay_out(counted, told, rule).lines] == ["2026-W14"]


def test_no_gap_begins_or_ends_what_was_asked_for() -> None:
    """A long run of empty weeks stands between two listed weeks, not before the first or after the last of them."""
    rule = WeekRule()
    table = lay_out({day: DayCount(1, 1, 0, 0, 0) for day in (date(1994, 7, 16), date(2026, 3, 30))}, {}, rule)
    assert len(table.gaps) == 1
    assert choose(table, since=date(2020, 1, 1)).gaps == []
    assert [row.week.name for row in choose(table, since=date(2020, 1, 1)).rows] == ["2026-W14"]
