"""Photos as the choosing of keepers takes them, and likenesses between them, in short."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from indexer.alike.values import Contender, Likeness

_PHOTO = Contender(
    key="",
    taken="",
    own_time=None,
    camera="",
    pixels=12_000_000,
    format="JPEG",
    bytes=4_000_000,
    place=("/library", ""),
    is_edited=False,
    sharpness=(100.0, 200.0, 300.0),
    dark=0.0,
    bright=0.0,
)


def photo(key: str, second: float | None = 0, **facts: Any) -> Contender:
    """A photo taken so many seconds after ten, as a camera dates it; of an unknown time and camera with None."""
    if second is not None:
        time = f"2026-03-30T{10 + int(second) // 3600:02}:{int(second) // 60 % 60:02}:{int(second) % 60:02}"
        facts = {"taken": time, "own_time": time, "camera": "Tidewell|TW-100"} | facts
    return replace(_PHOTO, **{"key": key, "taken": "~", "place": ("/library", f"{key}.jpg")} | facts)


def known(photos: Iterable[Contender]) -> dict[str, Contender]:
    """The photos by their keys."""
    return {item.key: item for item in photos}


def copy(one: str, other: str, score: float = 0.9) -> Likeness:
    return Likeness(min(one, other), max(one, other), "copy", score)


def burst(one: str, other: str, score: float = 5.0) -> Likeness:
    return Likeness(min(one, other), max(one, other), "burst", score)
