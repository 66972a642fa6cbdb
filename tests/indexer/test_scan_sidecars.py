"""Photos and the XMP files beside them, from run to run."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from indexer.scan import Summary
from tests.indexer.library_runs import counts, tree

Draw = Callable[..., Path]
Run = Callable[..., Summary]
XMP = """<x:xmpmeta xmlns:x="adobe:ns:meta/"><r:RDF xmlns:r="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><r:Description
 xmlns:p="http://ns.adobe.com/photoshop/1.0/" p:DateCreated="{}"/></r:RDF></x:xmpmeta>"""


def claimed(connection: sqlite3.Connection, source: str = "sidecar original") -> list[str]:
    rows = connection.execute("SELECT claimed FROM evidence WHERE source = ? ORDER BY claimed", (source,))
    return [row["claimed"] for row in rows]


def test_a_sidecar_that_appears_changes_and_goes_is_read_anew(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, no_reading: Callable[[], None]
) -> None:
    """The photo is read again each time and stays the same photo; the sidecar is another file, and stays as it is."""
    draw(library / "a.jpg")
    run(library)
    (library / "A.xmp").write_text(XMP.format("1987-08"))
    before = tree(library)
    assert counts(run()) == {"changed": 1, "other": 1}
    assert claimed(connection) == ["1987-08"]
    (library / "A.xmp").write_text(XMP.format("1987-09-01"))
    assert counts(run()) == {"changed": 1, "other": 1}
    assert claimed(connection) == ["1987-09-01"]
    (library / "A.xmp").unlink()
    assert counts(run())["changed"] == 1
    assert claimed(connection) == []
    assert connection.execute("SELECT count(*) FROM picture").fetchone()[0] == 1
    assert before.keys() - tree(library).keys() == {str(library / "A.xmp")}
    no_reading()
    assert counts(run())["unchanged"] == 1


def test_a_run_over_unchanged_sidecars_reads_nothing(
    run: Run, library: Path, draw: Draw, no_reading: Callable[[], None]
) -> None:
    """Names, sizes and times of before are the same."""
    draw(library / "a.jpg")
    (library / "a.jpg.xmp").write_text(XMP.format("1987"))
    (library / "a.xmp").write_text(XMP.format("1988"))
    run(library)
    no_reading()
    assert counts(run()) == {"unchanged": 1, "other": 2}


def test_a_photo_that_moves_with_its_sidecar_is_the_same(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """It has moved, and its claims are there once."""
    draw(library / "a.jpg")
    (library / "a.xmp").write_text(XMP.format("1987"))
    run(library)
    (library / "scans").mkdir()
    for name in ("a.jpg", "a.xmp"):
        (library / name).rename(library / "scans" / name)
    assert counts(run())["moved"] == 1
    assert claimed(connection) == ["1987"]
    assert connection.execute("SELECT count(*) FROM picture").fetchone()[0] == 1


def test_a_shut_sidecar_is_tried_at_the_next_run(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its permissions show neither in size nor in time."""

    def refuse(path: str) -> None:
        raise PermissionError(13, "Permission denied", path)

    draw(library / "a.jpg")
    (library / "a.xmp").write_text(XMP.format("1987"))
    with monkeypatch.context() as patch:
        patch.setattr("indexer.facts.reading.sidecar_claims", refuse)
        run(library)
    problem = connection.execute("SELECT problem FROM evidence WHERE source = 'sidecar'").fetchone()["problem"]
    assert problem == "it could not be opened (Permission denied)"
    run()
    assert claimed(connection) == ["1987"]


def test_only_folders_below_the_library_folder_count(
    run: Run, tmp_path: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """The library folder's own name does not, until a folder around it becomes the library: then it is read again."""
    draw(tmp_path / "albums" / "1987" / "08" / "a.jpg", 1)
    draw(tmp_path / "albums" / "1987" / "1986-07" / "b.jpg", 2)
    run(tmp_path / "albums" / "1987")
    assert claimed(connection, "folder name") == ["1986-07"]
    assert counts(run(tmp_path / "albums"))["changed"] == 1
    assert claimed(connection, "folder name") == ["1986-07", "1987-08"]


def test_a_folder_without_a_date_is_taken_in_unread(
    run: Run, tmp_path: Path, draw: Draw, no_reading: Callable[[], None]
) -> None:
    """Nothing that the names tell has changed."""
    draw(tmp_path / "albums" / "harbour" / "a.jpg")
    run(tmp_path / "albums" / "harbour")
    no_reading()
    assert counts(run(tmp_path / "albums"))["unchanged"] == 1
