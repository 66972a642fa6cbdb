"""The calendar of weeks, against ISO 8601 and CLDR values from outside, Babel, and its own definition."""

import ast
import sys
from collections.abc import Callable
from datetime import date, time, timedelta
from pathlib import Path

import pytest
from babel import Locale
from babel.dates import format_date
from hypothesis import given
from hypothesis import strategies as st

import queries.weeks
from indexer.errors import WeekError
from queries.weeks import WEEKDAYS, Week, WeekRule, day_of, parse_week, span_words, week_words, weekday_number

ISO, US, PT, EG = WeekRule(), WeekRule(6, 1), WeekRule(6, 4), WeekRule(5, 1)
EVERY_RULE = [WeekRule(first_day, min_days) for first_day in range(7) for min_days in range(1, 8)]
TODAY = date(2026, 4, 1)
DAY, WEEK = timedelta(days=1), timedelta(days=7)

rules = st.sampled_from(EVERY_RULE)
days = st.dates(date(2, 1, 1), date(9998, 12, 31))
NO_DATE = "give a date that exists, or a week such as 2026-W14"
each_rule = pytest.mark.parametrize("rule", EVERY_RULE, ids=str)


def days_from(first: date, last: date) -> list[date]:
    return [date.fromordinal(ordinal) for ordinal in range(first.toordinal(), last.toordinal() + 1)]


def answer(ask: Callable[..., Week], *asked: object) -> Week | str:
    """The week, or the text of the known error; any other exception fails the test."""
    try:
        return ask(*asked)
    except WeekError as error:
        return str(error)


@pytest.mark.parametrize(
    ("rule", "day", "name", "source"),
    [
        (ISO, "2005-01-01", "2004-W53", "PostgreSQL manual, EXTRACT, field week"),
        (ISO, "2006-01-01", "2005-W52", "PostgreSQL manual, EXTRACT, field week"),
        (ISO, "2012-12-31", "2013-W01", "PostgreSQL manual, EXTRACT, field week"),
        (ISO, "2003-12-29", "2004-W01", "Python manual, date.isocalendar"),
        (ISO, "2004-01-04", "2004-W01", "Python manual, date.isocalendar"),
        (ISO, "2025-12-29", "2026-W01", "ISO 8601, by Python's date.fromisocalendar(2026, 1, 1)"),
        (ISO, "2027-01-03", "2026-W53", "ISO 8601, by Python's date.fromisocalendar(2026, 53, 7)"),
        (US, "2025-12-27", "2025-W52", "UTS #35 with CLDR weekData for US"),
        (US, "2025-12-28", "2026-W01", "UTS #35 with CLDR weekData for US"),
        (PT, "2025-12-28", "2025-W53", "UTS #35 with CLDR weekData for PT"),
        (PT, "2026-01-04", "2026-W01", "UTS #35 with CLDR weekData for PT"),
        (EG, "2025-12-27", "2026-W01", "UTS #35 with CLDR weekData for EG"),
    ],
)
def test_published_days_fall_into_their_weeks(rule: WeekRule, day: str, name: str, source: str) -> None:
    """Days that manuals and CLDR place in a week are in that week."""
    assert rule.week_of(date.fromisoformat(day)).name == name, source


def test_iso_week_1_holds_4_january_and_the_first_thursday() -> None:
    """ISO 8601 (as the Python manual states it): week 1 holds the year's first Thursday, and so 4 January."""
    for year in range(1900, 2101):
        thursday = ISO.week_named(year, 1).fourth_day
        assert (thursday.weekday(), thursday.year, (thursday - WEEK).year) == (3, year, year - 1)
        assert date(year, 1, 4) in ISO.week_named(year, 1)


def test_iso_years_of_53_weeks() -> None:
    """The years of 53 weeks from 2004 to 2048 are these nine (ISO 8601), and 71 in the Gregorian 400 years."""
    long_years = [year for year in range(2004, 2049) if ISO.weeks_in(year) == 53]
    assert long_years == [2004, 2009, 2015, 2020, 2026, 2032, 2037, 2043, 2048]
    assert sum(ISO.weeks_in(year) == 53 for year in range(2001, 2401)) == 71


