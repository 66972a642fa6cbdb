"""Verified writing."""

import errno
import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest

from indexer.errors import FolderError
from queries.made_files import writing
from queries.made_files.writing import clear_leftovers, file_sha256, write_verified
from queries.originals import SourceError

BLOCKS = [b"harbour " * 1000, b"at dusk"]


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    """Content, hash, size and file time are those asked for, and nothing temporary stays."""
    mtime_ns = 1_774_858_520_000_000_000
    written = write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2", mtime_ns=mtime_ns)
    content = b"".join(BLOCKS)
    assert (tmp_path / "a.jpg").read_bytes() == content
    assert (written.sha256, written.size) == (hashlib.sha256(content).hexdigest(), len(content))
    assert written.mtime_ns == (tmp_path / "a.jpg").stat().st_mtime_ns == mtime_ns
    assert [path.name for path in tmp_path.iterdir()] == ["a.jpg"]


@pytest.mark.parametrize("has_links", [True, False])
def test_no_file_is_ever_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, has_links: bool) -> None:
    """A taken name is refused, on disks with hard links and without, unless replacing is asked for."""
    if not has_links:

        def refuse(*_: object) -> None:
            raise PermissionError(errno.EPERM, "Operation not permitted")

        monkeypatch.setattr("os.link", refuse)
    write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2")
    with pytest.raises(FileExistsError):
        write_verified([b"other"], tmp_path, "a.jpg", "3f9a2")
    assert (tmp_path / "a.jpg").read_bytes() == b"".join(BLOCKS)
    write_verified([b"other"], tmp_path, "a.jpg", "3f9a2", over=True)
    assert (tmp_path / "a.jpg").read_bytes() == b"other"
    assert [path.name for path in tmp_path.iterdir()] == ["a.jpg"]


@pytest.mark.parametrize("trouble", [KeyboardInterrupt(), SourceError("gone"), OSError(errno.ENOSPC, "No space")])
def test_nothing_half_written_stays(tmp_path: Path, trouble: BaseException) -> None:
    """Whatever stops the writing goes on, and leaves neither the file nor its beginning."""

    def blocks() -> Iterator[bytes]:
        yield BLOCKS[0]
        raise trouble

    with pytest.raises(type(trouble)):
        write_verified(blocks(), tmp_path, "a.jpg", "3f9a2")
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_reads_back_other_bytes_is_found_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A copy is compared with what was read before it gets its name."""
    monkeypatch.setattr(writing, "file_sha256", lambda _: "0" * 64)
    with pytest.raises(FolderError, match=r"a\.jpg reads back other than it was written; check that disk"):
        write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2")
    assert list(tmp_path.iterdir()) == []


def test_two_runs_do_not_write_one_file(tmp_path: Path) -> None:
    """A temporary file of a run that is still going on is neither written to nor removed."""
    (tmp_path / ".weeksheaf-3f9a2.part").write_bytes(b"theirs")
    with pytest.raises(FolderError, match="another run is writing into"):
        write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2")
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"theirs"]


def test_leftovers_are_cleared_and_nothing_else(tmp_path: Path) -> None:
    """Only our own temporary names are removed."""
    for name in (".weeksheaf-3f9a2.part", ".weeksheaf-week.part", "holiday.part", ".weeksheaf-notes.txt"):
        (tmp_path / name).touch()
    clear_leftovers(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == [".weeksheaf-notes.txt", "holiday.part"]


def test_the_sha256_is_that_of_the_published_example(tmp_path: Path) -> None:
    """FIPS 180-4, example "abc"."""
    path = tmp_path / "a b\u00e9.jpg"
    path.write_bytes(b"abc")
    assert file_sha256(path) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
