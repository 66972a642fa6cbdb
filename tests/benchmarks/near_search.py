"""Near codes, how fast and in how much memory, beside comparing every two.

    python -m tests.benchmarks.near_search [--short]

Every measurement is a process of its own, ours and the other by turns, and tells the seconds of the search alone.
Where comparing every two would take long, it does so for the first few of the codes and is reckoned up: `n` says so.
Where both find all pairs, they must be as many. `faiss-cpu` is compared with where it is installed.
"""

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from statistics import median
from time import perf_counter

import numpy as np

from indexer.alike.bits import Codes, bit_counts
from indexer.alike.near import near_pair_blocks, near_pair_blocks_between
from tests.benchmarks.measuring import Row, python, table

RADIUS = 8
MILLISECONDS = "ms, less is better"
MEGABYTES = "MB, less is better"
#: So many codes the plain scan compares with all others before it is reckoned up.
SCANNED = 10_000
_TILE = (32, 4096)


@dataclass(frozen=True, slots=True)
class Extent:
    """How many codes, the radii that the middle number of them is searched at, and rounds."""

    counts: tuple[int, ...]
    radii: tuple[int, ...]
    rounds: int


FULL = Extent(counts=(10_000, 100_000, 1_000_000), radii=(10, 12, 14), rounds=3)
SHORT = Extent(counts=(10_000, 100_000), radii=(12,), rounds=1)


@dataclass(frozen=True, slots=True)
class Search:
    """What one process found: its seconds, how many pairs (-1 where it did not look at all), its peak in MB."""

    seconds: float
    pairs: int
    peak: float | None


def rows(extent: Extent) -> Iterator[Row]:
    """Every row, measured one after the other."""
    for kind in ("random", "clustered"):
        for count in extent.counts:
            yield from _against("scan", kind, count, RADIUS, extent.rounds)
    middle = extent.counts[1]
    for radius in extent.radii:
        yield from _against("scan", "clustered", middle, radius, extent.rounds)
    yield from _between(extent.counts[-1], extent.rounds)
    if find_spec("faiss"):
        yield from _against("faiss", "clustered", middle, RADIUS, 1)


def _against(other: str, kind: str, count: int, radius: int, rounds: int) -> Iterator[Row]:
    """All near pairs of so many codes: the time, and the memory where it is the largest number."""
    pairs = [(_search("near", kind, count, radius), _search(other, kind, count, radius)) for _ in range(rounds)]
    ours, theirs = pairs[-1]
    if theirs.pairs not in (-1, ours.pairs):
        raise SystemExit(f"Error: {ours.pairs} near pairs found, {theirs.pairs} by {other}")
    reckoned = ", baseline reckoned up" if theirs.pairs < 0 else ""
    n = f"{count:,}; {ours.pairs:,} pairs{reckoned}"
    name = f"near {kind} codes, radius {radius}, against {_NAMES[other]}"
    yield Row(name, _milliseconds(one for one, _ in pairs), _milliseconds(one for _, one in pairs), MILLISECONDS, n)
    if ours.peak is not None and theirs.peak is not None and other == "scan" and count >= 1_000_000:
        yield Row("  peak memory of its process", ours.peak, theirs.peak, MEGABYTES, f"{count:,}")


def _between(known: int, rounds: int) -> Iterator[Row]:
    """A thousand new codes against those known, beside searching all of them anew."""
    pairs = [(_search("between", "clustered", known, RADIUS), _search("near", "clustered", known, RADIUS))]
    pairs += [(_search("between", "clustered", known, RADIUS), pairs[0][1]) for _ in range(rounds - 1)]
    name = f"1,000 new codes among known ones, radius {RADIUS}, against all anew"
    times = [_milliseconds(one for one, _ in pairs), _milliseconds(one for _, one in pairs)]
    yield Row(name, *times, MILLISECONDS, f"{known:,}; {pairs[0][0].pairs:,} pairs")


_NAMES = {"scan": "comparing every two", "faiss": "faiss-cpu"}


def _milliseconds(searches: Iterator[Search]) -> float:
    return median(one.seconds for one in searches) * 1e3


def _search(way: str, kind: str, count: int, radius: int) -> Search:
    """One measurement in a process of its own."""
    done = python("-m", "tests.benchmarks.near_search", "--one", way, kind, str(count), str(radius))
    seconds, pairs = done.printed.split()
    return Search(float(seconds), int(pairs), done.peak)


def made_codes(kind: str, count: int) -> Codes:
    """So many codes: random ones, or clusters such as bursts give, of 1 to 40 codes up to 6 bits from their centre."""
    random = np.random.default_rng(1)
    codes = random.integers(0, 1 << 64, count, dtype=np.uint64)
    if kind == "clustered":
        sizes = np.minimum(random.zipf(1.8, count), 40)
        codes = np.repeat(codes, sizes)[:count]
        flips = random.integers(0, 7, count)
        for turn in range(6):
            bits = np.uint64(1) << random.integers(0, 64, count, dtype=np.uint64)
            codes = np.where(turn < flips, codes ^ bits, codes)
        random.shuffle(codes)
    return codes


def _near(codes: Codes, radius: int) -> tuple[float, int]:
    started = perf_counter()
    pairs = sum(map(len, near_pair_blocks(codes, radius)))
    return perf_counter() - started, pairs


def _new(codes: Codes, radius: int) -> tuple[float, int]:
    started = perf_counter()
    pairs = sum(map(len, near_pair_blocks_between(codes[:1_000], codes[1_000:], radius)))
    return perf_counter() - started, pairs


def _scan(codes: Codes, radius: int) -> tuple[float, int]:
    """Each code with all that follow it; where that is too much, some of them with all, reckoned up."""
    whole = len(codes) <= 10 * SCANNED
    started = perf_counter()
    pairs = 0
    height, width = _TILE
    for top in range(0, len(codes) if whole else SCANNED, height):
        for left in range(top if whole else 0, len(codes), width):
            apart = bit_counts(codes[top : top + height, None] ^ codes[left : left + width])
            here, there = np.divmod(np.flatnonzero(apart <= radius), apart.shape[1])
            pairs += np.count_nonzero(top + here < left + there)
    seconds = perf_counter() - started
    return (seconds, pairs) if whole else (seconds * len(codes) / SCANNED / 2, -1)


def _faiss(codes: Codes, radius: int) -> tuple[float, int]:
    """Its exhaustive search for ranges, which finds each pair twice and each code itself; it keeps to below a limit."""
    import faiss

    faiss.omp_set_num_threads(1)
    packed = codes.astype(">u8").view(np.uint8).reshape(-1, 8)
    started = perf_counter()
    index = faiss.IndexBinaryFlat(64)
    index.add(packed)
    limits, _, _ = index.range_search(packed, radius + 1)
    return perf_counter() - started, (int(limits[-1]) - len(codes)) // 2


def main() -> None:
    parser = argparse.ArgumentParser(description="Print how fast near codes are found, beside comparing every two.")
    parser.add_argument("--short", action="store_true", help="fewer codes and rounds, as CI does")
    parser.add_argument("--one", nargs=4, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.one:
        way, kind, count, radius = options.one
        ways = {"near": _near, "between": _new, "scan": _scan, "faiss": _faiss}
        print(*ways[way](made_codes(kind, int(count)), int(radius)))
    else:
        print(table(list(rows(SHORT if options.short else FULL))))


if __name__ == "__main__":
    main()
