"""What the questions about clocks need of each photo."""

from indexer.dating.shots import shots_of
from indexer.dating.values import Shot
from tests.indexer.dating.said import COMPACT, NO_CAMERA, PHONE, claim, photo

OWN = claim("exif original", "2026-03-30T09:15:20", 120)


def test_a_shot_is_what_a_named_cameras_clock_says() -> None:
    """Its own time, zone, number, the satellites' and its name's."""
    said = photo(
        "a",
        OWN,
        claim("gps", "2026-03-30T07:15:18", utc=True),
        claim("file name", "2026-03-30T09:15:21"),
        camera=PHONE,
        name="IMG_20260330_091521.jpg",
    )
    assert shots_of([said]) == [
        Shot("a", PHONE, "2026-03-30T09:15:20", 120, "2026-03-30T07:15:18", None, "2026-03-30T09:15:21")
    ]
    numbered = photo("b", OWN, camera=COMPACT, name="HRBR0012.JPG")
    assert shots_of([numbered])[0].number == ("1/camera", "HRBR", 12)


def test_what_no_camera_dated_is_no_shot() -> None:
    """No camera is named, the date is blank, or it comes from elsewhere."""
    assert not shots_of([photo("a", OWN, camera=NO_CAMERA)])
    assert not shots_of([photo("a", claim("exif original", None), camera=PHONE)])
    assert not shots_of([photo("a", claim("xmp original", "2026-03-30T09:15:20"), camera=PHONE)])
