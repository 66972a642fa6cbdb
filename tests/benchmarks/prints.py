"""Prints drawn beside bare Pillow, on the same crops of the same photos, and the memory that it takes.

    python -m tests.benchmarks.prints [--short]

Bare Pillow is a plain loop in two processes: decode, crop and resize (one call, the same Lanczos filter), encode (the
same settings). It knows no colour profiles, so a second round has photos with one that only we convert. Nothing here
passes or fails: the table is for people.
"""

import argparse
import io
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import replace
from datetime import date
from multiprocessing import get_context
from pathlib import Path

from PIL import ExifTags, Image

from queries.cropping import window_of
from queries.cutting.values import Rect
from queries.prints.drawing import print_jpegs
from queries.prints.values import PhotoPart, PicturePiece, PlacedPiece, PrintJob
from queries.prints.windows import as_stored, size_as_stored
from queries.weeks import Week
from tests.benchmarks.made_photos import SIZE, write_library
from tests.benchmarks.measuring import Row, in_turns, python, table
from tests.indexer.facts.test_picture_colours import P3, SRGB_CURVE, icc_profile

WEEK = Week(date(2026, 3, 30), "2026-W14")
#: Cells in pixels of a print of 1800 x 1200: one photo, two 3x4, and collages of three and four.
LAYOUTS = (
    ((0, 0, 1800, 1200),),
    ((0, 0, 900, 1200), (900, 0, 1800, 1200)),
    ((0, 0, 1800, 1200),),
    ((38, 38, 1181, 1162), (1219, 38, 1762, 581), (1219, 619, 1762, 1162)),
    ((0, 0, 900, 1200), (900, 0, 1800, 1200)),
    ((38, 38, 881, 581), (919, 38, 1762, 581), (38, 619, 881, 1162), (919, 619, 1762, 1162)),
)
UM = 25_400 / 300


def job(number: int, paths: Sequence[str], cells: Sequence[tuple[int, int, int, int]]) -> PrintJob:
    """A print of these photos; two of them are pieces side by side, more a collage."""
    parts = [part(path, cell) for path, cell in zip(paths, cells, strict=True)]
    whole = Rect(0, 0, 152_400, 101_600)
    if len(parts) <= 2:
        placed = tuple(
            PlacedPiece(cell, False, piece(one.cell, (replace(one, cell=Rect(0, 0, one.cell.width, one.cell.height)),)))
            for one, cell in zip(parts, cells, strict=True)
        )
    else:
        placed = (PlacedPiece((0, 0, 1800, 1200), False, piece(whole, tuple(parts))),)
    return PrintJob(f"o01-{number:02}", 1800, 1200, 300, placed, (), {path: path for path in paths})


def part(path: str, cell: tuple[int, int, int, int]) -> PhotoPart:
    left, top, right, bottom = cell
    with Image.open(path) as photo:
        width, height = size_as_stored(*SIZE, photo.getexif().get(ExifTags.Base.Orientation, 1))
    window = window_of(width, height, (right - left) / (bottom - top), None)
    x, y = round(left * UM), round(top * UM)
    return PhotoPart(path, window, Rect(x, y, round(right * UM) - x, round(bottom * UM) - y), 0)


def piece(cell: Rect, parts: tuple[PhotoPart, ...]) -> PicturePiece:
    return PicturePiece("", WEEK, "L1", cell.width, cell.height, parts, "white", "photo")


def jobs_of(folder: Path, prints: int) -> list[PrintJob]:
    """So many prints of the photos in the folder, by turns."""
    paths = sorted(str(path) for path in folder.rglob("*.jpg"))
    made, used = [], 0
    for number in range(prints):
        cells = LAYOUTS[number % len(LAYOUTS)]
        chosen = [paths[(used + place) % len(paths)] for place in range(len(cells))]
        made.append(job(number, chosen, cells))
        used += len(cells)
    return made


def ours(folder: Path, prints: int, into: Path) -> None:
    jobs = jobs_of(folder, prints)
    with closing(print_jpegs(jobs)) as results:
        for place, drawn in results:
            assert not isinstance(drawn, str), drawn
            (into / f"{jobs[place].name}.jpg").write_bytes(drawn.jpeg)


def bare(folder: Path, prints: int, into: Path) -> None:
    with get_context("spawn").Pool(2) as pool:
        for name, jpeg in pool.imap_unordered(bare_print, jobs_of(folder, prints)):
            (into / f"{name}.jpg").write_bytes(jpeg)


