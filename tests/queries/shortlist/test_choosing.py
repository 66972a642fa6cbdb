"""Which photos are chosen, and which never are."""

from collections import Counter
from dataclasses import replace
from itertools import combinations
from random import Random
from time import process_time

import numpy as np
import pytest

from queries.shortlist.choosing import choose, shortlist
from queries.shortlist.occasions import occasions_of
from queries.shortlist.score import Score
from queries.shortlist.terms import score_of
from queries.shortlist.values import Candidate
from queries.shortlist.weights import Weights
from tests.queries.shortlist.made_candidates import candidate, keys, some_week

FINER_ONLY = replace(Weights(), day=0, occasion=0)


@pytest.mark.parametrize("by", [Weights(), FINER_ONLY, replace(FINER_ONLY, shape=0, quality=0)])
def test_greedy_reaches_what_is_promised(by: Weights) -> None:
    """At least 1 - (1 - 1/k)^k of the best choice of k photos (Nemhauser, Wolsey, Fisher 1978: from memory)."""
    noise = Random(7)
    for _ in range(60):
        week = some_week(noise, 9)
        wanted = noise.randrange(1, 5)
        if len(week) <= wanted:
            continue
        score = score_of(week, occasions_of(week), by)
        best = max(score.value(chosen) for chosen in combinations(range(len(week)), wanted))
        assert score.value(choose(score, wanted)) >= (1 - (1 - 1 / wanted) ** wanted) * best


def test_greedy_takes_what_adds_most_at_every_step() -> None:
    """The heap that spares reckoning never passes over a photo that adds more."""
    noise = Random(8)
    for _ in range(60):
        week = some_week(noise)
        score = score_of(week, occasions_of(week), Weights())
        order = choose(score, len(week))
        assert sorted(order) == list(range(len(week)))
        for count in range(len(week)):
            worth = [score.value([*order[:count], place]) for place in order[count:]]
            assert worth[0] >= max(worth) - 1e-5


def test_facility_location_takes_one_of_each_kind() -> None:
    """The example of the issue's facts: of two photos alike and two others, two of different kinds, worth 3.1."""
    alike = np.array([[1, 0.9, 0.1, 0], [0.9, 1, 0.1, 0], [0.1, 0.1, 1, 0.2], [0, 0, 0.2, 1]], np.float32)
    score = Score(alike, np.zeros(4))
    assert score.value(choose(score, 2)) == pytest.approx(3.1)


def test_every_day_comes_before_any_days_second_and_every_occasion_before_any_occasions() -> None:
    """For random weeks and every length: as many days as there can be, then as many occasions."""
    noise = Random(9)
    for _ in range(80):
        week = some_week(noise)
        for wanted in range(len(week) + 2):
            found = shortlist(week, wanted)
            assert len(found.chosen) == min(wanted, len(week))
            assert found.days_shown == min(wanted, found.days)
            assert found.occasions_shown == min(wanted, found.occasions)


def test_what_is_kept_counts_for_its_day() -> None:
    """With a photo of Saturday kept by hand, the next ones go to the other days."""
    week = [candidate("a"), candidate("b", 5), candidate("c", 5, choice="keep"), candidate("d", 6)]
    assert keys(shortlist(week, 3)) == ["a", "c", "d"]


def test_no_two_of_a_set_of_photos_alike() -> None:
    """At most one of each set, whatever is wanted, also where a set spans two days and photos are in two sets."""
    noise = Random(10)
    for _ in range(80):
        week = [
            replace(photo, sets=frozenset(noise.sample(range(6), noise.randrange(3)))) for photo in some_week(noise)
        ]
        for wanted in (3, 12, 40):
            chosen = shortlist(week, wanted).chosen
            of_sets = Counter(number for item in chosen for number in item.candidate.sets)
            assert not of_sets or max(of_sets.values()) == 1