def test_iso_agrees_with_the_standard_library_every_day() -> None:
    """Every day from 1970 to 2100 has the week, and the place in it, that date.isocalendar gives."""
    for day in days_from(date(1970, 1, 1), date(2100, 12, 31)):
        year, number, weekday = day.isocalendar()
        assert ISO.week_of(day) == Week(day - (weekday - 1) * DAY, f"{year}-W{number:02d}")


@pytest.mark.parametrize(
    ("locale", "rule"), [("en_GB", ISO), ("de_DE", ISO), ("en_US", US), ("ar_EG", EG), ("pt_PT", PT)]
)
def test_babel_gives_the_same_weeks_over_40_years(locale: str, rule: WeekRule) -> None:
    """Every day from 2000 to 2039 has the week-year and number that Babel, reading CLDR by itself, prints."""
    theirs = Locale.parse(locale)
    changed = f"this release of Babel has another rule for {locale}: compare with another locale"
    assert (theirs.first_week_day, theirs.min_week_days) == (rule.first_day, rule.min_days), changed
    span = days_from(date(2000, 1, 1), date(2039, 12, 31))
    shown = [(day, format_date(day, "YYYY-'W'ww", locale=theirs)) for day in span]
    assert [pair for pair in shown if rule.week_of(pair[0]).name != pair[1]] == []


@each_rule
def test_week_1_is_the_first_with_enough_days_in_the_year(rule: WeekRule) -> None:
    """Counting days one by one, as UTS #35 words the rule, finds the same week 1 in every kind of year."""
    for year in range(2000, 2028):
        start = date(year - 1, 12, 25) + (rule.first_day - date(year - 1, 12, 25).weekday()) % 7 * DAY
        while sum((start + n * DAY).year == year for n in range(7)) < rule.min_days:
            start += WEEK
        assert rule.week_named(year, 1).first_day == start


@each_rule
def test_names_go_round_and_weeks_tile(rule: WeekRule) -> None:
    """Over 28 years each name reads back as its week, and each week begins where the one before ended."""
    names = [(year, number) for year in range(2000, 2028) for number in range(1, rule.weeks_in(year) + 1)]
    weeks = [rule.week_named(*name) for name in names]
    assert [parse_week(week.name, rule, TODAY) for week in weeks] == weeks
    assert [week.first_day for week in weeks[1:]] == [week.next_first_day for week in weeks[:-1]]
    assert list(rule.between(weeks[0], weeks[-1])) == weeks


@given(rules, days)
def test_every_day_is_in_exactly_one_week(rule: WeekRule, day: date) -> None:
    """A day's week holds it and starts on the rule's weekday; the weeks on both sides touch it and lack the day."""
    week = rule.week_of(day)
    before, after = rule.week_of(week.first_day - DAY), rule.week_of(week.next_first_day)
    assert week.first_day.weekday() == rule.first_day
    assert {rule.week_of(other) for other in week.days()} == {week}
    assert (before.next_first_day, week.next_first_day) == (week.first_day, after.first_day)
    assert [day in some for some in (before, week, after)] == [False, True, False]


@given(rules, days)
def test_every_form_of_a_week_reads_back_as_that_week(rule: WeekRule, day: date) -> None:
    """The name in either case, with or without hyphen, and the date itself all mean the week of that day."""
    week = rule.week_of(day)
    for text in (week.name, week.name.lower(), week.name.replace("-", ""), day.isoformat()):
        assert parse_week(text, rule, TODAY) == week


@given(rules, rules, days)
def test_told_weeks_land_one_to_one(told: WeekRule, now: WeekRule, day: date) -> None:
    """Told weeks stay themselves under their own rule; in another they land in as many weeks, by their fourth days."""
    weeks = list(told.between(told.week_of(day), told.week_of(day + 10 * WEEK)))
    landed = [now.week_holding_told(week.first_day) for week in weeks]
    assert [told.week_holding_told(week.first_day) for week in weeks] == weeks
    assert all(week.fourth_day in there for week, there in zip(weeks, landed, strict=True))
    assert landed == list(now.between(landed[0], landed[-1]))


def test_a_told_week_shows_where_its_fourth_day_is() -> None:
    """Told from a Sunday or a Thursday, the fourth day is in ISO week 14; told from the Friday, it is in 15."""
    told = [date(2026, 3, 29), date(2026, 4, 2), date(2026, 4, 3)]
    assert [ISO.week_holding_told(day).number for day in told] == [14, 14, 15]


