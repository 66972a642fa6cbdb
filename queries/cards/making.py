"""The cards of a week, from its words and the sizes of its card pockets."""

from collections.abc import Sequence

from queries.cards.fonts import has_letter, measure
from queries.cards.setting import lined_cards, set_cards
from queries.cards.values import Card, WeekWords
from queries.cards.words import pictures_in


def cards_for(words: WeekWords, sizes: Sequence[tuple[int, int]], *, handwritten: bool = False) -> tuple[Card, ...]:
    """The cards in the order of `sizes` (width and height in micrometres), the title card first.

    Fewer than sizes where the words end before: the pockets left over are the person's to fill. `handwritten`: a card
    with lines to write on for each size. Raises PrintError when the words do not fit, saying how many more cards they
    need, and for a word that the font cannot write.
    """
    if handwritten:
        return lined_cards(words, sizes, measure)
    return set_cards(words, sizes, measure, has_letter)


def left_out(words: WeekWords) -> tuple[str, ...]:
    """The emoji and other pictures in the words, which no card shows: to be told."""
    return pictures_in([text for paragraph in words.paragraphs for text in paragraph], has_letter)
