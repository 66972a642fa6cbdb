"""Occasions: where the pause between two photos parts them."""

from datetime import datetime, time, timedelta

import pytest

from queries.shortlist.occasions import occasions_of, parts_locally
from queries.shortlist.values import Candidate
from tests.queries.shortlist.made_candidates import MONDAY, candidate


def row(*gaps: float) -> list[Candidate]:
    """Photos of one day from seven in the morning on, with these pauses between them, in seconds."""
    times = [datetime.combine(MONDAY, time(7))]
    for gap in gaps:
        times.append(times[-1] + timedelta(seconds=gap))
    return [candidate(f"{number}", taken=moment) for number, moment in enumerate(times)]


def places(photos: list[Candidate]) -> list[int]:
    return [occasion.place for occasion in occasions_of(photos)]


@pytest.mark.parametrize(("gap", "parts"), [(1175, False), (1176, True)])
def test_a_pause_parts_when_it_is_long_beside_those_around_it(gap: int, parts: bool) -> None:
    """Among 41 pauses of a minute, one of 60 * 17^(21/20) = 1175.23 s parts (PhotoTOC; run by hand)."""
    gaps = [60] * 20 + [gap] + [60] * 20
    assert parts_locally(gaps) == [False] * 20 + [parts] + [False] * 20
    assert places(row(*gaps)) == [1] * 21 + [1 + parts] * 21


def test_a_pause_further_off_does_not_count() -> None:
    """Ten pauses on either side are looked at: an eleventh changes nothing, the tenth does."""
    tenth, eleventh = [60] * 41, [60] * 41
    tenth[10], eleventh[9] = 7000, 7000
    for gaps, parts in ((tenth, False), (eleventh, True)):
        gaps[20] = 1176
        assert parts_locally(gaps)[20] == parts


def test_photos_of_one_second_count_as_a_second_apart() -> None:
    """A pause of nothing is no measure: among such, 17^(21/20) = 19.6 s would part by the local rule."""
    gaps = [0] * 20 + [19] + [0] * 20
    assert not any(parts_locally(gaps))
    gaps[20] = 20
    assert parts_locally(gaps) == [place == 20 for place in range(41)]


def test_a_few_minutes_never_part() -> None:
    """A pause of five minutes after a quick series is still the same occasion."""
    assert places(row(*[1] * 20, 300, *[1] * 20)) == [1] * 42
    assert places(row(*[1] * 20, 301, *[1] * 20)) == [1] * 21 + [2] * 21


@pytest.mark.parametrize(("gap", "expected"), [(7199, [1, 1]), (7200, [1, 2])])
def test_hours_always_part(gap: int, expected: list[int]) -> None:
    """On a day of two photos, which the local rule can never part, two hours do."""
    assert parts_locally([gap]) == [False]
    assert places(row(gap)) == expected


def test_the_end_of_an_album_day_parts() -> None:
    """Two photos a minute apart on different album days are two occasions, each the only one of its day."""
    late, early = candidate(day=0, clock="23:59:30"), candidate(day=1, clock="00:00:30")
    assert [(found.place, found.of) for found in occasions_of([late, early])] == [(1, 1), (1, 1)]
    assert len(set(occasions_of([late, early]))) == 2


def test_photos_without_a_clock_time_are_an_occasion_of_their_own() -> None:
    """They end their day; a day that has no others is one occasion."""
    photos = [candidate(clock="09:00"), candidate(clock="15:00"), candidate(clock=None), candidate(day=2, clock=None)]
    found = occasions_of(photos)
    assert [(item.place, item.of) for item in found] == [(1, 3), (2, 3), (3, 3), (1, 1)]
    assert [item.start for item in found] == [photo.taken for photo in photos]


def test_an_occasion_starts_with_its_first_photo() -> None:
    """All of an occasion have one value, with the time of the first."""
    photos = row(60, 60)
    assert {item.start for item in occasions_of(photos)} == {photos[0].taken}


def test_no_photos_have_no_occasions() -> None:
    """An empty week."""
    assert occasions_of([]) == []