def bare_print(asked: PrintJob) -> tuple[str, bytes]:
    canvas = Image.new("RGB", (1800, 1200), "white")
    for placed in asked.placed:
        assert isinstance(placed.piece, PicturePiece)
        for one in placed.piece.parts:
            left, top = (round(edge / UM) for edge in (one.cell.x, one.cell.y))
            size = round(one.cell.right / UM) - left, round(one.cell.bottom / UM) - top
            canvas.paste(bare_photo(one, size), (placed.box[0] + left, placed.box[1] + top))
    file = io.BytesIO()
    canvas.save(file, "JPEG", quality=95, subsampling=0)
    return asked.name, file.getvalue()


def bare_photo(one: PhotoPart, size: tuple[int, int]) -> Image.Image:
    """Turned after it is small, which is cheaper than what anybody would write."""
    turns = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_270, 8: Image.Transpose.ROTATE_90}
    with Image.open(one.key) as photo:
        orientation = photo.getexif().get(ExifTags.Base.Orientation, 1)
        stored = as_stored(one.window, orientation)
        sides = (stored.left * SIZE[0], stored.top * SIZE[1], stored.right * SIZE[0], stored.bottom * SIZE[1])
        shown = photo.resize(size_as_stored(*size, orientation), Image.Resampling.LANCZOS, box=sides)
    return shown.transpose(turns[orientation]) if orientation in turns else shown


def with_profile(folder: Path, into: Path, profile: bytes) -> None:
    """The same photos with an ICC profile (ICC.1, annex B.4: one APP2 segment)."""
    payload = b"ICC_PROFILE\0\x01\x01" + profile
    for path in folder.rglob("*.jpg"):
        data = path.read_bytes()
        segment = b"\xff\xe2" + (len(payload) + 2).to_bytes(2) + payload
        (into / path.name).write_bytes(data[:2] + segment + data[2:])


def rows(prints: int, rounds: int, folder: Path) -> Iterator[Row]:
    """Photos as they are, and with the profile of a phone; both sides whole commands."""
    plain, profiled, out = (folder / name for name in ("plain", "profiled", "out"))
    for made in (profiled, out):
        made.mkdir()
    write_library(plain, 60)
    with_profile(plain, profiled, icc_profile(P3, SRGB_CURVE))
    for name, photos in (("prints, no profile", plain), ("prints, Display P3", profiled)):
        commands = (command(who, photos, prints, out) for who in ("ours", "bare"))
        seconds = in_turns(*commands, rounds)
        yield Row(name, *seconds, "s", f"{prints} prints")
    for count in (3, 28):
        photos = sum(len(LAYOUTS[number % len(LAYOUTS)]) for number in range(count))
        told = [python(*command(who, profiled, count, out)).printed.split() for who in ("ours", "bare")]
        (peak, seconds), (bare_peak, bare_seconds) = [[float(number) for number in each] for each in told]
        yield Row("peak memory of a worker", peak, bare_peak, "MB", f"{photos} photos on {count} prints")
        yield Row("processor time, Display P3", seconds, bare_seconds, "s", f"{photos} photos on {count} prints")


def spent() -> tuple[float, float]:
    """MB of the largest process waited for, and processor seconds of all and of this one. Asked from inside: seen from
    outside, a process counts what its parent held at its start."""
    import resource

    theirs, own = resource.getrusage(resource.RUSAGE_CHILDREN), resource.getrusage(resource.RUSAGE_SELF)
    return theirs.ru_maxrss / 1024, sum(use.ru_utime + use.ru_stime for use in (theirs, own))


def command(who: str, photos: Path, prints: int, into: Path) -> list[str]:
    return ["-m", "tests.benchmarks.prints", who, str(photos), str(prints), str(into)]


def main() -> None:
    if sys.argv[1:2] in (["ours"], ["bare"]):
        who, photos, prints, into = sys.argv[1:]
        (ours if who == "ours" else bare)(Path(photos), int(prints), Path(into))
        print(*spent())
        return
    parser = argparse.ArgumentParser(description="Print how long prints take, beside bare Pillow.")
    parser.add_argument("--short", action="store_true", help="fewer prints and rounds, as CI does")
    short = parser.parse_args().short
    with tempfile.TemporaryDirectory() as folder:
        print(table(list(rows(12 if short else 24, 1 if short else 3, Path(folder)))))


if __name__ == "__main__":
    main()
