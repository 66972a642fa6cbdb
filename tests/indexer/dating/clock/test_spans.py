"""Spans of own time around photos that belong together."""

import random

import pytest

from indexer.dating.clock.seconds import DAY
from indexer.dating.clock.spans import Span, lies_in, spans_of, without


def test_all_photos_need_no_border() -> None:
    """A span around all photos is open at both ends."""
    assert spans_of({0, 1}, [10, 20]) == [(None, None)]


def test_borders_are_first_photos() -> None:
    """A span begins with its first photo and ends before the first photo behind it."""
    assert spans_of({1, 2}, [10, 20, 30, 40]) == [(20, 40)]


def test_a_mark_between_photos_is_the_border() -> None:
    """Where the clock changed at a known time between two photos, that time is the border."""
    assert spans_of({1, 2}, [10, 20, 30, 40], [15, 35]) == [(15, 35)]
    assert spans_of({1, 2}, [10, 20, 30, 40], [25]) == [(20, 40)]


def test_an_end_beyond_all_photos() -> None:
    """The end of a season bounds a span though no photo lies beyond it yet."""
    assert spans_of({0, 1}, [10, 20], ends=[5, 50]) == [(5, 50)]


def test_photos_of_one_second_that_do_not_belong_together() -> None:
    """Where only one of two photos of one second is chosen, neither is in the span."""
    assert spans_of({0, 1}, [10, 20, 20, 30]) == [(None, 20)]


def test_tight_ends() -> None:
    """A tight span begins with its first photo and ends with the day of the last, or before the next photo."""
    assert spans_of({0}, [10, 5 * DAY], tight=True) == [(10, DAY)]
    assert spans_of({0}, [10, 50], tight=True) == [(10, 50)]


@pytest.mark.parametrize("seed", range(300))
def test_spans_hold_the_chosen_and_no_other(seed: int) -> None:
    """Whatever is chosen, the spans hold each chosen photo once and no other, but for equal seconds."""
    random_ = random.Random(seed)
    own = [random_.randrange(60) for _ in range(random_.randint(1, 30))]
    chosen = {i for i in range(len(own)) if random_.random() < 0.5}
    marks = sorted(random_.sample(range(60), 5))
    spans = spans_of(chosen, own, marks, tight=random_.random() < 0.5)
    mixed = {own[i] for i in chosen} & {own[i] for i in range(len(own)) if i not in chosen}
    for i, time in enumerate(own):
        assert sum(lies_in(time, span) for span in spans) == (i in chosen and time not in mixed)


@pytest.mark.parametrize("seed", range(300))
def test_what_is_left_of_a_span(seed: int) -> None:
    """What is left is what lies in the span and in none of the others, each second in one piece."""
    random_ = random.Random(seed)

    def some() -> Span:
        low, high = sorted(random_.sample(range(40), 2))
        return random_.choice([None, low]), random_.choice([None, high])

    span, taken = some(), [some() for _ in range(random_.randint(0, 3))]
    left = without(span, taken)
    for time in range(-1, 41):
        wanted = lies_in(time, span) and not any(lies_in(time, hole) for hole in taken)
        assert sum(lies_in(time, piece) for piece in left) == wanted
