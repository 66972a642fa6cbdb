"""How many photos come into the wrong week: made libraries with a known truth, dated by the tool and in two plain ways.

    python -m tests.benchmarks.dating [--seeds 4] [--seed N] [--short] [--list] [--keep FOLDER]

"wrong and unflagged" counts every photo in a wrong week that is not flagged as doubtful, before any correction of a
clock is applied. Exit code 1: a goal is missed. `--keep` leaves libraries and indexes in the folder.
"""

import argparse
import sys
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.benchmarks.dating import baselines, engine
from tests.benchmarks.dating.library import library_of
from tests.benchmarks.dating.measures import Case, Verdict, Verdicts, by_fault, measure, missed_goals, table
from tests.benchmarks.dating.values import Photo
from tests.benchmarks.dating.world import FULL, SHORT, Extent
from tests.benchmarks.dating.writing import write_library

OURS, ORIGINAL, FILE_TIME = "ours", "Exif original", "Exif, then file time"


@dataclass(slots=True)
class Found:
    """The cases of all seeds: by way of dating, and ours after all that was proposed; the proposals in words."""

    ways: dict[str, list[Case]] = field(default_factory=lambda: {OURS: [], ORIGINAL: [], FILE_TIME: []})
    corrected: list[Case] = field(default_factory=list)
    proposed: list[str] = field(default_factory=list)
    seconds: dict[str, float] = field(default_factory=lambda: {"making": 0.0, "indexing": 0.0, "correcting": 0.0})


def main() -> int:
    arguments = _arguments()
    seeds = [arguments.seed] if arguments.seed is not None else list(range(1, arguments.seeds + 1))
    if arguments.short:
        seeds = seeds[:1]
    found = Found()
    for seed in seeds:
        with _folder(arguments.keep, seed) as folder:
            run_seed(seed, SHORT if arguments.short else FULL, folder, found)
    return report(found, is_listing=arguments.list)


def run_seed(seed: int, extent: Extent, folder: Path, found: Found) -> None:
    """Make, index, measure and correct one library inside the folder."""
    library, photos = folder / "library", library_of(seed, extent)
    with _timed(found, "making"):
        write_library(library, photos)
    for way, day_of in ((ORIGINAL, baselines.exif_original), (FILE_TIME, baselines.exif_then_file_time)):
        found.ways[way] += _cases(seed, photos, {photo.path: Verdict(day_of(library / photo.path)) for photo in photos})
    with _timed(found, "indexing"):
        connection = engine.indexed(folder / "index.db", library)
    with closing(connection):
        found.ways[OURS] += _cases(seed, photos, engine.verdicts(connection))
        with _timed(found, "correcting"):
            found.proposed += [f"seed {seed}, {said}" for said in engine.apply_all_proposed(connection)]
        found.corrected += _cases(seed, photos, engine.verdicts(connection))


def report(found: Found, *, is_listing: bool) -> int:
    """Print the tables; 1 where a goal is missed."""
    ours, after = found.ways[OURS], measure(found.corrected)
    print(table({way: measure(cases) for way, cases in found.ways.items()}, after))
    print("\n" + by_fault(ours, found.corrected))
    print("\nProposed clock corrections:", *(found.proposed or ["none"]), sep="\n  ")
    if is_listing:
        print("\n" + "\n".join(_listed(ours, found.corrected)))
    print("\nSeconds: " + ", ".join(f"{doing} {seconds:.0f}" for doing, seconds in found.seconds.items()))
    missed = missed_goals(measure(ours), after)
    print("\nAll goals are met." if not missed else "\nMissed: " + "; ".join(missed) + ".")
    return 1 if missed else 0


def _listed(before: Sequence[Case], after: Sequence[Case]) -> Iterator[str]:
    """Every photo that keeps a goal from being met, with the verdict on it."""
    for case in before:
        if case.is_wrong_unflagged:
            yield _line("wrong and unflagged", case)
        elif case.is_missing:
            yield _line("missing", case)
        elif case.photo.mark == "open" and not case.is_flagged:
            yield _line("open, not flagged", case)
        elif case.photo.mark == "settled" and case.is_flagged:
            yield _line("settled, doubtful", case)
    yield from (_line("wrong with clocks proposed", case) for case in after
                if case.photo.mark != "open" and not case.is_right)  # fmt: skip


def _line(what: str, case: Case) -> str:
    photo, verdict = case.photo, case.verdict
    said = f"{verdict.day} ({verdict.reason})" if verdict else "no row"
    return f"{what}: seed {case.seed}, {photo.path} [{photo.mark}: {photo.fault}] taken {photo.taken}; {said}"


def _cases(seed: int, photos: Sequence[Photo], verdicts: Verdicts) -> list[Case]:
    return [Case(seed, photo, verdicts.get(photo.path)) for photo in photos]


@contextmanager
def _folder(keep: Path | None, seed: int) -> Iterator[Path]:
    if keep:
        folder = keep / f"seed-{seed}"
        folder.mkdir(parents=True)  # an older one is not written over
        yield folder
    else:
        with TemporaryDirectory(prefix="weeksheaf-dating-") as name:
            yield Path(name)


@contextmanager
def _timed(found: Found, doing: str) -> Iterator[None]:
    started = perf_counter()
    yield
    found.seconds[doing] += perf_counter() - started


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Count the photos that come into the wrong week.")
    parser.add_argument("--seeds", type=int, default=4, help="how many libraries (default: 4)")
    parser.add_argument("--seed", type=int, help="this library alone")
    parser.add_argument("--short", action="store_true", help="one small library, as CI does")
    parser.add_argument("--list", action="store_true", help="name every photo that goes against a goal")
    parser.add_argument("--keep", type=Path, metavar="FOLDER", help="leave libraries and indexes there")
    return parser.parse_args()


if __name__ == "__main__":
    sys.exit(main())
