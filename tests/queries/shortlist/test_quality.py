"""How good a photo is, as far as numbers tell."""

from random import Random

import pytest

from queries.shortlist.occasions import occasions_of
from queries.shortlist.quality import qualities
from queries.shortlist.values import Candidate
from tests.queries.shortlist.made_candidates import candidate, some_week


def of(*photos: Candidate) -> list[float]:
    return [float(value) for value in qualities(photos, occasions_of(photos))]


def test_a_good_photo_has_full_quality() -> None:
    """Sharp, well exposed, rich in contrast and large enough for print: 1."""
    assert of(candidate()) == [1]


def test_sharpness_is_held_against_the_occasion() -> None:
    """A photo of little sharpness is as good as can be alone, and the worse among sharper ones of its occasion."""
    soft, sharp, elsewhere = candidate(sharpness=20.0), candidate(sharpness=200.0), candidate(day=1, sharpness=20.0)
    assert of(soft, elsewhere) == [1, 1]
    assert of(soft, sharp, elsewhere) == pytest.approx([0.1, 1, 1])


def test_half_as_sharp_is_one_step_down() -> None:
    """Each halving takes a third of what can be taken, down to an eighth."""
    photos = [candidate(sharpness=400.0 / 2**step) for step in (0, 0, 0, 1, 2, 3, 4)]
    assert of(*photos) == pytest.approx([1, 1, 1, 0.7, 0.4, 0.1, 0.1])


def test_one_photo_of_gravel_does_not_blur_the_others() -> None:
    """The measure is the upper quartile of the occasion, not its sharpest."""
    assert of(*[candidate(sharpness=100.0)] * 7, candidate(sharpness=5000.0)) == [1] * 8


@pytest.mark.parametrize(
    "fault",
    [
        {"dark": 0.3},
        {"bright": 0.3},
        {"contrast": 10.0},
        {"width": 640, "height": 480},
        {"sharpness": None},
        {"dark": None},
        {"contrast": None},
    ],
)
def test_each_fault_costs(fault: dict[str, float | None]) -> None:
    """Clipped, flat or small photos, and those of which something is not known, are worth less, never nothing."""
    (value,) = of(candidate(**fault))
    assert 0.4 < value < 1


def test_a_photo_as_large_as_its_print_is_large_enough() -> None:
    """1800 x 1200 pixels fill a 6x4 inch print at 300 dpi (common practice)."""
    assert of(candidate(width=1800, height=1200)) == [1]
    assert of(candidate(width=900, height=600)) == [0.75]


def test_quality_is_a_share() -> None:
    """Above 0 and at most 1, whatever the week."""
    noise = Random(1)
    for _ in range(50):
        assert all(0 < value <= 1 for value in of(*some_week(noise)))


def test_no_sharpness_at_all_is_no_reason() -> None:
    """An occasion in which nothing has any detail blames none."""
    assert of(candidate(sharpness=0.0), candidate(sharpness=0.0)) == [1, 1]
