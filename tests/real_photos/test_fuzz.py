"""The fuzz run itself: a short one over the real files, and that it can find fault."""

import random
import subprocess
import sys

import pytest

from tests.real_photos import fuzz
from tests.real_photos.conftest import FolderOf


def test_a_short_run_finds_nothing_wrong(folder_of: FolderOf) -> None:
    """Every mutant of a few hundred is read, or refused with a reason; the long run is started by hand and in CI.

    In a process of its own: a worker's peak of memory counts what it was forked from.
    """
    words = ["--mutants", "300", "--decoded", "30", "--seed", "3", "--files", str(folder_of("pillow"))]
    run = subprocess.run([sys.executable, fuzz.__file__, *words], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    assert run.stdout.count(" 0 wrong") == 2


def test_without_files_it_says_how_to_get_some(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing to damage is no success."""
    assert fuzz.main(["--files", str(tmp_path)]) == 1
    assert "fetch.py" in capsys.readouterr().err


def test_a_seed_makes_one_mutant() -> None:
    """A fault that was found can be made again."""
    data = random.Random(1).randbytes(3000) + b"Exif\0\0II*\0" + bytes(500)
    first, again, other = (fuzz.damaged(data, random.Random(seed)) for seed in (5, 5, 6))
    assert first == again != other
    assert data not in (first, other)


@pytest.mark.parametrize(
    ("when", "problem", "sound"),
    [
        ("2026", None, True),
        ("2026-03", None, True),
        ("2026-03-30", None, True),
        ("2026-03-30T09:15:20", None, True),
        (None, "blank", True),
        (None, None, False),
        ("2026-02-30", None, False),
        ("2026-13", None, False),
        ("2026-03-30T25:00", None, False),
    ],
)
def test_only_dates_of_the_calendar_are_sound(when: str | None, problem: str | None, sound: bool) -> None:
    """Or none, with the reason."""
    assert fuzz._is_sound(when, problem) is sound
