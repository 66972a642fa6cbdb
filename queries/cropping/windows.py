"""The part of a picture that a cell shows: as much as the cell's aspect allows, laid where the detail is. Pure."""

from collections.abc import Sequence
from typing import Any

from numpy.typing import NDArray

from queries.cropping.heads import with_heads_whole
from queries.cropping.positions import Prior, best_offset
from queries.cropping.values import Window

#: The words a person may say for a window's place: the axis, and the share of the room that is left before it.
WORDS: dict[str, tuple[str, float]] = {
    "left": ("across", 0.0),
    "right": ("across", 1.0),
    "top": ("down", 0.0),
    "bottom": ("down", 1.0),
}
CENTER = "center"
#: The eye rests in the middle; in portraits cut to squares or flatter heads are in the upper third (both common
#: practice). The pulls were chosen by looking at the crops of 283 photographs.
_MIDDLE, _UPPER_THIRD = Prior(0.5, 0.5), Prior(1 / 3, 2.0)
#: Sides that differ by no more than this share are a square.
_SQUARE = 0.03


def window_of(
    width: int,
    height: int,
    aspect: float,
    detail: NDArray[Any] | None,
    heads: Sequence[Window] = (),
    *,
    told: str | float | None = None,
    zoom: float = 1.0,
) -> Window:
    """The window of a cell of this aspect (width / height) on an upright picture of so many pixels.

    It slides along one axis only, the other side is whole; `zoom` then shows less around its middle. `detail` says how
    much there is to see, any number of rows and columns over the whole picture, or None; `heads` are kept whole where
    they fit. `told` overrules all of it: a word of `WORDS`, "center", or how far along the free axis, 0..1; a word of
    the other axis moves nothing unless `zoom` leaves room there. Raises ValueError for sizes and words that cannot be.
    """
    _check(width, height, aspect, told, zoom)
    across = min(1.0, aspect * height / width)
    down = min(1.0, width / (aspect * height))
    is_sliding_across = across < down
    is_cut_flat = aspect >= 1 - _SQUARE and height >= width * (1 - _SQUARE)
    sides = []
    for axis, extent in (("across", across), ("down", down)):
        profile = None if detail is None else detail.sum(0 if axis == "across" else 1)
        share = _told_share(told, axis, is_free=is_sliding_across == (axis == "across"))
        spans = [(head.left, head.right) if axis == "across" else (head.top, head.bottom) for head in heads]
        prior = _UPPER_THIRD if axis == "down" and is_cut_flat else _MIDDLE
        sides.append(_placed(extent, zoom, share, profile, prior, spans))
    (left, right), (top, bottom) = sides
    return Window(left, top, right, bottom)


def _placed(
    extent: float,
    zoom: float,
    share: float | None,
    profile: NDArray[Any] | None,
    prior: Prior,
    spans: Sequence[tuple[float, float]],
) -> tuple[float, float]:
    """Begin and end of the window along one axis; `extent` is its length without the zoom."""
    length = extent / zoom
    if share is not None:
        start = share * (1 - length)
    else:
        unzoomed = 0.0 if extent == 1 else best_offset(extent, profile, prior)
        unzoomed = with_heads_whole(unzoomed, extent, spans)
        start = with_heads_whole(unzoomed + (extent - length) / 2, length, spans)
    start = min(max(start, 0.0), 1 - length)
    return start, min(1.0, start + length)


def _told_share(told: str | float | None, axis: str, *, is_free: bool) -> float | None:
    """The share of the room that is left before the window, where that was told for this axis."""
    if told is None:
        return None
    if told == CENTER:
        return 0.5
    if isinstance(told, str):
        of_axis, share = WORDS[told]
        return share if of_axis == axis else None
    return float(told) if is_free else None


def _check(width: int, height: int, aspect: float, told: str | float | None, zoom: float) -> None:
    if width < 1 or height < 1:
        raise ValueError(f"no picture is {width} x {height} pixels")
    if not 0 < aspect < float("inf"):
        raise ValueError(f"no cell has the aspect {aspect}")
    if not 1 <= zoom < float("inf"):
        raise ValueError(f"a zoom of {zoom} would show more than there is: say 1 or more")
    if isinstance(told, str):
        if told != CENTER and told not in WORDS:
            raise ValueError(f"'{told}' is no place of a window: say left, center, right, top, bottom or a number 0..1")
    elif told is not None and not 0 <= told <= 1:
        raise ValueError(f"{told} is no place of a window: say a number from 0 to 1")
