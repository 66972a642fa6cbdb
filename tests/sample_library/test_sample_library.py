"""The sample library keeps what it promises: counts, odd files, and a truth that the files agree with."""

import csv
import hashlib
import io
import sys
from collections import Counter
from datetime import date, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import exifread
import pillow_heif
import pytest
from PIL import Image, ImageOps, ImageStat

LIBRARY = Path(__file__).parents[2] / "sample_library"
CLOCK_BEHIND = timedelta(days=3, hours=7, minutes=12)
NOT_PHOTOS = {"odd/empty.jpg", "odd/not a picture.jpg", "odd/clip.mp4"}
#: A file name with a line break cannot lie on Windows, nor come through a wheel.
MAY_BE_ABSENT = {"odd/two\nlines.jpg"} if sys.platform == "win32" else set()


def read_truth() -> dict[str, dict[str, str]]:
    with (LIBRARY / "truth.csv").open(encoding="utf-8", newline="") as source:
        return {row["file"]: row for row in csv.DictReader(source)}


TRUTH = read_truth()


def exif_of(file: str) -> dict[str, object]:
    """Exif tags by exifread's names; a block out of a HEIF file is handed to it as if in a JPEG."""
    path = LIBRARY / file
    data = path.read_bytes()
    if data[4:8] == b"ftyp":
        data = b"\xff\xd8\xff\xe1" + _segment(pillow_heif.open_heif(path).info["exif"]) + b"\xff\xd9"
    return dict(exifread.process_file(io.BytesIO(data), details=False))


def _segment(exif: bytes) -> bytes:
    return (len(exif) + 2).to_bytes(2, "big") + exif


def originals(device: str) -> list[str]:
    return [file for file, row in TRUTH.items() if row["device"] == device and not row["copy_of"]]


