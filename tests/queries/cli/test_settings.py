"""weeksheaf settings"""

import sqlite3
from contextlib import closing

import pytest

from tests.queries.cli.conftest import Person

NAMES = ["week.first_day", "week.min_days", "day.starts_at", "home.timezone"]


def test_settings_can_be_read_before_there_is_an_index(newcomer: Person) -> None:
    """Without an index the tool's own choices are shown, and no index is made."""
    document = newcomer.json("settings")
    assert {name: document[name] for name in NAMES} == {
        "week.first_day": "monday",
        "week.min_days": "4",
        "day.starts_at": "00:00",
        "home.timezone": "computer",
    }
    assert not newcomer.index.exists()


def test_settings_can_be_told_before_there_is_an_index(newcomer: Person) -> None:
    """The first setting makes the index; indexing afterwards goes by it."""
    newcomer.says("settings", "week.first_day", "Sunday")
    assert newcomer.index.exists()
    newcomer.says("index", newcomer.folder)
    assert newcomer.json("weeks")["weeks"][0]["first_day"] == "2026-03-08"


def test_a_setting_is_shown_by_name(person: Person) -> None:
    """One setting is shown alone, with what it is for."""
    assert person.json("settings", "week.min_days") == {"week.min_days": "4"}
    assert person.says("settings", "day.starts_at") == (
        "day.starts_at  00:00  photos before this time belong to the day before\n"
    )


@pytest.mark.parametrize(
    ("name", "told", "kept"),
    [
        ("week.first_day", "SUN", "sunday"),
        ("week.min_days", "1", "1"),
        ("day.starts_at", "4:30", "04:30"),
        ("home.timezone", "europe/lisbon", "Europe/Lisbon"),
        ("home.timezone", "Computer", "computer"),
    ],
)
def test_a_setting_is_kept_in_its_written_form(person: Person, name: str, told: str, kept: str) -> None:
    """Values are taken as people write them and shown in one form."""
    assert person.json("settings", name, told) == {name: kept}
    assert person.json("settings", name) == {name: kept}


@pytest.mark.parametrize(
    ("name", "value", "way_out"),
    [
        ("week.first_day", "someday", "monday, tuesday"),
        ("week.min_days", "0", "1 to 7"),
        ("week.min_days", "8", "1 to 7"),
        ("week.min_days", "", "1 to 7"),
        ("day.starts_at", "24:00", "04:00"),
        ("day.starts_at", "4", "04:00"),
        ("day.starts_at", "4:60", "04:00"),
        ("day.starts_at", "13:00", "04:00"),
        ("day.starts_at", "²:00", "04:00"),
        ("home.timezone", "Harbour/Town", "Europe/Lisbon"),
        ("home.timezone", "../../etc/passwd", "Europe/Lisbon"),
    ],
)
def test_a_value_that_is_none_is_refused(person: Person, name: str, value: str, way_out: str) -> None:
    """A wrong value is named with what would be right, and nothing is told."""
    before = person.json("settings")
    message = person.error("settings", name, value)
    assert way_out in message
    assert repr(value) in message
    assert person.json("settings") == before


def test_a_setting_that_does_not_exist(person: Person) -> None:
    """Another name is answered with the names there are."""
    message = person.error("settings", "week.colour", "blue")
    assert "week.colour" in message
    assert all(name in message for name in NAMES)


def test_a_setting_can_be_forgotten(person: Person) -> None:
    """--forget goes back to the tool's own choice; it needs a name and takes no value."""
    person.says("settings", "week.min_days", "1")
    assert person.json("settings", "week.min_days", "--forget") == {"week.min_days": "4"}
    assert "--forget" in person.misuse("settings", "--forget")
    assert "--forget" in person.misuse("settings", "week.min_days", "1", "--forget")


