"""Prints for one or several weeks: what is to be printed, what to look at first, and the folder written. The story."""

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from itertools import chain
from pathlib import Path
from uuid import uuid4

from indexer.errors import PrintError
from queries.cutting.values import Layout, Tight
from queries.looks import shown_by_photo
from queries.notes import Note, notes_of_week
from queries.orders.printed import PrintedBefore, left_to_print, photos_printed_before, planned_too
from queries.orders.told import edits_told, next_number, orders
from queries.orders.values import Order
from queries.orders.weeks import weeks_with_pieces
from queries.photos import Photo
from queries.print_settings import Lab
from queries.prints.folder import held_in
from queries.prints.gathering import PlannedWeek, planned_week, sources_of
from queries.prints.journal import card_pieces, signs_left_out
from queries.prints.order import Sheet, laid_out, ordered_of, sheets_of
from queries.prints.order_file import HeldOrder
from queries.prints.risks import Risk, risks_of
from queries.prints.values import CardPiece, PicturePiece, PrintPiece
from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class Asked:
    """How the prints are wanted. `cards`: none, typeset or lined ones; `at_home`: those go into a PDF for the home
    printer. `again`: pieces that were ordered before and have not changed too."""

    tight: Tight = "shrink"
    cards: bool = False
    handwritten: bool = False
    at_home: bool = False
    again: bool = False


@dataclass(frozen=True, slots=True)
class Prepared:
    """An order as it would be written. `before` are the pieces left out since they were ordered before; `home_cards` go
    to the home printer; `sources` are the paths to print from, by photo key; `held` is what the folder holds by now."""

    id: str
    number: int
    lab: Lab
    weeks: tuple[PlannedWeek, ...]
    sheets: tuple[Sheet, ...]
    layout: Layout
    marks: Mapping[str, str]
    before: tuple[PrintedBefore, ...]
    home_cards: tuple[CardPiece, ...]
    risks: tuple[Risk, ...]
    sources: Mapping[str, str]
    held: HeldOrder | None
    notes: tuple[str, ...]

    @property
    def photos(self) -> dict[str, Photo]:
        """All photos of the weeks' plans, by key."""
        return dict(chain.from_iterable(week.photos.items() for week in self.weeks))

    @property
    def is_nothing(self) -> bool:
        """Whether all was ordered before, or there is nothing to print on."""
        return not self.sheets and not self.home_cards

    def order(self, folder: Path) -> Order:
        """As it is told to the index."""
        prints = ordered_of(self.sheets, self.marks)
        return Order(self.id, self.number, str(folder), prints, self.layout.lower_bound, "planned", "", None, None)


def prepared(
    connection: sqlite3.Connection,
    weeks: Sequence[Week],
    folder: Path,
    asked: Asked,
    lab: Lab,
    rule: WeekRule,
    starts_at: time,
) -> Prepared:
    """Gather and decide; nothing is written. Raises PrintError for whatever keeps a print from coming out right."""
    planned = tuple(planned_week(connection, week, rule, starts_at) for week in sorted(set(weeks)))
    told = orders(connection)
    held = held_in(folder)
    id_, number = _identity(held, told, folder, next_number(told))
    _refuse_other_weeks(folder, next((order for order in told if order.id == id_), None), planned, rule)
    words = {week.week: notes_of_week(connection, week.week, rule) for week in planned}
    cards = _cards(planned, words, asked)
    pieces = _in_week_order(planned, () if asked.at_home else cards)
    others = [order for order in told if order.id != id_]
    left = left_to_print(pieces, () if asked.again else others, rule)
    pieces = list(left.to_print)
    photos = dict(chain.from_iterable(week.photos.items() for week in planned))
    pictures = [piece for piece in pieces if isinstance(piece, PicturePiece)]
    layout = laid_out(pieces, lab, asked.tight)
    return Prepared(
        id=id_,
        number=number,
        lab=lab,
        weeks=planned,
        sheets=sheets_of(layout, pieces, number),
        layout=layout,
        marks={piece.name: piece.mark for piece in pieces},
        before=left.before,
        home_cards=cards if asked.at_home else (),
        risks=risks_of(
            pictures,
            {key: (photo.width, photo.height) for key, photo in photos.items()},
            {key: photo.code for key, photo in photos.items()},
            {} if asked.again else photos_printed_before(photos, others, rule, edits_told(connection)),
            planned_too(pieces, others, rule),
            shown_by_photo(connection, photos),
        ),
        sources=sources_of(pictures, photos),
        held=held,
        notes=(*_notes(words, asked), *_planned_too(planned, others if pieces else told, rule)),
    )


