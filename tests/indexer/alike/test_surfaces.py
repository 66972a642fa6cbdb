"""Whether two pictures show the same surfaces: made pictures, moved, lit otherwise and painted anew."""

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from indexer.alike.coefficients import OTHER_SURFACES
from indexer.alike.found_again import PART, REACH, found_again, structure_of
from indexer.alike.surfaces import surface_difference, surfaces_of
from indexer.facts.close_looks import close_look_of
from tests.indexer.alike.painted import HEIGHT, WIDTH, colours, grain, painted

SEEDS = range(6)


def difference(one: Image.Image, other: Image.Image) -> float | None:
    return surface_difference(*(surfaces_of(close_look_of(image)) for image in (one, other)))


def lit(image: Image.Image, *factors: float) -> Image.Image:
    pixels = np.asarray(image, np.float64) * factors
    return Image.fromarray(pixels.clip(0, 255).astype(np.uint8))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_surfaces_differ_little(seed: int) -> None:
    """Moved, brighter, in other light, with the grain of another shot."""
    light, colour = grain(seed), colours(seed)
    first = painted(light, colour)
    moved = painted(light, colour, 9, -14)
    noisy = np.asarray(moved, np.float64) + np.random.default_rng(seed).normal(0, 4, (HEIGHT, WIDTH, 1))
    for other in (
        first,
        moved,
        lit(moved, 1.12, 1.12, 1.12),
        lit(moved, 1.05, 1.0, 0.95),
        Image.fromarray(noisy.clip(0, 255).astype(np.uint8)),
    ):
        found = difference(first, other)
        assert found is not None
        assert found < 0.75 * OTHER_SURFACES


@pytest.mark.parametrize("seed", SEEDS)
def test_surfaces_painted_anew_differ_much(seed: int) -> None:
    """The structure is the same to the last spot."""
    light = grain(seed)
    found = difference(painted(light, colours(seed)), painted(light, colours(seed + 1), 9, -14))
    assert found is not None
    assert found > 2 * OTHER_SURFACES


@pytest.mark.parametrize("seed", SEEDS)
def test_pictures_that_share_too_little_say_nothing(seed: int) -> None:
    """Other structure, or none."""
    one = painted(grain(seed), colours(seed))
    assert difference(one, painted(grain(seed + 50), colours(seed))) is None
    assert difference(one, painted(0 * grain(seed), colours(seed))) is None
    assert difference(painted(0 * grain(seed), colours(seed)), one) is None


def test_neither_picture_is_the_first() -> None:
    """Of one shape or of two."""
    light = grain(1)
    one, other = painted(light, colours(1)), painted(light, colours(2), 5, 3)
    upright = other.crop((0, 0, 180, HEIGHT))
    for second in (other, upright):
        assert difference(one, second) == difference(second, one)


@pytest.mark.parametrize(("down", "across"), [(0, 0), (12, -19), (-15, 5)])
def test_parts_are_found_where_they_went(down: int, across: int) -> None:
    """Nearly all that are still in the picture, to the pixel."""
    light = grain(3)
    spotted = (120 + light).clip(0, 255).astype(np.uint8)
    one, other = spotted[20:160, 20:212], spotted[20 + down : 160 + down, 20 + across : 212 + across]
    found = found_again(structure_of(one), structure_of(other))
    there = found.places - (down, across)
    is_inside = ((there >= 0) & (there + PART <= one.shape)).all(1)
    assert is_inside.sum() > 50
    is_right = (found.there[is_inside] == there[is_inside]).all(1)
    assert is_right.mean() > 0.95
    assert (found.scores[is_inside][is_right] > 0.9).mean() > 0.9


def test_what_may_lie_beyond_reach_is_not_found() -> None:
    """Where it fits best at the edge of what is searched it may fit better further on: repeated forms do."""
    spotted = (120 + grain(3)).clip(0, 255).astype(np.uint8)
    found = found_again(*(structure_of(spotted[20:160, left : left + 192]) for left in (20, 20 + REACH)))
    at_edge = np.abs(found.there - found.places).max(1) == REACH
    assert at_edge.mean() > 0.8
    assert (found.scores[at_edge] == 0).all()


@pytest.mark.parametrize("seed", SEEDS)
def test_clipped_parts_say_nothing(seed: int) -> None:
    """Too light a picture of the same surfaces has other colours where it is clipped, and its own in the rest."""
    light, colour = grain(seed) / 2, colours(seed)
    light[:, : WIDTH // 2] += 60
    one = painted(light, colour)
    other = lit(painted(light, colour, 3, 5), 1.25, 1.25, 1.25)
    looks = [close_look_of(image) for image in (one, other)]
    blind = [replace(look, clipped=np.zeros_like(look.clipped)) for look in looks]
    found, without = (surface_difference(*map(surfaces_of, pair)) for pair in (looks, blind))
    assert found is not None
    assert without is not None
    assert found < without


@pytest.mark.parametrize("size", [(24, 16), (4000, 30), (30, 4000), (1, 1)])
def test_a_picture_of_any_shape_can_be_laid_over_others(size: tuple[int, int]) -> None:
    """A tiny one, and strips: nothing is found, and nothing breaks."""
    picture = Image.effect_noise(size, 80).convert("RGB")
    difference(picture, painted(grain(1), colours(1)))
    assert difference(picture, Image.new("RGB", size, "white")) is None
