"""Backup files that are damaged, or none."""

import copy
import json
import random
import sqlite3
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from indexer.errors import WordError
from indexer.store.backup import FORMAT, all_words, read_backup, restore

TODAY = date(2026, 6, 1)


def sound() -> dict[str, Any]:
    """A whole backup, as it would lie on the disk."""
    stamps = [
        {
            "uuid": f"6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7{number + 160:x}",
            "told_at": f"2026-01-{number + 1:02}T00:00:00.000000Z",
        }
        for number in range(18)
    ]
    week = {"first_day": "2026-03-30", "state": "waiting", "waiting_for": ["words"], "note": "", "holding": ["a" * 32]}
    camera = {"make": "Tidewell", "model": "TW-100", "serial": ""}
    span, no_span = {"since": "2026-03-30T00:00:00", "until": None}, {"since": None, "until": None}
    order = {"order_id": "0d5e4a1c-2f0b-4b54-8a55-3f9d6a0c7e11", "number": 12}
    return {
        "made_by": "weeksheaf",
        "format": 2,
        "made_at": "2026-06-01T00:00:00.000000Z",
        "index_id": "0" * 32,
        "words": {
            "week_log": [stamps[0] | week],
            "setting_log": [stamps[1] | {"name": "week.min_days", "value": "1"}],
            "succession": [stamps[2] | {"old_key": "a" * 32, "new_key": "b" * 32}],
            "choice": [stamps[3] | {"photo_key": "b" * 32, "choice": "leave"}],
            "clock_log": [
                stamps[4] | camera | span | {"shift_seconds": -3600, "takes_back": None},
                stamps[5] | camera | no_span | {"shift_seconds": None, "takes_back": stamps[4]["uuid"]},
            ],
            "assignment": [
                stamps[6] | {"photo_key": "b" * 32, "what": "week", "value": "2026-03-30"},
                stamps[7] | {"photo_key": "b" * 32, "what": "taken", "value": "2026-03-30T09:15"},
            ],
            "sleeve_log": [
                stamps[8] | {"name": "narrow", "cell": "1x1in", "drawing": "AAB\nAAB"},
                stamps[9] | {"name": "narrow", "cell": None, "drawing": None},
            ],
            "sleeve_own_log": [stamps[10] | {"name": "6 wide", "owned": 1}],
            "plan_log": [stamps[11] | {"first_day": "2026-03-30", "plan": '{"left": "6 wide"}'}],
            "note_log": [
                stamps[12] | {"first_day": "2026-03-30", "day": "2026-04-01", "text": "Snow.", "takes_back": None},
                stamps[13] | {"first_day": "2026-03-30", "day": None, "text": None, "takes_back": stamps[12]["uuid"]},
            ],
            "order_log": [
                stamps[14] | order | {"what": "planned", "content": '{"folder": "prints"}', "takes_back": None},
                stamps[15] | order | {"what": "sent", "content": None, "takes_back": None},
                stamps[16] | order | {"what": "reprint", "content": "{}", "takes_back": None},
                stamps[17] | order | {"what": "taken back", "content": None, "takes_back": stamps[15]["uuid"]},
            ],
        },
    }


def test_the_sound_backup_of_these_checks_is_one(tmp_path: Path) -> None:
    """What is damaged below was whole before."""
    (tmp_path / "words.json").write_text(json.dumps(sound()))
    assert read_backup(tmp_path / "words.json") == sound()["words"]


