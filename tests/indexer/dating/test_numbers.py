"""What the numbers in a camera's file names tell."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, CaptureTime, PhotoSaid
from indexer.facts.records import Camera
from tests.indexer.dating.said import COMPACT, PHONE, claim, photo, world

START = datetime(2026, 3, 2, 10)  # noqa: DTZ001 - a wall clock


def shot(number: int, when: datetime | str | None, *, prefix: str = "HRBR", camera: Camera = COMPACT) -> PhotoSaid:
    """A photo of the compact camera with that number; None: without a date."""
    text = when.isoformat(timespec="seconds") if isinstance(when, datetime) else when
    claims = [claim("exif original", text)] if text else [claim("exif original", None)]
    claims.append(claim("file time", "2026-05-30T10:00:00"))
    name = f"{prefix}{number:04d}"
    return photo(name, *claims, name=f"{name}.JPG", camera=camera)


def judged(*photos: PhotoSaid) -> dict[str, CaptureTime]:
    return dict(judge_archive(Archive(photos), world()).verdicts)


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


def run_of(count: int, *, days: int = 1) -> list[PhotoSaid]:
    return [shot(n, START + timedelta(days=days * n)) for n in range(1, count + 1)]


def test_a_time_that_contradicts_the_numbers_around_it_is_doubtful() -> None:
    """One photo of a year before, in the middle of a run."""
    photos = run_of(30)
    photos[14] = shot(15, "2025-03-02T10:00:00")
    found = judged(*photos)
    assert [key for key, said in found.items() if said.doubtful] == ["HRBR0015"]
    assert "number" in found["HRBR0015"].reason
    assert "HRBR0014.JPG" in found["HRBR0015"].reason


def test_numbers_that_begin_anew_are_no_contradiction() -> None:
    """0001 follows 9999 (DCF, CIPA DC-009), and a journey may set the clock back by hours."""
    high = [shot(9990 + n, START + timedelta(days=n)) for n in range(9)]
    low = [shot(n, START + timedelta(days=20 + n)) for n in range(1, 9)]
    assert not any(said.doubtful for said in judged(*high, *low).values())
    photos = run_of(20)
    photos[9] = shot(10, START + timedelta(days=9, hours=13))
    assert not any(said.doubtful for said in judged(*photos).values())


def test_numbers_that_jump_about_make_no_order() -> None:
    """Files numbered by a program, or of two cameras alike: nothing is said."""
    rng = random.Random(3)
    photos = [shot(n, START + timedelta(days=rng.randrange(60))) for n in range(40)]
    assert not any(said.doubtful for said in judged(*photos).values())


@pytest.mark.parametrize("seed", range(40))
def test_an_honest_run_is_never_doubtful(seed: int) -> None:
    """Numbers and times that rise together, with gaps, seconds apart or months."""
    rng = random.Random(seed)
    number, when, photos = rng.randrange(1, 9000), START - timedelta(days=900), []
    for _ in range(60):
        number += rng.choice([1, 1, 1, 2, 40])
        when += timedelta(seconds=rng.choice([1, 60, 86_400, 7 * 86_400]))
        photos.append(shot(number, when))
    assert not any(said.doubtful for said in judged(*photos).values())
