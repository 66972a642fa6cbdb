"""What the numbers in a camera's file names tell."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, CaptureTime, PhotoSaid
from indexer.facts.records import Camera
from tests.indexer.dating.said import COMPACT, claim, photo, world

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


@pytest.mark.parametrize("place", [0, 14, 29])
def test_a_time_at_the_end_of_the_calendar_breaks_nothing(place: int) -> None:
    """A crafted date is doubtful, and the run around it is judged."""
    photos = run_of(30)
    photos[place] = shot(place + 1, "9999-12-31T23:59:59")
    assert [key for key, said in judged(*photos).items() if said.doubtful] == [photos[place].key]


def test_numbers_that_begin_anew_far_off_are_no_contradiction() -> None:
    """A second camera of the model, whose numbers end long before those of the first begin; a block that goes on is."""
    first = [shot(400 + n, START + timedelta(days=n)) for n in range(40)]
    second = [shot(100 + n, START + timedelta(days=45 + n)) for n in range(20)]
    assert not any(said.doubtful for said in judged(*first, *second).values())
    fallen = [shot(440 + n, START - timedelta(days=900 - n)) for n in range(20)]
    assert sum(said.doubtful for said in judged(*first, *fallen).values()) == 20


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
