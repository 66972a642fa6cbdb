"""weeksheaf order"""

import click

from queries.cli import order_words
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.orders.naming import order_named
from queries.orders.told import orders
from queries.orders.weeks import weeks_of_order
from queries.week_log import latest_words

#: A slip of the number would have the pieces of another week counted as printed.
forgets = click.option("--forget", is_flag=True, help="It was not so: take the word back.")


@click.group("order", invoke_without_command=True, short_help="List the orders of prints; tell what became of one.")
@as_json
@click.pass_context
def command(context: click.Context, as_json: bool) -> None:
    """List the orders of prints. An ORDER is its number, 12 or o12, as the names of its prints begin.

    An order is planned when prints are written; tell when it was sent to the lab and when it has arrived.
    """
    if context.invoked_subcommand:
        if as_json:
            raise click.UsageError(f"write --json at the end: weeksheaf order {context.invoked_subcommand} ... --json")
        return
    session: Session = context.obj
    told, rule = orders(session.connection), session.settings.week_rule
    emit(as_json, order_words.orders_document(told, rule), order_words.orders_lines(told, rule))


@command.command("sent", short_help="Say that an order went to the lab.")
@click.argument("order")
@forgets
@as_json
@click.pass_obj
def sent(session: Session, order: str, forget: bool, as_json: bool) -> None:
    """Say that an ORDER went to the lab: from now on its pieces count as printed."""
    _tell(session, order, "sent", forget=forget, as_json=as_json)


@command.command("arrived", short_help="Say that an order has come.")
@click.argument("order")
@forgets
@as_json
@click.pass_obj
def arrived(session: Session, order: str, forget: bool, as_json: bool) -> None:
    """Say that an ORDER has come from the lab; the weeks that waited for it are named."""
    _tell(session, order, "arrived", forget=forget, as_json=as_json)


@command.command("drop", short_help="Forget an order that was never sent.")
@click.argument("order")
@forgets
@as_json
@click.pass_obj
def drop(session: Session, order: str, forget: bool, as_json: bool) -> None:
    """Forget an ORDER that was never sent. Its number is not used again, its files stay."""
    _tell(session, order, "dropped", forget=forget, as_json=as_json)


def _tell(session: Session, name: str, what: str, *, forget: bool, as_json: bool) -> None:
    """Keep the word, then say how the order and its weeks stand."""
    from indexer.store.orders import take_back, tell_order

    rule = session.settings.week_rule
    meant = order_named(name, orders(session.connection), rule)
    with session.telling() as connection:
        is_new = (take_back if forget else tell_order)(connection, meant.id, meant.number, what)
    told = orders(session.connection)
    now = next(order for order in told if order.id == meant.id)
    weeks = weeks_of_order(now, told, latest_words(session.connection, rule), rule)
    document = order_words.told_document(now, weeks, rule, is_new=is_new)
    if forget:
        emit(as_json, document, [order_words.taken_back_line(now, what, is_new=is_new)])
        return
    emit(as_json, document, order_words.told_lines(now, weeks, is_new=is_new))
