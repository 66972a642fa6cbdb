"""Metadata and pictures of made photos, as other readers see them."""

import io
from datetime import datetime

from PIL import ExifTags, Image

from indexer.facts.fingerprint import fingerprint_of
from tests.benchmarks.dating.pictures import picture_file
from tests.benchmarks.dating.tagging import exif_block, iptc_resources, tagged
from tests.benchmarks.dating.values import Exif, Iptc, Photo, View


def test_blocks_are_read_back_by_a_second_reader() -> None:
    """Pillow finds the IPTC resources and their MD5 digest, blank dates, offsets and the satellites' time."""
    exif = Exif(original="    :  :     :  :  ", offset="-05:00", gps=datetime(2026, 3, 30, 8, 15, 18))  # noqa: DTZ001
    iptc = Iptc("20260330", "091520+0100", "matching")
    photo = Photo("a.jpg", View(1), "", "open", datetime(2026, 3, 30), datetime(2026, 3, 30), exif, iptc=iptc)  # noqa: DTZ001
    with Image.open(io.BytesIO(tagged(picture_file(View(1)), photo))) as picture:
        resources = picture.info["photoshop"]
        details = picture.getexif().get_ifd(ExifTags.IFD.Exif)
        gps = picture.getexif().get_ifd(ExifTags.IFD.GPSInfo)
    assert resources[0x0404] == b"\x1c\x02\x37\x00\x0820260330\x1c\x02\x3c\x00\x0b091520+0100"
    assert len(resources[0x0425]) == 16
    assert resources[0x0425] != _resources_of(Iptc("20260330", "091520+0100", "stale"))
    assert (details[0x9003], details[0x9011]) == ("    :  :     :  :  ", "-05:00")
    assert (gps[29], [int(part) for part in gps[7]]) == ("2026:03:30", [8, 15, 18])
    assert b"\x9d\x01" not in exif_block(Exif())


def _resources_of(iptc: Iptc) -> bytes:
    return iptc_resources(iptc)[-16:]


def test_other_scenes_look_different_and_one_scene_alike() -> None:
    """By pHash: of 40 scenes no two are within 12 bits; a message is within 6 of its original, and most second views
    within 16."""
    codes = {change: [_phash(View(scene, "ada", 0, change)) for scene in range(40)] for change in ("", "messaged")}
    second = [_phash(View(scene, "tarn")) for scene in range(40)]
    strangers = [_bits(one, other) for place, one in enumerate(codes[""]) for other in codes[""][:place]]
    assert min(strangers) > 12
    assert max(map(_bits, codes[""], codes["messaged"])) <= 6
    assert sum(_bits(one, other) <= 16 for one, other in zip(codes[""], second, strict=True)) >= 32


def _phash(view: View) -> bytes:
    return fingerprint_of(Image.open(io.BytesIO(picture_file(view)))).phash


def _bits(one: bytes, other: bytes) -> int:
    return (int.from_bytes(one) ^ int.from_bytes(other)).bit_count()