def test_between_includes_both_ends_and_may_be_empty() -> None:
    """Weeks from one to another include both; the same week twice is one week; backwards there are none."""
    first, last = ISO.week_named(2026, 52), ISO.week_named(2027, 1)
    assert [week.name for week in ISO.between(first, last)] == ["2026-W52", "2026-W53", "2027-W01"]
    assert (list(ISO.between(first, first)), list(ISO.between(last, first))) == ([first], [])


def test_a_week_is_half_open_and_sorts_in_time() -> None:
    """A week holds its seven days and not the next first day; weeks sort by their first day."""
    week, later = ISO.week_named(2026, 14), ISO.week_named(2027, 1)
    assert week.days() == tuple(days_from(date(2026, 3, 30), date(2026, 4, 5)))
    assert (week.last_day, week.next_first_day) == (date(2026, 4, 5), date(2026, 4, 6))
    assert (week.fourth_day, week.number) == (date(2026, 4, 2), 14)
    assert (week.last_day in week, week.next_first_day in week) == (True, False)
    assert sorted([later, week]) == [week, later]


@pytest.mark.parametrize("numbers", [(-1, 4), (7, 4), (0, 0), (0, 8)])
def test_a_rule_out_of_range_is_refused(numbers: tuple[int, int]) -> None:
    """A weekday outside 0 to 6 or a count outside 1 to 7 makes no rule."""
    with pytest.raises(WeekError, match="give"):
        WeekRule(*numbers)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        *[(text, "2026-W14") for text in ("2026-W14", "2026-w14", "2026W14", " 2026-W14 ", "2026-04-01", "This")],
        *[("2026-w4", "2026-W04"), ("2027-01-03", "2026-W53"), ("last", "2026-W13")],
    ],
)
def test_the_forms_of_a_week(text: str, name: str) -> None:
    """A week is read from its name in any case, a date in it, or a word for this or the last one."""
    assert parse_week(text, ISO, TODAY).name == name


@pytest.mark.parametrize("text", ["", "next", "2026", "2026-14", "26-W14", "2026-W14-3", "20260401", "٢٠٢٦-W١٤"])
def test_another_text_is_refused_with_the_forms_that_are_read(text: str) -> None:
    """A text in no known form is named in the error, together with each form that is accepted."""
    error = f"'{text}' is not a week: give 2026-W14, any date in it (2026-04-01), this or last"
    assert answer(parse_week, text, ISO, TODAY) == error


@pytest.mark.parametrize(
    ("text", "rule", "error"),
    [
        ("2025-W53", ISO, "week 2025-W53: 2025 has 52 weeks, and the last is 2025-W52 (22 - 28 Dec 2025)"),
        ("2026-w0", ISO, "week 2026-W00: 2026 has 53 weeks, and the last is 2026-W53 (28 Dec 2026 - 3 Jan 2027)"),
        ("2026-W53", US, "week 2026-W53: 2026 has 52 weeks, and the last is 2026-W52 (20 - 26 Dec 2026)"),
        ("9999-W53", ISO, "week 9999-W53: 9999 has 52 weeks, and the last is 9999-W52"),
        ("0000-W01", ISO, "year 0000 in the calendar: give a year from 0001 to 9999"),
        ("2026-02-30", ISO, f"date 2026-02-30: {NO_DATE}"),
        ("2026-13-01", ISO, f"date 2026-13-01: {NO_DATE}"),
    ],
)
def test_what_does_not_exist_is_named_with_the_way_out(text: str, rule: WeekRule, error: str) -> None:
    """Week 0, W53 of a year of 52 weeks, and impossible dates say what is missing and what there is instead."""
    assert answer(parse_week, text, rule, TODAY) == f"there is no {error}"


@given(st.text() | st.from_regex(r"\A[0-9]{4}-?[wW]?[0-9]{1,3}(-[0-9]{2})?\Z"), rules)
def test_any_text_is_a_week_or_one_line(text: str, rule: WeekRule) -> None:
    """Whatever is typed gives a week or a known error of one line."""
    found = answer(parse_week, text, rule, TODAY)
    assert isinstance(found, Week) or len(found.splitlines()) == 1


