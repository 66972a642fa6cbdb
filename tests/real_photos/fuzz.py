"""Real files with their headers damaged at random: the readers must not crash, hang, or fill the memory.

    python tests/real_photos/fuzz.py [--mutants 20000] [--decoded 2000] [--seed 1] [--files FOLDER]

Files under 1 MB of the fetched packages (tests/real_photos/fetch.py --only all), so many of each ending at most, have
bytes of their first 64 KB, or of what holds metadata, turned over, cut out, doubled or cut off. Each mutant is read in
a worker process as an index run reads it, with a sidecar that is damaged too; `--decoded` further ones are looked at as
well, pixels and all. A failed reading that is named is what we want; the exit code is 1 when a worker crashed, took
longer than its limit, or grew beyond MOST_MEMORY, or when a reading tells a date that no calendar has.
"""

import argparse
import os
import random
import re
import resource
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from indexer.facts.picture_files import PICTURE_SUFFIXES
from indexer.facts.pixels import NoPixels, look_at
from indexer.facts.reading import read_file
from indexer.facts.records import FileToRead
from indexer.facts.workers import SECONDS_PER_FILE, Lost, run_all
from tests.real_photos.fetch import cache_folder, named_like

LARGEST_FILE = 1_000_000
#: Most of the packages' pictures are alike in kind: so many of each ending take part.
FILES_PER_ENDING = 60
#: Bytes that a worker may hold at its peak, libraries included: while it reads headers, and while it decodes.
MOST_MEMORY = {"read": 200 << 20, "decoded": 1_500 << 20}
HEADER = 64 << 10
#: Where metadata begin: damage near them is worth more than damage in pixels.
_METADATA = re.compile(
    rb"Exif\0|8BIM|Photoshop 3\.0|http://ns\.adobe\.com|<rdf:|\d{4}[:-]\d\d[:-]\d\d|II\*\0|MM\0\*|meta|iloc|iinf|iprp|eXIf"
)
_NUMBERS = (0, 1, 0x7F, 0x80, 0xFE, 0xFF)
SIDECAR = b"""<x:xmpmeta xmlns:x="adobe:ns:meta/"><r:RDF xmlns:r="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><r:Description
 xmlns:p="http://ns.adobe.com/photoshop/1.0/" p:DateCreated="2026-03-30T09:15:20+02:00"/></r:RDF></x:xmpmeta>"""


