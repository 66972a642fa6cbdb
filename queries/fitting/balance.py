"""How well a spread is balanced. Pure.

The measure is that of Ngo, Teo and Byrne (Information Sciences 152, 2003): BM = 1 - (|BMv| + |BMh|) / 2, where BMv is
(wL - wR) / max(wL, wR), BMh the same of top and bottom, and each w the sum of area times distance from the centre line
(the weight is from memory). What lies across the centre line counts on both sides with its parts. A photo weighs its
area, a card less.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from queries.fitting import weights
from queries.fitting.values import Filled, Opening
from queries.sleeves.values import Box


@dataclass(frozen=True, slots=True)
class Halves:
    """The weight on the two sides of a centre line: left and right, or above and below."""

    first: float
    second: float

    @property
    def lean(self) -> float:
        """-1..1: how much heavier the first is, as a share of the heavier."""
        heavier = max(self.first, self.second)
        return (self.first - self.second) / heavier if heavier else 0.0


@dataclass(frozen=True, slots=True)
class Weighed:
    """A rectangle and what a square inch of it weighs."""

    box: Box
    density: float = weights.PHOTO_WEIGHT


@dataclass(frozen=True, slots=True)
class Frame:
    """One page, or both side by side: `width` x `height` inches; pages of `sides` lie at the offsets given."""

    width: float
    height: float
    offsets: dict[str, float]


def balance_measure(frame: Frame, things: Iterable[Weighed]) -> float:
    """BM of the things that lie in the frame, 0..1; 1 where there is nothing."""
    across, down = halves_of(frame, list(things))
    return 1 - (abs(across.lean) + abs(down.lean)) / 2


def halves_of(frame: Frame, things: Sequence[Weighed]) -> tuple[Halves, Halves]:
    """The weights left and right, and those above and below the centre of the frame."""
    across = [_parts(t.box.x, t.box.width, frame.width / 2) for t in things]
    down = [_parts(t.box.y, t.box.height, frame.height / 2) for t in things]
    return (
        _sum(across, [t.box.height * t.density for t in things]),
        _sum(down, [t.box.width * t.density for t in things]),
    )


def frames_of(openings: Sequence[Opening]) -> tuple[Frame, tuple[Frame, ...]]:
    """The frame of the spread, and that of each page that has pockets; as large as their pockets reach."""
    reach = {}
    for side in ("left", "right"):
        boxes = [opening.box for opening in openings if opening.side == side]
        if boxes:
            reach[side] = max(b.x + b.width for b in boxes), max(b.y + b.height for b in boxes)
    height = max((tall for _, tall in reach.values()), default=0.0)
    left = reach.get("left", (0.0, 0.0))[0]
    spread = Frame(sum(wide for wide, _ in reach.values()), height, {"left": 0.0, "right": left})
    return spread, tuple(Frame(wide, tall, {side: 0.0}) for side, (wide, tall) in reach.items())


def in_frame(frame: Frame, side: str, boxes: Iterable[Box], density: float) -> list[Weighed]:
    """The boxes of a page as they lie in the frame; none where the frame does not hold that page."""
    if side not in frame.offsets:
        return []
    offset = frame.offsets[side]
    return [Weighed(Box(b.x + offset, b.y, b.width, b.height), density) for b in boxes]


def things_of(frame: Frame, filled: Iterable[Filled]) -> list[Weighed]:
    """What a plan lays into the frame: its photos and its cards."""
    found = []
    for each in filled:
        side = each.opening.side
        found += in_frame(frame, side, (placed.cell for placed in each.photos), weights.PHOTO_WEIGHT)
        if each.holds == "card":
            found += in_frame(frame, side, (each.opening.box,), weights.CARD_WEIGHT)
    return found


def spread_balance(filled: Sequence[Filled]) -> float:
    """The published measure over both pages as one frame, 0..1."""
    frame, _ = frames_of([each.opening for each in filled])
    return balance_measure(frame, things_of(frame, filled))


def _sum(parts: Sequence[tuple[float, float]], times: Sequence[float]) -> Halves:
    return Halves(*(sum(part[side] * each for part, each in zip(parts, times, strict=True)) for side in (0, 1)))


def _parts(start: float, length: float, centre: float) -> tuple[float, float]:
    """Length times distance from the centre line, of what lies before the line and of what lies after it."""
    end = start + length
    before = max(0.0, min(end, centre) - start), max(0.0, centre - (start + min(end, centre)) / 2)
    after = max(0.0, end - max(start, centre)), max(0.0, (max(start, centre) + end) / 2 - centre)
    return before[0] * before[1], after[0] * after[1]
