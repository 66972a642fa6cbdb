"""The plan of a week's spread, made and kept: for the command."""

from queries.cli.session import Session
from queries.spread.known import known_of_week
from queries.spread.planning import Spread, spread_of_week
from queries.spread.values import Wishes
from queries.weeks import Week


def planned(session: Session, week: Week, wishes: Wishes) -> Spread:
    """The spread of a week, with a new plan kept as a word. Raises PlanError, WordError."""
    from indexer.store.plans import tell_plan
    from queries.cropping.looking import look_at
    from queries.sleeves.catalogue import catalogue
    from queries.spread.faces import Shelf
    from queries.spread.gathering import file_of
    from queries.spread.plan_words import plan_text

    sleeves = catalogue(session.connection)
    shelf = Shelf(lambda name: sleeves.named(name).sleeve, sleeves.at_home())
    known = known_of_week(session.connection, week, session.settings.week_rule, session.settings.day_starts_at)
    spread = spread_of_week(
        session.connection, known, wishes, shelf, lambda photo: look_at(file_of(photo) or photo.path)
    )
    if spread.is_new:
        with session.telling() as connection:
            tell_plan(connection, week.first_day, plan_text(spread.kept))
    return spread


def forgotten(session: Session, week: Week) -> bool:
    """Forget the week's plan; whether there was one. Raises PlanError for a done week's."""
    from indexer.errors import PlanError
    from indexer.store.plans import tell_plan
    from queries.spread.notes import frozen_error

    known = known_of_week(session.connection, week, session.settings.week_rule, session.settings.day_starts_at)
    if known.own is None and week not in known.plans.unreadable:
        return False
    if known.is_done:
        raise PlanError(frozen_error(week))
    with session.telling() as connection:
        tell_plan(connection, week.first_day, None)
    return True
