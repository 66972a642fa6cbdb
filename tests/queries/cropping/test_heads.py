"""Heads kept whole along one axis, against a search over all places."""

from random import Random

import pytest

from queries.cropping.heads import with_heads_whole


def worth(offset: float, length: float, spans: list[tuple[float, float]]) -> float:
    return sum(last - first for first, last in spans if offset - 1e-6 <= first and last <= offset + length + 1e-6)


def test_no_place_shows_more_of_the_heads() -> None:
    """Many random heads: a search in fine steps finds no window with more of them whole."""
    chance = Random(3)
    for _ in range(300):
        length, wanted = chance.uniform(0.1, 0.9), 0.0
        spans = []
        for _ in range(chance.randrange(1, 5)):
            start, size = chance.random(), min(chance.uniform(0.02, 0.4), length)
            spans.append((start * (1 - size), start * (1 - size) + size))
        wanted = chance.random() * (1 - length)
        found = with_heads_whole(wanted, length, spans)
        best = max(worth(step / 500 * (1 - length), length, spans) for step in range(501))
        assert 0 <= found <= 1 - length + 1e-12
        assert worth(found, length, spans) >= best - 1e-9


@pytest.mark.parametrize(
    ("wanted", "spans", "found"),
    [(0.3, [], 0.3), (0.3, [(0.4, 0.6)], 0.3), (0.0, [(0.5, 0.7)], 0.2), (0.5, [(0.1, 0.3)], 0.1)],
)
def test_the_window_moves_no_further_than_it_must(
    wanted: float, spans: list[tuple[float, float]], found: float
) -> None:
    """The nearest place that has the heads whole; the wanted one where that has them."""
    assert with_heads_whole(wanted, 0.5, spans) == pytest.approx(found)


def test_the_larger_of_two_that_do_not_fit_together() -> None:
    """Of two heads too far apart for the window the larger one is whole."""
    assert with_heads_whole(0.5, 0.4, [(0.0, 0.3), (0.8, 0.95)]) == pytest.approx(0.0)


def test_of_a_head_that_does_not_fit_the_middle() -> None:
    """A head longer than the window is shown about its middle."""
    assert with_heads_whole(0.0, 0.4, [(0.1, 0.9)]) == pytest.approx(0.3)


def test_a_head_that_cannot_be_whole_is_not_cut_in_two() -> None:
    """Beside one that is whole, the other is left out rather than cut, where that can be."""
    spans = [(0.1, 0.4), (0.55, 0.75)]
    assert with_heads_whole(0.1, 0.5, spans) == pytest.approx(0.05)
