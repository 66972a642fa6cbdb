"""Which weeks there are and how far each has come."""

import sqlite3
from datetime import date, time, timedelta

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from queries import progress
from queries.progress import (
    MOST_EMPTY_ROWS,
    DayCount,
    Gap,
    WeekRow,
    WeekTable,
    choose,
    lay_out,
)
from queries.week_log import Word
from queries.weeks import Week, WeekRule, day_of
from tests.queries.capture_times import capture_times, clock_times

patient = settings(deadline=None)
ISO = WeekRule()
DONE = Word("1", "2026-04-20T09:00:00.000000Z", "done", (), "")

rules = st.builds(WeekRule, st.integers(0, 6), st.integers(1, 7))
#: Days that cluster, so that gaps of all lengths come up.
some_days = st.dates(date(2025, 12, 1), date(2026, 6, 30))
#: Days near the edges of the calendar too, where weeks reach out of it.
all_days = st.one_of(some_days, st.dates(), st.sampled_from([date.min, date(1, 1, 9), date(9999, 12, 30), date.max]))


def is_empty(line: WeekRow | Gap) -> bool:
    return isinstance(line, WeekRow) and not line.photos and not line.word.uuid


@st.composite
def day_counts(draw: st.DrawFn) -> DayCount:
    shapes = [draw(st.integers(0, 5)) for _ in range(3)]
    photos = sum(shapes)
    assume(photos)
    doubtful = draw(st.sampled_from([0, photos, draw(st.integers(0, photos))]))
    return DayCount(photos, *shapes, doubtful, draw(st.integers(0, photos)))


counted_days = st.dictionaries(some_days, day_counts(), max_size=8)
all_counted_days = st.dictionaries(all_days, day_counts(), max_size=8)


def settled(photos: int = 1) -> DayCount:
    return DayCount(photos, 0, photos, 0, 0, photos)


def doubtful(photos: int = 1) -> DayCount:
    return DayCount(photos, 0, photos, 0, photos, photos)


def week(name: str) -> Week:
    return ISO.week_named(int(name[:4]), int(name[6:]))


def shown(table: WeekTable) -> list[str]:
    return [line.week.name if isinstance(line, WeekRow) else f"{line.weeks} empty" for line in table.lines]


@patient
@given(taken=capture_times, starts_at=clock_times)
def test_photos_are_counted_on_the_day_that_the_calendar_gives(
    bare_photos: sqlite3.Connection, taken: str | None, starts_at: time
) -> None:
    """For every capture time and start of the day, counting in SQL gives the day that `day_of` gives, or none."""
    bare_photos.execute("DELETE FROM photo")
    bare_photos.execute("INSERT INTO photo VALUES ('k', ?, 'square', 0, 1, 1)", (taken,))
    day = day_of(taken, starts_at)
    assert progress._counts_by_day(bare_photos, starts_at) == ({day: DayCount(1, 0, 0, 1, 0, 1)} if day else {})


def test_left_out_photos_count_as_photos_and_not_as_keepers(bare_photos: sqlite3.Connection) -> None:
    """A day counts all of its photos, and apart from that its keepers."""
    bare_photos.execute("DELETE FROM photo")
    for key, keeper in (("k", 1), ("l", 0), ("m", 0)):
        bare_photos.execute("INSERT INTO photo VALUES (?, '2026-04-01', 'portrait', 0, 1, ?)", (key, keeper))
    assert progress._counts_by_day(bare_photos, time(0)) == {date(2026, 4, 1): DayCount(3, 3, 0, 0, 0, 1)}


def test_photos_that_are_not_there_do_not_count(bare_photos: sqlite3.Connection) -> None:
    """A missing photo is counted nowhere."""
    bare_photos.execute("DELETE FROM photo")
    bare_photos.execute("INSERT INTO photo VALUES ('k', '2026-04-01', 'square', 0, 0, 1)")
    assert progress._counts_by_day(bare_photos, time(0)) == {}


# ------------------------------------------------------------------------------------------------------- lay_out


@patient
@given(all_counted_days, st.sets(all_days, max_size=4), rules)
def test_no_photo_is_lost_or_doubled(days: dict[date, DayCount], told: set[date], rule: WeekRule) -> None:
    """Every counted photo stands in exactly one row, or in the count of those outside."""
    table = lay_out(days, words_of(told, rule), rule)
    assert sum(row.photos for row in table.rows) + table.outside == sum(count.photos for count in days.values())
    for row in table.rows:
        inside = [count for day, count in days.items() if day in row.week]
        for name in ("photos", "keepers", "portrait", "landscape", "square", "doubtful"):
            assert getattr(row, name) == sum(getattr(count, name) for count in inside)


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


def test_a_word_taken_back_lists_no_week() -> None:
    """A mark typed for a wrong week, told open again, leaves no row far from the photos."""
    rule, far = WeekRule(), date(2030, 2, 11)
    counted = {date(2026, 3, 30): DayCount(2, 1, 1, 0, 0, 2)}
    told = {rule.week_of(far): Word("u", "2026-04-01T00:00:00.000000Z", "open", (), "")}
    assert [row.week.name for row in lay_out(counted, told, rule).lines] == ["2026-W14"]


def test_no_gap_begins_or_ends_what_was_asked_for() -> None:
    """A long run of empty weeks stands between two listed weeks, not before the first or after the last of them."""
    rule = WeekRule()
    table = lay_out({day: DayCount(1, 1, 0, 0, 0, 1) for day in (date(1994, 7, 16), date(2026, 3, 30))}, {}, rule)
    assert len(table.gaps) == 1
    assert choose(table, since=date(2020, 1, 1)).gaps == []
    assert [row.week.name for row in choose(table, since=date(2020, 1, 1)).rows] == ["2026-W14"]
