"""How fast the tool is, as ratios: ours and a plain baseline measured side by side in one run.

    python tests/benchmarks/run.py [--short]

Nothing here passes or fails: the table is for people. The photos are made in a temporary folder (7 GB in the full form,
1 GB in the short one; fewer photos where the disk has less room, as `n` then says) and are gone afterwards. They are
read while they are still in the system's cache, by both sides.
"""

import argparse
import os
import shutil
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.benchmarks import near_search
from tests.benchmarks.alike import bursts, copies
from tests.benchmarks.alike.burst_pairs import burst_data
from tests.benchmarks.measuring import Row, in_turns, python, table
from tests.real_photos import pool

FASTER = "photos/s, more is better"
SHORTER = "ms, less is better"
SMALLER = "MB, less is better"

_WALK = """
import os, sys

def walk(folder):
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                yield from walk(entry.path)
            else:
                yield entry.stat(follow_symlinks=False)

sum(1 for _ in walk(sys.argv[1]))
"""


@dataclass(frozen=True, slots=True)
class Extent:
    """How much is measured: photos of each library, files of the plain loop's sample, and rounds."""

    photos: int
    tiny: int
    sample: int
    walks: int
    starts: int


FULL = Extent(photos=2_000, tiny=50_000, sample=60, walks=7, starts=15)
SHORT = Extent(photos=200, tiny=5_000, sample=24, walks=3, starts=5)
#: Photos of the index on which the start-up is measured.
FEW = 150
#: The most that a large photo weighs, to plan the disk with.
MOST_BYTES = 3_500_000


def main() -> None:
    parser = argparse.ArgumentParser(description="Print how fast the tool is beside plain baselines.")
    parser.add_argument("--short", action="store_true", help="fewer photos and rounds, as CI does")
    is_short = parser.parse_args().short
    print(table(list(rows(SHORT if is_short else FULL))), flush=True)
    print(
        "\nNear search\n" + table(list(near_search.rows(near_search.SHORT if is_short else near_search.FULL))),
        flush=True,
    )
    if pool.is_fetched():
        photographs = pool.strangers()
        print(
            "\nBursts\n"
            + "\n".join(bursts.lines(bursts.measure(burst_data(for_fitting=False, photographs=photographs))))
        )
        print("\nCopies\n" + "\n".join(copies.lines(copies.measure(photographs[1::2][: 40 if is_short else None]))))
    elif os.environ.get("WEEKSHEAF_REAL_PHOTOS_REQUIRED") == "1":
        sys.exit("Error: the real photos are not here: python tests/real_photos/fetch.py --only all")
    else:
        print("\nBursts and copies need the real photos: python tests/real_photos/fetch.py --only all")


def rows(extent: Extent) -> Iterator[Row]:
    """Every row of the table, measured one after the other."""
    with TemporaryDirectory(prefix="weeksheaf-benchmark-") as scratch:
        few, index = Path(scratch, "few"), Path(scratch, "few.db")
        _make("tiny", few, FEW)
        python(*_weeksheaf(index, "index", str(few)))
        yield _start(index, extent.starts)
    with TemporaryDirectory(prefix="weeksheaf-benchmark-") as scratch:
        yield from _large(Path(scratch), extent, "large", "first index of 12 MP JPEGs with thumbnails")
    with TemporaryDirectory(prefix="weeksheaf-benchmark-") as scratch:
        yield from _large(Path(scratch), extent, "bare", "first index of 12 MP JPEGs without")
    with TemporaryDirectory(prefix="weeksheaf-benchmark-") as scratch:
        yield from _many(Path(scratch), extent)


def _start(index: Path, rounds: int) -> Row:
    ours, bare = in_turns(_weeksheaf(index, "weeks"), ["-c", "import click, sqlite3"], rounds)
    return Row("weeks, against importing click and sqlite3", ours * 1e3, bare * 1e3, SHORTER, f"median of {rounds}")


def _large(scratch: Path, extent: Extent, kind: str, name: str) -> Iterator[Row]:
    """First index of 12 megapixel photos, fingerprints and sets included, the memory it takes, and the run after it."""
    library, index = scratch / "library", scratch / "index.db"
    count = _affordable(scratch, extent.photos)
    _make(kind, library, count)
    if hasattr(os, "sync"):
        os.sync()  # or the disk would still be busy with them
    sample = sorted(library.rglob("*.jpg"))[:: max(1, count // extent.sample)]
    # Half of the plain loop before and half after, so that a machine that slows down does so for both.
    halves = [_plain_reading(sample[::2])]
    first = python(*_weeksheaf(index, "index", str(library)))
    halves.append(_plain_reading(sample[1::2]))
    plain_seconds = sum(seconds for seconds, _ in halves)
    n = f"{count:,}, of which {_alike(index)} called alike; baseline {len(sample)} of them"
    yield Row(
        f"{name}, against a plain loop",
        count / first.seconds,
        len(sample) / plain_seconds,
        FASTER,
        n,
    )
    peaks = [peak for _, peak in halves if peak is not None]
    if first.peak is not None and peaks:
        yield Row("  peak memory of its largest process", first.peak, max(peaks), SMALLER, n)
    if kind == "large":
        yield _unchanged("index again, against a bare walk", index, library, count, extent.walks)


def _alike(index: Path) -> int:
    """How many photos of that index stand in a set: none should, since all are made to be different."""
    with closing(sqlite3.connect(index)) as database:
        (count,) = database.execute("SELECT count(DISTINCT photo_key) FROM alike_set").fetchone()
    return int(count)


def _many(scratch: Path, extent: Extent) -> Iterator[Row]:
    """The same for many files that are tiny, where walking and comparing is all there is to do."""
    library, index = scratch / "library", scratch / "index.db"
    _make("tiny", library, extent.tiny)
    python(*_weeksheaf(index, "index", str(library)))
    yield _unchanged("index again many tiny files, against a bare walk", index, library, extent.tiny, extent.walks)


def _unchanged(name: str, index: Path, library: Path, count: int, rounds: int) -> Row:
    ours, bare = in_turns(_weeksheaf(index, "index", str(library)), ["-c", _WALK, str(library)], rounds)
    return Row(name, ours * 1e3, bare * 1e3, SHORTER, f"{count:,}; median of {rounds}")


def _plain_reading(paths: list[Path]) -> tuple[float, float | None]:
    """Seconds of the loop alone, without the start of its process, and the peak memory."""
    told = "\n".join(map(str, paths))
    done = python(str(Path(__file__).with_name("plain_reading.py")), told=told)
    return float(done.printed), done.peak


def _make(kind: str, folder: Path, count: int) -> None:
    """In a process of its own: one that grew large would pass its own peak memory on to all that it starts."""
    python("-m", "tests.benchmarks.made_photos", kind, str(folder), str(count))


def _weeksheaf(index: Path, *words: str) -> list[str]:
    return ["-m", "queries.cli", "--index", str(index), *words]


def _affordable(folder: Path, wanted: int) -> int:
    """How many large photos the disk has room for, a fifth of what is free left alone."""
    room = int(shutil.disk_usage(folder).free * 0.8 // MOST_BYTES)
    if room < 2:
        raise SystemExit(f"Error: the disk of {folder} is full; name another folder with TMPDIR")
    return min(wanted, room)


if __name__ == "__main__":
    main()
