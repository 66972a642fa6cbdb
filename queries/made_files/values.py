"""What lies in a folder of ours, what was recorded of it, and whether the two agree. Pure."""

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True, slots=True)
class FileState:
    """What lies in the folder under a name. `sha256` is only known where size and time did not settle the question."""

    size: int
    mtime_ns: int
    is_plain: bool = True
    sha256: str | None = None


class Recorded(Protocol):
    """What was kept of a file when it was written."""

    @property
    def sha256(self) -> str: ...
    @property
    def size(self) -> int: ...
    @property
    def mtime_ns(self) -> int: ...


def is_as_recorded(record: Recorded, state: FileState) -> bool:
    """Whether the file is the one that was written: the cheap marks agree, or else its content does."""
    if (record.size, record.mtime_ns) == (state.size, state.mtime_ns):
        return True
    return state.sha256 == record.sha256


def bytes_words(size: int) -> str:
    """A size in bytes for people, in powers of 1000: "312 MB"."""
    value = float(size)
    for unit in ("bytes", "kB", "MB", "GB"):
        if value < 999.5:
            return f"{value:.0f} {unit}" if value >= 10 or unit == "bytes" else f"{value:.1f} {unit}"
        value /= 1000
    return f"{value:.1f} TB"