@dataclass(frozen=True, slots=True)
class Mutant:
    """One damaged file: which original, and the seed that damaged it."""

    original: str
    seed: int
    is_decoded: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one mutant. `peak`: bytes that its process has held at most, so far; `wrong`: what must not be."""

    kind: str
    seconds: float
    peak: int
    wrong: str = ""


def originals(folder: Path) -> list[Path]:
    """The files that take part, the same ones at every run over the same packages."""
    found: dict[str, list[Path]] = {}
    for path in named_like(PICTURE_SUFFIXES, folder):
        if 0 < path.stat().st_size < LARGEST_FILE and not path.is_symlink():
            found.setdefault(path.suffix.lower(), []).append(path)
    chance = random.Random(0)
    return [path for paths in found.values() for path in chance.sample(paths, min(len(paths), FILES_PER_ENDING))]


def damaged(data: bytes, chance: random.Random) -> bytes:
    """The bytes with one to eight faults in them."""
    mutant = bytearray(data)
    places = [match.start() for match in _METADATA.finditer(data[: 4 * HEADER])]
    for _ in range(chance.randint(1, 8)):
        if not mutant:
            break
        if places and chance.random() < 0.7:
            at = min(chance.choice(places) + chance.randrange(64), len(mutant) - 1)
        else:
            at = chance.randrange(min(len(mutant), HEADER))
        _break(mutant, at, chance)
    return bytes(mutant)


def _break(mutant: bytearray, at: int, chance: random.Random) -> None:
    fault, length = chance.random(), chance.choice((1, 2, 4, 16, 200))
    if fault < 0.55:
        mutant[at] = chance.choice((*_NUMBERS, chance.randrange(256)))
    elif fault < 0.75:
        number = chance.choice(_NUMBERS)
        mutant[at : at + 4] = bytes([number]) * len(mutant[at : at + 4])
    elif fault < 0.85:
        del mutant[at : at + length]
    elif fault < 0.95:
        mutant[at:at] = mutant[at : at + length]
    else:
        del mutant[at + chance.randrange(len(mutant) - at) :]


def try_out(mutant: Mutant, folder: str) -> Outcome:
    """Damage, write, read and maybe decode one, in a worker process."""
    chance = random.Random(mutant.seed)
    place = Path(folder, f"{os.getpid()}{Path(mutant.original).suffix}")
    sidecar = place.with_suffix(".xmp")
    place.write_bytes(damaged(Path(mutant.original).read_bytes(), chance))
    sidecar.write_bytes(damaged(SIDECAR, chance))
    begin = monotonic()
    reading = read_file(FileToRead(str(place), ("2026-03",), (str(sidecar),)))
    kind = reading.kind
    if mutant.is_decoded and kind == "photo":
        seen = look_at(str(place), may_trust_thumbnail=False)
        kind = "photo without pixels" if isinstance(seen, NoPixels) else "photo looked at"
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024)
    claims = reading.facts.claims if reading.facts else ()
    wrong = next((f"{claim}" for claim in claims if not _is_sound(claim.when, claim.problem)), "")
    return Outcome(kind, monotonic() - begin, peak, wrong)


def _is_sound(when: str | None, problem: str | None) -> bool:
    """A date of the calendar, or none and the reason."""
    if when is None:
        return bool(problem)
    try:
        datetime.fromisoformat(when + "-01-01"[len(when) - 4 :])
    except ValueError:
        return False
    return True


def attempts(mutants: int, decoded: int, seed: int, files: Sequence[Path]) -> Iterator[Mutant]:
    """Every file in turn, again and again, with a seed of its own each time."""
    for number in range(mutants + decoded):
        yield Mutant(str(files[number % len(files)]), seed * 10_000_000 + number, number >= mutants)


def run(mutants: Sequence[Mutant], name: str, processes: int) -> list[str]:
    """Try all out and print what came of them; returns what must not be, a line each."""
    begin, kinds, wrong = monotonic(), Counter[str](), []
    slowest, peak = 0.0, 0
    with TemporaryDirectory(prefix="weeksheaf-fuzz-") as folder:
        task = partial(try_out, folder=folder)
        for place, outcome in run_all(task, mutants, seconds_per_job=SECONDS_PER_FILE, processes=processes):
            if isinstance(outcome, Lost):
                wrong.append(f"{mutants[place]}: {outcome.reason}")
                continue
            kinds[outcome.kind] += 1
            slowest, peak = max(slowest, outcome.seconds), max(peak, outcome.peak)
            if outcome.wrong:
                wrong.append(f"{mutants[place]}: {outcome.wrong}")
    if peak > MOST_MEMORY[name]:
        wrong.append(f"a worker held {peak >> 20} MB, more than the {MOST_MEMORY[name] >> 20} MB allowed")
    told = ", ".join(f"{count:,} {kind}" for kind, count in kinds.most_common())
    print(
        f"{name:8} {len(mutants):7,} mutants in {monotonic() - begin:5.0f} s: {told}; slowest {slowest:.2f} s, peak"
        f" {peak >> 20} MB of {MOST_MEMORY[name] >> 20}; {len(wrong)} wrong",
        flush=True,
    )
    return wrong


def main(arguments: Sequence[str] | None = None) -> int:
    """Run both parts, print the summary and every fault, return the exit code."""
    parser = argparse.ArgumentParser(description="Damage real files at random and read them.")
    parser.add_argument("--mutants", type=int, default=20_000)
    parser.add_argument("--decoded", type=int, default=2_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--files", type=Path, default=cache_folder())
    asked = parser.parse_args(arguments)
    files = originals(asked.files)
    if not files:
        print(f"Error: no files in {asked.files}: python tests/real_photos/fetch.py --only all", file=sys.stderr)
        return 1
    print(f"{len(files)} files of {len({path.suffix.lower() for path in files})} endings")
    every = list(attempts(asked.mutants, asked.decoded, asked.seed, files))
    processes = min(os.cpu_count() or 1, 8)
    wrong = run(every[: asked.mutants], "read", processes) + run(every[asked.mutants :], "decoded", processes)
    print("\n".join(wrong[:50]))
    return int(bool(wrong))


if __name__ == "__main__":
    sys.exit(main())
