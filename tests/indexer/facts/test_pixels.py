"""Looking at a picture file: from the thumbnail where that will do, else from the picture; and whatever the content."""

import io
import random

import imagehash
import numpy as np
import pytest
from PIL import Image, ImageFile
from pillow_heif import from_pillow

from indexer.facts import pictures
from indexer.facts.fingerprint import packed
from indexer.facts.pixels import NoPixels, PixelFacts, look_at
from tests.indexer.facts.containers.file_makers import by_pillow
from tests.indexer.facts.scenes import as_jpeg, bits_apart, letterboxed, photo, scene, small, stored
from tests.indexer.facts.test_picture_colours import P3, SRGB_CURVE, icc_profile

UPRIGHT = scene(1280, 960)


@pytest.fixture
def look(tmp_path):
    """A function that looks at a file of that content."""

    def look_at_content(data, may_trust_thumbnail=True, name="photo.jpg"):
        path = tmp_path / name
        path.write_bytes(data)
        return look_at(str(path), may_trust_thumbnail=may_trust_thumbnail)

    return look_at_content


def heif(image, **options):
    file = io.BytesIO()
    from_pillow(image).save(file, quality=80, **options)
    return file.getvalue()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_all_orientations_have_one_fingerprint(look, orientation):
    """From the thumbnail and from the picture alike, within 4 bits of the hash of the whole upright picture."""
    lying = stored(UPRIGHT, orientation)
    data = photo(lying, small(lying), orientation=orientation)
    for trusting in (True, False):
        facts = look(data, trusting)
        assert facts.made_from == ("thumbnail" if trusting else "decode")
        assert bits_apart(facts.fingerprint.phash, packed(imagehash.phash(UPRIGHT))) <= 4
        # In a byte of the hash by differences, a picture that is not turned upright differs in about half of its bits.
        assert bits_apart(facts.fingerprint.dhash, packed(imagehash.dhash(UPRIGHT))) <= 8


@pytest.mark.parametrize("seed", range(6))
def test_thumbnail_and_picture_agree(look, seed):
    """A thumbnail with bars, cut, gives the hash of the picture within 4 bits, and nearly its grey and its colours."""
    picture = scene(1500, 1000, seed)
    data = photo(picture, letterboxed(picture))
    guess, sure = look(data, True), look(data, False)
    assert (guess.made_from, sure.made_from) == ("thumbnail", "decode")
    assert bits_apart(guess.fingerprint.phash, sure.fingerprint.phash) <= 4
    for part in ("grey", "layout"):
        one, other = (np.frombuffer(getattr(f.fingerprint, part), np.uint8).astype(int) for f in (guess, sure))
        assert np.abs(one - other).mean() < 3
    assert guess.sharpness == (None, None, None)
    assert all(sure.sharpness)


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (by_pillow(UPRIGHT, "PNG"), "a.png"),
        (by_pillow(UPRIGHT, "WEBP", quality=90), "a.webp"),
        (by_pillow(UPRIGHT, "TIFF"), "a.tif"),
        (by_pillow(UPRIGHT.convert("CMYK"), "TIFF"), "a.tif"),
        (by_pillow(UPRIGHT.convert("LAB"), "TIFF"), "a.tif"),
        (by_pillow(UPRIGHT.convert("RGBA"), "PNG"), "a.png"),
        (by_pillow(UPRIGHT.convert("L"), "PNG"), "a.png"),
        (by_pillow(UPRIGHT.quantize(128), "PNG"), "a.png"),
        (as_jpeg(UPRIGHT.convert("CMYK")), "a.jpg"),
        (as_jpeg(UPRIGHT.convert("L")), "a.jpg"),
        (as_jpeg(UPRIGHT, progressive=True), "a.jpg"),
        (heif(UPRIGHT), "a.heic"),
        (by_pillow(UPRIGHT, "AVIF", quality=80), "a.avif"),
    ],
)
def test_every_format_and_mode_shows_the_same(look, data, name):
    """One picture in any of them has one hash, within 4 bits, and a sharpness at all sides."""
    facts = look(data, name=name)
    assert isinstance(facts, PixelFacts), facts
    assert (facts.made_from, facts.subject, facts.pictures) == ("decode", "photograph", 1)
    assert bits_apart(facts.fingerprint.phash, packed(imagehash.phash(UPRIGHT))) <= 4
    assert all(facts.sharpness)


def test_the_thumbnail_of_a_heif_file_serves(look):
    """It is an item of the file; the picture itself is decoded when asked for."""
    data = heif(UPRIGHT, thumbnails=[256])
    guess, sure = look(data, True), look(data, False)
    assert (guess.made_from, sure.made_from) == ("thumbnail", "decode")
    assert bits_apart(guess.fingerprint.phash, sure.fingerprint.phash) <= 4


def test_what_may_be_text_or_blank_is_looked_at_again(look):
    """A thumbnail is too small to tell letters and too rough to say that there is nothing."""
    black = Image.new("RGB", (1280, 960))
    facts = look(photo(black, small(black)))
    assert (facts.made_from, facts.subject, facts.dark, facts.bright) == ("decode", "blank", 1, 0)


