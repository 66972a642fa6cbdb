"""What `keep` and `leave` share: tell the choice, then say what stands now."""

from collections.abc import Sequence
from typing import Literal

from queries.alike import sets_of
from queries.cli import alike_words
from queries.cli.documents import photo_fields
from queries.cli.output import emit
from queries.cli.session import Session
from queries.photos import Photo, photos_with_keys
from queries.week_log import latest_words
from queries.weeks import Week


def tell_and_report(
    session: Session, photos: Sequence[Photo], choice: Literal["keep", "leave"] | None, *, as_json: bool
) -> None:
    """Tell one choice for some photos, a photo named twice once; None goes back to the tool's own choice."""
    from indexer.store.choices import tell_choice

    keys = list(dict.fromkeys(photo.key for photo in photos))
    with session.telling() as connection:
        tell_choice(connection, keys, choice)
    by_key = {photo.key: photo for photo in photos_with_keys(session.connection, keys)}
    now = [by_key[key] for key in keys]
    done = {photo.key: week for photo in now if (week := _done_week(session, photo))}
    sets = sets_of(session.connection, keys)
    document = {
        "photos": [{**photo_fields(photo, session.settings), "week_is_done": photo.key in done} for photo in now]
    }
    emit(as_json, document, (alike_words.standing(photo, sets, done.get(photo.key)) for photo in now))


def _done_week(session: Session, photo: Photo) -> Week | None:
    """The photo's week, if it is done: its page keeps what it holds."""
    day = photo.album_day(session.settings.day_starts_at)
    week = session.settings.week_rule.whole_week_of(day) if day else None
    word = latest_words(session.connection, session.settings.week_rule).get(week) if week else None
    return week if word and word.state == "done" else None
