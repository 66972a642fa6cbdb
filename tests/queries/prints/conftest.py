"""The second reader of the prints."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest


@pytest.fixture(scope="session")
def second_reader() -> Callable[[Path], dict[str, Any]]:
    """`exiftool` (Debian: libimage-exiftool-perl): the tags of one file by group and name, in its own words."""
    program = shutil.which("exiftool")
    if program is None:
        pytest.skip("exiftool, the second reader, is not on this machine: apt-get install libimage-exiftool-perl")

    def read(path: Path) -> dict[str, Any]:
        done = subprocess.run([program, "-json", "-G", "-a", str(path)], capture_output=True, check=True)
        tags: dict[str, Any] = json.loads(done.stdout)[0]
        return tags

    return read
