"""All photos of one camera."""

from indexer.dating.clock.rolls import rolls_of
from indexer.dating.clock.seconds import seconds_of
from indexer.dating.values import Correction, Shot
from indexer.facts.records import Camera
from tests.indexer.dating.clock.households import COMPACT, PHONE


def test_cameras_come_by_name_and_photos_by_time() -> None:
    """Rolls stand in the order of their cameras' names, photos in that of their times."""
    shots = [Shot("b", PHONE, "2026-03-02T10:00:00"), Shot("a", PHONE, "2026-03-01T10:00:00")]
    rolls = rolls_of([*shots, Shot("c", COMPACT, "2026-03-01T10:00:00")], [])
    assert [roll.camera for roll in rolls] == [COMPACT, PHONE]
    assert [shot.key for shot in rolls[1].shots] == ["a", "b"]
    assert rolls[1].own == (seconds_of("2026-03-01T10:00:00"), seconds_of("2026-03-02T10:00:00"))


def test_corrections_hold_in_their_spans() -> None:
    """A correction holds from its first second until before its last, for its own camera."""
    shots = [Shot(str(day), COMPACT, f"2026-03-0{day}T00:00:00") for day in (1, 2, 3)]
    told = [
        Correction("u", "", COMPACT, 60, "2026-03-02T00:00:00", "2026-03-03T00:00:00"),
        Correction("v", "", PHONE, 90),
    ]
    (roll,) = rolls_of(shots, told)
    assert roll.shifts == (None, 60, None)
    assert roll.uncorrected == {0, 2}


def test_names_as_a_person_reads_them() -> None:
    """The make is left out where the model names it, as in the views."""
    cameras = [Camera("Quay", "Quay 3"), Camera("Harbour", "Compact 5", "C1"), Camera("", "", "S1")]
    rolls = rolls_of([Shot(str(k), camera, "2026-03-01T10:00:00") for k, camera in enumerate(cameras)], [])
    assert {roll.name for roll in rolls} == {"Quay 3", "Harbour Compact 5", "S1"}


def test_days_without_a_time_say_nothing_of_clocks() -> None:
    """A photo of which only the day is known is left out, and so is one without a camera."""
    assert rolls_of([Shot("a", COMPACT, "2026-03-01"), Shot("b", Camera(), "2026-03-01T10:00:00")], []) == []
