"""A week's own words as journaling cards in the card pockets of its plan. Pure."""

from collections.abc import Sequence

from indexer.errors import PrintError
from queries.cards.making import cards_for, left_out
from queries.cards.values import WeekWords
from queries.notes import Note
from queries.prints.pieces import card_pockets
from queries.prints.values import CardPiece
from queries.spread.values import KeptPlan
from queries.weeks import Week, day_words, span_words, week_words


def card_pieces(week: Week, kept: KeptPlan, notes: Sequence[Note], *, handwritten: bool) -> tuple[CardPiece, ...]:
    """A title card with the words after it, or lined cards, each in its pocket; fewer than there are pockets where the
    words need no more. Raises PrintError where there are words and too little room for them."""
    pockets = card_pockets(kept)
    if not pockets:
        if notes:
            raise PrintError(
                f"{week_words(week)} has words and no pocket for a card; plan some: weeksheaf fit {week.name} --cards 2"
            )
        return ()
    sizes = [(pocket.width, pocket.height) for pocket in pockets]
    cards = cards_for(words_of(week, notes), sizes, handwritten=handwritten)
    return tuple(
        CardPiece(f"{week.name} {pocket.name}", week, pocket.name, pocket.width, pocket.height, card)
        for pocket, card in zip(pockets, cards, strict=False)
    )


def signs_left_out(week: Week, notes: Sequence[Note]) -> tuple[str, ...]:
    """The emoji and other pictures in the words, which no card shows."""
    return left_out(words_of(week, notes))


def words_of(week: Week, notes: Sequence[Note]) -> WeekWords:
    """The notes as they are to be typeset: those of the whole week, then day by day, each day named once."""
    paragraphs: list[tuple[str, str]] = []
    day = None
    for note in notes:
        heading = day_words(note.day) if note.day and note.day != day else ""
        day = note.day
        paragraphs.append((heading, note.text))
    return WeekWords(span_words(week), f"week {week.number}", tuple(paragraphs), week.name)
