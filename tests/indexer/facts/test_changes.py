"""What is known against what was found, by plain values."""

import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.changes import KnownFile, compare, holds_back
from indexer.facts.folders import FoundFile

VERSION = 7
THERE = FoundFile(1000, 5)


def known(path: str, **values: object) -> KnownFile:
    """A photo of 1000 bytes, read by the present reader, which is where it was."""
    row = KnownFile(1, 1, at(path), 1000, 5, "photo", "k", VERSION, False, False, False)
    return row._replace(**values)


def at(path: str) -> bytes:
    return os.fsencode(path.replace("/", os.sep))


def test_a_file_with_the_size_and_time_that_are_known_is_not_read() -> None:
    """Size and mtime decide: what agrees is left alone."""
    row = known("a.jpg")
    changes = compare([row], {row.path: THERE}, (), VERSION)
    assert (changes.unchanged, changes.to_read, changes.returned) == ([row], [], [])


@pytest.mark.parametrize("found", [FoundFile(1001, 5), FoundFile(1000, 6), FoundFile(1000, 4)])
def test_another_size_or_time_is_read_again(found: FoundFile) -> None:
    """A file that differs in size or mtime, be it older, is read with its row in hand."""
    row = known("a.jpg")
    assert compare([row], {row.path: found}, (), VERSION).to_read == [(row.path, row)]


def test_an_unknown_file_is_read_without_a_row() -> None:
    """A new path has no row."""
    assert compare([], {b"new.jpg": THERE}, (), VERSION).to_read == [(b"new.jpg", None)]


@pytest.mark.parametrize("version", [VERSION - 1, VERSION + 1])
def test_what_another_reader_read_is_read_again(version: int) -> None:
    """A changed reader reads every file anew, an older one too."""
    row = known("a.jpg", reader_version=version)
    assert compare([row], {row.path: THERE}, (), VERSION).to_read == [(row.path, row)]


def test_a_file_that_could_not_be_opened_is_tried_every_time() -> None:
    """Permissions show neither in size nor in time."""
    row = known("a.jpg", kind="unreadable", key=None, has_failed=True, was_shut=True)
    assert compare([row], {row.path: THERE}, (), VERSION).to_read == [(row.path, row)]


def test_a_file_whose_content_failed_waits_until_it_changes() -> None:
    """The same bytes would fail again."""
    row = known("a.jpg", kind="unreadable", key=None, has_failed=True)
    assert compare([row], {row.path: THERE}, (), VERSION).unchanged == [row]
    assert compare([row], {row.path: FoundFile(2000, 6)}, (), VERSION).to_read == [(row.path, row)]


def test_a_file_that_is_gone_is_absent() -> None:
    """Gone from a folder that shows others."""
    row = known("2026/a.jpg")
    changes = compare([row], {at("2026/b.jpg"): THERE}, (), VERSION)
    assert (changes.absent, changes.held) == ([row], [])


def test_a_file_known_to_be_missing_is_not_told_twice() -> None:
    """What was missing and still is belongs nowhere."""
    changes = compare([known("a.jpg", is_missing=True)], {}, (b"",), VERSION)
    assert (changes.absent, changes.held, changes.to_read, changes.unchanged) == ([], [], [], [])


def test_a_missing_file_that_is_back_as_it_was_returns_unread() -> None:
    """It counts as unchanged, and its row is told that it is back."""
    row = known("a.jpg", is_missing=True)
    changes = compare([row], {row.path: THERE}, (), VERSION)
    assert (changes.returned, changes.unchanged, changes.to_read) == ([row], [row], [])


def test_a_missing_file_that_is_back_and_changed_is_read() -> None:
    """It is read with its row, like any other changed file."""
    row = known("a.jpg", is_missing=True)
    changes = compare([row], {row.path: FoundFile(1, 1)}, (), VERSION)
    assert (changes.returned, changes.to_read) == ([], [(row.path, row)])