def exif_time(tags: dict[str, object], name: str = "EXIF DateTimeOriginal") -> datetime:
    return datetime.strptime(str(tags[name]), "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007 - a camera's wall clock


def true_days() -> list[date]:
    """The days of the photos of the album's months; scans of old prints lie far before."""
    return [date.fromisoformat(row["taken"][:10]) for row in TRUTH.values() if row["taken"] >= "2025"]


def test_truth_lists_every_photo_and_nothing_else() -> None:
    """Each photo file below the library has its row, sorted by file, and each row its file."""
    folders = (
        "phone-ada",
        "phone-ben",
        "camera",
        "messages",
        "screenshots",
        "edited",
        "scans",
        "from old laptop",
        "odd",
    )
    found = {
        path.relative_to(LIBRARY).as_posix()
        for folder in folders
        for path in (LIBRARY / folder).rglob("*")
        if path.is_file()
    }
    assert found | MAY_BE_ABSENT == set(TRUTH) | NOT_PHOTOS
    assert list(TRUTH) == sorted(TRUTH)


def test_truth_has_the_promised_columns() -> None:
    """The header is the one that others rely on, and `taken` is as long as its precision says."""
    first = (LIBRARY / "truth.csv").read_text(encoding="utf-8").split("\n", 1)[0]
    assert first == "file,taken,precision,device,scene,burst,copy_of"
    lengths = {"second": 19, "day": 10, "month": 7, "year": 4, "unknown": 0}
    for row in TRUTH.values():
        assert len(row["taken"]) == lengths[row["precision"]], row
        assert row["device"]
        assert row["scene"]


def test_there_are_enough_photos_and_the_folder_is_small() -> None:
    """At least 140 photos, and less than 10 MB with everything that belongs to the folder."""
    assert len(TRUTH) >= 140
    kept = [
        path for path in LIBRARY.rglob("*") if path.is_file() and not {"__pycache__", ".mypy_cache"} & set(path.parts)
    ]
    assert sum(path.stat().st_size for path in kept) < 10_000_000


def test_one_week_is_empty_between_full_ones() -> None:
    """The photos lie in at least 12 ISO weeks over the turn of the year, one week between them has none."""
    mondays = {day - timedelta(days=day.weekday()) for day in true_days()}
    first, last = min(mondays), max(mondays)
    every = {first + timedelta(weeks=number) for number in range((last - first).days // 7 + 1)}
    assert every - mondays == {date.fromisocalendar(2026, 4, 1)}
    assert len(mondays) >= 12
    assert (first, last + timedelta(days=6)) == (date(2025, 11, 10), date(2026, 3, 8))


def test_the_empty_week_stays_empty_whatever_clock_or_name_is_believed() -> None:
    """No time that the slow clock shows, and no day of arrival, lies in the empty week or outside the months."""
    shown = [exif_time(exif_of(file)).date() for file in originals("compact")]
    shown += [datetime.strptime(Path(file).name[4:12], "%Y%m%d").date() for file in TRUTH if "-WA" in file]  # noqa: DTZ007
    assert all(date(2025, 11, 10) <= day <= date(2026, 3, 8) for day in shown)
    assert all(day.isocalendar()[:2] != (2026, 4) for day in shown)


def test_photos_lie_close_to_the_edges_of_weeks_and_of_the_year() -> None:
    """There are photos late on a Sunday, early on a Monday, and at half past one in the New Year's night."""
    times = {row["taken"] for row in TRUTH.values() if row["precision"] == "second"}
    moments = [datetime.fromisoformat(taken) for taken in times]
    assert any(moment.isoweekday() == 7 and (moment.hour, moment.minute) >= (23, 50) for moment in moments)
    assert any(moment.isoweekday() == 1 and (moment.hour, moment.minute) <= (0, 20) for moment in moments)
    assert any(moment.date() == date(2026, 1, 1) and moment.hour == 1 for moment in moments)


@pytest.mark.parametrize("device", ["ada-phone", "ben-phone"])
def test_phones_write_the_true_time(device: str) -> None:
    """The Exif original of a phone's photo is the true time, offset or not."""
    files = originals(device)
    assert len(files) >= 20
    for file in files:
        if file not in MAY_BE_ABSENT:
            assert exif_time(exif_of(file)).isoformat() == TRUTH[file]["taken"], file


def test_the_first_phone_tells_more_than_the_second() -> None:
    """Ada's photos carry three dates, offset, sub-seconds and a thumbnail; Ben's one date and no thumbnail."""
    for file in originals("ada-phone"):
        if not file.startswith("phone-ada/"):
            continue
        tags = exif_of(file)
        assert exif_time(tags, "Image DateTime") == exif_time(tags) == exif_time(tags, "EXIF DateTimeDigitized")
        assert str(tags["EXIF OffsetTimeOriginal"]) == "+01:00"
        assert str(tags["EXIF SubSecTimeOriginal"]).isdigit()
        assert "JPEGThumbnail" in tags
    assert any("GPS GPSLatitude" in exif_of(file) for file in originals("ada-phone"))
    assert not any("JPEGThumbnail" in exif_of(file) for file in originals("ben-phone"))


def test_the_second_phone_ends_weeks_before_the_others() -> None:
    """Ben's phone has not been copied since 11 January 2026."""
    last = {
        device: max(TRUTH[file]["taken"] for file in originals(device))
        for device in ("ada-phone", "ben-phone", "compact")
    }
    assert last["ben-phone"][:10] == "2026-01-11"
    assert min(last["ada-phone"], last["compact"])[:10] == "2026-03-08"


def test_the_camera_is_late_by_the_same_span_throughout() -> None:
    """Exif time plus the clock's error is the true time of every photo of the camera, which knows no zone."""
    files = originals("compact")
    assert len(files) >= 20
    for file in files:
        tags = exif_of(file)
        assert (exif_time(tags) + CLOCK_BEHIND).isoformat() == TRUTH[file]["taken"], file
        assert str(tags["EXIF BodySerialNumber"])
        assert "EXIF OffsetTimeOriginal" not in tags


def test_camera_and_phone_saw_the_same_moments() -> None:
    """At least eight occasions were photographed by both within half a minute: the clock can be found out."""
    seen = [
        (row["scene"], row["device"], datetime.fromisoformat(row["taken"]))
        for row in TRUTH.values()
        if row["precision"] == "second"
    ]
    near = {
        scene
        for scene, device, taken in seen
        for other, other_device, other_taken in seen
        if (device, other_device) == ("compact", "ada-phone")
        and scene == other
        and abs(taken - other_taken) < timedelta(seconds=30)
    }
    assert len(near) >= 8


def test_the_slow_clock_puts_photos_into_wrong_weeks() -> None:
    """Left alone, the clock moves at least five photos into another ISO week."""
    wrong = [
        file
        for file in originals("compact")
        if exif_time(exif_of(file)).isocalendar()[:2] != datetime.fromisoformat(TRUTH[file]["taken"]).isocalendar()[:2]
    ]
    assert len(wrong) >= 5


def test_all_eight_orientations_occur() -> None:
    """Each of the eight Exif orientations occurs among the photos of Ada's phone."""
    values = Counter(
        Image.open(LIBRARY / file).getexif().get(0x0112)
        for file in originals("ada-phone")
        if file.startswith("phone-ada/")
    )
    assert set(values) == set(range(1, 9))


def test_turned_photos_show_what_their_message_copies_show() -> None:
    """A copy was made from the upright picture, so it agrees with the original after its orientation is applied."""
    for file, row in TRUTH.items():
        if file.startswith("messages/") and row["copy_of"]:
            with Image.open(LIBRARY / file) as copy, Image.open(LIBRARY / row["copy_of"]) as original:
                upright = ImageOps.exif_transpose(original).convert("L").resize((32, 32))
                assert _difference(upright, copy.convert("L").resize((32, 32))) < 4, file


def test_thumbnails_are_small_and_the_camera_pads_them() -> None:
    """Thumbnails fit 160x120 (DCF, CIPA DC-009: from memory); the camera's stand in it between black bars."""
    for file in originals("compact") + [file for file in originals("ada-phone") if file.startswith("phone-ada/")]:
        thumbnail = Image.open(io.BytesIO(exif_of(file)["JPEGThumbnail"]))  # type: ignore[arg-type]
        assert sorted(thumbnail.size)[1] <= 160
        assert sorted(thumbnail.size)[0] <= 120
        if TRUTH[file]["device"] == "compact":
            assert thumbnail.size == (160, 120)
            bar = thumbnail.convert("L").crop((0, 0, 160, 4) if _is_wide(file) else (0, 0, 20, 120))
            assert ImageStat.Stat(bar).mean[0] < 6


def test_messages_have_no_metadata_at_all() -> None:
    """Nothing but the name tells of a message copy's day; half of them are copies of photos in the library."""
    files = [file for file in TRUTH if file.startswith("messages/")]
    assert {Path(file).suffix for file in files} == {".jpg", ".webp"}
    for file in files:
        with Image.open(LIBRARY / file) as image:
            assert not image.getexif()
            assert max(image.size) <= 800
    assert 0.4 <= sum(bool(TRUTH[file]["copy_of"]) for file in files) / len(files) <= 0.6


def test_bursts_are_quick_and_share_one_scene() -> None:
    """At least four bursts of three to seven frames, one of kites, at most three seconds between frames."""
    bursts: dict[str, list[dict[str, str]]] = {}
    for row in TRUTH.values():
        if row["burst"] and not row["copy_of"]:
            bursts.setdefault(row["burst"], []).append(row)
    assert len(bursts) >= 4
    assert any("kites" in name for name in bursts)
    for rows in bursts.values():
        assert 3 <= len(rows) <= 7
        assert len({row["scene"] for row in rows}) == 1
        times = sorted(datetime.fromisoformat(row["taken"]) for row in rows)
        assert all(later - earlier <= timedelta(seconds=3) for earlier, later in pairwise(times))


def test_copies_name_an_original_of_the_same_moment() -> None:
    """`copy_of` names a file that is no copy itself; both show one moment."""
    for row in TRUTH.values():
        if row["copy_of"]:
            original = TRUTH[row["copy_of"]]
            assert not original["copy_of"]
            assert (original["taken"], original["scene"]) == (row["taken"], row["scene"])


def test_the_old_laptop_holds_the_same_bytes_and_a_retagged_file() -> None:
    """One file is an exact copy under a name with an emoji; another has new metadata and the old picture data."""
    exact = next(file for file in TRUTH if "\N{KITE}" in file)
    assert _sha256(exact) == _sha256(TRUTH[exact]["copy_of"])
    retagged = "from old laptop/ferry with a title.jpg"
    assert _sha256(retagged) != _sha256(TRUTH[retagged]["copy_of"])
    assert _from_first_scan(retagged) == _from_first_scan(TRUTH[retagged]["copy_of"])


def test_three_photos_are_true_heic_and_one_is_turned_by_its_container() -> None:
    """Ben's HEIC files open with the decoder, upright, and one of them was stored turned."""
    pillow_heif.register_heif_opener()
    files = [file for file in TRUTH if file.endswith(".heic")]
    assert len(files) == 3
    turned = 0
    for file in files:
        with Image.open(LIBRARY / file) as image:
            assert image.format == "HEIF"
            turned += image.info.get("original_orientation") == 6 and image.height > image.width
    assert turned == 1


def test_odd_files_are_odd_in_the_promised_ways() -> None:
    """An empty file, half a JPEG, HEIF and text named .jpg, a hidden folder, a name with a line break."""
    assert (LIBRARY / "odd/empty.jpg").stat().st_size == 0
    assert (LIBRARY / "odd/holiday heif.jpg").read_bytes()[4:12] == b"ftypheic"
    assert (LIBRARY / "odd/not a picture.jpg").read_bytes().isascii()
    assert (LIBRARY / ".thumbnails/1.jpg").read_bytes()[:2] == b"\xff\xd8"
    cut = LIBRARY / "odd/cut off.jpg"
    assert not cut.read_bytes().endswith(b"\xff\xd9")
    with Image.open(cut) as image, pytest.raises(OSError, match="truncated"):
        image.load()
    if not MAY_BE_ABSENT:
        with Image.open(LIBRARY / "odd/two\nlines.jpg") as image:
            image.load()


def test_the_video_is_a_whole_container() -> None:
    """The boxes of the MP4 (ISO/IEC 14496-12) follow each other without a gap to the end of the file."""
    data = (LIBRARY / "odd/clip.mp4").read_bytes()
    kinds, place = [], 0
    while place < len(data):
        kinds.append(data[place + 4 : place + 8])
        place += int.from_bytes(data[place : place + 4], "big")
    assert place == len(data)
    assert kinds == [b"ftyp", b"mdat", b"moov"]


def test_scans_and_screenshots_tell_what_they_are_meant_to() -> None:
    """A scan says 1994 in Exif, one says a month in its name, one says nothing; a screenshot's name has U+202F."""
    assert exif_time(exif_of("scans/beach 1994.jpg")) == datetime(1994, 7, 16, 12)  # noqa: DTZ001
    assert exif_of("scans/grandmothers garden.jpg") == {}
    assert exif_of("scans/1996-08 ferry.jpg") == {}
    with Image.open(LIBRARY / "scans/drawing.tif") as image:
        assert image.format == "TIFF"
        assert image.getexif()[306] == "2026:02:14 10:31:07"
    assert "screenshots/Screenshot 2026-01-06 at 4.42.48\u202fPM.png" in TRUTH


@pytest.mark.parametrize("scene", ["kites/clear/dune", "harbour/dusk"])
def test_painting_a_scene_twice_gives_the_same_picture(scene: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same seed gives the same pixels; another seed gives another picture."""
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    from sample_library.rendering.developing import picture
    from sample_library.rendering.household import single

    day = datetime(2026, 3, 1, 14, 5, 9)  # noqa: DTZ001
    first, second, other = (picture(single(day, "ada", scene, seed, "K")) for seed in (7, 7, 8))
    assert first.tobytes() == second.tobytes()
    assert _difference(first, other) > 5


def _difference(first: Image.Image, second: Image.Image) -> float:
    """Mean difference of two pictures of one size, 0 to 255."""
    pairs = zip(first.convert("L").tobytes(), second.convert("L").tobytes(), strict=True)
    return sum(abs(a - b) for a, b in pairs) / (first.width * first.height)


def _is_wide(file: str) -> bool:
    with Image.open(LIBRARY / file) as image:
        return image.width > image.height


def _sha256(file: str) -> str:
    return hashlib.sha256((LIBRARY / file).read_bytes()).hexdigest()


def _from_first_scan(file: str) -> bytes:
    """All of a JPEG from its start-of-scan marker on (ITU-T T.81, B.1.1.4: a marker, then the segment's length)."""
    data = (LIBRARY / file).read_bytes()
    place = 2
    while data[place + 1] != 0xDA:
        place += 2 + int.from_bytes(data[place + 2 : place + 4], "big")
    return data[place:]
