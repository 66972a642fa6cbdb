"""One file in, one reading out."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from PIL import Image

from indexer.facts import reading
from indexer.facts.reading import read_file
from indexer.facts.records import Claim, Failure, FileReading, FileToRead

LATEST = 2027
Draw = Callable[..., Path]


def read(path: Path) -> FileReading:
    return read_file(os.fspath(path), LATEST)


def test_a_photo_brings_its_facts_and_all_evidence(library: Path, draw: Draw) -> None:
    """Exif first, then the name, then the file's own time, which is universal time of an arrival."""
    file = draw(library / "IMG_20260401_110000.jpg")
    os.utime(file, (1_775_000_000, 1_775_000_000))  # 2026-03-31T23:33:20Z
    found = read(file)
    assert (found.kind, found.failures) == ("photo", ())
    assert found.facts
    assert (found.facts.format, found.facts.width, found.facts.height) == ("JPEG", 24, 16)
    assert found.facts.claims == (
        Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second"),
        Claim("file name", "IMG_20260401_110000.jpg", "2026-04-01T11:00:00", "second"),
        Claim("file time", "2026-03-31T23:33:20 UTC", "2026-03-31T23:33:20", "second", is_utc=True, is_arrival=True),
    )


def test_content_is_believed_and_not_the_name(library: Path, draw: Draw) -> None:
    """A JPEG under a false ending, or none, is a JPEG."""
    for name in ("picture.png", "picture", "picture.txt"):
        facts = read(draw(library / name)).facts
        assert facts
        assert facts.format == "JPEG"


def test_a_name_takes_no_part_in_the_key(library: Path, draw: Draw) -> None:
    """The same picture elsewhere is the same photo, another picture another one."""
    keys = [
        read(draw(library / name, seed)).facts.key  # type: ignore[union-attr]
        for name, seed in (("a.jpg", 1), ("b.jpg", 1), ("c.jpg", 2))
    ]
    assert keys[0] == keys[1] != keys[2]


