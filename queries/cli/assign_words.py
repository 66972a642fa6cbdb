"""What was told of photos by hand, as JSON and in words."""

from collections.abc import Collection, Iterator, Sequence
from typing import Any

from queries.cli.clock_words import moves_fields
from queries.cli.documents import photo_fields
from queries.cli.moving import done_lines
from queries.cli.output import plural
from queries.cli.wording import taken_words
from queries.photos import Photo
from queries.settings import Settings
from queries.week_moves import WeekMoves, week_of
from queries.weeks import week_words


def document(photos: Sequence[Photo], moves: WeekMoves, settings: Settings) -> dict[str, Any]:
    return {"photos": [photo_fields(photo, settings) for photo in photos], **moves_fields(moves)}


def lines(
    photos: Sequence[Photo], moves: WeekMoves, settings: Settings, *, untold: Collection[str] = ()
) -> Iterator[str]:
    """Where each photo is now, what went with it, and which done weeks are touched.

    `untold` are keys of which there was nothing to take back.
    """
    for photo in photos:
        week = week_of(photo.placed, settings.week_rule, settings.day_starts_at)
        where = f"in {week_words(week)}" if week else "in no week"
        hand = ", put there by hand" if photo.assigned else ""
        start = f"nothing was told of {photo.code} by hand; it" if photo.key in untold else photo.code
        gone = "" if photo.is_there else "; its file is no longer there"
        yield f"{start} is {where}{hand}; taken {taken_words(photo)}{gone}"
    others = len(moves.keys - {photo.key for photo in photos})
    if others:
        yield f"{plural(others, 'photo goes', 'photos go')} with it, being a copy or dated by it"
    yield from done_lines(moves)
