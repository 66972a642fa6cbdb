"""What kind of picture it is: a photograph, a picture of text, or a picture of nothing. Pure.

A page, a note or a chat is told by its cells. In many of them thin strokes of one brightness cross paper of another;
the paper's brightness hardly changes from cell to cell; and little else is to be seen. A photograph must hardly ever be
taken for text, so what lies between counts as a photograph. The limits were chosen on real photographs and on pictures
of text, real and made: `tests/real_photos/test_subjects.py` says how many are told right.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Subject = Literal["photograph", "text", "blank"]
Grey = NDArray[np.uint8]

#: Pictures of fewer cells than this are not judged.
_FEWEST_CELLS = 30

#: Blank: one even tone, or nearly all of it as good as black or white.
_EVEN_TONE, _NEARLY_ALL = 3.0, 0.985
_NEARLY_BLACK, _NEARLY_WHITE = 12, 250


@dataclass(frozen=True, slots=True)
class _Limits:
    """When a cell of `side` pixels counts, and how many must; grey values 0..255, shares 0..1.

    Its paper and its ink are known by every `step`th pixel, along and across. A cell is plain up to the span `plain`
    and busy from `busy` on. It is written on where it spans `ink`, its mean lies `ink_share` of the way from paper to
    ink, and a line through it, along or across, crosses `edges` edges. Its paper must be that of its neighbours within
    `even`. Text has a share `written` of such cells, `of_busy` among the busy ones, and `paper` of all cells written on
    or plain. Where light is written on dark, the dark must be of `two_tones` (a screen, unlike a night full of lights)
    in that share of its cells.
    """

    side: int
    step: int
    plain: int
    busy: int
    ink: int
    ink_share: float
    edges: float
    even: int
    written: float
    of_busy: float
    paper: float
    two_tones: float


_LEAST_INK_SHARE = 0.04
#: Which of a cell's values, from the darkest to the lightest, are its paper and its ink.
_PAPER, _INK = 0.9, 0.05
#: For a longer side of 320 to 639 pixels, where letters are strokes.
_SHARP = _Limits(16, 2, 14, 20, 32, 0.34, 2.0, 6, written=0.14, of_busy=0.34, paper=0.5, two_tones=0.75)
#: For a thumbnail, where lines of letters are grey bars: what may be text is worth a decode.
_FAINT = _Limits(8, 1, 13, 16, 16, 0.45, 0.0, 8, written=0.12, of_busy=0.6, paper=0.4, two_tones=0.0)


def subject_of(grey: Grey) -> Subject:
    """Of the luma of a picture, its longer side 320 to 639 pixels; smaller ones are seldom found to be text."""
    if is_blank(grey):
        return "blank"
    return "text" if _is_text(grey, _SHARP) else "photograph"


def may_be_text(grey: Grey) -> bool:
    """Whether the luma of a thumbnail does not rule out that the picture is one of text."""
    return _is_text(grey, _FAINT)


def is_blank(grey: Grey) -> bool:
    """Whether there is nothing to see."""
    share = max(float((grey <= _NEARLY_BLACK).mean()), float((grey >= _NEARLY_WHITE).mean()))
    return share >= _NEARLY_ALL or float(grey.std()) < _EVEN_TONE


def _is_text(grey: Grey, limits: _Limits) -> bool:
    cells = _cells(grey, limits.side)
    if cells.shape[0] * cells.shape[1] < _FEWEST_CELLS:
        return False
    sample = cells[:, :, :: limits.step, :: limits.step].reshape(*cells.shape[:2], -1)
    count = sample.shape[2]
    ranks = {rank for part in (_PAPER, _INK) for rank in (int(count * part), count - 1 - int(count * part))}
    tones = np.partition(sample, sorted(ranks), axis=2)
    return _holds(cells, tones, limits) or _holds(255 - cells, 255 - tones[:, :, ::-1], limits, is_dark=True)


def _cells(grey: Grey, side: int) -> Grey:
    """rows x columns x side x side values; what is left over at the right and the bottom is left out."""
    down, across = grey.shape[0] // side, grey.shape[1] // side
    return grey[: down * side, : across * side].reshape(down, side, across, side).swapaxes(1, 2)


def _holds(cells: Grey, tones: Grey, limits: _Limits, is_dark: bool = False) -> bool:
    """Whether cells of dark on light are those of text; of the `tones` of each the two ranks are in place."""
    count = tones.shape[2]
    paper, ink = tones[:, :, int(count * _PAPER)].astype(np.int16), tones[:, :, int(count * _INK)]
    span = paper - ink
    share = (paper - tones.mean(2)) / np.maximum(span, 1)
    even = np.abs(paper - _around(paper)) <= limits.even
    written = even & (span >= limits.ink) & (share >= _LEAST_INK_SHARE) & (share <= limits.ink_share)
    if written.mean() < limits.written:
        return False
    written &= _edges(cells, paper - span * 0.45) >= limits.edges
    busy = np.count_nonzero((span >= limits.busy) | written)
    shown = written | (even & (span <= limits.plain))
    return bool(
        written.mean() >= limits.written
        and np.count_nonzero(written) >= limits.of_busy * busy
        and shown.mean() >= limits.paper
        and (not is_dark or _two_tones(paper[shown]) >= limits.two_tones)
    )


def _around(values: NDArray[np.int16]) -> NDArray[np.float64]:
    """The median of each value and its four neighbours."""
    wide = np.pad(values, 1, mode="edge")
    near = (values, wide[:-2, 1:-1], wide[2:, 1:-1], wide[1:-1, :-2], wide[1:-1, 2:])
    median: NDArray[np.float64] = np.median(np.stack(near), axis=0)
    return median


def _edges(cells: Grey, middle: NDArray[np.float64]) -> NDArray[np.float64]:
    """How often a line through each cell crosses its middle brightness on average, along or across, whichever more."""
    dark = cells < middle[:, :, None, None]
    along = np.count_nonzero(dark[:, :, :, 1:] != dark[:, :, :, :-1], axis=(2, 3))
    across = np.count_nonzero(dark[:, :, 1:] != dark[:, :, :-1], axis=(2, 3))
    most: NDArray[np.float64] = np.maximum(along, across) / cells.shape[2]
    return most


def _two_tones(values: NDArray[np.int16]) -> float:
    """The share of the values that lie within four of the two commonest."""
    counts = np.bincount(values, minlength=256)
    total = 0
    for _ in range(2):
        tone = int(np.convolve(counts, np.ones(9), "same").argmax())
        total += int(counts[max(tone - 4, 0) : tone + 5].sum())
        counts[max(tone - 4, 0) : tone + 5] = 0
    return total / max(len(values), 1)
