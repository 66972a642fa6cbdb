"""Words flowing over the cards of a week at one type size. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from queries.cards.breaking import Line, Word, break_lines, is_broken, line_text
from queries.cards.frames import Frame
from queries.cards.values import UM_PER_POINT, CardLine, Measure

#: Of the type size. 1.3 to 1.45 suits a book face in short lines ("common practice").
LEADING = 1.36
#: Gaps in lines: between paragraphs, and above the heading of a day.
BETWEEN, ABOVE_HEADING = 0.5, 0.85


@dataclass(frozen=True, slots=True)
class Block:
    """Words that start on a new line, `gap` lines below what stands above. `heading` is kept with its first lines."""

    words: tuple[Word, ...]
    gap: float = 0.0
    heading: tuple[Word, ...] = ()


@dataclass(frozen=True, slots=True)
class Type:
    """How words are set. `strict` keeps two lines of a paragraph together at the foot and the head of a card."""

    points: float
    measure: Measure
    strict: bool = True

    @property
    def leading(self) -> float:
        return self.points * LEADING * UM_PER_POINT

    def plain(self, text: str) -> float:
        return self.measure(text, self.points, False)

    def strong(self, text: str) -> float:
        return self.measure(text, self.points, True)


def flow(
    blocks: Sequence[Block], frames: Iterator[Frame], kind: Type
) -> list[tuple[Frame, tuple[CardLine, ...]]] | None:
    """Each card's frame with its words, as many cards as they need; None where `frames` ends before the words do."""
    done: list[tuple[Frame, tuple[CardLine, ...]]] = []
    rest = _Rest(list(blocks))
    for frame in frames:
        done.append((frame, tuple(_fill(frame, rest, kind, is_first=not done))))
        if rest.is_done:
            return done
    return None


def has_broken_words(blocks: Sequence[Block], widths: Sequence[int], kind: Type) -> bool:
    """Whether a word is wider than the narrowest of the cards."""
    return any(
        is_broken(block.words, min(widths), kind.plain) or is_broken(block.heading, min(widths), kind.strong)
        for block in blocks
    )


class _Rest:
    """The words that are yet to be placed: a block begun on one card goes on with its lines, broken anew only where
    the next card has another width."""

    def __init__(self, blocks: list[Block]) -> None:
        self._blocks = blocks[::-1]
        self._lines: list[Line] = []
        self._width = 0
        self.is_begun = False

    @property
    def is_done(self) -> bool:
        return not self._blocks

    @property
    def block(self) -> Block:
        return self._blocks[-1]

    def lines(self, width: int, kind: Type) -> list[Line]:
        if not self._lines or width != self._width:
            words = [word for line in self._lines for word in line] or self.block.words
            self._lines, self._width = break_lines(words, width, kind.plain), width
        return self._lines

    def take(self, count: int) -> None:
        self._lines = self._lines[count:]
        self.is_begun = bool(self._lines)
        if not self._lines:
            self._blocks.pop()


def _fill(frame: Frame, rest: _Rest, kind: Type, *, is_first: bool) -> Iterator[CardLine]:
    """The lines of words on one card. A card that is not the first takes one line at least, so that all comes to an
    end."""
    width, height = frame.room
    rows = height / kind.leading + 1e-6
    row = 0.0
    while not rest.is_done:
        block, lines = rest.block, rest.lines(width, kind)
        gap = block.gap if row and not rest.is_begun else 0.0
        heading = [] if rest.is_begun else break_lines(block.heading, width, kind.strong)
        room = int(rows - row - gap) - len(heading)
        count = _taken(len(lines), room, kind.strict, is_begun=rest.is_begun)
        if count <= 0:
            if row or is_first:
                return
            count = max(1, min(room, len(lines)))
        row += gap
        for number, line in enumerate((*heading, *lines[:count])):
            yield _placed(line_text(line), frame, row, kind, bold=number < len(heading))
            row += 1
        is_whole = count == len(lines)
        rest.take(count)
        if not is_whole:
            return


def _taken(lines: int, room: int, strict: bool, *, is_begun: bool) -> int:
    """How many of a block's lines go on this card, so that none stands alone where that can be helped."""
    count = min(lines, room)
    if not strict or count == lines:
        return count
    if lines - count == 1:
        count -= 1
    return count if count >= 2 or (is_begun and count == 1) else 0


def _placed(text: str, frame: Frame, row: float, kind: Type, *, bold: bool) -> CardLine:
    baseline = frame.top + row * kind.leading + kind.points * UM_PER_POINT
    return CardLine(text, frame.margin, round(baseline), kind.points, bold)
