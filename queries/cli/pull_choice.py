"""Which photos of a week a pull takes: the keepers, a shortlist, or all."""

from collections.abc import Sequence

import click

from indexer.errors import PullError
from queries.cli.session import Session
from queries.photos import Photo, photos_with_keys
from queries.pull.selection import Selection, keepers_elsewhere, select


def selection(session: Session, photos: Sequence[Photo], *, takes_all: bool, wanted: int | None) -> Selection:
    """The photos to be pulled, and what is to be said of the others; `wanted` photos of the shortlist, if not None.

    Raises PullError for a shortlist of none.
    """
    if takes_all:
        return Selection(tuple(photos))
    weeks = _weeks_of(session, photos_with_keys(session.connection, keepers_elsewhere(photos)))
    if wanted is None:
        return select(photos, {photo.key for photo in photos if photo.keeper}, weeks_elsewhere=weeks)
    taken, notes = _shortlisted(session, photos, wanted)
    return select(photos, taken, weeks_elsewhere=weeks, notes=notes)


def _shortlisted(session: Session, photos: Sequence[Photo], wanted: int) -> tuple[set[str], dict[str, str]]:
    """The keys of the shortlist, and by key why a photo was set aside."""
    from queries.cli.shortlist_words import number_words
    from queries.cli.shortlisting import shortlist_of  # needs numpy, which is slow to start

    found = shortlist_of(session, photos, wanted)
    if photos and not found.chosen and wanted == 0:
        raise PullError("a shortlist of 0 photos leaves nothing to pull; give --shortlist 1 or more")
    if found.chosen and (says := number_words(found)):
        click.echo(f"Shortlist of {len(found.chosen):,}. {says}", err=True)
    taken = {item.candidate.key for item in found.chosen}
    return taken, {item.candidate.key: item.reason for item in found.set_aside}


def _weeks_of(session: Session, photos: Sequence[Photo]) -> dict[str, str]:
    """By key: the week of each photo, or that it has none."""
    starts_at, rule = session.settings.day_starts_at, session.settings.week_rule
    days = {photo.key: photo.album_day(starts_at) for photo in photos}
    weeks = {key: rule.whole_week_of(day) if day else None for key, day in days.items()}
    return {key: week.name if week else "in no week" for key, week in weeks.items()}