def test_words_follow_the_day_in_the_middle_when_the_weeks_start_changes(person: Person) -> None:
    """What was told of Mon 30 Mar - Sun 5 Apr shows in the week that holds its fourth day, Thu 2 Apr; nothing is
    re-keyed, and going back shows it where it was."""
    person.says("mark", "2026-W14", "waiting", "--for", "prints")
    told = _told_first_days(person)
    for first_day, starts in (("sunday", "2026-03-29"), ("wednesday", "2026-04-01"), ("saturday", "2026-03-28")):
        person.says("settings", "week.first_day", first_day)
        waiting = [row["first_day"] for row in person.json("weeks")["weeks"] if row["state"] == "waiting"]
        assert waiting == [starts]
        assert person.json("week", "2026-04-02")["log"][0]["waiting_for"] == ["prints"]
        assert _told_first_days(person) == told == ["2026-03-30"]
    person.says("settings", "week.first_day", "monday")
    assert person.row("2026-W14")["state"] == "waiting"


def test_a_word_told_under_the_new_start_is_the_later_one(person: Person) -> None:
    """Two words that land in one week are both in its history; the later told one holds."""
    person.says("mark", "2026-W14", "started")
    person.says("settings", "week.first_day", "sunday")
    person.says("mark", "2026-04-02", "skipped")
    assert [word["state"] for word in person.json("week", "2026-04-02")["log"]] == ["started", "skipped"]
    person.says("settings", "week.first_day", "monday")
    assert person.row("2026-W14")["state"] == "skipped"


def test_a_done_week_counts_late_by_its_new_days(person: Person) -> None:
    """When the week's start changes, photos that fall into the done week by the new days are counted as late."""
    person.says("mark", "2026-W12", "done")  # Mon 16 - Sun 22 Mar, its last photo on the Sunday
    person.says("settings", "week.first_day", "sunday")  # Sun 15 - Sat 21 Mar
    page = person.json("week", "2026-03-19")
    assert (page["state"], page["late"], len(page["gone"])) == ("done", [], 1)
    person.says("mark", "2026-03-26", "done")
    person.says("settings", "week.first_day", "monday")
    assert person.row("2026-W13")["late"] == 0


def test_a_later_start_of_the_day_moves_the_night_photo(person: Person) -> None:
    """With day.starts_at 04:00 the photo of Mon 30 Mar, 01:30, belongs to Sunday and to the week before; its time
    stays."""
    person.says("mark", "2026-W13", "done")
    person.says("settings", "day.starts_at", "04:00")
    (photo,) = person.json("week", "2026-W13")["photos"]
    assert (photo["taken"], photo["day"], photo["week"]) == ("2026-03-30T01:30:00", "2026-03-29", "2026-W13")
    assert person.json("week", "2026-W13")["late"] == [photo["code"]]
    assert person.row("2026-W13")["late"] == 1
    person.says("settings", "day.starts_at", "01:30")
    assert person.json("week", "2026-W13")["photos"] == []


def test_changing_week_min_days_renames_weeks_and_moves_nothing(person: Person) -> None:
    """week.min_days changes numbers and names; days, photos and words stay together."""
    person.says("mark", "2026-W14", "started")
    before = person.json("week", "2026-04-01")
    person.says("settings", "week.min_days", "7")
    after = person.json("week", "2026-04-01")
    assert after["name"] == "2026-W13"
    assert (after["first_day"], after["log"]) == (before["first_day"], before["log"])
    assert [photo["code"] for photo in after["photos"]] == [photo["code"] for photo in before["photos"]]


def test_a_word_at_the_edge_of_the_calendar_stops_nothing(person: Person) -> None:
    """A word for which the new rule has no whole week is not shown meanwhile, and is there again under the old one."""
    person.says("mark", "0001-01-03", "skipped")
    person.says("settings", "week.first_day", "sunday")
    assert person.json("weeks")["weeks"][0]["first_day"] == "2026-03-08"
    person.says("settings", "week.first_day", "monday")
    assert person.row("0001-W01")["state"] == "skipped"


def _told_first_days(person: Person) -> list[str]:
    with closing(sqlite3.connect(person.index)) as connection:
        return [first for (first,) in connection.execute("SELECT first_day FROM week_log")]