def _identity(held: HeldOrder | None, told: Sequence[Order], folder: Path, number: int) -> tuple[str, int]:
    """The order's lasting identity and number: the folder's own as long as that order was not sent.

    Raises PrintError where it was: its files are what the lab has.
    """
    if held is None:
        return str(uuid4()), number
    known = next((order for order in told if order.id == held.id), None)
    if known and known.state in ("sent", "arrived"):
        raise PrintError(
            f"{folder} holds order {known.name}, which was sent; choose another folder, or print single prints again:"
            f" weeksheaf reprint {known.prints[0].name if known.prints else ''}".rstrip()
        )
    if known is None:
        raise PrintError(f"{folder} holds order {held.number} of another index; choose another folder for the prints")
    if known.state == "dropped":
        return str(uuid4()), number
    return known.id, known.number


def _refuse_other_weeks(folder: Path, known: Order | None, planned: Sequence[PlannedWeek], rule: WeekRule) -> None:
    """An order made anew holds what it held, or a week would go unprinted in silence."""
    named = {one.week for one in planned}
    gone = [week.name for week in weeks_with_pieces(known.pieces, rule) if week not in named] if known else []
    if known and gone:
        raise PrintError(
            f"{folder} holds order {known.name} for {', '.join(gone)} too, which was not sent; name all of its weeks,"
            f" choose another folder, or drop it: weeksheaf order drop {known.name}"
        )


def _cards(planned: Sequence[PlannedWeek], words: Mapping[Week, Sequence[Note]], asked: Asked) -> tuple[CardPiece, ...]:
    if not asked.cards:
        return ()
    made = (card_pieces(one.week, one.kept, words[one.week], handwritten=asked.handwritten) for one in planned)
    return tuple(chain.from_iterable(made))


def _in_week_order(planned: Sequence[PlannedWeek], cards: Sequence[CardPiece]) -> list[PrintPiece]:
    """Week by week, pictures before cards."""
    pieces: list[PrintPiece] = []
    for week in planned:
        pieces += [*week.pieces, *(card for card in cards if card.week == week.week)]
    return pieces


def _planned_too(planned: Sequence[PlannedWeek], others: Sequence[Order], rule: WeekRule) -> list[str]:
    """Orders that were planned for the same weeks and not told as sent: two of one week would be paid twice."""
    weeks = {one.week for one in planned}
    names = [one.name for one in others if one.state == "planned" and weeks & {*weeks_with_pieces(one.pieces, rule)}]
    return [
        f"{name} is planned for the same and was not told as sent; if it went to the lab: weeksheaf order sent {name},"
        f" if not: weeksheaf order drop {name}"
        for name in names
    ]


def _notes(words: Mapping[Week, Sequence[Note]], asked: Asked) -> tuple[str, ...]:
    """What else a person would want to know before the order is written."""
    told = [week.name for week, notes in words.items() if notes]
    if asked.cards and asked.handwritten and not asked.at_home:
        return ("Lined cards on glossy prints take no ink; --home makes a PDF of them for your own printer.",)
    if told and not asked.cards:
        return (f"{', '.join(told)}: there are words for journaling cards; --journal prints them, --home as a PDF.",)
    if not asked.cards or asked.handwritten:
        return ()
    lost = {week.name: signs_left_out(week, notes) for week, notes in words.items()}
    return tuple(
        f"{name}: left out, since no card shows it: {' '.join(signs)}" for name, signs in lost.items() if signs
    )
