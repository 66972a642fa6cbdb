"""Candidates made up for tests of the shortlist."""

from datetime import date, datetime, timedelta
from random import Random

from queries.shortlist.values import Candidate, Shortlist

MONDAY = date(2026, 3, 30)
_SIZES = {"landscape": (4000, 3000), "portrait": (3000, 4000), "square": (3000, 3000)}


def candidate(key: str = "a", day: int = 0, clock: str | None = "10:00", **facts: object) -> Candidate:
    """A good photo, taken on that day of a week at that time ("10:00" or "10:00:30"; None: no clock time is known)."""
    shape = str(facts.get("shape", "landscape"))
    date_of_day = MONDAY + timedelta(days=day)
    values: dict[str, object] = {
        "taken": clock and datetime.fromisoformat(f"{date_of_day}T{clock}"),
        "width": _SIZES[shape][0],
        "height": _SIZES[shape][1],
        "shape": shape,
        "phash": look(key)[0],
        "layout": look(key)[1],
        "sharpness": 200.0,
        "dark": 0.0,
        "bright": 0.0,
        "contrast": 50.0,
    } | facts
    return Candidate(key, date_of_day, **values)  # type: ignore[arg-type]


def look(name: str) -> tuple[bytes, bytes]:
    """A hash and a layout of a picture that is like no other one; the same for the same name."""
    noise = Random(name)
    return noise.randbytes(8), noise.randbytes(192)


def some_week(noise: Random, most: int = 30) -> list[Candidate]:
    """A week of up to `most` photos of all kinds, in the order they were taken; a few show one thing."""
    photos = [_some_photo(noise, number) for number in range(noise.randrange(most + 1))]
    return sorted(photos, key=lambda photo: (photo.day, str(photo.taken)))


def _some_photo(noise: Random, number: int) -> Candidate:
    clock = f"{noise.choice((9, 9, 9, 14, 20)):02}:{noise.randrange(60):02}:{noise.randrange(60):02}"
    phash, layout = look(f"{noise.randrange(12)}")
    return candidate(
        f"{number}",
        noise.choice((0, 1, 1, 3, 5, 5, 5, 6)),
        noise.choice((clock, clock, clock, None)),
        shape=noise.choice(("landscape", "landscape", "portrait", "square")),
        phash=phash,
        layout=layout,
        sharpness=noise.choice((None, 5.0, 100.0, 300.0)),
        contrast=noise.uniform(5, 60),
        dark=noise.uniform(0, 0.3),
    )


def keys(found: Shortlist) -> list[str]:
    """The keys of those chosen, in the order they were taken."""
    return [item.candidate.key for item in found.chosen]


def reasons(found: Shortlist) -> list[str]:
    """Their reasons."""
    return [item.reason for item in found.chosen]
