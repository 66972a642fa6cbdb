"""The settings: what they take and what holds."""

from datetime import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.errors import WordError
from queries.settings import SETTINGS, Settings, setting_named
from queries.weeks import WEEKDAYS, WeekRule

patient = settings(deadline=None)


def test_the_defaults_are_iso_and_midnight() -> None:
    """Where nothing was told weeks are those of ISO 8601 and days begin at midnight."""
    assert (Settings({}).week_rule, Settings({}).day_starts_at) == (WeekRule(0, 4), time(0))


@pytest.mark.parametrize("setting", SETTINGS.values(), ids=lambda setting: setting.name)
def test_every_default_is_a_value_the_setting_takes(setting) -> None:  # type: ignore[no-untyped-def]
    """A default passes its own check unchanged, and the setting says what it is for."""
    assert setting.check(setting.default) == setting.default
    assert setting.says


@patient
@given(st.sampled_from(WEEKDAYS), st.integers(1, 7), st.times(max_value=time(11, 59)))
def test_told_settings_make_the_calendar(first_day: str, min_days: int, starts_at: time) -> None:
    """What was told is what the calendar goes by."""
    at = starts_at.replace(second=0, microsecond=0)
    told = {"week.first_day": first_day, "week.min_days": str(min_days), "day.starts_at": f"{at:%H:%M}"}
    assert Settings(told).week_rule == WeekRule(WEEKDAYS.index(first_day), min_days)
    assert Settings(told).day_starts_at == at


@patient
@given(st.sampled_from(["week.first_day", "week.min_days", "day.starts_at", "home.timezone"]), st.text())
def test_a_check_gives_a_stable_form_or_says_what_is_right(name: str, text: str) -> None:
    """Any text is either brought into its one form, which the check leaves alone, or refused as a known error."""
    setting = setting_named(name)
    try:
        value = setting.check(text)
    except WordError:
        return
    assert setting.check(value) == value
    assert Settings({name: value})[name] == value


@patient
@given(st.text(st.characters(categories=["Nd"], include_characters=":"), max_size=5))
def test_whatever_start_of_the_day_is_taken_can_be_used(text: str) -> None:
    """A time written in the digits of any script is refused, or is the time it says."""
    try:
        value = setting_named("day.starts_at").check(text)
    except WordError:
        return
    hours, _, minutes = text.partition(":")
    assert Settings({"day.starts_at": value}).day_starts_at == time(int(hours), int(minutes))


def test_a_time_in_arabic_digits() -> None:
    """Half past four is half past four in Arabic digits too."""
    assert setting_named("day.starts_at").check("٠٤:٣٠") == "04:30"


@pytest.mark.parametrize(
    ("name", "text"),
    [("week.min_days", "٤"), ("week.min_days", "4.0"), ("day.starts_at", "²:00"), ("day.starts_at", "12:00")],
)
def test_what_looks_like_a_value_and_is_none(name: str, text: str) -> None:
    """Signs that only look like digits, fractions and the afternoon are refused."""
    with pytest.raises(WordError):
        setting_named(name).check(text)


def test_a_restored_value_is_checked_where_it_is_used() -> None:
    """A value that came in by another hand and makes no sense here does not hold: the tool's own choice does."""
    assert Settings({"week.min_days": "9"}).week_rule == Settings({}).week_rule
    assert Settings({"home.timezone": "Moon/Base"})["home.timezone"] == "computer"


def test_a_name_that_does_not_exist() -> None:
    """An unknown name is answered with the names there are."""
    with pytest.raises(WordError, match=r"week\.first_day, week\.min_days, day\.starts_at, home\.timezone"):
        setting_named("week.colour")
