"""Dots an inch."""

import pytest

from queries.fitting.resolution import dpi_of, is_blurry, lack_of, whole_dpi
from queries.fitting.weights import WEIGHTS
from queries.sleeves.values import Box
from tests.queries.fitting.made_spreads import picture

WIDE = Box(0, 0, 6, 4)


def test_pixels_of_a_print() -> None:
    """1800x1200 pixels on 6x4 inches, and 900x1200 on 3x4, are 300 dpi (facts page, common practice)."""
    assert dpi_of(picture(0, 1800, 1200), WIDE) == 300
    assert dpi_of(picture(0, 900, 1200), Box(0, 0, 3, 4)) == 300


def test_crop_does_not_change_it_and_zoom_does() -> None:
    """What is cut off makes a print no finer; a zoom makes it coarser."""
    assert dpi_of(picture(0, 1800, 1350), WIDE) == 300
    assert dpi_of(picture(0, 2400, 1200), WIDE) == 300
    assert dpi_of(picture(0, 1800, 1200, zoom=1.5), WIDE) == pytest.approx(200)


def test_lack_grows_as_dpi_fall() -> None:
    """Nothing is taken away from 300 dpi on, then ever more; 200 dpi are not blurry, 199 are."""
    lacks = [lack_of(dpi, WEIGHTS) for dpi in range(400, 0, -1)]
    assert lacks == sorted(lacks)
    assert lack_of(300, WEIGHTS) == 0 < lack_of(299, WEIGHTS)
    assert not is_blurry(200)
    assert is_blurry(199)


def test_what_is_blurry_is_never_told_as_200() -> None:
    """199.7 dpi look blurry, and are told as 199; all others are rounded."""
    assert [whole_dpi(dpi) for dpi in (199.2, 199.7, 200.0, 266.7)] == [199, 199, 200, 267]
