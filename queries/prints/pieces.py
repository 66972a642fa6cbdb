"""The pieces of a week's plan: what is cut out and put into the pockets. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from queries.cropping import window_of
from queries.cropping.values import Window
from queries.cutting.values import Rect
from queries.fitting.values import Filled, Placed
from queries.lengths import UM_PER_INCH, micrometres
from queries.prints.values import PhotoPart, PicturePiece
from queries.prints.windows import with_aspect_times
from queries.spread.values import KeptPlan
from queries.weeks import Week


@dataclass(frozen=True, slots=True)
class Pocket:
    """A pocket's name, and its sides in micrometres."""

    name: str
    width: int
    height: int


def pieces_of(week: Week, kept: KeptPlan, sizes: Mapping[str, tuple[int, int]]) -> tuple[PicturePiece, ...]:
    """The photos and collages of a plan in the order of its pockets; `sizes` are those of the upright pictures, in
    pixels by key. A single photo is a piece of its cell's size, a collage one of its whole pocket."""
    return tuple(
        _collage(week, filled, kept, sizes) if filled.holds == "collage" else _photo(week, filled, kept, sizes)
        for filled in kept.plan.filled
        if filled.photos
    )


def card_pockets(kept: KeptPlan) -> tuple[Pocket, ...]:
    """The pockets of a plan that hold a card, in order."""
    boxes = [(filled.opening.name, filled.opening.box) for filled in kept.plan.filled if filled.holds == "card"]
    return tuple(Pocket(name, micrometres(box.width), micrometres(box.height)) for name, box in boxes)


def resolution(part: PhotoPart, size: tuple[int, int]) -> float:
    """The dots per inch at which a photo of so many pixels is printed."""
    across = size[0] * part.window.width / part.cell.width
    down = size[1] * part.window.height / part.cell.height
    return min(across, down) * UM_PER_INCH


def kept_share(part: PhotoPart) -> float:
    """The share of the photo's area that is shown, 0..1."""
    return part.window.share


def with_shape(piece: PicturePiece, width: int, height: int) -> PicturePiece:
    """The piece in another size: its cells are scaled, and their windows cut to the new shape about their middles."""
    across, down = width / piece.width, height / piece.height
    parts = tuple(_with_shape(part, across, down) for part in piece.parts)
    return replace(piece, width=width, height=height, parts=parts)


def _photo(week: Week, filled: Filled, kept: KeptPlan, sizes: Mapping[str, tuple[int, int]]) -> PicturePiece:
    placed = filled.photos[0]
    width, height = micrometres(placed.cell.width), micrometres(placed.cell.height)
    part = PhotoPart(placed.key, _window(placed, kept, sizes), Rect(0, 0, width, height), 0)
    return PicturePiece(*_named(week, filled), width, height, (part,), "white", "photo")


def _collage(week: Week, filled: Filled, kept: KeptPlan, sizes: Mapping[str, tuple[int, int]]) -> PicturePiece:
    box, collage = filled.opening.box, filled.collage
    width, height = micrometres(box.width), micrometres(box.height)
    corner = micrometres(collage.corner) if collage else 0
    parts = []
    for placed in filled.photos:
        left, top = placed.cell.x - box.x, placed.cell.y - box.y
        cell = _between(left, top, left + placed.cell.width, top + placed.cell.height, width, height)
        parts.append(PhotoPart(placed.key, _window(placed, kept, sizes), cell, corner))
    background = collage.background if collage else "white"
    return PicturePiece(*_named(week, filled), width, height, tuple(parts), background, "collage")


def _named(week: Week, filled: Filled) -> tuple[str, Week, str]:
    return f"{week.name} {filled.opening.name}", week, filled.opening.name


def _between(left: float, top: float, right: float, bottom: float, width: int, height: int) -> Rect:
    """Edges in inches as a rectangle; none lies outside of the piece by a rounding."""
    x, y = max(0, micrometres(left)), max(0, micrometres(top))
    return Rect(x, y, min(micrometres(right), width) - x, min(micrometres(bottom), height) - y)


def _window(placed: Placed, kept: KeptPlan, sizes: Mapping[str, tuple[int, int]]) -> Window:
    """The window kept; a plan without one was made before windows were kept, and shows the middle."""
    if placed.key in kept.windows:
        return kept.windows[placed.key]
    told, zoom = kept.crops.get(placed.key), kept.zooms.get(placed.key, 1.0)
    return window_of(*sizes[placed.key], placed.cell.width / placed.cell.height, None, told=told, zoom=zoom)


def _with_shape(part: PhotoPart, across: float, down: float) -> PhotoPart:
    x, y = round(part.cell.x * across), round(part.cell.y * down)
    cell = Rect(x, y, round(part.cell.right * across) - x, round(part.cell.bottom * down) - y)
    factor = (cell.width * part.cell.height) / (cell.height * part.cell.width)
    corner = round(part.corner * min(across, down))
    return PhotoPart(part.key, with_aspect_times(part.window, factor), cell, corner)
