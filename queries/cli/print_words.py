"""An order of prints, as JSON and in words."""

from collections.abc import Iterator
from pathlib import Path
from textwrap import wrap
from typing import Any

from queries.cli.output import columns, plural, width
from queries.cli.visible import visible
from queries.lengths import UM_PER_INCH
from queries.orders.values import order_name
from queries.prints.order import Sheet, keys_of
from queries.prints.order_file import FILE_NAME
from queries.prints.printing import Prepared
from queries.prints.words import most_trimmed, order_fields
from queries.prints.writing import CARDS, GUIDE, Made
from queries.sleeves.sizes import Unit, size_words
from queries.weeks import week_words


def document(order: Prepared, made: Made, folder: Path) -> dict[str, Any]:
    """As in order.json, paths absolute; and what was left out, looked at and guessed."""
    fields = order_fields(order)
    place = folder.absolute()
    return {
        "order": order.number if made.files else None,
        "folder": str(place),
        **fields,
        "prints": [{**one, "file": str(place / one["file"])} for one in fields["prints"]],
        "files": [str(place / name) for name in (*made.files, FILE_NAME)] if made.files else [],
        "ordered_before": [
            {"week": item.week.name, "pocket": item.pocket, "order": item.order, "print": item.print}
            for item in order.before
        ],
        "risks": [
            {"kind": risk.kind, "week": risk.week.name, "pocket": risk.pocket, "code": risk.code, "says": risk.says}
            for risk in order.risks
        ],
        "notes": [*order.notes, *(f"{name}: {note}" for name, note in made.notes)],
    }


def risk_lines(order: Prepared) -> Iterator[str]:
    """What costs money when it is wrong, one line each."""
    yield f"Worth a look before it is paid for: {plural(len(order.risks), 'thing')}"
    rows = [(f"  {risk.week.name} {risk.pocket}", risk.code, risk.says) for risk in order.risks]
    yield from columns(rows)


def lines(order: Prepared, made: Made, folder: Path) -> Iterator[str]:
    """What was made, where each piece goes, and what comes next."""
    weeks = [week_words(week.week) for week in order.weeks]
    if order.before:
        names = [order_name(number) for number in sorted({item.order for item in order.before})]
        yield from _wrapped(
            f"{plural(len(order.before), 'piece')} ordered before and unchanged, left out ({', '.join(names)});"
            " --again prints them too"
        )
    if not made.files:
        yield "Nothing to print." if order.before else "Nothing to print: the plan holds no photo."
        yield from (line for note in order.notes for line in _wrapped(note))
        return
    pieces = sum(len(sheet.pieces) for sheet in order.sheets)
    name, prints = order_name(order.number), plural(len(order.sheets), "print")
    yield f"Order {name}: {plural(pieces, 'piece')} on {prints}{_fewest(order)}"
    for week in weeks:
        yield f"  {week}"
    yield ""
    yield from columns([row for sheet in order.sheets for row in _rows(sheet, order.lab.unit)])
    yield ""
    yield from (line for note in _notes(order, made) for line in _wrapped(note))
    yield f"Written: {visible(str(folder.absolute()))}"
    yield from (f"  {line}" for line in _also(order))
    if order.sheets:
        yield f"When the files are with the lab: weeksheaf order sent {order_name(order.number)}"


def calibrated_lines(file: Path) -> Iterator[str]:
    yield f"Written: {visible(str(file))}"
    yield from _wrapped(
        "Have it printed once as your photos are. At each edge read the number of the outermost line that you can see,"
        " then tell them:"
    )
    yield "  weeksheaf settings print.lab_trim LEFT,TOP,RIGHT,BOTTOM"


def _fewest(order: Prepared) -> str:
    if order.layout.proven:
        return ", the fewest there can be"
    return f"; fewer than {order.layout.lower_bound} cannot be"


def _rows(sheet: Sheet, unit: Unit) -> Iterator[tuple[str, str, str, str]]:
    """A row a piece; the file's name stands on the first."""
    file = sheet.file
    for laid in sheet.layout.laid:
        piece = sheet.pieces[laid.piece]
        sides = (laid.box.height, laid.box.width) if laid.turned else (laid.box.width, laid.box.height)
        size = size_words(sides[0] / UM_PER_INCH, sides[1] / UM_PER_INCH, unit)
        what = f"{len(keys_of(piece))} photos" if len(keys_of(piece)) > 1 else "" if keys_of(piece) else "card"
        yield file, f"{piece.week.name} {piece.pocket}", size, what
        file = ""


def _notes(order: Prepared, made: Made) -> Iterator[str]:
    shrunk = [sheet for sheet in order.sheets if sheet.layout.scale_x < 1 or sheet.layout.scale_y < 1]
    if shrunk:
        least = min(min(sheet.layout.scale_x, sheet.layout.scale_y) for sheet in shrunk)
        yield (
            f"Pieces shrunk by up to {100 * (1 - least):.1f} % on {plural(len(shrunk), 'print')}, so that all of"
            " them stays on the print; --apart gives each its full size, on more prints."
        )
    exempt = [sheet for sheet in order.sheets if any(_is_at_risk(laid) for laid in sheet.layout.laid)]
    if exempt:
        yield f"{plural(len(exempt), 'print')} filled to the edge: the lab may take up to {most_trimmed(order)} there."
    yield from order.notes
    for name, note in made.notes:
        yield f"{name}: {note}"


def _is_at_risk(laid: Any) -> bool:
    trim = laid.at_risk
    return any((trim.left, trim.top, trim.right, trim.bottom))


def _also(order: Prepared) -> Iterator[str]:
    if order.sheets:
        yield f"{plural(len(order.sheets), 'print')} for the lab, and {GUIDE}"
    if order.home_cards:
        yield f"{CARDS}: {plural(len(order.home_cards), 'card')} for your own printer, at actual size"
    pictures = "as a picture" if len(order.weeks) == 1 else "as pictures"
    yield f"{plural(len(order.weeks), 'spread')} {pictures}, and {FILE_NAME}"


def _wrapped(text: str) -> list[str]:
    return wrap(visible(text), width(), subsequent_indent="  ", break_long_words=False)
