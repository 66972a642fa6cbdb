"""Which photos resemble each other: found anew for those that changed."""

import json
import sqlite3
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from indexer.alike.doubts import Doubt, doubts_among
from indexer.alike.values import COMPARING, Likeness, Looked
from indexer.facts.picture_files import LOOKING
from indexer.store.pixels import forget_comparing

_EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001 - capture times are local wall clock


@dataclass(frozen=True, slots=True)
class Compared:
    """What came of comparing: the photos that were compared, each with what it was compared with, all likenesses in
    which one of them stands, and which of those are in doubt."""

    with_it: Mapping[str, str]
    found: Sequence[Likeness]
    doubts: Sequence[Doubt] = ()


def compare_changed(connection: sqlite3.Connection, report: Callable[[int], None] = lambda _: None) -> Compared:
    """Compare every photo that was looked at, or dated, anew since it was compared. Nothing is written, so that words
    can be told meanwhile.

    Missing photos take part: they may come back. `report` is told how many are to be compared, if any are.
    """
    changed = dict(_changed(connection))
    if not changed:
        return Compared({}, ())
    report(len(changed))
    photos = list(looked(connection))
    found = _found(photos, changed.keys())
    return Compared(changed, found, doubts_among(found, {photo.key: photo for photo in photos}))


def save_compared(connection: sqlite3.Connection, compared: Compared) -> None:
    """Write down what came of comparing, in the caller's transaction. A photo that was dated otherwise in between does
    not match what it was compared with, and so is compared again, as is one in doubt, when files are next looked at:
    telling words looks at none."""
    forget_comparing(connection, compared.with_it)
    connection.executemany(
        "INSERT INTO likeness (one_key, other_key, kind, score) VALUES (?, ?, ?, ?)",
        ((item.one, item.other, item.kind, item.score) for item in compared.found if item.kind != "scene"),
    )
    connection.executemany(
        "INSERT INTO same_scene (one_key, other_key, score) VALUES (?, ?, ?)",
        ((item.one, item.other, item.score) for item in compared.found if item.kind == "scene"),
    )
    in_doubt = {key for doubt in compared.doubts for key in (doubt.key, *doubt.earlier)}
    sure = [(key, with_it) for key, with_it in compared.with_it.items() if key not in in_doubt]
    connection.executemany("INSERT INTO compared (key, with_it) VALUES (?, ?)", sure)


def is_all_compared(connection: sqlite3.Connection) -> bool:
    """Whether no photo is to be compared anew."""
    return next(_changed(connection), None) is None


def _found(photos: Sequence[Looked], fresh: Collection[str]) -> list[Likeness]:
    from indexer.alike.likeness import likenesses  # slow to load, and most runs find nothing to compare

    return likenesses(photos, fresh)


def is_same_picture(connection: sqlite3.Connection, one: str, other: str) -> bool:
    """Whether two photos, known or gone, show the same picture; not so while one of them was not looked at."""
    both = list(looked(connection, [one, other]))
    if len(both) < 2:
        return False
    from indexer.alike.likeness import same_picture

    return same_picture(*both)


def looked(connection: sqlite3.Connection, keys: Collection[str] | None = None) -> Iterator[Looked]:
    """The photos that can be compared, or those of these keys, gone ones among them. About 5 KB each."""
    if keys is None:
        rows = connection.execute(_LOOKED, {"looking": LOOKING})
    else:
        rows = connection.execute(_LOOKED_OF, {"looking": LOOKING, "keys": json.dumps(list(keys))})
    return (_looked(row) for row in rows)


