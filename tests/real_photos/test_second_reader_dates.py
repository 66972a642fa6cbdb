"""Every date in the metadata of the real files, as we claim it and as the second reader (exiftool) tells it."""

import re
from collections import defaultdict
from datetime import datetime
from pathlib import Path

import pytest

from indexer.facts.reading import read_file
from indexer.facts.records import Claim
from tests.real_photos.conftest import FolderOf, SecondReader, Tags
from tests.real_photos.fetch import PICTURES, named_like

#: Source of ours, without saying whether IPTC is newer, and the names that the second reader has for it.
SOURCES = {
    "exif original": ("ExifIFD:DateTimeOriginal", "IFD0:DateTimeOriginal"),
    "exif digitized": ("ExifIFD:CreateDate", "IFD0:CreateDate"),
    "exif modified": ("IFD0:ModifyDate",),
    "xmp original": ("XMP-exif:DateTimeOriginal", "XMP-photoshop:DateCreated"),
    "xmp digitized": ("XMP-xmp:CreateDate", "XMP-exif:DateTimeDigitized"),
    "xmp modified": ("XMP-xmp:ModifyDate",),
    "iptc": ("IPTC:DateCreated",),
    "iptc digitized": ("IPTC:DigitalCreationDate",),
}
TIMES = {"IPTC:DateCreated": "IPTC:TimeCreated", "IPTC:DigitalCreationDate": "IPTC:DigitalCreationTime"}
#: In how many files of each package, at the least, the second reader finds a valid original date by any standard.
ORIGINALS = {
    "pillow-heif": 11,
    "golang-github-rwcarlsen-goexif-dev": 3,
    "pillow": 15,
    "piexif": 14,
    "opencv-doc": 23,
    "thumbor": 1,
    "scikit-image": 1,
    "mate-backgrounds": 6,
    "gnome-control-center-data": 5,
}
ORDER = ("exif original", "xmp original", "iptc")

OTHER_IDENTIFIER = "its XMP segment begins with an identifier that is not XMP's; exiftool reads it with a warning"
#: (file, source) -> why we claim another date, or none, where the second reader has a valid one.
DIFFERENCES = {
    ("starry_night.jpg", "xmp digitized"): OTHER_IDENTIFIER,
    ("starry_night.jpg", "xmp modified"): OTHER_IDENTIFIER,
}

_DATE = re.compile(r"(\d{4})[:-](\d\d)[:-](\d\d)(?:[ T](\d\d:\d\d(?::\d\d)?))?")


def valid_date(told: str) -> str | None:
    """A date of the second reader as ISO 8601, without zone and fraction; None where it is none."""
    match = _DATE.match(told)
    if not match:
        return None
    text = f"{match[1]}-{match[2]}-{match[3]}" + (f"T{match[4]}" if match[4] else "")
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return None
    return text


def by_second_reader(tags: Tags) -> dict[str, set[str]]:
    """The valid dates of each source."""
    told: defaultdict[str, set[str]] = defaultdict(set)
    for source, names in SOURCES.items():
        for name in names:
            text = " ".join(str(tags[part]) for part in (name, TIMES.get(name)) if part in tags)
            if date := valid_date(text):
                told[source].add(date)
    return dict(told)


def by_us(claims: tuple[Claim, ...]) -> dict[str, set[str]]:
    told: defaultdict[str, set[str]] = defaultdict(set)
    for claim in claims:
        if claim.when:
            told[claim.source.replace(" newer", "")].add(claim.when)
    return dict(told)


def original(told: dict[str, set[str]]) -> set[str]:
    """The dates of the first source that has any, in the base order of the Metadata Working Group (2.0, 2010)."""
    return next((told[source] for source in ORDER if source in told), set())


@pytest.mark.parametrize("package", ORIGINALS)
def test_every_valid_date_is_claimed(folder_of: FolderOf, second_reader: SecondReader, package: str) -> None:
    """Each source tells the second reader's dates and no others, and so does the chosen original date."""
    files = named_like(PICTURES, folder_of(package))
    theirs = {path: by_second_reader(tags) for path, tags in second_reader(files).items()}
    dated: dict[Path, dict[str, set[str]]] = {path: told for path, told in theirs.items() if told}
    assert sum(bool(original(told)) for told in dated.values()) >= ORIGINALS[package]
    for path, told in dated.items():
        facts = read_file(str(path)).facts
        assert facts, path
        ours = by_us(facts.claims)
        differing = {source for source in SOURCES if ours.get(source, set()) != told.get(source, set())}
        assert differing == {source for name, source in DIFFERENCES if name == path.name}, path
        assert original(ours) == original(told), path
