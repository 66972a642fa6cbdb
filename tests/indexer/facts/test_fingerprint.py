"""Fingerprints against the hashing library and against published colours."""

import imagehash
import numpy as np
import pytest
from PIL import Image

from indexer.facts.fingerprint import GREY_SIDE, LAYOUT_SIDE, cielab, fingerprint_of, layout_of, packed
from tests.indexer.facts.scenes import bits_apart, scene


def layout(image):
    return np.frombuffer(layout_of(image), np.uint8).reshape(LAYOUT_SIDE, LAYOUT_SIDE, 3).astype(float)


@pytest.mark.parametrize("seed", range(5))
def test_hashes_are_the_librarys_own(seed):
    """They are packed in the order of the library's text, first bit first."""
    picture = scene(331, 247, seed)
    print_ = fingerprint_of(picture)
    assert print_.phash.hex() == str(imagehash.phash(picture))
    assert print_.dhash.hex() == str(imagehash.dhash(picture))


def test_bits_are_packed_row_by_row():
    """The first bit of the first row is the highest of the first byte."""
    bits = np.zeros((8, 8), bool)
    bits[0, 0] = bits[0, 7] = bits[7, 6] = True
    assert packed(imagehash.ImageHash(bits)) == bytes((0b10000001, 0, 0, 0, 0, 0, 0, 0b00000010))


@pytest.mark.parametrize("value", [1, 90, 255])
def test_flat_pictures_share_one_hash_and_have_no_contrast(value):
    """That is what the contrast is kept for."""
    print_ = fingerprint_of(Image.new("RGB", (300, 200), (value, value, value)))
    assert (print_.phash.hex(), print_.dhash.hex(), print_.contrast) == ("8000000000000000", "0000000000000000", 0)
    assert print_.grey == bytes([value]) * GREY_SIDE**2


def test_grey_is_the_whole_picture_squashed():
    """Left half black, right half white, whatever the shape; contrast is the standard deviation."""
    picture = Image.new("RGB", (320, 90))
    picture.paste((255, 255, 255), (160, 0, 320, 90))
    print_ = fingerprint_of(picture)
    grey = np.frombuffer(print_.grey, np.uint8).reshape(GREY_SIDE, GREY_SIDE)
    assert (grey[:, :32] == 0).all()
    assert (grey[:, 32:] == 255).all()
    assert print_.contrast == pytest.approx(127.5)
    assert type(print_.contrast) is float


@pytest.mark.parametrize("seed", range(8))
def test_a_smaller_picture_has_nearly_the_same_hash(seed):
    """So a hash may be taken of a scaled decode: within 2 bits of that of the whole."""
    whole = scene(2000, 1500, seed)
    assert bits_apart(fingerprint_of(whole.reduce(6)).phash, packed(imagehash.phash(whole))) <= 2


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        # sRGB to CIELAB under D65 (IEC 61966-2-1, CIE 15), as several libraries give it.
        ((255, 0, 0), (53.2371, 80.0901, 67.2033)),
        ((0, 255, 0), (87.7355, -86.1816, 83.1866)),
        ((0, 0, 255), (32.3009, 79.1953, -107.8555)),
        ((255, 255, 255), (100, 0, 0)),
        ((0, 0, 0), (0, 0, 0)),
        ((1, 1, 1), (0.2742, 0, 0)),  # the straight part: 903.3 * 1 / (255 * 12.92)
    ],
)
def test_cielab_of_published_colours(colour, expected):
    """Within the difference that the rounding of the standard's matrix makes."""
    assert cielab(np.array([[colour]], np.uint8))[0, 0] == pytest.approx(expected, abs=0.02)


def test_the_layout_holds_the_mean_of_each_cell():
    """Lightness times 2.55 and colours moved by 128, rounded; what is outside of a byte is clipped."""
    picture = Image.new("RGB", (160, 80), (255, 255, 255))
    picture.paste((255, 0, 0), (0, 0, 20, 10))
    picture.paste((0, 0, 255), (20, 0, 40, 10))
    cells = layout(picture)
    assert cells[0, 0] == pytest.approx((53.24 * 2.55, 80.09 + 128, 67.20 + 128), abs=0.6)
    assert cells[0, 1] == pytest.approx((32.30 * 2.55, 79.20 + 128, 128 - 107.86), abs=0.6)
    assert cells[7, 7] == pytest.approx((255, 128, 128), abs=0.6)
    halves = Image.new("RGB", (128, 128))
    halves.paste((255, 255, 255), (0, 0, 8, 128))
    assert layout(halves)[:, 0] == pytest.approx(np.tile((127.5, 128, 128), (8, 1)), abs=1)