def _changed(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    """(key, what it is now compared with) of every photo that was not compared so."""
    rows = connection.execute(_CHANGED, {"comparing": COMPARING, "looking": LOOKING})
    return ((row["key"], row["with_it"]) for row in rows)


def _looked(row: sqlite3.Row) -> Looked:
    is_timed = row["is_timed"]
    return Looked(
        key=row["key"],
        moment=moment_of(row["taken"], row["fraction"], row["precision"]) if is_timed else None,
        exact=bool(is_timed and row["precision"] == "second"),
        own_time=with_fraction(row["own"], row["own_fraction"]) if row["own"] else None,
        camera=camera_name(row["make"], row["model"]),
        **{name: row[name] for name in _AS_THEY_ARE},
    )


def moment_of(taken: str, fraction: str, precision: str) -> float:
    """Seconds of the local wall clock since 1970 of a time known to the second or minute (then its middle)."""
    whole = (datetime.fromisoformat(taken) - _EPOCH).total_seconds()
    return whole + 30 if precision == "minute" else whole + float(f"0.{fraction or 0}")


def with_fraction(time: str, fraction: str) -> str:
    """ "2026-03-30T09:15:20.123"; without the fraction where none is known."""
    return f"{time}.{fraction}" if fraction else time


def camera_name(make: str | None, model: str | None) -> str:
    """ "make|model", '' when neither is named."""
    return f"{make or ''}|{model or ''}" if make or model else ""


_AS_THEY_ARE = (
    "width", "height", "made_from", "phash", "dhash", "grey", "layout", "contrast",
)  # fmt: skip

#: Whether a photo's time brings it near to others: known to the minute, and its own. Not when its file came to its
#: place, not the last fix of the satellites, which may be hours old, and not what copies or neighbours told of it: that
#: rests on comparing, and would have it begin anew.
_IS_TIMED = """
picture.taken IS NOT NULL AND picture.precision IN ('second', 'minute')
AND picture.source NOT IN ('file time', 'gps', 'copy', 'file numbers') AND NOT coalesce(evidence.is_arrival, 0)
"""

#: What comparing takes from outside the picture itself, as text.
_WITH_IT = f"""
:comparing || ' ' || CASE WHEN {_IS_TIMED} THEN picture.taken || ' ' || picture.fraction || ' ' || picture.precision
                     ELSE '' END
|| '|' || coalesce(own.claimed || ' ' || own.fraction, '')
|| '|' || coalesce(lead.make, '') || '|' || coalesce(lead.model, '')
"""

#: The time that the camera itself wrote into the speaking file `lead`, uncorrected, whether it was believed or not:
#: where there are two, there were two shots.
OWN = """
LEFT JOIN evidence AS own ON own.id = (
  SELECT coalesce(min(CASE WHEN source = 'exif original' THEN id END), min(id)) FROM evidence
  WHERE file_id = lead.id AND claimed IS NOT NULL AND source IN ('exif original', 'xmp original'))
"""

_CHANGED = f"""
WITH now AS (
  SELECT pixel.key, {_WITH_IT} AS with_it
  FROM pixel
  JOIN picture ON picture.key = pixel.key
  JOIN file AS lead ON lead.id = picture.lead_file_id
  LEFT JOIN evidence ON evidence.id = picture.evidence_id
  {OWN}
  WHERE pixel.method = :looking AND pixel.made_from <> 'nothing'
)
SELECT now.key, now.with_it
FROM now LEFT JOIN compared ON compared.key = now.key
WHERE compared.with_it IS NOT now.with_it
"""

_SELECT = f"""
SELECT pixel.key, picture.taken, picture.fraction, picture.precision, {_IS_TIMED} AS is_timed, own.claimed AS own,
       own.fraction AS own_fraction, lead.make, lead.model, pixel.width, pixel.height, pixel.made_from, pixel.phash,
       pixel.dhash, pixel.grey, pixel.layout, pixel.contrast
FROM {{}}
LEFT JOIN file AS lead ON lead.id = picture.lead_file_id
LEFT JOIN evidence ON evidence.id = picture.evidence_id
{OWN}
WHERE pixel.method = :looking AND pixel.made_from <> 'nothing'
"""
_LOOKED = _SELECT.format("pixel JOIN picture ON picture.key = pixel.key")
_LOOKED_OF = _SELECT.format(
    "json_each(:keys) AS asked JOIN pixel ON pixel.key = asked.value LEFT JOIN picture ON picture.key = pixel.key"
)
