"""What an order rests on: each week's plan as it is kept, its photos, and the files to print them from."""

import sqlite3
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import time

from indexer.errors import PrintError
from queries.originals import NoSource, find_source
from queries.photos import Photo, photos_with_keys
from queries.prints.pieces import pieces_of
from queries.prints.values import PicturePiece
from queries.spread.known import Known, known_of_week
from queries.spread.lost import GONE, RESHAPED, lost_photos
from queries.spread.notes import unreadable_error
from queries.spread.values import KeptPlan
from queries.weeks import Week, WeekRule, week_words


@dataclass(frozen=True, slots=True)
class PlannedWeek:
    """A week to print: its plan, the plan's photos by key, and its pieces in the order of the pockets."""

    week: Week
    kept: KeptPlan
    photos: Mapping[str, Photo]
    pieces: tuple[PicturePiece, ...]


def planned_week(connection: sqlite3.Connection, week: Week, rule: WeekRule, starts_at: time) -> PlannedWeek:
    """Raises PrintError where the week has no plan, or one that its photos no longer allow."""
    known = known_of_week(connection, week, rule, starts_at)
    kept = known.own
    if week in known.plans.unreadable:
        raise PrintError(unreadable_error(week))
    if kept is None:
        raise PrintError(f"{week_words(week)} has no plan yet; plan it first: weeksheaf fit {week.name}")
    photos = {photo.key: photo for photo in photos_with_keys(connection, kept.keys)}
    _refuse_lost(known, kept, photos)
    sizes = {key: (photo.width, photo.height) for key, photo in photos.items()}
    return PlannedWeek(week, kept, photos, pieces_of(week, kept, sizes))


def sources_of(pieces: Iterable[PicturePiece], photos: Mapping[str, Photo]) -> dict[str, str]:
    """The path to print each photo from, by key. Raises PrintError for one that is gone, or changed since."""
    sources: dict[str, str] = {}
    for piece in pieces:
        for part in piece.parts:
            photo = photos[part.key]
            source = find_source(photo)
            named = f"({photo.code}, {piece.week.name} {piece.pocket})"
            if isinstance(source, NoSource):
                raise PrintError(f"{source.path} {named}: {source.reason}")
            if photo.format == "raw":
                raise PrintError(f"{source.path} {named}: raw data are not printed; export a JPEG and index it")
            sources[part.key] = source.path
    return sources


def check_sources(sources: Mapping[str, str], photos: Mapping[str, Photo]) -> None:
    """Raise PrintError where a file that was printed from, by photo key, is not what it was when it was looked for: a
    person may take hours over what is worth a look, and a picture in its place would be printed in silence."""
    for key in sources:
        found = find_source(photos[key])
        if isinstance(found, NoSource):
            raise PrintError(f"{found.path} ({photos[key].code}), while the prints were made: {found.reason}")


def _refuse_lost(known: Known, kept: KeptPlan, photos: Mapping[str, Photo]) -> None:
    """A done week's plan stays as it is: only what cannot be printed stands in its way."""
    lost = lost_photos(kept, photos, known.keys, ())
    if known.is_done:
        lost = {key: reason for key, reason in lost.items() if reason in (GONE, RESHAPED)}
    if not lost:
        return
    key, reason = next(iter(lost.items()))
    photo = photos.get(key)
    named = f"{photo.path} ({photo.code})" if photo else f"photo {key[:5]}"
    pocket = next(filled.opening.name for filled in kept.plan.filled if any(part.key == key for part in filled.photos))
    more = f", and {len(lost) - 1} more" if len(lost) > 1 else ""
    ways = (
        f"weeksheaf mark {known.week.name} open, then weeksheaf fit {known.week.name}, plans without it"
        if known.is_done
        else f"weeksheaf fit {known.week.name} plans the week anew"
    )
    connect = "connect its disk and run weeksheaf index, or " if reason == GONE else ""
    raise PrintError(f"{named}, planned for {known.week.name} {pocket}, {reason}{more}; {connect}{ways}")
