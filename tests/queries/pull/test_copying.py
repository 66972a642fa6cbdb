"""Verified writing."""

import errno
import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from indexer.errors import PullError
from queries.pull import copying
from queries.pull.copying import SourceError, clear_leftovers, file_sha256, source_blocks, write_verified
from queries.pull.plan import Source

BLOCKS = [b"harbour " * 1000, b"at dusk"]


def source_of(path: Path) -> Source:
    info = path.stat()
    return Source(str(path), info.st_size, info.st_mtime_ns)


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
    monkeypatch.setattr(copying, "file_sha256", lambda _: "0" * 64)
    with pytest.raises(PullError, match=r"a\.jpg reads back other than it was written; check that disk"):
        write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2")
    assert list(tmp_path.iterdir()) == []


def test_two_runs_do_not_write_one_file(tmp_path: Path) -> None:
    """A temporary file of a run that is still going on is neither written to nor removed."""
    (tmp_path / ".weeksheaf-3f9a2.part").write_bytes(b"theirs")
    with pytest.raises(PullError, match="another pull is writing into"):
        write_verified(BLOCKS, tmp_path, "a.jpg", "3f9a2")
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"theirs"]


def test_leftovers_are_cleared_and_nothing_else(tmp_path: Path) -> None:
    """Only our own temporary names are removed."""
    for name in (".weeksheaf-3f9a2.part", ".weeksheaf-week.part", "holiday.part", ".weeksheaf-notes.txt"):
        (tmp_path / name).touch()
    clear_leftovers(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == [".weeksheaf-notes.txt", "holiday.part"]


def test_an_original_that_changes_under_the_copy_is_noticed(tmp_path: Path) -> None:
    """Reading to the end fails when the file is no longer the one that was planned."""
    path = tmp_path / "a.jpg"
    path.write_bytes(b"before")
    source = source_of(path)
    path.write_bytes(b"afterwards")
    with pytest.raises(SourceError, match="changed while it was read; run weeksheaf index"):
        list(source_blocks(source))


def test_an_original_that_cannot_be_read_is_named_in_words(tmp_path: Path) -> None:
    """The reason holds the system's words, without numbers."""
    with pytest.raises(SourceError, match=f"cannot be read: {os.strerror(errno.ENOENT).lower()}"):
        list(source_blocks(Source(str(tmp_path / "none.jpg"), 1, 1)))


def test_the_sha256_is_that_of_the_published_example(tmp_path: Path) -> None:
    """FIPS 180-4, example "abc"."""
    path = tmp_path / "a b\u00e9.jpg"
    path.write_bytes(b"abc")
    assert file_sha256(path) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
