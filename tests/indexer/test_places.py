"""Which of a photo's files is there as it was read."""

import os
from pathlib import Path

from indexer.places import first_there
from indexer.store.pixels import Place


def place(path: Path) -> Place:
    known = path.stat()
    return Place(str(path), known.st_size, known.st_mtime_ns)


def test_the_first_that_is_there_as_it_was_read(tmp_path: Path) -> None:
    """Not one that is gone, has another size or another time, or a name that no file can have."""
    places = []
    for name in ("gone", "longer", "later", "same", "too"):
        (tmp_path / name).write_bytes(b"light")
        places.append(place(tmp_path / name))
    (tmp_path / "gone").unlink()
    (tmp_path / "longer").write_bytes(b"lighter")
    os.utime(tmp_path / "longer", ns=(places[1].mtime_ns, places[1].mtime_ns))
    os.utime(tmp_path / "later", ns=(1, places[2].mtime_ns + 1))
    assert first_there([Place("a\0b", 1, 1), *places]) == str(tmp_path / "same")
    assert first_there(places[:3]) is None
    assert first_there([]) is None
