"""Which photo stands for a set, and why. Pure.

The order among copies and among the frames of a burst is common practice; the thresholds are our own.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.alike.values import Contender

#: A copy is in full size when it has at least this share of the largest one's pixels.
FULL_SIZE = 0.9
#: Sharpness is a tie within this share of the sharpest.
HAIR = 0.05
#: A frame this much more clipped (share of its pixels) than the best exposed one is clearly the worse.
CLIPPED_WORSE = 0.05
#: A frame with less than this share of another's sharpness is blurred beside it.
BLURRED = 0.5
#: Formats that lose nothing first, then what cameras write, then what messages are sent in; raw cannot be printed.
_FORMATS = ("TIFF", "PNG", "HEIF", "JPEG", "AVIF", "WebP")

#: The reason where the person left out all others.
ONLY_ONE = "the only one that is not left out"


@dataclass(frozen=True, slots=True)
class Verdict:
    """The photo that stands for a set and why, in words shown to the person."""

    key: str
    reason: str


def best_copy(copies: Sequence[Contender]) -> Verdict:
    """The keeper of one shot's copies: the person's edit in full size, else the camera's own file, else the largest."""
    full_size = FULL_SIZE * max(copy.pixels for copy in copies)
    first, *others = sorted(copies, key=lambda copy: _copy_order(copy, full_size))
    return Verdict(first.key, _copy_reason(first, others, full_size))


def _copy_order(copy: Contender, full_size: float) -> tuple[object, ...]:
    return (
        _standing(copy, full_size),
        -copy.pixels,
        _format_rank(copy),
        -copy.bytes,
        copy.taken,
        copy.place,
        copy.key,
    )


def _standing(copy: Contender, full_size: float) -> int:
    """0: an edit in full size, 1: the camera's own file in full size, 2: anything reduced or stripped."""
    if copy.pixels < full_size:
        return 2
    if copy.is_edited:
        return 0
    return 1 if copy.own_time and copy.camera else 2


def _format_rank(copy: Contender) -> int:
    return _FORMATS.index(copy.format) if copy.format in _FORMATS else len(_FORMATS)


def _copy_reason(first: Contender, others: Sequence[Contender], full_size: float) -> str:
    if not others:
        return ONLY_ONE
    standing = _standing(first, full_size)
    if standing < 2:
        return ("your edit, full size", "the camera's own file")[standing]
    if all(first.pixels > other.pixels for other in others):
        return "larger than its copies"
    equals = [other for other in others if other.pixels == first.pixels]
    if all(_format_rank(first) < _format_rank(other) for other in equals):
        return f"{first.format}, and no smaller than its copies"
    if all(first.bytes > other.bytes for other in equals if _format_rank(other) == _format_rank(first)):
        return "the least compressed of its size"
    return f"one of {1 + len(equals)} that are equally good"


def best_frame(frames: Sequence[Contender], among: Sequence[Contender]) -> Verdict:
    """The keeper of a burst: well exposed, sharp, early. Only `frames` may be it; the reason's words hold it against
    all that it is `among`."""
    first, told = _first_frame(frames)
    best, told_of_all = _first_frame(among)
    if len(among) == 1:
        return Verdict(first.key, ONLY_ONE)
    if first is best:
        return Verdict(first.key, told_of_all.format(of=f"of {len(among)}"))
    if len(frames) == 1:
        return Verdict(first.key, f"most like all {len(among)}")
    return Verdict(first.key, told.format(of=f"of the {len(frames)} most like all {len(among)}"))


def _first_frame(frames: Sequence[Contender]) -> tuple[Contender, str]:
    """The best of some frames, and what it is among them, with `{of}` where their number belongs."""
    side = common_side(frames)
    least = min(_clipped(frame) for frame in frames)
    fair = [frame for frame in frames if _clipped(frame) <= least + CLIPPED_WORSE]
    sharp = _sharpest(fair, side)
    first = min(sharp, key=lambda frame: (frame.taken, frame.place, frame.key))
    is_told_by_exposure = len(fair) == 1 and not _sharpness(first, side)
    if first not in _sharpest(frames, side) or is_told_by_exposure:
        return first, "best exposed {of}"
    if len(sharp) == 1:
        return first, "sharpest {of}"
    if len(sharp) == len(frames):
        return first, "as sharp as any {of}, taken first"
    return first, f"one of the {len(sharp)} sharpest {{of}}, taken first"


def _sharpest(frames: Sequence[Contender], side: int | None) -> list[Contender]:
    """Those within a hair of the sharpest."""
    least = (1 - HAIR) * max(_sharpness(frame, side) for frame in frames)
    return [frame for frame in frames if _sharpness(frame, side) >= least]


def is_clearly_better(one: Contender, other: Contender) -> bool:
    """Whether the other is blurred or badly exposed beside this one, and this one is not beside the other."""
    if _clipped(one) > _clipped(other) + CLIPPED_WORSE:
        return False
    side = common_side((one, other))
    is_worse_exposed = _clipped(other) > _clipped(one) + CLIPPED_WORSE
    return is_worse_exposed or _sharpness(other, side) < BLURRED * _sharpness(one, side)


def common_side(frames: Sequence[Contender]) -> int | None:
    """The place in `sharpness` of the largest side at which all frames that have any can be compared."""
    measured = [frame.sharpness for frame in frames if any(value is not None for value in frame.sharpness)]
    sides = range(len(frames[0].sharpness)) if measured else ()
    return next((side for side in sides if all(values[side] is not None for values in measured)), None)


def _sharpness(frame: Contender, side: int | None) -> float:
    """0 for what cannot be compared: a picture too small to measure."""
    value = frame.sharpness[side] if side is not None else None
    return value or 0.0


def _clipped(frame: Contender) -> float:
    return frame.dark + frame.bright
