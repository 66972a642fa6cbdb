"""Real files of many cameras, read by us and by a second reader of the same metadata (exiftool).

The files come from packages that `fetch.py` lists with version and licence; some of them were made to break readers.
"""

import json
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from PIL import Image, ImageOps

from indexer.facts.reading import read_file
from indexer.facts.records import FileReading, PhotoFacts
from tests.real_photos.conftest import FolderOf, SecondReader, Tags

HEIF = "pillow-heif"
GOEXIF = "golang-github-rwcarlsen-goexif-dev"
PILLOW = "pillow"


class Difference(NamedTuple):
    """One thing in one file that the second reader tells otherwise, and why ours stands."""

    file: str
    what: str
    ours: Any
    theirs: Any
    why: str


CROP = "the crop (`clap`, ISO/IEC 23008-12) is part of the picture; exiftool tells the extent before it"

#: A difference that is not stated here fails the test, and so does one that is no longer seen.
DIFFERENCES = {
    HEIF: [
        Difference("heif/L_8__29x100.heif", "stored size", (29, 100), (64, 100), CROP),
        Difference("heif/L_10__29x100.heif", "stored size", (29, 100), (64, 100), CROP),
        Difference("heif/L_12__29x100.heif", "stored size", (29, 100), (64, 100), CROP),
        Difference("heif_other/RGB_8_chroma444.heif", "stored size", (29, 100), (64, 100), CROP),
        Difference("heif_special/crop_mismatch_thumbnail.heic", "stored size", (64, 64), (128, 128), CROP),
        Difference("heif_special/invalid_metadata_type.heic", "stored size", (16, 16), (64, 64), CROP),
        Difference("heif_truncated/truncated.heic", "stored size", (16, 16), (64, 64), CROP),
        Difference(
            "heif_special/transform_mismatch_thumbnail.heic",
            "orientation",
            6,
            1,
            "picture and thumbnail are turned differently; exiftool's last word is the thumbnail's",
        ),
        Difference(
            "heif_corrupted/corrupted.heic",
            "kind",
            "unreadable",
            "HEIC",
            "exiftool names the kind of file; it finds no picture in it either",
        ),
        Difference("non_heif/chi.gif", "kind", "other", "GIF", "a GIF is no photo"),
    ],
    GOEXIF: [
        Difference("samples/raw.exif", "kind", "other", None, "an Exif block by itself, without a picture"),
    ],
}

#: Its thumbnail reference points the wrong way round, so the decoder takes the picture for the thumbnail and the
#: thumbnail for the picture. We go by the primary item, as exiftool does.
SHOWN_WRONGLY = {"invalid_id.heic": ((1197, 1227), (564, 870))}

#: Opening these ends the decoder's process: none, in pillow-heif 1.8.1.
CRASHES_THE_DECODER: set[str] = set()

#: The turn of a HEIF item (`irot` of ISO/IEC 23008-12, degrees counter-clockwise) as an Exif orientation.
TURNS = {0: 1, 90: 8, 180: 3, 270: 6}

#: The packager's names for the cut-off files: the date, "sep", and the name that the file had.
DATE_IN_NAME = re.compile(r"(\d{4})-(\d\d)-(\d\d)-(\d\d)-(\d\d)-(\d\d)-sep-")

Told = dict[str, Any]


def files_in(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file() and not path.is_symlink())


def cut_off_files(root: Path) -> list[Path]:
    return [path for path in files_in(root) if "-sep-" in path.name]


def with_a_picture(cut: bytes) -> bytes:
    """The whole segments of a cut-off JPEG (ITU-T T.81, annex B), and a small grey picture after them."""
    end = 2
    while (after := end + 2 + int.from_bytes(cut[end + 2 : end + 4])) <= len(cut):
        end = after
    picture = BytesIO()
    Image.new("L", (24, 16)).save(picture, "JPEG")
    return cut[:end] + picture.getvalue()[2:]


def decoder_sizes(paths: list[str]) -> tuple[dict[str, tuple[int, int]], list[str]]:
    """The size of every picture that pillow-heif opens, and the files on which its process died.

    The files wait in a process of their own, which is started anew behind a file that killed it.
    """
    sizes: dict[str, tuple[int, int]] = {}
    crashed: list[str] = []
    while paths:
        done = subprocess.run([sys.executable, "-c", _DECODER, *paths], capture_output=True, text=True, check=False)
        answers = [json.loads(line) for line in done.stdout.splitlines()]
        sizes |= {path: tuple(size) for path, size in zip(paths, answers, strict=False) if size}
        crashed += paths[len(answers) : len(answers) + 1]
        paths = paths[len(answers) + 1 :]
    return sizes, crashed


