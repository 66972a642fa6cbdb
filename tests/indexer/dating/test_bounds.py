"""Lost times between those of the photos with the numbers before and after."""

from collections.abc import Sequence

import pytest

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, CaptureTime, Correction, PhotoSaid
from indexer.facts.records import NO_CAMERA, Camera, Claim
from tests.indexer.dating.said import COMPACT, PHONE, claim, correction, photo, world

BEFORE, AFTER = "2026-03-30T09:15:00", "2026-03-30T10:02:00"


def shot(number: int, when: str | None, *more: Claim, prefix: str = "HRBR", camera: Camera = COMPACT) -> PhotoSaid:
    """A photo of the compact camera with that number; None: without a date."""
    name = f"{prefix}{number:04d}"
    claims = [claim("exif original", when), *(more or [claim("file time", "2026-05-30T10:00:00")])]
    return photo(f"{name}{camera.model if camera is PHONE else ''}", *claims, name=f"{name}.JPG", camera=camera)


def judged(*photos: PhotoSaid, corrections: Sequence[Correction] = (), starts_at: int = 0) -> dict[str, CaptureTime]:
    return dict(judge_archive(Archive(photos, corrections=corrections), world(starts_at=starts_at)).verdicts)


def test_a_lost_date_lies_between_its_neighbours() -> None:
    """One week: known, to the day where both are of one day; the reason names them (DCF names: CIPA DC-009)."""
    found = judged(shot(450, "2026-03-30T09:15:00"), shot(451, None), shot(452, "2026-03-30T10:02:00"))["HRBR0451"]
    assert (found.taken, found.placed, found.precision) == ("2026-03-30", "2026-03-30", "between")
    assert (found.source, found.doubtful) == ("file numbers", False)
    assert "HRBR0450.JPG (30 Mar 2026 09:15)" in found.reason
    assert "HRBR0452.JPG (30 Mar 2026 10:02)" in found.reason


def test_neighbours_of_different_weeks_leave_it_doubtful() -> None:
    """Sunday and Monday: it may be either."""
    found = judged(shot(450, "2026-03-29T09:15:00"), shot(451, None), shot(452, "2026-03-30T10:02:00"))["HRBR0451"]
    assert (found.precision, found.doubtful) == ("between", True)
    assert "different weeks" in found.reason


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (shot(450, "2026-03-30T09:15:00"), None),
        (shot(300, "2026-03-30T09:15:00"), shot(452, "2026-03-30T10:02:00")),
        (shot(450, "2026-03-30T09:15:00"), shot(452, "2026-03-30T10:02:00", camera=PHONE)),
        (shot(450, "2026-03-31T09:15:00"), shot(452, "2026-03-30T10:02:00")),
        (shot(450, "2026-03-30T09:15:00", prefix="KITE"), shot(452, "2026-03-30T10:02:00")),
        (shot(450, "1980-01-01T09:15:00"), shot(452, "2026-03-30T10:02:00")),
    ],
)
def test_neighbours_that_do_not_bound_it_say_nothing(before: PhotoSaid, after: PhotoSaid | None) -> None:
    """None after it, too far off, another camera, in the wrong order, another name, or doubtful themselves."""
    found = judged(*[item for item in (before, shot(451, None), after) if item])["HRBR0451"]
    assert (found.source, found.doubtful) == ("file time", True)


def test_a_run_of_lost_dates_lies_between_the_same_two() -> None:
    """Several in a row."""
    photos = [shot(10, "2026-03-30T09:00:00"), *(shot(n, None) for n in range(11, 15)), shot(15, "2026-04-01T09:00:00")]
    found = judged(*photos)
    assert all(found[f"HRBR{n:04d}"].precision == "between" for n in range(11, 15))


def test_the_day_in_between_is_the_album_day() -> None:
    """A party that went on after midnight, where days begin at four: Sunday, not Monday, and not the next week."""
    late = shot(450, "2026-03-30T01:15:00"), shot(451, None), shot(452, "2026-03-30T02:02:00")
    found = judged(*late, starts_at=4)["HRBR0451"]
    assert (found.taken, found.placed, found.doubtful) == ("2026-03-29", "2026-03-29", False)


@pytest.mark.parametrize(
    "more",
    [
        (claim("file time", "2021-05-30T10:00:00"),),
        (claim("file name", "2021-05-30", arrival=True), claim("file time", "2026-05-30T10:00:00")),
        (claim("exif modified", "2021-05-30T10:00:00"), claim("file time", "2026-05-30T10:00:00")),
        (claim("xmp original", "2021-05"),),
        (claim("folder name", "1987"),),
        (claim("gps", "2021-05-30T10:00:00", utc=True),),
    ],
)
def test_a_photo_that_cannot_be_of_that_time_does_not_lie_between(more: tuple[Claim, ...]) -> None:
    """Numbers begin anew on another camera: the file was there before, or says a month or year that is not theirs."""
    found = judged(shot(450, BEFORE), shot(451, None, *more), shot(452, AFTER))["HRBR0451"]
    assert (found.precision == "between", found.doubtful) == (False, True)


def test_a_wrong_clock_dates_its_files_too() -> None:
    """The files of the card are as old as its camera thought, which corrections do not change."""
    dated = [claim("file time", "2025-03-30T10:00:00")]
    photos = shot(450, "2025-03-30T09:15:00", *dated), shot(451, None, *dated), shot(452, "2025-03-30T10:02:00", *dated)
    found = judged(*photos, corrections=[correction(365 * 86_400)])["HRBR0451"]
    assert (found.taken, found.doubtful) == ("2026-03-30", False)


def test_another_cameras_numbers_in_the_same_folder_say_nothing() -> None:
    """Two cameras that name their files alike: each lies between its own, and a file that names no camera between those
    of the only one whose numbers are around it."""
    compact, phone = (
        (shot(450, BEFORE), shot(452, AFTER)),
        (shot(449, "2026-05-01T09:00:00", camera=PHONE), shot(453, "2026-05-01T10:00:00", camera=PHONE)),
    )
    lost = shot(451, None, camera=PHONE)
    assert judged(*compact, lost)[lost.key].source == "file time"
    assert judged(*compact, *phone, lost)[lost.key].taken == "2026-05-01"
    unnamed = shot(451, None, camera=NO_CAMERA)
    assert judged(*compact, unnamed)[unnamed.key].taken == "2026-03-30"
    assert judged(*compact, *phone, unnamed)[unnamed.key].doubtful
