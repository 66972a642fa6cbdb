"""The spread drawn: what stands where, by its colours."""

from pathlib import Path

import pytest
from PIL import Image

from queries.cropping.values import WHOLE, Window
from queries.spread.paper import PALE, PAPER, TABLE
from queries.spread.picture import Source, draw_spread
from tests.queries.spread.made_spread import LEFT, RIGHT, small_spread

DPI = 40
KEYS = [letter * 32 for letter in "abcd"]


@pytest.fixture
def sources(tmp_path: Path) -> dict[str, Source]:
    """Photos of one half red and one half green; the second one lies on its side and says so."""
    halves = Image.new("RGB", (600, 400), "red")
    halves.paste("lime", (300, 0, 600, 400))
    for key in KEYS:
        halves.save(tmp_path / f"{key[0]}.png")
    turned = Image.Exif()
    turned[0x0112] = 3
    halves.transpose(Image.Transpose.ROTATE_180).save(tmp_path / "b.png", exif=turned)
    return {key: Source(key[:5], str(tmp_path / f"{key[0]}.png")) for key in KEYS}


def colour(drawn: Image.Image, page: tuple[float, float], x: float, y: float) -> str:
    pixel = drawn.getpixel((round((page[0] + x) * DPI), round((page[1] + y) * DPI)))
    assert isinstance(pixel, tuple)
    return "#{:02x}{:02x}{:02x}".format(*(int(value) for value in pixel))


def near(one: str, other: str) -> bool:
    return all(abs(int(one[at : at + 2], 16) - int(other[at : at + 2], 16)) < 12 for at in (1, 3, 5))


def test_everything_stands_in_its_pocket(sources: dict[str, Source]) -> None:
    """Both pages side by side: a photo, a card, an empty pocket, a photo on paper, a collage on its background."""
    drawn = draw_spread(small_spread(dict.fromkeys(KEYS, WHOLE)), sources, "30 Mar - 5 Apr 2026, week 14", dpi=DPI)
    assert drawn.mode == "RGB"
    assert drawn.size == (1000, 380)
    assert near(colour(drawn, LEFT, 1.5, 2), "#ff0000")
    assert near(colour(drawn, LEFT, 4.5, 2), "#00ff00")
    assert colour(drawn, LEFT, 9, 3) not in ("#ffffff", TABLE)
    assert colour(drawn, LEFT, 3, 6) == "#ffffff"
    assert colour(drawn, LEFT, 6.25, 6) == PAPER
    assert near(colour(drawn, LEFT, 7, 6), "#ff0000")
    assert colour(drawn, RIGHT, 3, 2) == "#2040c0"
    assert near(colour(drawn, RIGHT, 0.7, 1.5), "#ff0000")
    assert colour(drawn, RIGHT, 9, 6) == "#ffffff"
    assert colour(drawn, (0, 0), 0.1, 4) == TABLE


def test_corners_are_round(sources: dict[str, Source]) -> None:
    """The background shows in the corners of a collage's cells, not in their sides."""
    drawn = draw_spread(small_spread(dict.fromkeys(KEYS, WHOLE)), sources, "", dpi=DPI)
    assert near(colour(drawn, RIGHT, 5.76, 0.24), "#2040c0")
    assert near(colour(drawn, RIGHT, 5.3, 0.3), "#00ff00")


def test_the_window_is_what_is_shown(sources: dict[str, Source]) -> None:
    """A window of the right half shows green alone."""
    drawn = draw_spread(small_spread({KEYS[0]: Window(0.55, 0, 1, 1)}), sources, "", dpi=DPI)
    assert near(colour(drawn, LEFT, 1.5, 2), "#00ff00")
    assert near(colour(drawn, LEFT, 4.5, 2), "#00ff00")


def test_what_cannot_be_shown_is_a_grey_cell(sources: dict[str, Source], tmp_path: Path) -> None:
    """A missing photo, a broken one, one without a file: grey, and all others are drawn."""
    Path(tmp_path / "a.png").write_bytes(b"broken")
    some = {KEYS[0]: sources[KEYS[0]], KEYS[1]: Source("bbbbb", None), KEYS[3]: sources[KEYS[3]]}
    drawn = draw_spread(small_spread(), some, "", dpi=DPI)
    for page, x, y in ((LEFT, 1.5, 3), (LEFT, 7, 6.8), (RIGHT, 0.7, 1)):
        assert colour(drawn, page, x, y) == PALE
    assert near(colour(drawn, RIGHT, 3.6, 1), "#ff0000")


def test_a_picture_of_one_pixel_is_drawn(sources: dict[str, Source], tmp_path: Path) -> None:
    """However small the picture and its window."""
    Image.new("RGB", (1, 1), "red").save(tmp_path / "a.png")
    drawn = draw_spread(small_spread({KEYS[0]: Window(0.999, 0.999, 1, 1)}), sources, "", dpi=DPI)
    assert near(colour(drawn, LEFT, 1.5, 2), "#ff0000")