@pytest.mark.parametrize(
    ("table", "name", "value"),
    [
        ("week_log", "uuid", "6f1f8a44"),
        ("week_log", "uuid", None),
        ("week_log", "uuid", "6F1F8A44-5F0D-4C57-9D1C-0C1B54A9B7A0"),  # another writing of it would double the word
        ("week_log", "uuid", "{6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7a0}"),
        ("week_log", "told_at", "2026-01-01"),
        ("week_log", "told_at", "2026-01-01T00:00:00.000000"),
        ("week_log", "told_at", "2026-01-01T00:00:00.000000+02:00"),
        ("week_log", "told_at", "0001-01-01T00:00:00.000000+14:00"),
        ("week_log", "told_at", "9999-12-31T23:59:59.999999Z"),  # no word could be told after it
        ("week_log", "told_at", 5),
        ("week_log", "first_day", "2026-02-30"),
        ("week_log", "first_day", "20260330"),
        ("week_log", "first_day", "2026-W14-1"),
        ("week_log", "first_day", "9999-12-31"),  # no whole week begins there
        ("week_log", "first_day", None),
        ("week_log", "state", "finished"),
        ("week_log", "state", ["open"]),
        ("week_log", "waiting_for", "words"),
        ("week_log", "waiting_for", [1]),
        ("week_log", "waiting_for", {"words": 1}),
        ("week_log", "note", None),
        ("week_log", "note", "\ud800"),
        ("week_log", "holding", None),
        ("week_log", "holding", "a" * 32),
        ("week_log", "holding", [5]),
        ("week_log", "holding", ["\udfff"]),
        ("week_log", "waiting_for", ["words:\ud800"]),
        ("setting_log", "name", 5),
        ("setting_log", "value", 5),
        ("succession", "old_key", None),
        ("succession", "new_key", ["b"]),
        ("choice", "photo_key", None),
        ("choice", "choice", "drop"),
        ("choice", "choice", ["keep"]),
        ("clock_log", "make", None),
        ("clock_log", "shift_seconds", None),  # neither a correction nor one taken back
        ("clock_log", "shift_seconds", 1.5),
        ("clock_log", "shift_seconds", True),
        ("clock_log", "shift_seconds", 10**12),
        ("clock_log", "since", "2026-03-30"),
        ("clock_log", "since", "2026-03-30T25:00:00"),
        ("clock_log", "until", "2026-03-30T00:00:00"),  # a span without time in it
        ("clock_log", "takes_back", "6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7a0"),  # both at once
        ("clock_log", "takes_back", "the first"),
        ("assignment", "photo_key", None),
        ("assignment", "what", "place"),
        ("assignment", "value", 5),
        ("assignment", "value", "2026-W14"),
        ("assignment", "value", "2026-03"),
        ("assignment", "value", "9999-12-31"),
        ("sleeve_log", "name", None),
        ("sleeve_log", "cell", None),  # a drawing without its cell
        ("sleeve_log", "drawing", None),
        ("sleeve_log", "drawing", ["AAB"]),
        ("sleeve_own_log", "name", 5),
        ("sleeve_own_log", "owned", 2),
        ("sleeve_own_log", "owned", True),
        ("sleeve_own_log", "owned", "1"),
        ("sleeve_own_log", "owned", None),
        ("plan_log", "first_day", "2026-02-30"),
        ("plan_log", "plan", {}),
        ("plan_log", "plan", "[]"),
        ("plan_log", "plan", "{"),
        ("plan_log", "plan", '{"a":' * 100_000),
        ("note_log", "first_day", "2026-02-30"),
        ("note_log", "day", "2026-02-30"),
        ("note_log", "day", "20260401"),
        ("note_log", "day", 1),
        ("note_log", "text", None),  # neither a note nor one taken back
        ("note_log", "text", ""),
        ("note_log", "text", 5),
        ("note_log", "text", "\ud800"),
        ("note_log", "takes_back", "6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7a0"),  # both at once
        ("note_log", "takes_back", "the first"),
        ("order_log", "order_id", "o12"),
        ("order_log", "order_id", None),
        ("order_log", "number", 0),
        ("order_log", "number", 12.0),
        ("order_log", "number", True),
        ("order_log", "number", 2**63),
        ("order_log", "number", "12"),
        ("order_log", "what", "lost"),
        ("order_log", "what", "week"),
        ("order_log", "what", "sent"),  # with a content
        ("order_log", "content", None),  # without the content of a planned one
        ("order_log", "content", "[]"),
        ("order_log", "content", {}),
        ("order_log", "takes_back", "3f0b4c39-9a41-4c5e-8a29-3c1a6f0d7b52"),  # with a content
        ("order_log", "what", "taken back"),  # without saying which word
        ("assignment", "what", "sent"),
    ],
)
def test_a_word_without_its_form_is_refused(table: str, name: str, value: object, tmp_path: Path) -> None:
    """The line names the file, and nothing of it is restored."""
    document = sound()
    document["words"][table][0][name] = value
    file = tmp_path / "words.json"
    file.write_text(json.dumps(document))
    with pytest.raises(WordError, match="nothing was restored") as caught:
        read_backup(file)
    assert str(file) in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_correction_of_no_camera_is_refused(tmp_path: Path) -> None:
    """It would date all photos anew that name none."""
    document = sound()
    document["words"]["clock_log"][0] |= {"make": "", "model": ""}
    (tmp_path / "words.json").write_text(json.dumps(document))
    with pytest.raises(WordError, match="nothing was restored"):
        read_backup(tmp_path / "words.json")


@pytest.mark.parametrize(
    "damage", [{"shift_seconds": 10**12}, {"shift_seconds": True}, {"until": "2026-01-01T00:00:00"}]
)
def test_a_correction_that_takes_another_back_is_refused(damage: dict[str, object], tmp_path: Path) -> None:
    """Whatever else is wrong with it: the index would not take it, and it would be lost without a word."""
    document = sound()
    document["words"]["clock_log"][0] |= {"takes_back": "6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7a0"} | damage
    (tmp_path / "words.json").write_text(json.dumps(document))
    with pytest.raises(WordError, match="nothing was restored"):
        read_backup(tmp_path / "words.json")


@pytest.mark.parametrize(
    "value", ["2026-02-30", "2026-03-30 09:15", "2026-3", "20260330", "2026-W14-1", "2026-03-30T09", "0000", "", "26"]
)
def test_a_time_without_its_form_is_refused(value: str, tmp_path: Path) -> None:
    """A capture time told by hand is ISO 8601, whole or reduced to minutes, a day, a month or a year."""
    document = sound()
    document["words"]["assignment"][1]["value"] = value
    (tmp_path / "words.json").write_text(json.dumps(document))
    with pytest.raises(WordError, match="nothing was restored"):
        read_backup(tmp_path / "words.json")


