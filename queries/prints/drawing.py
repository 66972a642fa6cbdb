"""Prints drawn from the originals, as the JPEGs that the lab wants."""

from collections.abc import Generator, Sequence

from PIL import Image, ImageDraw

from indexer.facts.pictures import PictureError
from indexer.facts.workers import Lost, process_count, run_all
from queries.made_files.jpeg import jpeg_bytes
from queries.made_files.writing import reason_of
from queries.prints.corners import covered
from queries.prints.photo import photo_for
from queries.prints.values import CardPiece, DrawnPrint, PhotoPart, PicturePiece, PlacedPiece, PrintJob, PrintPiece
from queries.spread.paper import colour_of

_PAPER = (255, 255, 255)
#: Fine enough to vanish beside a photo, dark enough to lay a blade on.
MARK_GREY = (128, 128, 128)
#: A print that takes longer is given up; a full page of the largest pictures takes some ten seconds.
_SECONDS_PER_PRINT = 300.0
#: A process takes half a second to start, a print about as long to draw.
_PRINTS_PER_PROCESS = 2


class _DrawingError(Exception):
    """Why a print cannot be drawn, in words that name the file."""


def print_jpegs(jobs: Sequence[PrintJob]) -> Generator[tuple[int, DrawnPrint | str]]:
    """Every print drawn, on all processors: yields (the job's place, the print or why not) as they come, in no set
    order. Close it to end the processes.

    However many prints there are, each process holds one print and one decoded original (four bytes a pixel) at a time,
    and waits with a print that is done until it is taken.
    """
    processes = process_count(len(jobs), _PRINTS_PER_PROCESS)
    results = run_all(print_jpeg, jobs, seconds_per_job=_SECONDS_PER_PRINT, processes=processes, at_once=1)
    for place, drawn in results:
        yield place, _lost(jobs[place], drawn) if isinstance(drawn, Lost) else drawn


def print_jpeg(job: PrintJob) -> DrawnPrint | str:
    """The print as a baseline JPEG of exactly its size in pixels, 4:4:4, in sRGB with its profile and resolution, no
    other metadata; or in words why it cannot be drawn. The same job gives the same bytes."""
    try:
        image, notes = drawn_print(job)
        return DrawnPrint(jpeg_bytes(image, dpi=job.dpi), notes)
    except _DrawingError as problem:
        return str(problem)
    except (OSError, MemoryError) as problem:
        return f"{job.width} x {job.height} pixels cannot be drawn: {problem or type(problem).__name__}"


def drawn_print(job: PrintJob) -> tuple[Image.Image, tuple[str, ...]]:
    """The print in RGB, before it is encoded, and what was guessed about its photos."""
    image = Image.new("RGB", (job.width, job.height), _PAPER)
    pencil = ImageDraw.Draw(image)
    for mark in job.marks:
        pencil.line(mark, MARK_GREY, 1)
    notes: dict[str, None] = {}
    for placed in job.placed:
        drawn, said = _drawn(placed, job)
        image.paste(drawn, placed.box[:2])
        notes |= dict.fromkeys(said)
    return image, tuple(notes)


def _drawn(placed: PlacedPiece, job: PrintJob) -> tuple[Image.Image, list[str]]:
    """The piece as it lies on the print."""
    left, top, right, bottom = placed.box
    width, height = right - left, bottom - top
    drawn, notes = _upright(placed.piece, job, *((height, width) if placed.turned else (width, height)))
    return drawn.transpose(Image.Transpose.ROTATE_270) if placed.turned else drawn, notes  # clockwise


def _upright(piece: PrintPiece, job: PrintJob, width: int, height: int) -> tuple[Image.Image, list[str]]:
    if isinstance(piece, CardPiece):
        from queries.cards.drawing import draw_card  # a process that draws no card needs no fonts

        return draw_card(piece.card, width, height), []
    notes: list[str] = []
    if len(piece.parts) == 1 and _fills(piece.parts[0], piece):
        return _photo(piece.parts[0], job, width, height, notes), notes
    image = Image.new("RGB", (width, height), colour_of(piece.background))
    for part in piece.parts:
        left, right = (_scaled(edge, width, piece.width) for edge in (part.cell.x, part.cell.right))
        top, bottom = (_scaled(edge, height, piece.height) for edge in (part.cell.y, part.cell.bottom))
        photo = _photo(part, job, right - left, bottom - top, notes)
        corners = covered(*photo.size, part.corner * width / piece.width) if part.corner else None
        image.paste(photo, (left, top), corners)
    return image, notes


def _photo(part: PhotoPart, job: PrintJob, width: int, height: int, notes: list[str]) -> Image.Image:
    path = job.sources[part.key]
    try:
        picture = photo_for(path, part.window, width, height)
    except PictureError as problem:
        raise _DrawingError(f"{path}: {problem}") from problem
    except OSError as problem:
        raise _DrawingError(f"{path}: cannot be read: {reason_of(problem)}") from problem
    except MemoryError as problem:
        raise _DrawingError(f"{path}: too large for the memory") from problem
    if picture.note:
        notes.append(f"{path}: {picture.note}")
    return picture.image


def _fills(part: PhotoPart, piece: PicturePiece) -> bool:
    return part.corner == 0 and (part.cell.width, part.cell.height) == (piece.width, piece.height)


def _scaled(edge: int, pixels: int, length: int) -> int:
    """An edge on a piece of that length, in pixels of the box it is drawn into; halves away from the corner."""
    return (2 * edge * pixels + length) // (2 * length)


def _lost(job: PrintJob, lost: Lost) -> str:
    """A process that hung or died does not say at which photo."""
    return f"{lost.reason}: {', '.join(dict.fromkeys(job.sources.values())) or 'a card'}"
