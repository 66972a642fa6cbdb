"""The plan of a week's spread, made and kept: for the command."""

from collections.abc import Sequence

from queries.cli.session import Session
from queries.cropping.looking import Seen
from queries.photos import Photo
from queries.spread.known import known_of_week
from queries.spread.planning import Spread, spread_of_week
from queries.spread.values import Wishes
from queries.weeks import Week


def planned(session: Session, week: Week, wishes: Wishes) -> Spread:
    """The spread of a week, with a new plan kept as a word. Raises PlanError, WordError."""
    from indexer.store.plans import tell_plan
    from queries.cropping.looking import looks_at
    from queries.sleeves.catalogue import catalogue
    from queries.spread.faces import Shelf
    from queries.spread.gathering import file_of
    from queries.spread.plan_words import plan_text

    sleeves = catalogue(session.connection)
    shelf = Shelf(lambda name: sleeves.named(name).sleeve, sleeves.at_home())
    known = known_of_week(session.connection, week, session.settings.week_rule, session.settings.day_starts_at)

    def look(photos: Sequence[Photo]) -> dict[str, Seen]:
        paths = {photo.key: file_of(photo) or photo.path for photo in photos}
        seen = looks_at(list(paths.values()))
        return {key: seen[path] for key, path in paths.items()}

    spread = spread_of_week(session.connection, known, wishes, shelf, look)
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
