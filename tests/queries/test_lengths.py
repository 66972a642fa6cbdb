"""Micrometres and pixels."""

import pytest

from queries.lengths import in_pixels, micrometres


@pytest.mark.parametrize(
    ("length", "dpi", "pixels"),
    [(25_400, 300, 300), (76_200, 300, 900), (152_000, 300, 1795), (127, 100, 1), (126, 100, 0), (0, 300, 0)],
)
def test_edges_lie_at_the_nearest_pixel(length: int, dpi: int, pixels: int) -> None:
    """152 mm are 1795.28 pixels; half a pixel counts as one."""
    assert in_pixels(length, dpi) == pixels


def test_inches_and_millimetres_are_whole_micrometres() -> None:
    """A sixteenth of an inch is 1587.5 of them, and rounded; all sizes in use are exact."""
    assert [micrometres(inches) for inches in (1, 0.125, 4.25, 102 / 25.4)] == [25_400, 3_175, 107_950, 102_000]
