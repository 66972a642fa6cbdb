"""week.json: written, sealed, read back."""

import hashlib
import json
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from queries.pull.manifest import (
    Manifest,
    PulledAlike,
    PulledPhoto,
    PulledSheet,
    Unusable,
    manifest_text,
    parse_manifest,
)

PHOTO = PulledPhoto(
    file="2026-03-30_0915_3f9a2.jpg",
    source="/library/harbour.jpg",
    key="3f9a2" + "0" * 59,
    code="3f9a2",
    sha256="a" * 64,
    source_sha256="a" * 64,
    size=1234,
    mtime_ns=1_774_858_520_123_456_789,
    taken="2026-03-30T09:15:20",
    precision="second",
    zone=None,
    shape="landscape",
    width=64,
    height=48,
    doubtful=False,
)
SHEET = PulledSheet("week-sheet.pdf", "b" * 64, 99, 1, "c" * 64)
MANIFEST = Manifest("2026-W14", date(2026, 3, 30), False, "waiting", ("prints",), (PHOTO,), (SHEET,))

TEXT = st.text(st.characters(codec=None), max_size=12)


ALIKES = st.none() | st.builds(PulledAlike, st.sampled_from(["copy", "burst"]), st.none() | TEXT, st.integers(2, 99))


@given(
    source=TEXT, waits=st.lists(TEXT, max_size=3), taken=st.none() | TEXT, as_jpeg=st.booleans(), alike=ALIKES,
    keeper=st.booleans(),
)  # fmt: skip
def test_what_is_written_is_read_back(
    source: str, waits: list[str], taken: str | None, as_jpeg: bool, alike: PulledAlike | None, keeper: bool
) -> None:
    """Any paths, words and sets, lone surrogates included, come back as they were, from plain ASCII."""
    photos = (replace(PHOTO, source=source, taken=taken, alike=alike, keeper=keeper),)
    manifest = replace(MANIFEST, waiting_for=tuple(waits), photos=photos, as_jpeg=as_jpeg)
    assert parse_manifest(manifest_text(manifest).encode("ascii")) == manifest


def test_the_seal_is_over_canonical_json() -> None:
    """Anyone can check the seal: SHA-256 over the rest, names sorted, no spaces, ASCII (FIPS 180-4 by hashlib)."""
    body = json.loads(manifest_text(MANIFEST))
    seal = body.pop("seal")
    canonical = json.dumps(body, sort_keys=True, separators=(",", ":"))
    assert seal == hashlib.sha256(canonical.encode("ascii")).hexdigest()


def test_a_person_and_a_program_find_the_week() -> None:
    """The file names its maker, its format, the week's days, the state and its waits."""
    body = json.loads(manifest_text(MANIFEST))
    assert (body["made_by"], body["format"], body["files_are"]) == ("weeksheaf", 1, "copies")
    assert body["week"] == {"name": "2026-W14", "first_day": "2026-03-30", "last_day": "2026-04-05"}
    assert (body["state"], body["waiting_for"]) == ("waiting", ["prints"])


@pytest.mark.parametrize(
    ("change", "reason", "first_day"),
    [
        ({"state": "done"}, "it was edited by hand", date(2026, 3, 30)),
        ({"seal": None}, "it was edited by hand", date(2026, 3, 30)),
        ({"week": "the 14th"}, "it was edited by hand", None),
        ({"format": 2}, "another version of weeksheaf made it", date(2026, 3, 30)),
        ({"made_by": "me"}, "it was not made by weeksheaf", None),
    ],
)
def test_a_changed_file_is_not_used(change: dict[str, object], reason: str, first_day: date | None) -> None:
    """What was edited is told from what we wrote, and still says which week it is of, if it can."""
    text = json.dumps(json.loads(manifest_text(MANIFEST)) | change)
    assert parse_manifest(text.encode()) == Unusable(reason, first_day)


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"[1, 2]", b'{"photos":', b"[" * 100_000])
def test_no_text_breaks_the_reader(data: bytes) -> None:
    """Whatever lies under the name is either ours or not, and never an error."""
    assert isinstance(parse_manifest(data), Unusable)


@pytest.mark.parametrize("name", ["../harbour.jpg", "a/b.jpg", "a\\b.jpg", "c:x.jpg", ".hidden", "..", "week.json"])
def test_no_file_leads_out_of_the_folder(name: str) -> None:
    """A sealed file that names a place outside of its folder, or itself, is not used."""
    text = manifest_text(replace(MANIFEST, photos=(replace(PHOTO, file=name),)))
    assert parse_manifest(text.encode()) == Unusable("it does not hold what it should", date(2026, 3, 30))


@pytest.mark.parametrize("row", [{"size": "1234"}, {"taken": 5}, {"colour": "blue"}, {"sha256": None}])
def test_ill_typed_rows_are_refused(row: dict[str, object]) -> None:
    """A rightly sealed file with parts of the wrong kind is not used."""
    body = json.loads(manifest_text(MANIFEST))
    body["photos"][0] |= row
    del body["seal"]
    canonical = json.dumps(body, sort_keys=True, separators=(",", ":"))
    sealed = body | {"seal": hashlib.sha256(canonical.encode()).hexdigest()}
    assert isinstance(parse_manifest(json.dumps(sealed).encode()), Unusable)
