"""The library in the making: files written and what is true about them."""

import csv
from dataclasses import astuple, dataclass, fields
from pathlib import Path

from .household import Shot

_NAMES = {"ada": "ada-phone", "ben": "ben-phone", "compact": "compact", "grandmother": "grandmother-phone"}


@dataclass(frozen=True, slots=True, order=True)
class Truth:
    """One row of truth.csv. `taken` is ISO 8601 of reduced precision, empty when nobody knows."""

    file: str
    taken: str
    precision: str
    device: str
    scene: str
    burst: str = ""
    copy_of: str = ""


class Library:
    """Writes files below a folder and remembers the truth about each photo, and its bytes for the copies."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.rows: list[Truth] = []
        self.originals: dict[tuple[str, int, int], tuple[Truth, bytes]] = {}
        self.written = 0

    def write(self, name: str, data: bytes) -> None:
        path = self.root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            path.write_bytes(data)
        except OSError:
            if "\n" not in name:
                raise
            print("A file name with a line break cannot be written on this system.")
        self.written += len(data)

    def add(self, data: bytes, truth: Truth) -> None:
        """A photo."""
        self.write(truth.file, data)
        self.rows.append(truth)

    def add_shot(self, name: str, data: bytes, shot: Shot) -> None:
        """A photo as its device stored it; copies are made of it later."""
        truth = Truth(name, f"{shot.taken:%Y-%m-%dT%H:%M:%S}", "second", _NAMES[shot.device], shot.occasion, shot.burst)
        self.originals[shot.device, shot.seed, shot.frame] = truth, data
        self.add(data, truth)

    def add_copy(self, name: str, data: bytes, original: Truth) -> None:
        """The same shot again, in other bytes or in another place."""
        copied = Truth(
            name, original.taken, original.precision, original.device, original.scene, original.burst, original.file
        )
        self.add(data, copied)

    def write_truth(self) -> None:
        path = self.root / "truth.csv"
        with path.open("w", encoding="utf-8", newline="") as target:
            writer = csv.writer(target, lineterminator="\n")
            writer.writerow(field.name for field in fields(Truth))
            writer.writerows(astuple(row) for row in sorted(self.rows))
        self.written += path.stat().st_size