def test_wide_colours_are_brought_into_srgb(look):
    """The same numbers under a wider profile are other colours, so the layout differs; the hash hardly does."""
    plain = look(as_jpeg(UPRIGHT))
    wide = look(as_jpeg(UPRIGHT, icc_profile=icc_profile(P3, SRGB_CURVE)))
    layouts = [np.frombuffer(facts.fingerprint.layout, np.uint8).astype(int) for facts in (plain, wide)]
    assert 1 < np.abs(layouts[0] - layouts[1]).mean() < 20
    assert bits_apart(plain.fingerprint.phash, wide.fingerprint.phash) <= 4


def test_clipped_shares_are_of_all_pixels(look):
    """A quarter black, a half white; colours that are full in one channel only are not clipped."""
    picture = Image.new("RGB", (800, 800), (255, 255, 255))
    picture.paste((0, 0, 0), (0, 0, 400, 400))
    picture.paste((255, 120, 255), (400, 0, 800, 400))
    facts = look(by_pillow(picture, "PNG"))
    assert facts.dark == pytest.approx(0.25, abs=0.005)
    assert facts.bright == pytest.approx(0.5, abs=0.005)


def test_files_of_many_pictures_say_how_many(look):
    """The first one is shown."""
    frames = [scene(400, 300, seed) for seed in range(3)]
    first = packed(imagehash.phash(frames[0]))
    for data in (
        by_pillow(frames[0], "PNG", save_all=True, append_images=frames[1:]),
        by_pillow(frames[0], "WEBP", save_all=True, append_images=frames[1:], quality=90),
        by_pillow(frames[0], "TIFF", save_all=True, append_images=frames[1:]),
        by_pillow(frames[0], "HEIF", save_all=True, append_images=frames[1:]),
    ):
        facts = look(data)
        assert facts.pictures == 3
        assert bits_apart(facts.fingerprint.phash, first) <= 4


@pytest.mark.parametrize("size", [(1, 1), (1, 3000), (5000, 1), (3, 2), (63, 64), (4000, 40)])
def test_pictures_of_odd_sizes_are_looked_at(look, size):
    """However narrow or small."""
    facts = look(as_jpeg(scene(*size)))
    assert isinstance(facts, PixelFacts)
    assert len(facts.fingerprint.grey) == 4096


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "it holds an empty file"),
        (b"hello", "it holds plain text"),
        (photo(UPRIGHT, small(UPRIGHT))[:50_000], "the file ends before the picture does (cut off)"),
        (photo(UPRIGHT, small(UPRIGHT))[:300], "the file ends"),
        (by_pillow(UPRIGHT, "PNG").replace(b"IDATx", b"IDATy", 1), "damaged or cut off"),
        (by_pillow(UPRIGHT, "PNG")[:90_000], "cut off"),
        (heif(UPRIGHT)[:3000], "cut off"),
        (by_pillow(Image.fromarray(np.zeros((9, 9), np.float32)), "TIFF"), "of an unknown range"),
    ],
)
def test_what_shows_nothing_has_a_reason(look, data, reason):
    """A good thumbnail does not stand for a picture that is not there."""
    found = look(data)
    assert isinstance(found, NoPixels)
    assert reason in found.reason
    assert ImageFile.LOAD_TRUNCATED_IMAGES is False


def test_a_file_that_cannot_be_opened_has_a_reason(tmp_path):
    """Gone since it was indexed, or a folder by now."""
    assert look_at(str(tmp_path / "gone.jpg"), may_trust_thumbnail=True) == NoPixels("No such file or directory")
    assert isinstance(look_at(str(tmp_path), may_trust_thumbnail=True), NoPixels)


def test_the_pixel_limit_stays_on(look, monkeypatch):
    """A picture beyond it is refused from its header."""
    monkeypatch.setattr(pictures, "PIXEL_LIMIT", 1000)
    found = look(as_jpeg(scene(50, 50)), may_trust_thumbnail=False)
    assert isinstance(found, NoPixels)
    assert "pixels" in found.reason


def test_damaged_files_never_raise(look):
    """Bytes changed, taken out and cut off anywhere give facts or a reason."""
    chance = random.Random(7)
    little = scene(320, 240)
    whole = [
        photo(little, small(little)),
        by_pillow(little, "PNG"),
        by_pillow(little, "WEBP"),
        by_pillow(little, "TIFF"),
        by_pillow(little, "TIFF", compression="tiff_lzw"),
        heif(little, thumbnails=[160]),
    ]
    kinds = set()
    for data in whole:
        for _ in range(60):
            damaged = bytearray(data)
            for _ in range(chance.choice((1, 4, 30))):
                damaged[chance.randrange(min(len(data), chance.choice((700, len(data)))))] = chance.randrange(256)
            if chance.random() < 0.3:
                start = chance.randrange(len(data))
                del damaged[start : start + chance.randrange(1, 400)]
            found = look(bytes(damaged), may_trust_thumbnail=chance.random() < 0.7)
            assert isinstance(found, PixelFacts | NoPixels)
            kinds.add(type(found))
            assert not isinstance(found, NoPixels) or (found.reason and "\n" not in found.reason)
    assert kinds == {PixelFacts, NoPixels}
