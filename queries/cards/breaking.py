"""Lines that are as even as they can be, in the manner of Knuth and Plass, "Breaking paragraphs into lines" (1981): all
breaks of a paragraph are chosen together. Ours is ragged right without hyphens, so a line's badness is the square of
the room it leaves (least raggedness). Never more lines than need be: a card is small. Pure."""

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import inf

#: A last line shorter than this share of the width looks forgotten ("common practice"), and costs this much of it.
_SHORT_LAST = 1 / 6
_SHORT_LAST_COST = 0.4


@dataclass(frozen=True, slots=True)
class Word:
    """A word, or the end of one that was broken between letters: that one follows without a space."""

    text: str
    follows: bool = False


Line = tuple[Word, ...]


def break_lines(words: Sequence[Word], width: float, measure: Callable[[str], float]) -> list[Line]:
    """The fewest lines no wider than `width`, and of these the most even. A word that is wider is broken first."""
    pieces = [piece for word in words for piece in _narrow(word, width, measure)]
    widths = [measure(piece.text) for piece in pieces]
    spaces = [0.0 if piece.follows else measure(" ") for piece in pieces]
    # ends[i]: lines and cost from piece i on, and where its first line ends
    ends: list[tuple[int, float, int]] = [(0, 0.0, 0)] * (len(pieces) + 1)
    for first in range(len(pieces) - 1, -1, -1):
        ends[first] = min(_ends_from(first, widths, spaces, width, ends), default=(0, inf, first + 1))
    lines = []
    first = 0
    while first < len(pieces):
        last = ends[first][2]
        lines.append(tuple(pieces[first:last]))
        first = last
    return lines


def line_cost(used: float, width: float, *, is_last: bool) -> float:
    """How uneven a line is: the square of the room left, as a share of the width. The last line may end anywhere."""
    if is_last:
        return _SHORT_LAST_COST**2 if used < width * _SHORT_LAST else 0.0
    return ((width - used) / width) ** 2


def line_text(line: Line) -> str:
    """A line as it is read."""
    return "".join(word.text if word.follows else f" {word.text}" for word in line).removeprefix(" ")


def is_broken(words: Sequence[Word], width: float, measure: Callable[[str], float]) -> bool:
    """Whether a word must be broken between its letters at that width."""
    return any(measure(word.text) > width for word in words)


def _ends_from(
    first: int, widths: list[float], spaces: list[float], width: float, ends: list[tuple[int, float, int]]
) -> Iterator[tuple[int, float, int]]:
    """Each line that can start at a piece: lines and cost up to the end of the paragraph, and where it ends."""
    used = -spaces[first]
    for last in range(first, len(widths)):
        used += spaces[last] + widths[last]
        if used > width and last > first:
            return
        lines, cost, _ = ends[last + 1]
        yield lines + 1, cost + line_cost(used, width, is_last=last + 1 == len(widths)), last + 1


def _narrow(word: Word, width: float, measure: Callable[[str], float]) -> Iterator[Word]:
    """The word in pieces no wider than the line; an accent stays with its letter."""
    if measure(word.text) <= width:
        yield word
        return
    piece, follows = "", word.follows
    for sign in word.text:
        if piece and measure(piece + sign) > width and not unicodedata.combining(sign):
            yield Word(piece, follows)
            piece, follows = "", True
        piece += sign
    yield Word(piece, follows)
