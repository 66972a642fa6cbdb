"""Clock corrections laid over a camera's own times."""

import pytest

from indexer.dating.corrected import by_camera, corrected, correction_of
from tests.indexer.dating.said import COMPACT, PHONE, claim, correction, verdict

HOUR = 3600


@pytest.mark.parametrize(
    ("own", "holds"),
    [
        ("2026-03-30T09:59:59", False),
        ("2026-03-30T10:00:00", True),
        ("2026-03-31T23:59:59", True),
        ("2026-04-01T00:00:00", False),
        ("2026-03-30", True),
        ("2026-04-01", False),
        (None, False),
    ],
)
def test_a_span_is_half_open_and_in_the_cameras_own_time(own: str | None, holds: bool) -> None:
    """From its first moment on, and before its last; a day is in it when it reaches into it."""
    told = by_camera([correction(HOUR, "2026-03-30T10:00:00", "2026-04-01T00:00:00")])
    assert bool(correction_of(own, COMPACT, told)) is holds
    assert correction_of(own, PHONE, told) is None


def test_of_two_that_overlap_the_later_word_holds() -> None:
    """Such come together when indexes are joined."""
    told = by_camera([correction(HOUR, told_at="1"), correction(2 * HOUR, told_at="2")])
    held = correction_of("2026-03-30T10:00:00", COMPACT, told)
    assert held
    assert held.shift_seconds == 2 * HOUR
    assert corrected("2026-03-30T10:00:00", held) == "2026-03-30T12:00:00"
    assert corrected("2026-03-30T10:00:00", None) == "2026-03-30T10:00:00"


def test_a_correction_moves_what_the_camera_wrote_and_nothing_else() -> None:
    """The Exif dates of that camera; not another camera's, not the day of an arrival, not the file's own time."""
    told = [correction(-24 * HOUR)]
    original = claim("exif original", "2026-03-30T09:15:20")
    said = verdict(original, camera=COMPACT, corrections=told)
    assert (said.taken, said.doubtful) == ("2026-03-29T09:15:20", False)
    assert "told of its clock" in said.reason
    assert verdict(original, camera=PHONE, corrections=told).taken == original.when
    arrived = claim("file name", "2026-03-30", arrival=True)
    assert verdict(arrived, camera=COMPACT, corrections=told).taken == "2026-03-30"


def test_a_name_with_the_cameras_clock_does_not_contradict_its_corrected_date() -> None:
    """Phones write one clock into the name and into the file: both are moved alike."""
    said = verdict(
        claim("exif original", "2026-03-30T09:15:20"),
        claim("file name", "2026-03-30T09:15:21"),
        camera=PHONE,
        corrections=[correction(-10 * 24 * HOUR, camera=PHONE)],
    )
    assert (said.taken, said.doubtful) == ("2026-03-20T09:15:20", False)


def test_a_time_that_leaves_the_calendar_is_no_claim() -> None:
    """A shift by years before year 1 gives no error."""
    said = verdict(claim("exif original", "0001-01-01T00:00:00"), camera=COMPACT, corrections=[correction(-HOUR)])
    assert said.taken is None
