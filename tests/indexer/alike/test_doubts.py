"""Which bursts are looked at once more, and what comes of it."""

from dataclasses import replace
from typing import Any

import pytest

from indexer.alike.coefficients import (
    AT_ONCE,
    CERTAIN_SCORE,
    ENOUGH_SAME,
    LONGEST_GAP,
    MOST_DOUBTS,
    OTHER_SURFACES,
)
from indexer.alike.doubts import Doubt, batches, doubts_among, look_alikes
from indexer.alike.values import Likeness, Looked

UNSURE = CERTAIN_SCORE - 1


def photo(key: str, moment: float | None, **other: Any) -> Looked:
    values: dict[str, Any] = {
        "exact": True, "own_time": None, "camera": "", "width": 40, "height": 30, "made_from": "decode",
        "phash": b"", "dhash": b"", "grey": b"", "layout": b"", "contrast": 40.0,
    }  # fmt: skip
    return Looked(key=key, moment=moment, **{**values, **other})


def doubts(one: Looked, other: Looked, link: Likeness | None = None) -> list[Doubt]:
    link = link or Likeness(*sorted((one.key, other.key)), "burst", UNSURE)
    return doubts_among([link], {one.key: one, other.key: other})


def test_an_unsure_burst_is_in_doubt() -> None:
    """The later photo with the earlier one, whichever key is the smaller."""
    assert doubts(photo("a", 10.0), photo("b", 20.0)) == [Doubt("b", ("a",))]
    assert doubts(photo("a", 20.0), photo("b", 10.0)) == [Doubt("a", ("b",))]


@pytest.mark.parametrize("kind", ["copy", "scene"])
def test_only_bursts_are_in_doubt(kind: Any) -> None:
    """A copy explains why two are alike; a scene makes no set."""
    assert doubts(photo("a", 10.0), photo("b", 20.0), Likeness("a", "b", kind, 0.9)) == []


def test_a_sure_burst_is_in_no_doubt() -> None:
    """From the border on."""
    one, other = photo("a", 10.0), photo("b", 20.0)
    assert doubts(one, other, Likeness("a", "b", "burst", CERTAIN_SCORE)) == []
    assert doubts(one, other, Likeness("a", "b", "burst", CERTAIN_SCORE - 0.01)) != []


def test_what_was_taken_at_once_is_in_no_doubt() -> None:
    """Unless the second is not known."""
    one, other = photo("a", 10.0), photo("b", 10.0 + AT_ONCE)
    assert doubts(one, other) == []
    assert doubts(one, replace(other, moment=10.1 + AT_ONCE)) != []
    assert doubts(replace(one, exact=False), other) != []
    assert doubts(one, replace(other, moment=None)) != []


def test_what_was_seen_by_its_thumbnail_is_in_no_doubt_yet() -> None:
    """It is decoded and compared again."""
    one, other = photo("a", 10.0), photo("b", 20.0)
    assert doubts(one, replace(other, made_from="thumbnail")) == []
    assert doubts(replace(one, made_from="thumbnail"), other) == []


def test_few_of_many_are_looked_at_and_the_least_sure_first() -> None:
    """In the order the photos were taken; a time-lapse costs no more than so many a photo."""
    count = MOST_DOUBTS + 5
    photos = {f"{number:02}": photo(f"{number:02}", 5.0 * number) for number in range(count)}
    links = [Likeness(one, other, "burst", 1 + int(one) / 10) for one in photos for other in photos if one < other]
    found = doubts_among(links[::-1], photos)
    assert [doubt.key for doubt in found] == sorted(photos)[1:]
    assert found[-1].earlier == tuple(sorted(photos)[:MOST_DOUBTS])
    assert 5.0 * count < LONGEST_GAP


def test_batches_hold_all_in_order_and_few_photos() -> None:
    """A doubt of more photos than may be together stands alone."""
    told = [Doubt("b", ("a",)), Doubt("c", ("b", "a")), Doubt("d", ("c",)), Doubt("z", tuple("vwxy"))]
    found = list(batches(told, 3))
    assert [doubt for batch, _ in found for doubt in batch] == told
    assert [photos for _, photos in found] == [set("abc"), set("cd"), set("vwxyz")]
    assert list(batches([], 3)) == []


def test_look_alikes_are_those_of_other_surfaces() -> None:
    """From the border on; what cannot be told is no reason."""
    told = {"a": OTHER_SURFACES, "b": None, "c": OTHER_SURFACES + 1, "d": OTHER_SURFACES - 0.01}
    assert list(look_alikes(Doubt("z", tuple(told)), lambda _, key: told[key])) == ["a", "c"]


def test_what_is_surer_than_enough_that_are_the_same_is_not_looked_at() -> None:
    """But all are, as long as they prove to be others."""
    earlier = tuple(f"{number}" for number in range(ENOUGH_SAME + 2))
    asked: list[str] = []

    def differ(one: str, other: str) -> float:
        asked.append(other)
        return 0.0 if one == "same" else 9.0

    assert list(look_alikes(Doubt("same", earlier), differ)) == []
    assert asked == list(earlier[:ENOUGH_SAME])
    assert list(look_alikes(Doubt("other", earlier), differ)) == list(earlier)