_DECODER = """
import json, sys, pillow_heif
for path in sys.argv[1:]:
    try:
        size = pillow_heif.open_heif(path).size
    except (ValueError, OSError, EOFError):
        size = None
    print(json.dumps(size), flush=True)
"""


def by_second_reader(tags: Tags) -> Told:
    """What the second reader says of date, size and orientation; a thing that it does not say has no entry."""
    told: Told = {}
    if date := tags.get("ExifIFD:DateTimeOriginal"):
        day, time = date.split(" ")
        told["taken"] = f"{day.replace(':', '-')}T{time}"
        told["fraction"] = str(tags.get("ExifIFD:SubSecTimeOriginal", "")).strip()
        told["offset"] = tags.get("ExifIFD:OffsetTimeOriginal")
    is_heif = tags.get("File:MIMEType", "").startswith(("image/hei", "image/avif"))
    for group in ("File", "PNG", "RIFF", "GIF", "IFD0"):
        if f"{group}:ImageWidth" in tags:
            told["stored size"] = (tags[f"{group}:ImageWidth"], tags[f"{group}:ImageHeight"])
            break
    if is_heif:  # the Exif tag only describes what the container already does (ISO/IEC 23008-12)
        told["orientation"] = TURNS[tags.get("QuickTime:Rotation", 0)]
    elif "IFD0:Orientation" in tags:
        told["orientation"] = tags["IFD0:Orientation"]
    return told


def by_us(facts: PhotoFacts) -> Told:
    told: Told = {
        "stored size": (facts.stored_width, facts.stored_height),
        "orientation": facts.orientation,
    }
    for claim in facts.claims:
        if claim.source == "exif original":
            told["taken"] = claim.when
            told["fraction"] = claim.fraction
            told["offset"] = _offset_text(claim.offset_minutes)
    return told


def _offset_text(minutes: int | None) -> str | None:
    if minutes is None:
        return None
    return f"{'-' if minutes < 0 else '+'}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}"


def differences(readings: dict[Path, FileReading], said: dict[Path, Tags], root: Path) -> Iterator[Any]:
    """((file, what), (ours, theirs)) for everything that the second reader says and we do not."""
    for path, reading in readings.items():
        theirs = by_second_reader(said[path])
        name = "/".join(path.relative_to(root).parts[-2:])
        if theirs and reading.facts is None:
            yield (name, "kind"), (reading.kind, said[path].get("File:FileType"))
            continue
        ours = by_us(reading.facts) if reading.facts else {}
        for what, their in theirs.items():
            if ours.get(what) != their:
                yield (name, what), (ours.get(what), their)


@pytest.mark.parametrize("package", [HEIF, GOEXIF, PILLOW])
def test_every_file_is_read(folder_of: FolderOf, package: str) -> None:
    """Whatever lies in the package, reading it raises nothing and tells a photo, another file, or why it is neither."""
    for path in files_in(folder_of(package)):
        reading = read_file(str(path))
        assert (reading.facts is not None) == (reading.kind == "photo"), path
        assert reading.failures or reading.kind != "unreadable", path


@pytest.mark.parametrize("package", DIFFERENCES)
def test_the_second_reader_says_the_same(folder_of: FolderOf, second_reader: SecondReader, package: str) -> None:
    """Date, sub-seconds, offset, stored size and orientation are the second reader's, but for what is stated above."""
    root = folder_of(package)
    readings = {path: read_file(str(path)) for path in files_in(root)}
    stated = {(one.file, one.what): (one.ours, one.theirs) for one in DIFFERENCES[package]}
    assert dict(differences(readings, second_reader(readings), root)) == stated


