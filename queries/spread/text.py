"""Both pages of a spread drawn as text, to scale. Pure."""

from collections.abc import Mapping, Sequence
from itertools import chain, zip_longest
from typing import NamedTuple

from queries.fitting import weights
from queries.fitting.values import Filled, Plan
from queries.sleeves.values import Box
from queries.spread.canvas import Canvas
from queries.spread.values import Page

#: Columns for an inch: as many as there is room for within these; a letter of a terminal is twice as high as wide.
_LEAST, _MOST = 3.0, 5.0
_ROWS_TO_COLUMNS = 0.5
#: Columns between pages side by side.
_BETWEEN = 3
#: Columns that both pages take for their last edges, and for rounding up.
_EDGES = 3


class _Frame(NamedTuple):
    left: int
    top: int
    right: int
    bottom: int


def drawing(pages: Sequence[Page], plan: Plan, codes: Mapping[str, str], columns: int) -> list[str]:
    """The pages side by side where `columns` have room for both, else the left above the right.

    In each pocket stand its name, the codes of its photos (or "card"), and what is cut off, where that is anything.
    """
    across = sum(page.width for page in pages)
    side_by_side = (columns - _BETWEEN - _EDGES) / across
    if side_by_side >= _LEAST:
        left, right = (_page(page, plan, codes, min(side_by_side, _MOST)) for page in pages)
        wide = max(map(len, left))
        both = zip_longest(left, right, fillvalue="")
        return [(one.ljust(wide + _BETWEEN) + other).rstrip() for one, other in both]
    scale = min((columns - 1) / max(page.width for page in pages), _MOST)
    return list(chain(*(_page(page, plan, codes, scale) for page in pages)))


def lost_words(kept: float) -> str:
    """What is cut off a picture, in per cent: "11 %"; "" where it is nothing."""
    lost = 1 - kept
    return f"{lost:.0%}".replace("%", " %") if lost >= weights.NO_LOSS else ""


def _page(page: Page, plan: Plan, codes: Mapping[str, str], scale: float) -> list[str]:
    """The side's name, and the page below it."""
    whole = _frame(Box(0, 0, page.width, page.height), scale)
    canvas = Canvas(whole.right + 1, whole.bottom + 1)
    canvas.frame(*whole)
    mine = [filled for filled in plan.filled if filled.opening.side == page.side]
    for filled in mine:
        canvas.frame(*_frame(filled.opening.box, scale))
    for filled in mine:
        frame = _frame(filled.opening.box, scale)
        canvas.write(*frame, _label(filled, codes, frame))
    return [page.side, *canvas.lines()]


def _frame(box: Box, scale: float) -> _Frame:
    down = scale * _ROWS_TO_COLUMNS
    return _Frame(
        round(box.x * scale),
        round(box.y * down),
        round((box.x + box.width) * scale),
        round((box.y + box.height) * down),
    )


def _label(filled: Filled, codes: Mapping[str, str], frame: _Frame) -> list[str]:
    """The lines of a pocket, by importance: its name, the codes, the loss; in one line where it is too low for more.

    A name that does not fit is left away: cut short it would be another pocket's.
    """
    wide = frame.right - frame.left - 1
    name = filled.opening.name if len(filled.opening.name) <= wide else ""
    if not filled.photos:
        says = [str(filled.holds)]
    elif filled.holds == "collage":
        says = _packed([codes[photo.key] for photo in filled.photos], wide)
    else:
        (photo,) = filled.photos
        says = [codes[photo.key], *([f"-{lost}"] if (lost := lost_words(photo.kept)) else [])]
    high = frame.bottom - frame.top - 1
    return [name, *says] if high > 1 else [f"{name} {says[0]}"]


def _packed(words: Sequence[str], wide: int) -> list[str]:
    """Words in as few lines as have room for them."""
    lines = [""]
    for word in words:
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) <= wide or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
