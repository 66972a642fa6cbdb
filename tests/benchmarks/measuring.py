"""Whole commands, timed from outside, two at a time."""

import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import perf_counter

REPOSITORY = Path(__file__).resolve().parents[2]

#: What a person's machine does not set either: without compiled files every start would compile anew.
_ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


@dataclass(frozen=True, slots=True)
class Run:
    """One command: its wall time in seconds, what it printed, and the peak memory in MB of the largest of its
    processes (None where the system does not tell)."""

    seconds: float
    printed: str
    peak: float | None


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table. `ratio` is ours to the baseline's; `n` says of how many."""

    name: str
    ours: float
    baseline: float
    unit: str
    n: str

    @property
    def ratio(self) -> float:
        return self.ours / self.baseline


def python(*arguments: str, told: str = "") -> Run:
    """Run this Python with these arguments, `told` on its standard input. CalledProcessError when it fails."""
    command = [sys.executable, *arguments]
    started = perf_counter()
    with subprocess.Popen(
        command, cwd=REPOSITORY, env=_ENVIRONMENT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(told)
        process.stdin.close()
        printed = process.stdout.read()
        peak = _peak_at_end(process)
    seconds = perf_counter() - started
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command)
    return Run(seconds, printed, peak)


def in_turns(ours: Sequence[str], baseline: Sequence[str], rounds: int) -> tuple[float, float]:
    """The median seconds of two Python commands, run by turns after one round that does not count."""
    python(*ours), python(*baseline)
    pairs = [(python(*ours).seconds, python(*baseline).seconds) for _ in range(rounds)]
    return median(pair[0] for pair in pairs), median(pair[1] for pair in pairs)


def table(rows: Sequence[Row]) -> str:
    """The rows as plain text."""
    cells = [("name", "ours", "baseline", "ratio", "unit", "n")]
    cells += [
        (row.name, f"{row.ours:,.1f}", f"{row.baseline:,.1f}", f"{row.ratio:.2f}", row.unit, row.n) for row in rows
    ]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return "\n".join("  ".join(_set(line, widths)).rstrip() for line in cells)


def _set(line: Sequence[str], widths: Sequence[int]) -> list[str]:
    """Words to the left, numbers (the second to the fourth cell) to the right."""
    return [
        cell.rjust(width) if 1 <= place <= 3 else cell.ljust(width)
        for place, (cell, width) in enumerate(zip(line, widths, strict=True))
    ]


def _peak_at_end(process: "subprocess.Popen[str]") -> float | None:
    """Wait for the process; the peak is that of itself or of the largest process it waited for itself."""
    if sys.platform != "linux":
        process.wait()
        return None
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return usage.ru_maxrss / 1024
