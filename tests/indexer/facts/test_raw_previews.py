"""A raw file shows the JPEG that its camera put into it, or nothing."""

import imagehash
import pytest

from indexer.facts.fingerprint import packed
from indexer.facts.pixels import NoPixels, look_at
from tests.indexer.facts.containers.file_makers import exif_segment, frame, jpeg, tiff
from tests.indexer.facts.containers.test_raf import raf
from tests.indexer.facts.scenes import as_jpeg, bits_apart, scene, stored

UPRIGHT = scene(1200, 900)
LARGE, SMALL = as_jpeg(UPRIGHT), as_jpeg(scene(160, 120, seed=9))
RAW = {256: (4, 6000), 257: (4, 4000), 0xC612: (7, b"\1\4\0\0")}
NOTHING = NoPixels("raw data without a preview, which are not developed")


@pytest.fixture
def look(tmp_path):
    def look_at_content(data):
        path = tmp_path / "photo.dng"
        path.write_bytes(data)
        return look_at(str(path), may_trust_thumbnail=True)

    return look_at_content


def with_streams(*streams, place=0x0201, length=0x0202, orientation=1, extra=None):
    """A raw file of so many directories, each with one stream; the first directory is tagged."""

    def directories(at):
        places = [at + sum(map(len, streams[:number])) for number in range(len(streams))]
        made = [{place: (4, p), length: (4, len(s))} | (extra or {}) for p, s in zip(places, streams, strict=True)]
        return tiff(made[0] | RAW | {274: (3, orientation)}, *made[1:])

    return directories(len(directories(0))) + b"".join(streams)


@pytest.mark.parametrize("streams", [(LARGE, SMALL), (SMALL, LARGE), (SMALL, LARGE, b"\xff\xd8\xff" + bytes(999_999))])
@pytest.mark.parametrize(
    "options", [{}, {"place": 0x0111, "length": 0x0117, "extra": {259: (3, 7)}}], ids=["stream", "strip"]
)
def test_the_largest_preview_that_can_be_decoded_is_shown(look, streams, options):
    """It counts as decoded, with its sharpness: more of the picture is not to be had."""
    facts = look(with_streams(*streams, **options))
    assert (facts.made_from, facts.pictures) == ("decode", 1)
    assert all(facts.sharpness)
    assert bits_apart(facts.fingerprint.phash, packed(imagehash.phash(UPRIGHT))) <= 4


@pytest.mark.parametrize("orientation", range(1, 9))
def test_it_is_turned_as_the_raw_file_says(look, orientation):
    """The stream lies as the sensor does."""
    facts = look(with_streams(as_jpeg(stored(UPRIGHT, orientation)), orientation=orientation))
    assert bits_apart(facts.fingerprint.phash, packed(imagehash.phash(UPRIGHT))) <= 4


def test_the_jpeg_that_a_header_points_to_is_turned_by_its_own_tag(look):
    """Its whole metadata are those of the file."""
    exif = exif_segment(tiff({274: (3, 6)}))
    lying = as_jpeg(stored(UPRIGHT, 6))
    facts = look(raf(lying[:2] + exif + lying[2:]))
    assert bits_apart(facts.fingerprint.phash, packed(imagehash.phash(UPRIGHT))) <= 4


@pytest.mark.parametrize(
    "data",
    [
        tiff(RAW),
        with_streams(b"\xff\xd8\xff" + bytes(2000)),
        with_streams(b"no JPEG at all"),
        with_streams(jpeg(frame(6000, 4000, marker=0xC3))),  # sensor data without loss
        with_streams(LARGE, extra={0x0201: (4, 1 << 30)}),
        raf(jpeg(frame(4000, 3000))),
    ],
)
def test_without_one_it_shows_nothing(look, data):
    """Sensor data are not developed."""
    assert look(data) == NOTHING