def test_heif_is_as_large_as_its_decoder_shows_it(folder_of: FolderOf) -> None:
    """The displayed size of every HEIF that the decoder opens is that of its picture, turned and cropped."""
    paths = files_in(folder_of(HEIF))
    ours = {str(path): facts for path in paths if (facts := read_file(str(path)).facts) and facts.format == "HEIF"}
    shown, crashed = decoder_sizes(list(ours))
    assert len(shown) > 40
    sizes = {path: ((ours[path].width, ours[path].height), shown[path]) for path in shown}
    assert {Path(path).name: pair for path, pair in sizes.items() if pair[0] != pair[1]} == SHOWN_WRONGLY
    assert {Path(path).name for path in crashed} == CRASHES_THE_DECODER


def test_a_jpeg_cut_off_inside_its_header_keeps_its_date(folder_of: FolderOf, tmp_path: Path) -> None:
    """Of the 47 files that end before the picture begins, 46 say in their Exif block how large it was: they are photos
    with a failed step, and where the file's name tells the true date, it is the one that was read."""
    readings = {}
    for number, path in enumerate(cut_off_files(folder_of(GOEXIF))):
        copy = shutil.copyfile(path, tmp_path / f"{number}.jpg")  # the name must not be what gives the date
        readings[path] = read_file(str(copy))
    assert len(readings) == 47
    assert all("size of the picture" in reading.failures[0].reason for reading in readings.values())
    unreadable = [path.name for path, reading in readings.items() if reading.kind == "unreadable"]
    assert unreadable == ["2011-08-07-19-22-57-sep-2011-08-07-19-22-57a.jpg"]  # it says no size at all

    dated = {path: match for path in readings if (match := DATE_IN_NAME.match(path.name))}
    taken = {path: by_us(facts).get("taken") for path in dated if (facts := readings[path].facts)}
    assert len(taken) == 45
    assert taken == {path: "{}-{}-{}T{}:{}:{}".format(*dated[path].groups()) for path in taken}


def test_dates_of_many_cameras(folder_of: FolderOf, second_reader: SecondReader, tmp_path: Path) -> None:
    """With a picture put in for the lost one, each header gives the date that stands in the file's name.

    The second reader agrees with all that we read. Two dates have absurd years (2099 and 2216): the claim repeats them,
    doubting is the verdict's part.
    """
    readings, by_name = {}, {}
    for number, path in enumerate(cut_off_files(folder_of(GOEXIF))):
        whole = tmp_path / f"{number}.jpg"  # the name must not be what gives the date
        whole.write_bytes(with_a_picture(path.read_bytes()))
        readings[whole] = read_file(str(whole))
        if match := DATE_IN_NAME.match(path.name):
            by_name[whole] = "{}-{}-{}T{}:{}:{}".format(*match.groups())
    assert len(by_name) == 46

    originals = {path: by_us(reading.facts).get("taken") for path, reading in readings.items() if reading.facts}
    assert {path: originals.get(path) for path in by_name} == by_name
    assert dict(differences(readings, second_reader(readings), tmp_path)) == {}


@pytest.mark.parametrize(
    ("package", "pattern", "count"),
    [
        (GOEXIF, "f?-exif.jpg", 8),
        (PILLOW, "hopper_orientation_?.jpg", 7),
        (PILLOW, "hopper_orientation_?.webp", 7),
    ],
)
def test_turned_pictures_are_as_large_as_shown(folder_of: FolderOf, package: str, pattern: str, count: int) -> None:
    """The number in the file's name is the orientation, and the size is that of the picture turned by the library."""
    paths = sorted(folder_of(package).rglob(pattern))
    assert len(paths) == count
    for path in paths:
        facts = read_file(str(path)).facts
        assert facts is not None
        with Image.open(path) as picture:
            shown = ImageOps.exif_transpose(picture).size
        assert (facts.orientation, facts.width, facts.height) == (int(re.findall(r"\d", path.name)[0]), *shown)


def test_turned_avif_is_read_as_the_library_reads_it(folder_of: FolderOf) -> None:
    """All pairs of turn and mirroring (`irot`, `imir`) give the orientation and the size that Pillow makes of them."""
    paths = sorted(folder_of(PILLOW).rglob("rot?mir?.avif"))
    assert len(paths) == 8
    for path in paths:
        facts = read_file(str(path)).facts
        assert facts is not None
        with Image.open(path) as picture:
            orientation = picture.getexif()[0x0112]
            shown = ImageOps.exif_transpose(picture).size
        assert (facts.orientation, facts.width, facts.height) == (orientation, *shown), path