@pytest.mark.parametrize(
    ("path", "out_of_reach", "is_held"),
    [
        ("2025/a.jpg", "2025", True),
        ("2025/trip/a.jpg", "2025", True),
        ("2025/a.jpg", "", True),
        ("2025-old/a.jpg", "2025", False),
        ("2025.jpg", "2025", False),
        ("2025", "2025", False),
        ("x/2025/a.jpg", "2025", False),
    ],
)
def test_files_in_folders_out_of_reach_are_held(path: str, out_of_reach: str, is_held: bool) -> None:
    """Only what lies below such a folder is held back from being called missing, not what begins with its name."""
    row = known(path)
    changes = compare([row], {}, (at(out_of_reach),), VERSION)
    assert (changes.held, changes.absent) == (([row], []) if is_held else ([], [row]))


def test_a_file_seen_in_a_folder_that_closed_midway_is_no_less_there() -> None:
    """What the listing still gave is taken; only the rest is held."""
    seen, unseen = known("2025/a.jpg"), known("2025/b.jpg", id=2)
    changes = compare([seen, unseen], {seen.path: THERE}, (at("2025"),), VERSION)
    assert (changes.unchanged, changes.held, changes.absent) == ([seen], [unseen], [])


@pytest.mark.parametrize(
    ("before", "now"),
    [("", "a.xmp 1 2"), ("a.xmp 1 2", "a.xmp 1 3"), ("a.xmp 1 2", None)],
    ids=["new", "other", "gone"],
)
def test_a_photo_whose_sidecar_differs_is_read_again(before: str, now: str | None) -> None:
    """It appeared, changed or went, though the photo is as it was."""
    row = known("a.jpg", sidecar=before)
    texts = {row.path: now} if now else {}
    assert compare([row], {row.path: THERE}, (), VERSION, texts).to_read == [(row.path, row)]


def test_a_photo_whose_sidecar_is_the_same_is_not_read() -> None:
    """Nor is one that has none, beside others that have."""
    rows = [known("a.jpg", sidecar="a.xmp 1 2"), known("b.jpg")]
    changes = compare(rows, {row.path: THERE for row in rows}, (), VERSION, {rows[0].path: "a.xmp 1 2"})
    assert (changes.unchanged, changes.to_read) == (rows, [])


PATHS = st.sampled_from([at(path) for path in ("a", "b", "x/a", "x/b", "x/y/a", "z/a")])
FOUND = st.dictionaries(PATHS, st.builds(FoundFile, st.integers(1, 2), st.integers(1, 2)))
ROWS = st.lists(
    st.builds(
        KnownFile,
        st.integers(), st.just(1), PATHS, st.integers(1, 2), st.integers(1, 2), st.just("photo"), st.just("k"),
        st.integers(VERSION - 1, VERSION), st.booleans(), st.booleans(), st.booleans(),
    ),
    unique_by=lambda row: row.path,
)  # fmt: skip


@given(ROWS, FOUND, st.sets(st.sampled_from([b"", b"x", at("x/y"), b"z"])))
def test_every_file_has_exactly_one_fate(
    rows: list[KnownFile], found: dict[bytes, FoundFile], out_of_reach: set[bytes]
) -> None:
    """Each file found is read or left alone, each known one not found is absent, held, or missing as before."""
    changes = compare(rows, found, out_of_reach, VERSION)
    met = [path for path, _ in changes.to_read] + [row.path for row in changes.unchanged]
    assert sorted(met) == sorted(found)
    gone = [row for row in rows if row.path not in found and not row.is_missing]
    assert sorted([*changes.absent, *changes.held]) == sorted(gone)
    assert all(row in changes.unchanged and row.is_missing for row in changes.returned)


@pytest.mark.parametrize(
    ("photos_known", "photos_found", "folder_is_there", "held"),
    [
        (0, 0, True, False),  # nothing to lose
        (0, 0, False, False),
        (5, 1, True, False),  # four were deleted
        (5, 0, True, True),  # emptied, or a disk that is not mounted
        (5, 0, False, True),
        (5, 5, False, True),
    ],
)
def test_a_folder_that_held_photos_and_shows_none_is_held_back(
    photos_known: int, photos_found: int, folder_is_there: bool, held: bool
) -> None:
    """Absence of all is not deletion."""
    assert holds_back(photos_known, photos_found, folder_is_there) is held
