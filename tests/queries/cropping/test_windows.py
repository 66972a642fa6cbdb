"""The window of a cell on a picture: the aspect, inside the picture, one side whole, and where it lies."""

from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from queries.cropping import window_of
from queries.cropping.values import WHOLE, Window

SIDES = some.integers(1, 20_000)
ASPECTS = some.floats(0.05, 20)
TOLD = some.sampled_from(["left", "center", "right", "top", "bottom", 0, 0.35, 1.0, None])


def bump(rows: int, columns: int, row: int, column: int) -> np.ndarray:
    """A map with detail in one place alone, and a little everywhere."""
    detail = np.full((rows, columns), 0.01)
    detail[row - 1 : row + 2, column - 1 : column + 2] = 5.0
    return detail


@settings(max_examples=300, deadline=None)
@given(SIDES, SIDES, ASPECTS, TOLD, some.floats(1, 4), some.integers(0, 10_000))
def test_the_window_is_of_the_aspect_and_inside(
    width: int, height: int, aspect: float, told: str | float | None, zoom: float, seed: int
) -> None:
    """Whatever is seen or told: inside the picture, of the cell's aspect to a pixel, one side whole unless zoomed."""
    noise = np.random.default_rng(seed)
    detail = noise.random((noise.integers(1, 64), noise.integers(1, 64))) if seed % 3 else None
    corners = np.sort(noise.random((seed % 4, 2, 2)), axis=1)
    heads = [Window(first[0], first[1], last[0], last[1]) for first, last in corners]
    window = window_of(width, height, aspect, detail, heads, told=told, zoom=zoom)
    assert 0 <= window.left < window.right <= 1
    assert 0 <= window.top < window.bottom <= 1
    assert window.width * width == pytest.approx(window.height * height * aspect, rel=1e-6)
    assert max(window.width, window.height) == pytest.approx(1 / zoom)
    assert window.share == pytest.approx(min(aspect * height / width, width / height / aspect) / zoom**2, rel=1e-6)


@pytest.mark.parametrize(
    ("sides", "aspect", "lost"),
    [((4000, 3000), 3 / 2, 1 / 9), ((6000, 4000), 4 / 3, 1 / 9), ((1920, 1080), 3 / 2, 5 / 32),
     ((1920, 1080), 4 / 3, 1 / 4)],
)  # fmt: skip
def test_losses_by_hand(sides: tuple[int, int], aspect: float, lost: float) -> None:
    """4:3 on 3:2 paper loses 1/9, 3:2 on 4:3 1/9, 16:9 on 3:2 5/32 and on 4:3 a quarter (plain arithmetic)."""
    assert 1 - window_of(*sides, aspect, None).share == pytest.approx(lost)


def test_a_picture_of_the_aspect_is_whole() -> None:
    """Nothing is cut where nothing has to be."""
    assert window_of(600, 400, 1.5, bump(20, 30, 3, 3)) == WHOLE


def test_the_window_goes_where_the_detail_is() -> None:
    """The place with detail stands inside, wherever along the long axis it is."""
    for column in range(2, 58):
        window = window_of(6000, 4000, 2 / 3, bump(40, 60, 20, column))
        assert window.left <= (column - 1) / 60 + 1e-3, column
        assert window.right >= (column + 2) / 60 - 1e-3, column


def test_without_detail_the_middle() -> None:
    """Nothing to go by: the middle of a landscape picture, and of a portrait that stays one."""
    assert window_of(3000, 2000, 1, None).left == pytest.approx(1 / 6)
    assert window_of(3000, 2000, 1, np.ones((40, 60))).left == pytest.approx(1 / 6, abs=0.01)
    assert window_of(2000, 3000, 3 / 4, None).top == pytest.approx((1 - 8 / 9) / 2)


def test_a_portrait_cut_to_landscape_shows_the_upper_third() -> None:
    """Heads are there: the window's middle lies about a third down, and never above the picture."""
    window = window_of(2000, 3000, 3 / 2, None)
    assert (window.top + window.bottom) / 2 == pytest.approx(1 / 3, abs=0.02)
    assert window_of(2000, 2000, 3 / 2, None).top == pytest.approx(0, abs=0.06)


