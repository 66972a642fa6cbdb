"""What frames the words of a card: its margins, the title with the week's days, the small head of the cards that
follow, and lines to write on. Pure."""

from dataclasses import dataclass, replace
from functools import partial

from indexer.errors import PrintError
from queries.cards.breaking import Word, break_lines, is_broken, line_text
from queries.cards.values import UM_PER_POINT, Card, CardLine, CardRule, Measure
from queries.lengths import UM_PER_INCH, UM_PER_MM

#: A pocket's seam and rounded corners hide about 1/8 in; a quarter stays blank ("common practice"), and more on a
#: large card, whose lines would grow long: a twelfth of its width leaves 65 letters a line at 12 points on 6 inches.
_LEAST_MARGIN = UM_PER_INCH // 4
_MARGIN_SHARE = 12
#: No words are set on a card with a side below this.
_LEAST_SIDE = UM_PER_INCH * 3 // 2
#: Sizes of the week's days: on one line, else, on a small card, on two.
_ON_ONE_LINE = (22.0, 20.0, 19.0, 18.0, 17.0, 16.0, 15.0)
_ON_TWO_LINES = (16.0, 15.0, 14.0, 13.0, 12.0, 11.0, 10.0)
_TITLE_LEADING = 1.15
_UNDER_POINTS = 9.0
_UNDER_SPREAD = 0.09  # of the type size: lower case spaced out a little reads as a label ("common practice")
_RULE = 180  # half a point
_SHORT_RULE = UM_PER_INCH // 2
#: Ruled paper has its lines 7 mm apart ("common practice": 7.1 mm is college ruled).
WRITING_LINE = 7 * UM_PER_MM


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands on a card before its words, and the rectangle that is left for them."""

    width: int
    height: int
    margin: int
    top: float
    lines: tuple[CardLine, ...] = ()
    rules: tuple[CardRule, ...] = ()

    @property
    def room(self) -> tuple[int, float]:
        """Width and height for words."""
        return self.width - 2 * self.margin, self.height - self.margin - self.top


def title_frame(heading: str, under: str, size: tuple[int, int], measure: Measure) -> Frame:
    """The first card of a week: its days large, what it is called below, a short rule. Raises PrintError for a card
    on which this does not fit."""
    width, height, margin = *size, margin_of(size)
    points, texts = _title(heading, width - 2 * margin, measure)
    leading = points * _TITLE_LEADING * UM_PER_POINT
    lines = [
        CardLine(text, margin, round(margin + points * 0.9 * UM_PER_POINT + row * leading), points, bold=True)
        for row, text in enumerate(texts)
    ]
    top = margin + len(texts) * leading
    label = _label(under, margin, top + 2 * UM_PER_POINT)
    rule = CardRule(margin, round(top + 17 * UM_PER_POINT), _SHORT_RULE, 2 * _RULE, "accent")
    return Frame(width, height, margin, top + 25 * UM_PER_POINT, (*lines, label), (rule,))


def following_frame(under: str, size: tuple[int, int], measure: Measure) -> Frame:
    """A card on which the words go on: the week's name small, and a hairline beside it, so that cut cards are told
    apart."""
    width, height, margin = *size, margin_of(size)
    label = _label(under, margin, margin)
    start = margin + measure(under, _UNDER_POINTS, True) + label.spread * len(under) + 5 * UM_PER_POINT
    rule = CardRule(round(start), round(margin + 6.5 * UM_PER_POINT), round(width - margin - start), _RULE)
    rules = (rule,) if rule.length > 0 else ()
    return Frame(width, height, margin, margin + 19 * UM_PER_POINT, (label,), rules)


def writing_lines(frame: Frame) -> tuple[CardRule, ...]:
    """Lines to write on, as many as there is room for, the last at the lower margin."""
    length, height = frame.room
    count = int(height // WRITING_LINE)
    last = frame.height - frame.margin - _RULE
    return tuple(CardRule(frame.margin, last - row * WRITING_LINE, length, _RULE) for row in range(count - 1, -1, -1))


def lowered(card: Card) -> Card:
    """A card with nothing but its title: moved down so that it stands a little above the middle."""
    foot = max(rule.y + rule.thickness for rule in card.rules)
    down = round((card.height - card.margin - foot) * 0.4)
    return replace(
        card,
        lines=tuple(replace(line, baseline=line.baseline + down) for line in card.lines),
        rules=tuple(replace(rule, y=rule.y + down) for rule in card.rules),
    )


def margin_of(size: tuple[int, int]) -> int:
    """What stays blank at each edge. Raises PrintError for a card too small for words."""
    if min(size) < _LEAST_SIDE:
        raise PrintError(
            f"a card of {size[0] / UM_PER_INCH:.3g}x{size[1] / UM_PER_INCH:.3g} in is too small for words:"
            f" card pockets need sides of at least {_LEAST_SIDE / UM_PER_INCH:g} in"
        )
    return max(_LEAST_MARGIN, size[0] // _MARGIN_SHARE)


def _title(heading: str, room: int, measure: Measure) -> tuple[float, tuple[str, ...]]:
    """Type size and lines of the week's days."""
    for points in _ON_ONE_LINE:
        if measure(heading, points, True) <= room:
            return points, (heading,)
    begin, dash, end = heading.partition(" – ")
    words = [Word(f"{begin} –"), Word(end)] if dash else [Word(text) for text in heading.split()]
    for points in _ON_TWO_LINES:
        wide = partial(measure, points=points, bold=True)
        lines = break_lines(words, room, wide)
        if len(lines) <= 2 and not is_broken(words, room, wide):
            break
    return points, tuple(line_text(line) for line in lines)


def _label(under: str, x: int, top: float) -> CardLine:
    """The week's name, small and spaced."""
    spread = round(_UNDER_POINTS * _UNDER_SPREAD * UM_PER_POINT)
    baseline = round(top + _UNDER_POINTS * UM_PER_POINT)
    return CardLine(under, x, baseline, _UNDER_POINTS, bold=True, tone="accent", spread=spread)
