"""An order written: prints, cutting guide, cards for the home printer, spreads to lay beside the work, order.json."""

import io
from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from indexer.errors import PrintError
from queries.cards.home import cards_pdf
from queries.cards.values import NamedCard
from queries.made_files.folder import check_space, named_troubles
from queries.orders.values import Order
from queries.prints.drawing import print_jpegs
from queries.prints.folder import Staging, check_names, put_in_place, staged
from queries.prints.gathering import check_sources
from queries.prints.guide import GuidePrint, guide_pdf
from queries.prints.most_pixels import check_pixels
from queries.prints.order import Sheet, job_of
from queries.prints.order_file import order_text
from queries.prints.printing import Prepared
from queries.prints.spreads import spread_file, spread_pictures
from queries.prints.values import CardPiece
from queries.prints.words import guide_heading, guide_names, order_fields

GUIDE, CARDS = "cutting-guide.pdf", "cards.pdf"
#: Bytes that a print of a photograph takes for a pixel at quality 95, rather too many than too few; and what else is
#: written, for a week.
_BYTES_PER_PIXEL, _BYTES_PER_WEEK = 0.75, 6_000_000
#: The prints in the guide are so small, in pixels.
_SMALL = (480, 480)


@dataclass(frozen=True, slots=True)
class Made:
    """What was written: the files' names, prints first, and what was guessed about photos, with the print's name."""

    files: tuple[str, ...]
    notes: tuple[tuple[str, str], ...]


NOTHING_MADE = Made((), ())


def write_order(
    prepared: Prepared,
    folder: Path,
    home_paper: tuple[int, int],
    tell: Callable[[Order], None],
    show: Callable[[int, int], None],
) -> Made:
    """Draw everything, then put all of it in place; `tell` is called in between, `show` with every print that is drawn.

    Raises PrintError where a photo cannot be printed, FolderError where the folder cannot be used; nothing stands then.
    """
    check_pixels(prepared.lab)
    names = file_names(prepared)
    with named_troubles(folder, lambda: _bytes(prepared)):
        check_names(folder, names, prepared.held)
        check_space(folder, _bytes(prepared))
        with staged(folder) as staging:
            small, notes = _add_prints(prepared, staging, show)
            if prepared.sheets:
                staging.add(GUIDE, _guide(prepared, small, home_paper))
            if prepared.home_cards:
                staging.add(CARDS, cards_pdf([_named(card) for card in prepared.home_cards], home_paper))
            for name, data in spread_pictures(prepared.weeks):
                staging.add(name, data)
            check_names(folder, names, prepared.held)  # what was changed meanwhile is not written over
            check_sources(prepared.sources, prepared.photos)
            tell(prepared.order(folder))
            text = lambda made: order_text(prepared.id, prepared.number, order_fields(prepared), made)  # noqa: E731
            put_in_place(staging, prepared.held, text)
    return Made(tuple(names), tuple(notes))


def file_names(prepared: Prepared) -> list[str]:
    """All that will be written but order.json."""
    names = [sheet.file for sheet in prepared.sheets]
    names += [GUIDE] if prepared.sheets else []
    names += [CARDS] if prepared.home_cards else []
    return names + [spread_file(week) for week in prepared.weeks]


def _bytes(prepared: Prepared) -> int:
    width, height = prepared.lab.pixels
    prints = round(len(prepared.sheets) * width * height * _BYTES_PER_PIXEL)
    return prints + len(prepared.weeks) * _BYTES_PER_WEEK


def _add_prints(
    prepared: Prepared, staging: Staging, show: Callable[[int, int], None]
) -> tuple[dict[str, bytes], list[tuple[str, str]]]:
    """The prints drawn and added; small pictures of them by name, and what was guessed about photos."""
    jobs = [job_of(sheet, prepared.lab, prepared.sources) for sheet in prepared.sheets]
    small: dict[str, bytes] = {}
    notes = []
    with closing(print_jpegs(jobs)) as results:
        for done, (place, drawn) in enumerate(results, start=1):
            sheet = prepared.sheets[place]
            if isinstance(drawn, str):
                raise PrintError(f"{sheet.file} cannot be made: {drawn}; {_without(sheet)}")
            staging.add(sheet.file, drawn.jpeg)
            small[sheet.name] = _made_small(drawn.jpeg)
            notes += [(sheet.file, note) for note in drawn.notes]
            show(done, len(jobs))
    return small, sorted(notes)


def _without(sheet: Sheet) -> str:
    """The way out where a photo cannot be printed."""
    weeks = dict.fromkeys(piece.week.name for piece in sheet.pieces.values())
    plans = " and ".join(f"weeksheaf fit {name}" for name in weeks)
    return f"mend it and run weeksheaf index, or do without: weeksheaf leave PHOTO, then {plans}"


def _made_small(jpeg: bytes) -> bytes:
    with Image.open(io.BytesIO(jpeg)) as picture:
        picture.draft("RGB", _SMALL)
        picture.thumbnail(_SMALL)
        out = io.BytesIO()
        picture.save(out, "JPEG", quality=85)
    return out.getvalue()


def _guide(prepared: Prepared, small: Mapping[str, bytes], home_paper: tuple[int, int]) -> bytes:
    prints = [_guide_print(sheet, small[sheet.name]) for sheet in prepared.sheets]
    return guide_pdf(prints, guide_heading(prepared), home_paper, prepared.lab.unit)


def _guide_print(sheet: Sheet, small: bytes) -> GuidePrint:
    return GuidePrint(sheet.file, sheet.layout, guide_names(sheet), small)


def _named(card: CardPiece) -> NamedCard:
    return NamedCard(f"{card.week.name} {card.pocket}", card.card)
