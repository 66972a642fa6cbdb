"""Folder by folder, what goes into the library."""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from io import BytesIO

from PIL import Image

from . import pages
from .container import mp4
from .developing import brightened, picture, reduced
from .diary import MESSAGE_COPIES
from .exif_block import block, stamp
from .files import camera_jpeg, displayed, jpeg, jpeg_at, message_bytes, png, stored, tiff
from .household import Shot, grandmothers, shots, single
from .library import Library, Truth
from .paper import Aging, scanned

#: Encodes a picture and an Exif block as HEIF.
Heif = Callable[[Image.Image, bytes], bytes]


def everything(library: Library, heif: Heif) -> None:
    """Paint and write the whole library."""
    devices(library, heif)
    messages(library)
    edits(library)
    old_laptop(library)
    screenshots(library)
    scans(library)
    oddities(library, heif)


def devices(library: Library, heif: Heif) -> None:
    """The two phones and the camera."""
    seen: Counter[str] = Counter()
    for shot in shots():
        image = picture(shot)
        if shot.heic:
            data = heif(stored(image, shot.orientation), block(shot, shot.orientation))
        else:
            data = camera_jpeg(shot, image)
        library.add_shot(_name(shot, seen), data, shot)


def _name(shot: Shot, seen: Counter[str]) -> str:
    """As the device names its files; a second frame in one second gets a number."""
    time = f"{shot.taken:%Y%m%d_%H%M%S}"
    if shot.device == "compact":
        seen["compact"] += 1
        return f"camera/DCIM/100HARBR/HRBR{seen['compact']:04d}.JPG"
    name = f"phone-ada/IMG_{time}" if shot.device == "ada" else f"phone-ben/{time}"
    seen[name] += 1
    number = f"_{seen[name] - 1}" if seen[name] > 1 else ""
    return f"{name}{number}.{'heic' if shot.heic else 'jpg'}"


def messages(library: Library) -> None:
    """Copies that came by message, stripped; grandmother's photos only ever came that way."""
    for line in MESSAGE_COPIES.strip().split("\n"):
        name, seed, frame, device = line.split()
        original, data = library.originals[device, int(seed), int(frame)]
        library.add_copy(f"messages/{name}", message_bytes(name, reduced(displayed(data), 800)), original)
    for name, shot in grandmothers():
        truth = Truth(f"messages/{name}", f"{shot.taken:%Y-%m-%d}", "day", "grandmother-phone", shot.occasion)
        library.add(message_bytes(name, picture(shot)), truth)


def edits(library: Library) -> None:
    """Ada's favourites made brighter or cut; they keep their Exif, the old thumbnail too, as some editors leave it."""
    for seed, frame, gain, gamma, cut in (
        (9, 0, 1.12, 0.85, None),
        (114, 2, 1.03, 0.95, (0.28, 0.04, 1.0, 0.94)),
        (21, 0, 1.18, 0.9, None),
    ):
        original, data = library.originals["ada", seed, frame]
        image = brightened(displayed(data), gain, gamma)
        if cut:
            left, top, right, bottom = (round(share * side) for share, side in zip(cut, image.size * 2, strict=True))
            image = image.crop((left, top, right, bottom))
        with Image.open(BytesIO(data)) as opened:
            kept = opened.info["exif"]
        name = original.file.removeprefix("phone-ada/").removesuffix(".jpg")
        library.add_copy(f"edited/{name}_edit.jpg", jpeg(image, 60_000, kept), original)
    for seed, frame, name in ((114, 1, "kites small.jpg"), (76, 0, "harbour small.jpg")):
        original, data = library.originals["ada", seed, frame]
        library.add_copy(f"edited/{name}", jpeg_at(reduced(displayed(data), 640), 68), original)


def old_laptop(library: Library) -> None:
    """One file byte for byte, and one with a title written into it: other metadata, the same picture data."""
    original, data = library.originals["ada", 114, 0]
    library.add_copy("from old laptop/kite \N{KITE}.jpg", data, original)
    original, data = library.originals["ada", 35, 0]
    library.add_copy("from old laptop/ferry with a title.jpg", retagged(data, "The ferry on a cold morning"), original)


