"""The score: monotone, submodular, and grown step by step as it is defined."""

from random import Random

import numpy as np
import pytest

from queries.shortlist.occasions import occasions_of
from queries.shortlist.score import Groups, Growing, Score
from queries.shortlist.terms import score_of
from queries.shortlist.weights import Weights
from tests.queries.shortlist.made_candidates import some_week


def some_score(noise: Random) -> Score:
    week = some_week(noise) or some_week(noise, 1)
    wanted = noise.choice((None, 0.0, 0.5, 1.0))
    return score_of(week, occasions_of(week), Weights(), wanted)


def test_facility_location() -> None:
    """The example of the issue's facts: what pairs of four photos cover (run by hand)."""
    alike = np.array([[1, 0.9, 0.1, 0], [0.9, 1, 0.1, 0], [0.1, 0.1, 1, 0.2], [0, 0, 0.2, 1]], np.float32)
    score = Score(alike, np.zeros(4))
    worth = {(0, 2): 3.1, (0, 3): 3.1, (1, 2): 3.1, (1, 3): 3.1, (2, 3): 2.2, (0, 1): 2.1}
    assert {pair: score.value(pair) for pair in worth} == pytest.approx(worth)


def test_a_group_is_worth_its_first_and_the_root_of_all() -> None:
    """The first of a group counts once, the square root of their number grows ever more slowly."""
    groups = Groups((0, 0, 0, 0, 1), (1.0, 3.0), first=10)
    score = Score(np.zeros((5, 1), np.float32), np.zeros(5), (groups,))
    assert [score.value(range(count)) for count in range(6)] == pytest.approx([0, 11, 10 + 2**0.5, 10 + 3**0.5, 12, 25])


def test_the_score_never_falls() -> None:
    """Monotone: a photo more is worth no less, for random choices of random weeks."""
    noise = Random(2)
    for _ in range(200):
        score = some_score(noise)
        places = range(len(score.own))
        chosen = {place for place in places if noise.random() < 0.4}
        more = {place for place in places if noise.random() < 0.2}
        assert score.value(chosen | more) >= score.value(chosen) - 1e-6


def test_a_photo_adds_the_less_the_more_are_chosen() -> None:
    """Submodular: what a photo adds to a choice is no more than what it adds to a part of it."""
    noise = Random(3)
    checked = 0
    for _ in range(400):
        score = some_score(noise)
        places = range(len(score.own))
        large = {place for place in places if noise.random() < noise.choice((0.2, 0.6))}
        small = {place for place in large if noise.random() < 0.5}
        for place in set(places) - large:
            to_small = score.value(small | {place}) - score.value(small)
            to_large = score.value(large | {place}) - score.value(large)
            assert to_small >= to_large - 1e-6
            checked += 1
    assert checked > 1000


def test_growing_gives_the_differences_of_the_value() -> None:
    """Step by step as by definition, whatever the order."""
    noise = Random(4)
    for _ in range(60):
        score = some_score(noise)
        growing, chosen = Growing(score), list[int]()
        for place in noise.sample(range(len(score.own)), len(score.own)):
            added = score.value([*chosen, place]) - score.value(chosen)
            assert growing.gain(place) == pytest.approx(added, abs=1e-5)
            growing.take(place)
            chosen.append(place)


def test_nothing_is_worth_nothing() -> None:
    """An empty choice, and an empty week."""
    assert some_score(Random(5)).value([]) == 0
    assert score_of([], [], Weights()).value([]) == 0
