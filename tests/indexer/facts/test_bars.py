"""Bars and frames are cut off; what only looks like them stays."""

import io

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFilter, ImageOps

from indexer.facts.bars import without_bars
from indexer.facts.fingerprint import fingerprint_of
from tests.indexer.alike.looks import scene
from tests.indexer.facts.scenes import as_jpeg, bits_apart

COLOURS = ["black", "white", "gray", (30, 60, 120)]


def on_canvas(picture: Image.Image, width: int, height: int, colour: str | tuple[int, int, int]) -> Image.Image:
    """In the middle of a canvas."""
    canvas = Image.new("RGB", (width, height), colour)
    canvas.paste(picture, ((width - picture.width) // 2, (height - picture.height) // 2))
    return canvas


def saved(picture: Image.Image, quality: int = 70) -> Image.Image:
    return Image.open(io.BytesIO(as_jpeg(picture, quality=quality))).convert("RGB")


@pytest.mark.parametrize("colour", COLOURS)
@pytest.mark.parametrize(
    ("width", "height"),
    [(320, 320), (320, 270), (500, 240), (340, 254), (420, 400)],
    ids=["square", "letterbox", "beside it", "frame", "canvas"],
)
def test_what_is_around_a_picture_is_cut_off(width: int, height: int, colour: str | tuple[int, int, int]) -> None:
    """To the pixel as it was made; saved as JPEG to a pixel or two."""
    for seed in range(10):
        picture = scene(seed)
        assert without_bars(on_canvas(picture, width, height, colour)).tobytes() == picture.tobytes()
        cut = without_bars(saved(on_canvas(picture, width, height, colour)))
        assert max(abs(cut.width - 320), abs(cut.height - 240)) <= 4


def test_a_frame_within_bars_is_cut_off_too() -> None:
    """A print with a white border, shown on black."""
    picture = scene(4)
    assert without_bars(on_canvas(ImageOps.expand(picture, 8, "white"), 500, 256, "black")).size == picture.size


def test_most_pictures_are_left_as_they_are() -> None:
    """The very same picture comes back."""
    for seed in range(40):
        picture = scene(seed)
        assert without_bars(picture) is picture


def test_a_sky_or_a_wall_is_no_bar() -> None:
    """Black above and below a lit street, a thing on white, a page of text: the colour ends here and there."""
    random = np.random.default_rng(3)
    night = Image.new("RGB", (320, 240), (4, 4, 8))
    draw = ImageDraw.Draw(night)
    for x in range(0, 320, 8):  # roofs against the sky, lit by the street's lamps
        draw.rectangle((x, 90 + random.integers(30), x + 7, 180 - random.integers(30)), fill=(120, 90, 60))
    thing = Image.new("RGB", (320, 240), (248, 248, 246))
    ImageDraw.Draw(thing).ellipse((60, 40, 260, 200), fill=(150, 60, 40))
    page = Image.new("RGB", (240, 320), "white")
    draw = ImageDraw.Draw(page)
    for y in range(30, 290, 10):
        for x in range(25, 210, 25):
            draw.line((x, y, x + random.integers(8, 18), y), fill="black", width=2)
    for picture in (night, thing, page):
        assert without_bars(picture) is picture
        assert without_bars(saved(picture)).size == picture.size


def test_bars_have_one_colour_and_stand_at_both_ends() -> None:
    """Not a dark sky over snow, and not one dark strip at the bottom."""
    striped = Image.new("RGB", (320, 320), "black")
    striped.paste(scene(1), (0, 40))
    striped.paste((250, 250, 250), (0, 280, 320, 320))
    assert without_bars(striped) is striped
    below = ImageOps.pad(scene(1), (320, 300), color="black", centering=(0, 0))
    assert without_bars(below) is below


@pytest.mark.parametrize("colour", COLOURS)
def test_a_picture_of_one_colour_stays(colour: str | tuple[int, int, int]) -> None:
    """There is nothing between the bars; nor is a narrow strip between broad bars a picture."""
    flat = Image.new("RGB", (320, 240), colour)
    assert without_bars(flat) is flat
    strip = on_canvas(scene(1).resize((320, 60)), 320, 320, colour)
    assert without_bars(strip) is strip


def test_the_smallest_pictures_are_answered() -> None:
    """One pixel, one row, one column, random pixels."""
    random = np.random.default_rng(5)
    for width, height in [(1, 1), (1, 9), (9, 1), (2, 2), (3, 7)]:
        picture = Image.fromarray(random.integers(0, 256, (height, width, 3), np.uint8))
        assert min(without_bars(picture).size) >= 1


def test_a_picture_in_bars_has_the_fingerprint_of_the_picture() -> None:
    """Also when it was softened and saved again."""
    for seed in range(8):
        picture = scene(seed)
        barred = saved(on_canvas(picture, 320, 320, "navy").filter(ImageFilter.GaussianBlur(0.6)))
        one, other = fingerprint_of(picture), fingerprint_of(barred)
        assert bits_apart(one.phash, other.phash) <= 4
        assert one.contrast == pytest.approx(other.contrast, rel=0.05)