@pytest.mark.parametrize(
    ("name", "content", "kind", "reason"),
    [
        ("notes.txt", b"a list of supplies", "other", None),
        ("notes.jpg", b"a list of supplies", "unreadable", "plain text"),
        ("empty.jpg", b"", "unreadable", "empty"),
        ("empty.txt", b"", "other", None),
        ("film.mov", b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", "other", None),
        ("film.jpg", b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", "unreadable", "a video"),
        ("start.jpg", b"\xff\xd8\xff", "unreadable", ""),
    ],
)
def test_what_is_no_picture_is_named(name: str, content: bytes, kind: str, reason: str | None, library: Path) -> None:
    """A file whose name promises a picture is unreadable, with the reason; any other is just another file."""
    (library / name).write_bytes(content)
    found = read(library / name)
    assert (found.kind, found.facts) == (kind, None)
    if reason is None:
        assert not found.failures
    else:
        (failure,) = found.failures
        assert failure.step == "header"
        assert reason in failure.reason


def test_a_file_that_is_gone_or_a_folder_is_a_failure_to_open(library: Path) -> None:
    """The step says that size and time will not show when it can be opened again."""
    for path in (library / "gone.jpg", library):
        (failure,) = read(path).failures
        assert failure.step == "open"
        assert failure.reason


def test_a_closed_file_says_why(library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system's own words stand as the reason."""

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert read(draw(library / "a.jpg")).failures == (Failure("open", "Permission denied"),)


def test_a_file_cut_while_it_is_read_says_so(library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error without a system's text keeps its own words."""

    def shrink(*_: object) -> str:
        raise OSError("the file became shorter while it was read")

    monkeypatch.setattr(reading, "picture_key", shrink)
    assert read(draw(library / "a.jpg")).failures == (Failure("open", "the file became shorter while it was read"),)


def test_a_photo_with_damaged_exif_is_a_photo(library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch) -> None:
    """Size and key hold without metadata; the failed step is kept beside them, and the name still speaks."""

    def break_down(*_: object, **__: object) -> None:
        raise RecursionError("deep")

    monkeypatch.setattr("exifread.process_file", break_down)
    found = read(draw(library / "20260401.jpg"))
    assert found.kind == "photo"
    assert found.facts
    assert [claim.source for claim in found.facts.claims] == ["file name", "file time"]
    (failure,) = found.failures
    assert (failure.step, "RecursionError" in failure.reason) == ("metadata", True)


def test_a_cut_off_jpeg_is_a_photo_with_damaged_pixels(library: Path, draw: Draw) -> None:
    """The header says what it is, the failure that the picture is not whole."""
    file = draw(library / "a.jpg")
    file.write_bytes(file.read_bytes()[:-200])
    found = read(file)
    assert found.kind == "photo"
    assert [failure.step for failure in found.failures] == ["pixels"]


@pytest.mark.parametrize("mtime_ns", [10**25, -(10**25), 253_402_300_800 * 10**9, -62_135_596_801 * 10**9])
def test_a_file_time_outside_the_calendar_is_no_claim(mtime_ns: int) -> None:
    """Before year 1 and after year 9999 there is no date, and no error either."""
    (claim,) = reading._claims_of_file("a.jpg", (), mtime_ns, LATEST)
    assert (claim.source, claim.when, claim.problem) == ("file time", None, "outside the calendar")


def test_a_file_time_before_1970_is_rounded_down() -> None:
    """A nanosecond before the hour is the second before it."""
    (claim,) = reading._claims_of_file("a.jpg", (), -1, LATEST)
    assert claim.when == "1969-12-31T23:59:59"


def test_years_after_the_latest_are_refused_in_names(library: Path, draw: Draw) -> None:
    """Without a latest year given, next year is the last one believed."""
    facts = read_file(os.fspath(draw(library / "20260401.jpg", taken=None)), 2025).facts
    assert facts
    assert [claim.source for claim in facts.claims] == ["file time"]
    facts = read_file(os.fspath(draw(library / "20260401.jpg", taken=None))).facts
    assert facts
    assert [claim.source for claim in facts.claims] == ["file name", "file time"]


XMP = """<x:xmpmeta xmlns:x="adobe:ns:meta/"><r:RDF xmlns:r="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><r:Description
 xmlns:p="http://ns.adobe.com/photoshop/1.0/" p:DateCreated="{}"/></r:RDF></x:xmpmeta>"""


def sidecar_claims_of(photo: Path, *sidecars: Path) -> tuple[list[Claim], bool]:
    found = read_file(FileToRead(os.fspath(photo), (), tuple(map(os.fspath, sidecars))), LATEST)
    assert found.facts
    return [claim for claim in found.facts.claims if claim.source.startswith("sidecar")], found.has_shut_sidecar


def test_a_sidecar_adds_its_claims(library: Path, draw: Draw) -> None:
    """Its dates are claims like those in the file, of sources of their own."""
    (library / "a.xmp").write_text(XMP.format("1987-08"))
    claims, is_shut = sidecar_claims_of(draw(library / "a.jpg"), library / "a.xmp")
    assert claims == [Claim("sidecar original", "1987-08", "1987-08", "month")]
    assert not is_shut


def test_each_of_several_sidecars_is_named(library: Path, draw: Draw) -> None:
    """Where they tell different dates, the text says which file tells which."""
    for name, day in (("a.jpg.xmp", "2026-03-30"), ("a.xmp", "2026-03-31")):
        (library / name).write_text(XMP.format(day))
    claims, _ = sidecar_claims_of(draw(library / "a.jpg"), library / "a.jpg.xmp", library / "a.xmp")
    assert [claim.text for claim in claims] == ["2026-03-30 (a.jpg.xmp)", "2026-03-31 (a.xmp)"]


def test_a_sidecar_that_cannot_be_opened_is_said_to_be_shut(library: Path, draw: Draw) -> None:
    """The photo is read all the same, and the reading says that there may be more."""
    (claim,), is_shut = sidecar_claims_of(draw(library / "a.jpg"), library / "gone.xmp")
    assert (claim.source, claim.text, claim.when, is_shut) == ("sidecar", "gone.xmp", None, True)
    assert "could not be opened" in (claim.problem or "")


def test_the_folders_below_the_library_add_a_claim(library: Path, draw: Draw) -> None:
    """Those that the reader is told of, and no others of the path."""
    photo = draw(library / "2020-01-01" / "1987-08" / "a.jpg")
    claims = read_file(FileToRead(os.fspath(photo), ("1987-08",)), LATEST).facts.claims  # type: ignore[union-attr]
    assert [(claim.source, claim.when) for claim in claims if claim.source == "folder name"] == [
        ("folder name", "1987-08")
    ]
    assert all(claim.source != "folder name" for claim in read(photo).facts.claims)  # type: ignore[union-attr]


def test_iptc_adds_its_claims(library: Path, draw: Draw) -> None:
    """From the image resources of a JPEG."""
    photo = draw(library / "a.jpg")
    date = b"\x1c\x02\x37\x00\x0819870800"
    payload = b"Photoshop 3.0\x008BIM\x04\x04\0\0" + len(date).to_bytes(4) + date + b"\0"
    data = photo.read_bytes()
    photo.write_bytes(data[:2] + b"\xff\xed" + (len(payload) + 2).to_bytes(2) + payload + data[2:])
    claims = read(photo).facts.claims  # type: ignore[union-attr]
    assert Claim("iptc", "19870800", "1987-08", "month") in claims


def test_reading_leaves_the_file_as_it_is(library: Path, draw: Draw) -> None:
    """Originals are read-only: bytes, time and the folder's listing are the same before and after."""
    file = draw(library / "a.jpg")
    Image.new("RGB", (8, 8), "navy").save(library / "b.png")
    before = {item: (item.read_bytes(), item.stat().st_mtime_ns) for item in library.iterdir()}
    read(file)
    read(library / "b.png")
    assert before == {item: (item.read_bytes(), item.stat().st_mtime_ns) for item in library.iterdir()}


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    st.sampled_from([b"", b"\xff\xd8\xff\xe1", b"\x89PNG\r\n\x1a\n", b"II*\0\x08\0\0\0", b"RIFF\0\0\0\0WEBPVP8X",
                     b"\0\0\0\x18ftypheic\0\0\0\0mif1heic"]),
    st.binary(max_size=120),
)  # fmt: skip
@example(b"MM\0*\0\0\0\x08", b"\xff\xff" * 20)
def test_any_bytes_give_a_reading(library: Path, beginning: bytes, rest: bytes) -> None:
    """Whatever lies in a file named as a picture, it is a photo with facts or it has a reason."""
    file = library / "any.jpg"
    file.write_bytes(beginning + rest)
    found = read(file)
    assert found.kind in ("photo", "unreadable")
    assert (found.facts is not None) == (found.kind == "photo")
    assert found.kind == "photo" or all(failure.reason for failure in found.failures)
    assert found.facts or found.failures
