"""weeksheaf reprint"""

from datetime import date

import click

from queries.cli import order_words
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.orders.naming import pieces_named, print_named
from queries.orders.order_text import reprint_text
from queries.orders.told import orders
from queries.orders.values import Reprint
from queries.weeks import parse_week


@click.command("reprint", short_help="Have a print, or pieces of it, printed again.")
@click.argument("print_name", metavar="PRINT")
@click.argument("pockets", metavar="[POCKET]...", nargs=-1)
@as_json
@click.pass_obj
def command(session: Session, print_name: str, pockets: tuple[str, ...], as_json: bool) -> None:
    """Have a PRINT of an order made again: spoilt by the lab, cut wrong, lost. The next order has it.

    PRINT is the name on its back, such as o12-07, or its file. With POCKETs only those pieces: L4, or 2026-W14/L4 where
    several weeks have one.
    """
    from indexer.store.orders import tell_order

    rule = session.settings.week_rule
    order, item = print_named(print_name, orders(session.connection), rule)
    pieces = pieces_named(item, (_split(session, pocket) for pocket in pockets), rule)
    again = Reprint(item.name, tuple((piece.week, piece.pocket) for piece in pieces))
    with session.telling() as connection:
        tell_order(connection, order.id, order.number, "reprint", reprint_text(again))
    document = order_words.reprint_document(item, pieces, rule)
    emit(as_json, document, order_words.reprint_lines(item, pieces, rule))


def _split(session: Session, pocket: str) -> tuple[date | None, str]:
    """The first day of the week that is named before the pocket, if one is, and the pocket."""
    week, _, name = pocket.strip().rpartition("/")
    return parse_week(week, session.settings.week_rule, session.album_day).first_day if week else None, name