@pytest.mark.parametrize("edge", [date.min, date.max - 2 * WEEK])
@each_rule
def test_the_edges_of_the_calendar_are_no_crash(rule: WeekRule, edge: date) -> None:
    """Near 0001-01-01 and 9999-12-31 every question gives a whole week or a known error; nothing overflows."""
    for day in days_from(edge, edge + 2 * WEEK):
        answers = [
            answer(rule.week_of, day),
            answer(rule.week_holding_told, day),
            answer(parse_week, "last", rule, day),
            *(answer(rule.week_named, day.year, number) for number in (1, 2, 51, 52, 53)),
        ]
        weeks = [week for week in answers if isinstance(week, Week)]
        assert [parse_week(week.name, rule, TODAY) for week in weeks] == weeks != []


def test_the_first_and_last_week_of_the_calendar() -> None:
    """The first week may begin on 0001-01-01 and the last end on 9999-12-30, since a span needs its next first day."""
    assert ISO.week_of(date.min) == Week(date.min, "0001-W01")
    assert WeekRule(first_day=4).week_of(date.max - DAY).next_first_day == date.max
    assert isinstance(answer(WeekRule(first_day=5).week_of, date.max - DAY), str)


@pytest.mark.parametrize(
    ("placed", "starts_at", "day"),
    [
        ("2026-03-30T00:00:00", time(0, 0), date(2026, 3, 30)),
        ("2026-03-30T01:30:00", time(3, 0), date(2026, 3, 29)),
        ("2026-03-30T02:59:59", time(3, 0), date(2026, 3, 29)),
        ("2026-03-30T03:00:00", time(3, 0), date(2026, 3, 30)),
        ("2026-03-30T03:00", time(3, 0), date(2026, 3, 30)),
        ("2026-01-01T01:30", time(3, 0), date(2025, 12, 31)),
        ("2026-03-30", time(3, 0), date(2026, 3, 30)),
        *[(less, time(0, 0), None) for less in ("2026-03", "2026", None)],
        ("0001-01-01T01:30:00", time(3, 0), None),
    ],
)
def test_the_album_day(placed: str | None, starts_at: time, day: date | None) -> None:
    """A time before the day's start belongs to the day before, a bare date to itself, and less than a day to none."""
    assert day_of(placed, starts_at) == day


@pytest.mark.parametrize(
    ("number", "span"),
    [(14, "30 Mar - 5 Apr 2026"), (15, "6 - 12 Apr 2026"), (1, "29 Dec 2025 - 4 Jan 2026")],
)
def test_a_week_in_words(number: int, span: str) -> None:
    """For people the days come first; the first month and year are said only where they differ from the last."""
    week = ISO.week_named(2026, number)
    assert (span_words(week), week_words(week)) == (span, f"{span}, week {number}")


def test_months_and_weekdays_are_those_of_cldr_english() -> None:
    """Month abbreviations and weekday names, Monday first, are CLDR's for English as Babel has them."""
    english = Locale("en")
    spans = [span_words(Week(date(2026, month, 1), "")) for month in range(1, 13)]
    assert [span.split()[-2] for span in spans] == list(english.months["format"]["abbreviated"].values())
    assert list(WEEKDAYS) == [english.days["format"]["wide"][number].lower() for number in range(7)]


def test_weekdays_by_name_and_short_form() -> None:
    """Each weekday is read from its name or first three letters in any case, Monday being 0 as in date.weekday."""
    for number, name in enumerate(WEEKDAYS):
        assert {weekday_number(text) for text in (name, name.title(), name[:3], f" {name[:3].upper()} ")} == {number}


@pytest.mark.parametrize("text", ["", "su", "sund", "funday", "6"])
def test_another_weekday_is_refused_with_the_list(text: str) -> None:
    """What is no weekday is named, with the seven that are."""
    with pytest.raises(WeekError, match=rf"^'{text}' is not a weekday: give one of monday, .*, sunday$"):
        weekday_number(text)


def test_the_module_stands_on_the_standard_library() -> None:
    """The calendar is on the start-up path: it imports the standard library and two small modules, nothing else."""
    nodes = list(ast.walk(ast.parse(Path(queries.weeks.__file__).read_text(encoding="utf-8"))))
    names = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    names |= {str(node.module) for node in nodes if isinstance(node, ast.ImportFrom)}
    ours = {name for name in names if name.split(".")[0] not in sys.stdlib_module_names}
    assert ours == {"indexer.errors", "indexer.dating.album_weeks", "indexer.dating.words"}
