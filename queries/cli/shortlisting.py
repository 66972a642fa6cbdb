"""The shortlist of a week, from the index: for the page of the week and for its pull."""

from collections.abc import Sequence

from queries.cli.session import Session
from queries.looks import looks_of, scenes_by_photo, sets_by_photo
from queries.photos import Photo
from queries.shortlist import Shortlist, candidates_of, shortlist


def shortlist_of(session: Session, photos: Sequence[Photo], wanted: int) -> Shortlist:
    """The `wanted` ones of a week's photos that tell it."""
    keys = [photo.key for photo in photos]
    looks, sets = looks_of(session.connection, keys), sets_by_photo(session.connection, keys)
    scenes = scenes_by_photo(session.connection, keys)
    return shortlist(candidates_of(photos, looks, sets, scenes, session.settings.day_starts_at), wanted)
