"""Heads are kept whole where they fit. Pure."""

from collections.abc import Sequence

#: Less than a pixel of any picture: ends that differ by less touch.
_TOUCHING = 1e-9


def with_heads_whole(wanted: float, length: float, spans: Sequence[tuple[float, float]]) -> float:
    """The offset nearest to the one wanted at which a window of this length shows the most of the heads whole.

    `spans` are the heads' begins and ends along this axis, all numbers shares of the picture's side. Larger heads count
    for more; then as few as can be are cut in two. Of a head that is longer than the window its middle is shown.
    """
    shown = [_shortened(start, end, length) for start, end in spans]
    if not shown:
        return wanted
    edges = [place for start, end in shown for place in (start, end - length, end, start - length)]
    offsets = [wanted, *(min(max(edge, 0.0), 1 - length) for edge in edges)]
    return max(offsets, key=lambda offset: (*_kept(offset, length, shown), -abs(offset - wanted)))


def _kept(offset: float, length: float, spans: Sequence[tuple[float, float]]) -> tuple[float, int]:
    """How much head is whole in the window, and the number of heads cut in two, negative."""
    end = offset + length + _TOUCHING
    start = offset - _TOUCHING
    whole = [(first, last) for first, last in spans if start <= first and last <= end]
    outside = sum(last <= offset + _TOUCHING or first >= end - 2 * _TOUCHING for first, last in spans)
    return round(sum(last - first for first, last in whole), 9), len(whole) + outside - len(spans)


def _shortened(start: float, end: float, length: float) -> tuple[float, float]:
    start, end = max(start, 0.0), min(end, 1.0)
    spare = max(end - start - length, 0.0) / 2
    return start + spare, end - spare
