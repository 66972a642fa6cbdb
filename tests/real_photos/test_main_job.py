"""The main job on real photographs, through the command line: index, list the unfinished weeks, pull one."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.real_photos.conftest import FolderOf
from tests.real_photos.fetch import REPOSITORY

PACKAGES = ("pillow-heif", "golang-github-rwcarlsen-goexif-dev")
#: A phone picture with the Exif date 2023-02-21, by the second reader too, in pillow-heif 1.8.1.
WEEK, PHOTO = "2023-W08", "pug.heic"

Command = Callable[..., Any]


@pytest.fixture(scope="module")
def libraries(folder_of: FolderOf) -> list[Path]:
    return [folder_of(name) for name in PACKAGES]


def command_on(index: Path) -> Command:
    """A function that runs one command on that index and returns its JSON."""

    def run(*arguments: str | Path) -> Any:
        command = [sys.executable, "-m", "queries.cli", "--index", index, *arguments, "--json"]
        done = subprocess.run(command, cwd=REPOSITORY, capture_output=True, encoding="utf-8", check=False)
        assert done.returncode == 0, (done.returncode, done.stderr)
        return json.loads(done.stdout)

    return run


@pytest.fixture(scope="module")
def weeksheaf(tmp_path_factory: pytest.TempPathFactory) -> Command:
    """Commands on an index of this module's own."""
    return command_on(tmp_path_factory.mktemp("real") / "index.db")


@pytest.fixture(scope="module")
def indexed(weeksheaf: Command, libraries: list[Path]) -> Any:
    """The summary of the first index run."""
    return weeksheaf("index", *libraries)


def listing(folders: list[Path]) -> list[tuple[str, int, int]]:
    """Path, size and time of change of every file, to see that nothing was touched."""
    found = [path for folder in folders for path in sorted(folder.rglob("*")) if path.is_file()]
    return [(str(path), path.stat().st_size, path.stat().st_mtime_ns) for path in found]


def files_below(folder: Path) -> Iterator[Path]:
    """Every file that a walk enters: not those in hidden folders."""
    for place, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from (Path(place, name) for name in names)


def test_every_file_is_counted_once(weeksheaf: Command, libraries: list[Path], indexed: Any) -> None:
    """Every file of the folders is a photo, another kind of file, or unreadable; none stops the run."""
    rows = weeksheaf("unreadable")["files"]
    assert indexed["unreadable"] == len({row["path"] for row in rows})
    no_photo = {row["path"] for row in rows if row["step"] in ("open", "header", "reader")}
    files = [path for folder in libraries for path in files_below(folder)]
    assert indexed["found"] == indexed["new"]
    assert indexed["found"] + indexed["other"] + len(no_photo) == len(files)


@pytest.mark.usefixtures("indexed")
def test_turned_photos_have_the_shape_that_is_seen(weeksheaf: Command) -> None:
    """The goexif samples with the orientations 1 to 8 are all shown 40 wide and 80 high, so all are portraits."""
    samples = {
        photo["orientation"]: (photo["width"], photo["height"], photo["shape"])
        for photo in weeksheaf("undated")["photos"]
        if Path(photo["path"]).name.endswith("-exif.jpg")
    }
    assert samples == dict.fromkeys(range(1, 9), (40, 80, "portrait"))


def test_a_second_run_finds_nothing_to_do(weeksheaf: Command, libraries: list[Path], indexed: Any) -> None:
    """Indexing the same folders again changes nothing, and nothing in the folders was touched."""
    before = listing(libraries)
    again = weeksheaf("index", *libraries)
    assert (again["new"], again["changed"], again["moved"], again["missing"]) == (0, 0, 0, 0)
    assert again["found"] == indexed["found"]
    assert listing(libraries) == before


@pytest.mark.usefixtures("indexed")
def test_the_week_of_a_phone_picture_is_listed_and_pulled(weeksheaf: Command, tmp_path: Path) -> None:
    """The week stands among the unfinished ones, and its folder holds byte-exact copies under new names."""
    rows = {row["name"]: row for row in weeksheaf("weeks", "--unfinished")["weeks"]}
    assert rows[WEEK]["photos"] > 0

    target = tmp_path / "album table"
    weeksheaf("pull", WEEK, target)
    pulled = json.loads((target / "week.json").read_text("utf-8"))["photos"]
    assert len(pulled) == rows[WEEK]["photos"]
    assert PHOTO in {Path(photo["source"]).name for photo in pulled}
    for photo in pulled:
        copy = (target / photo["file"]).read_bytes()
        assert copy == Path(photo["source"]).read_bytes()
        assert hashlib.sha256(copy).hexdigest() == photo["sha256"]


@pytest.mark.parametrize("options", [[], ["--jpeg"]])
def test_a_file_made_to_break_decoders_does_not_stop_a_pull(
    folder_of: FolderOf, tmp_path: Path, options: list[str]
) -> None:
    """This file ends some releases of the HEIF library with a segmentation fault; both photos of its week arrive."""
    library = tmp_path / "library"
    library.mkdir()
    crasher = "IMG_20230221_143400.heic"  # it has no Exif date, so its name puts it into the week
    for original, name in ((PHOTO, PHOTO), ("invalid_metadata_type.heic", crasher)):
        (source,) = folder_of("pillow-heif").rglob(original)
        shutil.copyfile(source, library / name)
    weeksheaf = command_on(tmp_path / "index.db")
    weeksheaf("index", library)

    told = weeksheaf("pull", WEEK, tmp_path / "table", *options)
    assert len(told["added"]) == 2
    assert told["failed"] == []