def test_no_two_of_one_scene() -> None:
    """Two cameras whose clocks do not agree: one picture stands, the other is set aside and says why, and comes in when
    it is kept."""
    phone = replace(candidate("phone", 0, "09:00"), scenes=frozenset({3}), code="f0ne0")
    compact = replace(candidate("compact", 2, "14:00"), scenes=frozenset({3, 4}), code="c0mpa")
    others = [candidate("other", 0, "18:00"), candidate("third", 2, "18:00")]
    found = shortlist([phone, compact, *others], 4)
    assert len(found.chosen) == 3
    (aside,) = found.set_aside
    chosen = {item.candidate.code for item in found.chosen}
    assert {aside.candidate.code} | chosen >= {"f0ne0", "c0mpa"}
    assert aside.reason == f"same scene as {(chosen & {'f0ne0', 'c0mpa'}).pop()}"
    both = shortlist([phone, replace(compact, choice="keep"), *others], 4)
    assert "c0mpa" in {item.candidate.code for item in both.chosen}
    assert [item.reason for item in both.set_aside] == ["same scene as c0mpa"]


def test_a_day_keeps_its_photo_though_another_shows_the_scene() -> None:
    """Every day is told of: of a day on which all photos show what others do, the first stays."""
    phone = replace(candidate("phone", 0, "09:00"), scenes=frozenset({3, 4}))
    alone = [replace(candidate(f"compact {hour}", 2, f"1{hour}:00"), scenes=frozenset({hour})) for hour in (3, 4)]
    found = shortlist([phone, candidate("other", 0, "18:00"), *alone], 4)
    assert keys(found) == ["phone", "other", "compact 3"]
    assert [item.candidate.key for item in found.set_aside] == ["compact 4"]


def test_a_set_has_two_when_both_are_kept() -> None:
    """The person may keep several of a set; then no further one of it is chosen."""
    week = [candidate(key, sets=frozenset({1}), choice="keep" if key in "ab" else None) for key in "abc"]
    assert keys(shortlist(week, 3)) == ["a", "b"]


def test_what_is_left_out_is_never_chosen() -> None:
    """Photos alike to a keeper and those left by hand stay out, even where there are no others, and count as none."""
    week = [candidate("a", keeper=False), candidate("b", choice="leave"), candidate("c", choice="leave", keeper=False)]
    found = shortlist(week, 3)
    assert (found.chosen, found.set_aside, found.candidates, found.days) == ((), (), 0, 0)


def test_what_is_set_aside_is_listed_and_comes_in_when_kept() -> None:
    """With its reason; what is left by hand or behind a keeper is not listed twice."""
    screen = candidate("a", set_aside="screenshot")
    week = [
        screen,
        candidate("b", set_aside="picture of text", choice="keep"),
        candidate("c", set_aside="screenshot", choice="leave"),
        candidate("d", set_aside="screenshot", keeper=False),
        candidate("e", day=1),
    ]
    found = shortlist(week, 5)
    assert keys(found) == ["b", "e"]
    assert [(item.candidate, item.reason) for item in found.set_aside] == [(screen, "screenshot")]


def test_all_that_is_kept_is_there_even_when_it_is_more() -> None:
    """Kept ones come first; where they are more than wanted, they are all there is, and the counts say so."""
    week = [candidate(f"{number}", choice="keep" if number % 2 else None) for number in range(6)]
    for wanted, expected in ((0, "135"), (2, "135"), (3, "135"), (5, None)):
        found = shortlist(week, wanted)
        assert (found.asked, found.kept) == (wanted, 3)
        assert len(found.chosen) == max(wanted, 3)
        assert expected is None or "".join(keys(found)) == expected


def test_a_longer_shortlist_holds_every_shorter_one() -> None:
    """The first k by rank are the shortlist of k, so that asking for one more adds one."""
    noise = Random(11)
    for _ in range(30):
        week = some_week(noise)
        ranked = sorted(shortlist(week, len(week)).chosen, key=lambda item: item.rank)
        assert [item.rank for item in ranked] == list(range(len(week)))
        for wanted in range(len(week)):
            assert set(shortlist(week, wanted).chosen) == set(ranked[:wanted])


