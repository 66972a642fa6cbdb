"""The thumbnail in a photo is trusted where nothing speaks against it, and only there."""

import pytest
from PIL import Image

from indexer.facts.thumbnails import find, trusted_thumbnail
from tests.indexer.facts.containers.file_makers import by_pillow, exif_segment, parsed
from tests.indexer.facts.scenes import as_jpeg, letterboxed, photo, scene, small

WIDE, TALL, FILM = scene(1200, 900), scene(900, 1200), scene(1200, 800)


def test_one_of_the_same_shape_is_trusted():
    """It comes as it is stored, with the orientation of the photo."""
    thumbnail = trusted_thumbnail(parsed(photo(WIDE, small(WIDE), orientation=6)))
    assert thumbnail
    assert (thumbnail.image.size, thumbnail.orientation, thumbnail.pictures) == ((160, 120), 6, 1)


@pytest.mark.parametrize(
    ("picture", "size", "shown"),
    [
        (FILM, (160, 120), (160, 106)),  # 3:2 in the frame of DCF
        (scene(1600, 900), (160, 120), (160, 90)),
        (TALL, (160, 120), (90, 120)),  # bars at the sides
        (scene(800, 800), (160, 120), (120, 120)),
        (WIDE, (160, 128), (160, 120)),
    ],
)
def test_letterbox_bars_are_cut(picture, size, shown):
    """What is left has the shape of the photo, to a pixel."""
    thumbnail = trusted_thumbnail(parsed(photo(picture, letterboxed(picture, size))))
    assert thumbnail
    assert thumbnail.image.size == pytest.approx(shown, abs=1)
    edges = thumbnail.image.convert("L").crop((0, 2, thumbnail.image.width, 4))
    assert edges.getextrema()[1] > 40


@pytest.mark.parametrize(
    "data",
    [
        photo(WIDE, small(TALL)),  # made before the photo was turned
        photo(TALL, small(WIDE)),
        photo(FILM, small(WIDE)),  # another shape, and no bars: made before a crop
        photo(WIDE, letterboxed(FILM)),  # bars, though its shape is the photo's: made before a crop
        photo(scene(800, 800), letterboxed(FILM)),
        photo(WIDE, small(WIDE), thumbnail_orientation=6),
        photo(WIDE, small(WIDE, 80)),  # tiny
        photo(FILM, letterboxed(FILM, (100, 75)).crop((0, 0, 90, 75))),
        photo(small(WIDE, 150), small(WIDE)),  # larger than the photo
        photo(WIDE, small(WIDE), said=(2400, 1800)),  # resized or cropped since
        photo(WIDE, small(WIDE), said=(900, 1200)),  # turned since
        photo(WIDE, small(WIDE), modified=b"2026:03:30 10:00:00\0"),  # changed since
        photo(WIDE, small(WIDE), xmp=b'<x xmlns:crs="http://ns.adobe.com/camera-raw-settings/1.0/"/>'),
        photo(WIDE, small(WIDE), xmp=b"<xmpMM:History/>"),
        photo(WIDE, None),
        photo(WIDE, b"no JPEG"),
        photo(WIDE, as_jpeg(small(WIDE))[:900]),
        photo(WIDE, b"\xff\xd8\xff\xe0\0\4ab"),
        photo(WIDE, Image.new("RGB", (160, 1))),
        as_jpeg(WIDE),
    ],
)
def test_any_sign_of_another_picture_is_enough_to_distrust(data):
    """A wrong shape, a wrong turn, a later change, and what cannot be decoded are never taken."""
    assert trusted_thumbnail(parsed(data)) is None


@pytest.mark.parametrize(
    "options",
    [
        {"modified": b"2026:03:30 09:15:21\0"},  # the camera took a second to write
        {"modified": b"2026:03:30 08:00:00\0"},
        {"modified": b"    :  :     :  :  \0"},
        {"modified": b"\xff\0"},
        {"said": (0, 0)},
        {"thumbnail_orientation": 1},
        {"xmp": b"<xmp:Rating>3</xmp:Rating>"},
    ],
)
def test_what_cameras_write_is_no_sign(options):
    """A second's delay, blank dates, a rating do not cost a decode."""
    assert trusted_thumbnail(parsed(photo(WIDE, small(WIDE), **options)))


def test_a_broken_block_has_no_thumbnail():
    """Directories that point nowhere, or into the middle of the file, are passed over."""
    whole = photo(WIDE, small(WIDE))
    container = parsed(whole)
    block = container.exif
    assert find(container)
    for cut in range(0, 200, 3):
        damaged = parsed(whole[:2] + exif_segment(block[:cut].ljust(8, b"\xff")) + as_jpeg(WIDE)[2:])
        assert trusted_thumbnail(damaged) is None


def test_a_png_may_carry_one():
    """Any format that has an Exif block can."""
    exif = parsed(photo(WIDE, small(WIDE))).exif
    assert trusted_thumbnail(parsed(by_pillow(WIDE, "PNG", exif=b"Exif\0\0" + exif)))