def test_a_portrait_cut_to_a_square_is_cut_less_at_the_top() -> None:
    """Heads and tree tops are there; a wide picture cut to a square is cut alike at both sides."""
    window = window_of(3000, 4000, 1.0, None)
    assert window.top < 1 - window.bottom
    wide = window_of(4000, 3000, 1.0, None)
    assert wide.left == pytest.approx(1 - wide.right)


def test_a_little_noise_moves_little() -> None:
    """Five per cent of noise on every cell moves no window by more than two per cent of the side."""
    chance, noise = Random(5), np.random.default_rng(5)
    for _ in range(150):
        detail = bump(32, 48, chance.randrange(2, 30), chance.randrange(2, 46)) + noise.random((32, 48)) * 0.2
        noisy = detail * (1 + 0.05 * noise.standard_normal(detail.shape)).clip(0)
        one, other = (window_of(4800, 3200, 2 / 3, each) for each in (detail, noisy))
        assert abs(one.left - other.left) < 0.02


def test_heads_are_never_cut_when_they_fit() -> None:
    """All of several heads are whole whenever a window could hold them, against all detail."""
    chance = Random(11)
    for _ in range(400):
        width, height = chance.randrange(300, 5000), chance.randrange(300, 5000)
        aspect = chance.uniform(0.4, 2.5)
        room = window_of(width, height, aspect, None)
        left, top = chance.uniform(0, 1 - room.width), chance.uniform(0, 1 - room.height)
        heads = []
        for _ in range(chance.randrange(1, 4)):
            across, down = sorted(chance.random() for _ in "ab"), sorted(chance.random() for _ in "ab")
            x, y = ([start + size * share for share in pair] for start, size, pair in
                    ((left, room.width, across), (top, room.height, down)))  # fmt: skip
            heads.append(Window(x[0], y[0], x[1], y[1]))
        detail = bump(30, 30, chance.randrange(2, 28), chance.randrange(2, 28))
        window = window_of(width, height, aspect, detail, heads)
        grown = Window(window.left - 1e-9, window.top - 1e-9, window.right + 1e-9, window.bottom + 1e-9)
        assert all(grown.holds(head) for head in heads)


def test_a_zoom_stays_about_the_middle_and_with_the_heads() -> None:
    """Zoomed, the window's middle stays, unless a head would be cut that fits."""
    plain, near = (window_of(3000, 2000, 1, bump(20, 30, 10, 8), zoom=zoom) for zoom in (1, 1.5))
    assert plain.holds(near)
    assert near.left + near.right == pytest.approx(plain.left + plain.right)
    head = Window(0.4, 0.0, 0.5, 0.2)
    assert window_of(3000, 2000, 1, None, [head], zoom=1.5).top == 0


@pytest.mark.parametrize(
    ("told", "left"), [("left", 0), ("center", 0.25), ("right", 0.5), (0, 0), (0.35, 0.175), (1, 0.5)]
)
def test_told_places_overrule_detail_and_heads(told: str | float, left: float) -> None:
    """What the person says holds, whatever is to be seen."""
    head = Window(0.7, 0.2, 0.9, 0.6)
    window = window_of(2000, 1000, 1, bump(20, 40, 10, 30), [head], told=told)
    assert window.left == pytest.approx(left)


def test_a_word_of_the_other_axis_needs_a_zoom() -> None:
    """ "top" moves nothing where the whole height is shown, and the zoomed window to the top edge."""
    assert window_of(2000, 1000, 1, None, told="top") == window_of(2000, 1000, 1, None)
    zoomed = window_of(2000, 1000, 1, None, told="top", zoom=2)
    assert zoomed.top == 0
    assert zoomed.left + zoomed.right == pytest.approx(1)


@pytest.mark.parametrize(
    "wrong",
    [{"width": 0}, {"height": -3}, {"aspect": 0.0}, {"aspect": float("nan")}, {"zoom": 0.5}, {"zoom": float("nan")},
     {"told": "middle"}, {"told": 1.5}, {"told": float("nan")}],
)  # fmt: skip
def test_what_cannot_be_is_refused(wrong: dict[str, object]) -> None:
    """Sizes, aspects, zooms and places that cannot be raise ValueError."""
    given = {"width": 10, "height": 20, "aspect": 1.0, "detail": None} | wrong
    with pytest.raises(ValueError, match=r"say|no picture|no cell"):
        window_of(**given)  # type: ignore[arg-type]