def test_the_chosen_come_in_the_order_they_were_taken() -> None:
    """By day, by clock time, those without one last, whatever the order of the candidates."""
    noise = Random(12)
    for _ in range(30):
        week = [replace(photo, sharpness=float(number)) for number, photo in enumerate(some_week(noise))]
        shuffled = noise.sample(week, len(week))
        found = shortlist(shuffled, 12)
        times = [(item.candidate.day, item.candidate.taken is None, str(item.candidate.taken)) for item in found.chosen]
        assert times == sorted(times)


def test_equals_are_chosen_in_order() -> None:
    """Photos of one look, time and quality: the first ones, every time."""
    week = [candidate(f"{number}", phash=bytes(8), layout=bytes(192)) for number in range(8)]
    assert keys(shortlist(week, 3)) == ["0", "1", "2"]
    assert shortlist(week, 3) == shortlist(week, 3)


@pytest.mark.parametrize("wanted", [0, 1, 12])
def test_an_empty_week_gives_an_empty_shortlist(wanted: int) -> None:
    """Nothing to choose from is no error."""
    found = shortlist([], wanted)
    assert (found.chosen, found.days, found.occasions, found.count("portrait")) == ((), 0, 0, 0)


def test_fewer_than_none_is_refused() -> None:
    """The wish makes no sense."""
    with pytest.raises(ValueError, match="-1 photos"):
        shortlist([], -1)


def test_a_quiet_days_photo_is_chosen_though_it_is_soft_and_a_blurred_one_among_better_is_not() -> None:
    """What counts is what else there is."""
    quiet = candidate("quiet", sharpness=20.0, contrast=15.0)
    busy = [candidate(f"{number}", 5, f"10:0{number}", sharpness=300.0) for number in range(6)]
    for place in range(6):
        week = [quiet, *busy]
        week[1 + place] = replace(busy[place], key="blurred", sharpness=15.0)
        found = keys(shortlist(week, 6))
        assert "quiet" in found
        assert "blurred" not in found


def test_a_look_alike_waits_behind_a_different_view() -> None:
    """Nine photos of one view and one of another, no sets known: the other is the second choice."""
    same = [candidate(f"{number}", clock=f"10:0{number}", phash=bytes(8), layout=bytes(192)) for number in range(9)]
    assert "other" in keys(shortlist([*same, candidate("other", clock="10:09")], 2))


@pytest.mark.parametrize(("tall", "wanted", "expected"), [(15, None, 6), (10, None, 4), (3, None, 1), (10, 0.75, 9)])
def test_shapes_are_in_proportion(tall: int, wanted: float | None, expected: int) -> None:
    """Of 30 photos of an afternoon 12 are chosen, with portraits as the week or the wish has them, one more or less."""
    noise = Random(tall)
    shapes = noise.sample(["portrait"] * tall + ["landscape"] * (30 - tall), 30)
    week = [candidate(f"{number}", clock=f"10:{number}", shape=shape) for number, shape in _numbered(shapes)]
    found = shortlist(week, 12, wanted_portrait_share=wanted)
    assert abs(found.count("portrait") - expected) <= 1
    assert found.count("portrait") + found.count("landscape") == 12


def _numbered(shapes: list[str]) -> list[tuple[int, str]]:
    return list(enumerate(shapes, start=10))


def test_a_week_without_pixels_is_still_told() -> None:
    """Where nothing was looked at yet, days and occasions alone decide."""
    nothing = dict.fromkeys(("phash", "layout", "sharpness", "dark", "bright", "contrast"))
    week: list[Candidate] = [candidate(f"{number}", number % 3, **nothing) for number in range(9)]
    found = shortlist(week, 3)
    assert found.days_shown == 3


def test_a_week_of_many_photos_is_quick() -> None:
    """Two thousand photos take a fraction of a second; two are allowed."""
    noise = Random(13)
    week = [
        candidate(f"{number}", noise.randrange(7), f"{noise.randrange(6, 23):02}:{noise.randrange(60):02}")
        for number in range(2000)
    ]
    begun = process_time()
    assert len(shortlist(week, 60).chosen) == 60
    assert process_time() - begun < 2
