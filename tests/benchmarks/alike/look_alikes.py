"""Whether what only looks alike is kept apart, and what that costs in second tries: how many bursts are found as bursts
with the photos in doubt looked at once more, and without.

    python -m tests.benchmarks.alike.look_alikes

Look-alikes are files in a folder that is indexed as any other. Second tries are pairs of real pictures given so many
seconds between: what a person takes who tries again, and not frames of a burst, which are quicker than any doubt.
"""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pillow_heif
from PIL import ExifTags, Image

from indexer.alike.doubts import doubts_among, look_alikes
from indexer.alike.likeness import likenesses
from indexer.alike.values import Looked
from indexer.comparing_closely import differences
from indexer.facts.close_looks import CloseLook, close_look_of
from indexer.scan import index_folders
from indexer.store.opening import open_for_writing
from tests.benchmarks.alike import burst_pairs
from tests.indexer.alike.looks import looked
from tests.real_photos import pool
from tests.real_photos.fetch import package_folder

#: Seconds between the two of a pair.
GAPS = (2, 30, 120)
_TRIED_AGAIN_AFTER = (5, 20, 60)
#: Frames apart, and seconds that they are said to be.
_APART, _SAID = 5, 5
_MOST_FRAMES, _MOST_PAIRS = 300, 250
_START = datetime(2026, 3, 30, 9)  # noqa: DTZ001 - a wall clock has no zone


@dataclass(frozen=True, slots=True)
class Shot:
    """A picture as comparing sees it, from afar and closely."""

    photo: Looked
    look: CloseLook


def sets_of_pairs(pairs: Iterable[tuple[Image.Image, Image.Image]], gap: float) -> int:
    """How many sets an index run makes of these pairs, each of a day of its own and the two of it so far apart."""
    with TemporaryDirectory(prefix="weeksheaf-benchmark-") as scratch:
        for number, pair in enumerate(pairs):
            for place, picture in enumerate(pair):
                taken = _START + timedelta(days=number, seconds=place * gap)
                save_dated(picture, Path(scratch, f"{number}-{place}.jpg"), taken)
        with closing(open_for_writing(Path(scratch, "kept", "index.db"), create=True)) as connection:
            summary = index_folders(connection, [Path(scratch)], today=date(2026, 6, 1))
    return summary.bursts + summary.copies


def save_dated(picture: Image.Image, path: Path, taken: datetime) -> None:
    """A JPEG without a thumbnail, of an invented camera."""
    exif = Image.Exif()
    exif[ExifTags.Base.Make], exif[ExifTags.Base.Model] = "Tidewell", "TW-100"
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.DateTimeOriginal] = taken.strftime("%Y:%m:%d %H:%M:%S")
    picture.save(path, quality=92, exif=exif)


def found(one: Shot, other: Shot, gap: float) -> tuple[bool, bool]:
    """Whether two shots taken so many seconds apart are a burst: without the second look, and with it."""
    first, second = (_dated(shot.photo, key, at) for shot, key, at in ((one, "one", 0.0), (other, "two", gap)))
    links = likenesses([first, second], {"one", "two"})
    differ = differences({"one": one.look, "two": other.look})
    doubts = doubts_among(links, {"one": first, "two": second})
    apart = [key for doubt in doubts for key in look_alikes(doubt, differ)]
    return bool(links), bool(links) and not apart


def shot_of(picture: Image.Image) -> Shot:
    return Shot(looked("", picture), close_look_of(picture))


def _dated(photo: Looked, key: str, moment: float) -> Looked:
    values = {name: getattr(photo, name) for name in photo.__slots__}
    own = (_START + timedelta(seconds=moment)).isoformat()
    return Looked(**{**values, "key": key, "moment": moment, "own_time": own})


def second_tries() -> Iterator[tuple[str, Sequence[tuple[Shot, Shot]]]]:
    """Kinds of pairs of one scene; cut ones as the burst score is fitted by, turned, framed and lit otherwise."""
    files = pool.pair_files()
    for kind, name in (("near", "sample pairs that moved a little"), ("hard", "sample pairs that moved much")):
        yield name, [(shot_of(pool.small(one)), shot_of(pool.small(other))) for one, other, k in files if k == kind]
    folder = package_folder("pillow-heif")
    if folder:
        (burst,) = folder.rglob("bird_burst.heic")
        shots = [shot_of(frame.to_pillow().convert("RGB")) for frame in pillow_heif.open_heif(str(burst))]
        yield "a burst of a bird", [(a, b) for number, a in enumerate(shots) for b in shots[number + 1 :]]
    for dealt, name in ((1, "cut from photographs"), (0, "cut from photographs (fitted on)")):
        tries = [shot_of(picture) for picture in burst_pairs.second_tries(pool.strangers()[dealt::2])]
        yield name, list(zip(tries[::2], tries[1::2], strict=True))
    for clip in pool.CLIPS:
        yield f"frames of {clip.name}{' (fitted on)' if clip.for_fitting else ''}", list(_frame_pairs(clip))


def _frame_pairs(clip: pool.Clip) -> Iterator[tuple[Shot, Shot]]:
    shots = [shot_of(frame) for frame, _ in zip(pool.frames(clip), range(_MOST_FRAMES), strict=False)]
    scene = np.array(pool.scenes(clip, len(shots)))
    first = np.flatnonzero(scene[:-_APART] == scene[_APART:])
    if len(first) > _MOST_PAIRS:
        first = first[np.linspace(0, len(first) - 1, _MOST_PAIRS).astype(int)]
    return ((shots[place], shots[place + _APART]) for place in first)


def rows() -> list[str]:
    """The look-alikes, ready to print: the goal is none."""
    pairs = pool.hard_negatives()
    sets = {gap: sets_of_pairs(pairs.values(), gap) for gap in GAPS}
    told = ", ".join(f"{count} when taken {gap} s apart" for gap, count in sets.items())
    return [f"pairs that only look alike taken for one scene, of {len(pairs)}: {told}"]


def lines() -> Iterator[str]:
    """The figures, ready to print."""
    yield from rows()
    yield f"{'second tries found':38}{'pairs':>6}{'seconds':>9}{'without':>9}{'with':>9}"
    for name, pairs in second_tries():
        for gap in (_SAID,) if name.startswith("frames") else _TRIED_AGAIN_AFTER:
            results = [found(one, other, float(gap)) for one, other in pairs]
            without, kept = (sum(result[column] for result in results) for column in (0, 1))
            yield f"{name:38}{len(pairs):6}{gap:9}{without / len(pairs):9.1%}{kept / len(pairs):9.1%}"


if __name__ == "__main__":
    for line in lines():
        print(line, flush=True)