def retagged(data: bytes, title: str) -> bytes:
    """The same JPEG with ImageDescription set and the thumbnail gone; all from the first table on stays as it was."""
    with Image.open(BytesIO(data)) as opened:
        exif = opened.getexif()
        exif[0x010E] = title
        segment = exif.tobytes()
    place = 2
    while data[place + 1] in (0xE0, 0xE1):
        place += 2 + int.from_bytes(data[place + 2 : place + 4])
    return data[:2] + b"\xff\xe1" + (len(segment) + 2).to_bytes(2) + segment + data[place:]


def screenshots(library: Library) -> None:
    for name, taken, page, what in (
        ("Screenshot_20251205-171033.png", "2025-12-05T17:10:33", pages.recipe, "recipe"),
        ("Screenshot_20251212-204512.png", "2025-12-12T20:45:12", pages.timetable, "timetable"),
        ("Screenshot 2026-01-06 at 4.42.48\u202fPM.png", "2026-01-06T16:42:48", pages.weather, "weather"),
        ("Screenshot_20260219-080901.png", "2026-02-19T08:09:01", pages.tram_map, "tram-map"),
    ):
        library.add(png(page()), Truth(f"screenshots/{name}", taken, "second", "screen", what))


def scans(library: Library) -> None:
    """Prints from the album of the nineties, and a drawing that was scanned the day it was made."""
    noon = datetime.fromisoformat("1994-07-16T12:00:00")
    beach = single(noon, "grandmother", "kites/clear/dune", 401, "L")
    print_1994 = scanned(picture(_larger(beach)), Aging(1.0, 0.8, 0.7, 1))
    dated = Image.Exif()
    dated.get_ifd(0x8769)[0x9003] = stamp(noon)
    library.add(
        jpeg(print_1994, 60_000, dated.tobytes()),
        Truth("scans/beach 1994.jpg", "1994-07-16", "day", "scanner", "kites-401"),
    )
    for seed, scene, name, taken, precision in (
        (402, "garden/summer", "grandmothers garden.jpg", "", "unknown"),
        (403, "ferry/summer", "1996-08 ferry.jpg", "1996-08", "month"),
    ):
        shot = _larger(single(noon, "grandmother", scene, seed, "L"))
        image = scanned(picture(shot), Aging(0.8, 0.6, -0.5, seed))
        library.add(jpeg(image, 60_000), Truth(f"scans/{name}", taken, precision, "scanner", shot.occasion))
    made = datetime.fromisoformat("2026-02-14T10:31:07")
    library.add(
        tiff(pages.drawing(), stamp(made)), Truth("scans/drawing.tif", made.isoformat(), "second", "scanner", "drawing")
    )


def oddities(library: Library, heif: Heif) -> None:
    """What a walk over real folders meets: broken, misnamed and hidden files."""
    half = single(datetime.fromisoformat("2026-02-28T10:44:12"), "ada", "market/spring", 301, "L")
    whole = camera_jpeg(half, picture(half))
    library.add(
        whole[: len(whole) // 2], Truth("odd/cut off.jpg", half.taken.isoformat(), "second", "ada-phone", half.occasion)
    )
    holiday = single(datetime.fromisoformat("2025-12-27T13:40:20"), "ben", "snow_roofs/bright", 304, "L")
    library.add(
        heif(picture(holiday), block(holiday)),
        Truth("odd/holiday heif.jpg", holiday.taken.isoformat(), "second", "ben-phone", holiday.occasion),
    )
    small = single(datetime.fromisoformat("2026-02-21T12:05:00"), "ada", "seedlings/sun", 303, "K")
    library.add(
        camera_jpeg(small, picture(small)),
        Truth("odd/two\nlines.jpg", small.taken.isoformat(), "second", "ada-phone", small.occasion),
    )
    library.write("odd/empty.jpg", b"")
    library.write("odd/not a picture.jpg", b"Buy oats, candles, string for the kite.\n")
    frames = [jpeg_at(reduced(displayed(library.originals["ada", 44, number][1]), 160), 50) for number in range(3)]
    created = datetime(2025, 12, 20, 13, 16, tzinfo=timezone(timedelta(hours=1)))
    library.write("odd/clip.mp4", mp4(frames, (160, 120), created))
    library.write(".thumbnails/1.jpg", jpeg_at(reduced(displayed(library.originals["ada", 9, 0][1]), 120), 50))


def _larger(shot: Shot) -> Shot:
    """Scans have more pixels than message copies."""
    return replace(shot, size=(1380, 920))