@pytest.mark.parametrize("value", ["2026-03-30T09:15:20", "2026-03-30T09:15", "2026-03-30", "2026-03", "2026", None])
def test_a_time_of_any_precision_is_sound(value: str | None, tmp_path: Path) -> None:
    """None is one that was taken back."""
    document = sound()
    document["words"]["assignment"][1]["value"] = value
    (tmp_path / "words.json").write_text(json.dumps(document))
    assert read_backup(tmp_path / "words.json") == document["words"]


@pytest.mark.parametrize("name", ["uuid", "told_at", "first_day", "state", "waiting_for", "note", "holding"])
def test_a_word_that_lacks_a_part_is_refused(name: str, tmp_path: Path) -> None:
    """A missing part is damage and not a default."""
    document = sound()
    del document["words"]["week_log"][0][name]
    (tmp_path / "words.json").write_text(json.dumps(document))
    with pytest.raises(WordError, match=name):
        read_backup(tmp_path / "words.json")


def test_a_backup_of_a_newer_version_asks_for_an_update(tmp_path: Path) -> None:
    """Half understood it would lose words."""
    (tmp_path / "words.json").write_text(json.dumps(sound() | {"format": FORMAT + 1}))
    with pytest.raises(WordError, match=r"newer version.*update"):
        read_backup(tmp_path / "words.json")


def test_a_backup_with_a_kind_of_word_that_is_not_known_asks_for_an_update(tmp_path: Path) -> None:
    """Left out, it would be lost for good when a backup is written over the file."""
    document = sound()
    document["words"]["tide_log"] = []
    (tmp_path / "words.json").write_text(json.dumps(document))
    with pytest.raises(WordError, match=r"newer version.*update"):
        read_backup(tmp_path / "words.json")


def test_a_backup_of_an_older_version_is_read(tmp_path: Path) -> None:
    """Format 1 had four kinds of words."""
    document = sound() | {"format": 1}
    del document["words"]["clock_log"], document["words"]["assignment"]
    (tmp_path / "words.json").write_text(json.dumps(document))
    words = read_backup(tmp_path / "words.json")
    assert (len(words["week_log"]), words["clock_log"], words["assignment"]) == (1, [], [])


def test_a_backup_without_a_table_has_no_words_of_it(tmp_path: Path) -> None:
    """One made before that kind of word existed is whole."""
    document = sound()
    del document["words"]["succession"]
    (tmp_path / "words.json").write_text(json.dumps(document))
    assert read_backup(tmp_path / "words.json")["succession"] == []


@pytest.mark.parametrize("place", ["gone", "folder"])
def test_a_backup_that_cannot_be_read_is_named(place: str, tmp_path: Path) -> None:
    """A file that is not there, and a folder, are known errors."""
    file = tmp_path / "gone.json" if place == "gone" else tmp_path
    with pytest.raises(WordError) as caught:
        read_backup(file)
    assert str(file) in str(caught.value)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


def damage(document: Any, dice: random.Random, value: Any) -> Any:
    """The document with one part, however deep, replaced, left out or doubled."""
    if isinstance(document, dict) and document and dice.random() < 0.9:
        name = dice.choice(sorted(document))
        return document | {name: damage(document[name], dice, value)}
    if isinstance(document, list) and document and dice.random() < 0.9:
        place = dice.randrange(len(document))
        kept_parts = document[:place] if dice.random() < 0.1 else document[: place + 1] * dice.randrange(1, 3)
        return [*kept_parts[:-1], damage(document[place], dice, value), *document[place + 1 :]]
    if isinstance(document, str) and document and dice.random() < 0.7:
        place = dice.randrange(len(document))
        return document[:place] + dice.choice("0Zz-9\n\ud800") * dice.randrange(3) + document[place + 1 :]
    return value


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=300)
@given(JSON, st.integers(0, 2**32))
def test_a_damaged_backup_is_refused_or_restored_and_never_breaks(
    connection: sqlite3.Connection, tmp_path: Path, value: Any, seed: int
) -> None:
    """Whatever became of the file, reading it gives WordError or words that can be restored and read back."""
    file = tmp_path / "words.json"
    file.write_text(json.dumps(damage(copy.deepcopy(sound()), random.Random(seed), value)))
    before = all_words(connection)
    try:
        words = read_backup(file)
    except WordError as error:
        assert "\n" not in str(error)  # noqa: PT017 - it may be raised, and need not
        assert all_words(connection) == before
    else:
        restore(connection, words, TODAY)
        assert restore(connection, words, TODAY).added == 0


@given(st.binary(max_size=40), st.integers(0, 600), st.booleans())
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_a_backup_cut_off_or_overwritten_is_refused(tmp_path: Path, junk: bytes, place: int, is_cut: bool) -> None:
    """Bytes of another kind in the middle, or none after it."""
    whole = json.dumps(sound()).encode()
    file = tmp_path / "words.json"
    file.write_bytes(whole[:place] if is_cut else whole[:place] + b"\xff" + junk + whole[place:])
    with pytest.raises(WordError):
        read_backup(file)
