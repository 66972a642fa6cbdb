"""Where the parts of one picture are found again in another, by their fine structure. Pure."""

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray
from scipy import fft, ndimage

Floats = NDArray[np.float32]
Places = NDArray[np.int64]

#: Sides in pixels of a part; the next begins half a part on. It is looked for so many pixels around its own place.
PART, STEP, REACH = 24, 12, 20
_SPAN, _SIZE = 2 * REACH + 1, PART + 2 * REACH
#: Band of the structure: standard deviations in pixels of the two blurs between which it lies.
_FINE, _COARSE = 1.25, 5.0
#: Grey levels of standard deviation: a part that is flatter says nothing.
_FLAT = 2.0


@dataclass(frozen=True, slots=True)
class Found:
    """(n, 2) places of the parts of one picture that have structure, down and across; (n, 2) where each lies in the
    other picture, which may be outside; (n,) the correlation there, 0 where it may lie better beyond all reach."""

    places: Places
    there: Places
    scores: Floats


def structure_of(luma: NDArray[np.uint8]) -> Floats:
    """The band of structure of a grey picture, which is as large as one part at least."""
    grey = luma.astype(np.float32)
    band: Floats = ndimage.gaussian_filter(grey, _FINE) - ndimage.gaussian_filter(grey, _COARSE)
    return band


def found_again(one: Floats, other: Floats) -> Found:
    """Where each part of `one` that has structure correlates best with `other`."""
    places = _grid(one.shape)
    parts = sliding_window_view(one, (PART, PART))[places[:, 0], places[:, 1]]
    parts = parts - parts.mean((1, 2), keepdims=True)
    norms = np.sqrt(np.einsum("nij,nij->n", parts, parts))
    keep = norms > _FLAT * PART
    places, parts, norms = places[keep], parts[keep], norms[keep]
    if not len(places):
        return Found(places, places, np.empty(0, np.float32))
    scores = _scores(parts, norms, places, _padded(other, one.shape)).reshape(len(places), -1)
    best = scores.argmax(1)
    shifts = np.stack(np.divmod(best, _SPAN), axis=1) - REACH
    is_peak = np.abs(shifts).max(1) < REACH
    return Found(places, places + shifts, scores[np.arange(len(places)), best] * is_peak)


def _grid(shape: tuple[int, ...]) -> Places:
    down, across = (np.arange(0, side - PART + 1, STEP) for side in shape)
    return np.stack([start.ravel() for start in np.meshgrid(down, across, indexing="ij")], axis=1)


def _scores(parts: Floats, norms: Floats, places: Places, padded: Floats) -> Floats:
    """(n, shifts down, shifts across): the normalised correlation of each part at every shift within reach."""
    y, x = places.T
    around = sliding_window_view(padded, (_SIZE, _SIZE))[y, x]
    side = fft.next_fast_len(_SIZE, real=True)
    spectra = fft.rfft2(around, (side, side)) * np.conj(fft.rfft2(parts, (side, side)))
    products = fft.irfft2(spectra, (side, side))[:, :_SPAN, :_SPAN]
    spread = sliding_window_view(_spread(padded), (_SPAN, _SPAN))[y, x]
    scores: Floats = (products / (spread * norms[:, None, None] + PART**2)).astype(np.float32)
    return scores


def _padded(other: Floats, shape: tuple[int, ...]) -> Floats:
    """`other` with nothing around it, as far as parts of a picture of that shape are looked for."""
    below, right = (max(0, side - own) for side, own in zip(shape, other.shape, strict=True))
    return np.pad(other, ((REACH, REACH + below), (REACH, REACH + right)))


def _spread(picture: Floats) -> Floats:
    """The norm of every window as large as a part, less its mean, at the window's upper left corner."""
    sums, squares = _sums(picture), _sums(picture * picture)
    spread: Floats = np.sqrt(np.maximum(squares - sums * sums / PART**2, 0)).astype(np.float32)
    return spread


def _sums(picture: Floats) -> NDArray[np.float64]:
    table = np.pad(picture.astype(np.float64), ((1, 0), (1, 0))).cumsum(0).cumsum(1)
    p = PART
    sums: NDArray[np.float64] = table[p:, p:] - table[:-p, p:] - table[p:, :-p] + table[:-p, :-p]
    return sums
