"""The words of a week set on its cards: the largest type at which all fits. Pure."""

from collections.abc import Callable, Iterator, Sequence

from indexer.errors import PrintError
from queries.cards.breaking import Word
from queries.cards.flowing import ABOVE_HEADING, BETWEEN, Block, Type, flow, has_broken_words
from queries.cards.frames import Frame, following_frame, lowered, title_frame, writing_lines
from queries.cards.values import Card, CardLine, Measure, WeekWords
from queries.cards.words import words_of
from queries.lengths import UM_PER_INCH

#: Type sizes in points. Reading is fluent from a letter x high of 0.2 degrees on (Legge and Bigelow, "Does print size
#: matter for reading?", Journal of Vision 2011; from memory). At 12 inches that is 1.06 mm; an x in 9 points of this
#: face (0.475 of the size) is 1.51 mm high, enough at up to 17 inches: an open album on a table.
SIZES = (12.0, 11.5, 11.0, 10.5, 10.0, 9.5, 9.0)
#: The size of the cards that are missing when there is no card at all.
_USUAL_CARD = (3 * UM_PER_INCH, 4 * UM_PER_INCH)
#: No two pages have so many pockets that more could be found for the words.
_FAR_TOO_MANY = 72


def set_cards(
    words: WeekWords, sizes: Sequence[tuple[int, int]], measure: Measure, has_letter: Callable[[str], bool]
) -> tuple[Card, ...]:
    """A card a size, in order, until the words end: a size too many gets no card, but the title card is always there.

    Raises PrintError when the words do not fit at the smallest type, and says how many more cards they need.
    """
    blocks = _blocks(words, has_letter)
    frames = _frames(words, sizes, measure)
    if not blocks:
        return tuple(lowered(_card(frame, ())) for frame in frames[:1])
    for kind in _attempts(blocks, frames, measure):
        if (filled := flow(blocks, iter(frames), kind)) is not None:
            return tuple(_card(frame, lines) for frame, lines in filled)
    raise PrintError(_too_many(words, blocks, sizes, measure))


def lined_cards(words: WeekWords, sizes: Sequence[tuple[int, int]], measure: Measure) -> tuple[Card, ...]:
    """A card a size with lines to write on, the week's days on the first."""
    return tuple(
        Card(frame.width, frame.height, frame.margin, frame.lines, (*frame.rules, *writing_lines(frame)))
        for frame in _frames(words, sizes, measure)
    )


def _blocks(words: WeekWords, has_letter: Callable[[str], bool]) -> list[Block]:
    """Blocks in order: a day's heading goes with its first words, each line that the person began is a block."""
    blocks: list[Block] = []
    heading: tuple[Word, ...] = ()
    for day, text in words.paragraphs:
        if day:
            heading = tuple(word for lines in words_of(day, has_letter) for line in lines for word in line)
        for lines in words_of(text, has_letter):
            blocks.append(Block(lines[0], ABOVE_HEADING if heading else BETWEEN, heading))
            blocks.extend(Block(line) for line in lines[1:])
            heading = ()
    return blocks


def _frames(words: WeekWords, sizes: Sequence[tuple[int, int]], measure: Measure) -> list[Frame]:
    return [
        following_frame(words.under, size, measure) if place else title_frame(words.heading, words.under, size, measure)
        for place, size in enumerate(sizes)
    ]


def _attempts(blocks: Sequence[Block], frames: Sequence[Frame], measure: Measure) -> Iterator[Type]:
    """What is tried in turn: large before small, no line alone before one alone, whole words before broken ones.
    Nothing where the bare words in the smallest type need more than the whole room: a book is refused at once."""
    widths = [frame.room[0] for frame in frames]
    smallest = Type(SIZES[-1], measure)
    length = sum(smallest.plain(word.text) for block in blocks for word in block.words)
    if length * smallest.leading > sum(width * height for width, height in (frame.room for frame in frames)):
        return
    kinds = [Type(points, measure, strict) for strict in (True, False) for points in SIZES]
    broken = {points: has_broken_words(blocks, widths, Type(points, measure)) for points in SIZES}
    yield from (kind for kind in kinds if not broken[kind.points])
    yield from (kind for kind in kinds if broken[kind.points])


def _card(frame: Frame, lines: Sequence[CardLine]) -> Card:
    return Card(frame.width, frame.height, frame.margin, (*frame.lines, *lines), frame.rules)


def _too_many(words: WeekWords, blocks: Sequence[Block], sizes: Sequence[tuple[int, int]], measure: Measure) -> str:
    last = sizes[-1] if sizes else _USUAL_CARD
    title, more = _frames(words, [sizes[0] if sizes else last, last], measure)
    given = _frames(words, sizes, measure) or [title]

    def endless() -> Iterator[Frame]:
        yield from given
        while True:
            yield more

    filled = flow(blocks, endless(), Type(SIZES[-1], measure, strict=False)) or []
    missing = len(filled) - len(sizes)
    if missing > _FAR_TOO_MANY:
        return f"the words of {words.under} would fill {len(filled)} cards; shorten them"
    cards = "1 more card" if missing == 1 else f"{missing} more cards"
    return (
        f"the words of {words.under} need {cards}: make room with 'weeksheaf fit {words.week} --cards {len(filled)}',"
        " or shorten them"
    )
