"""What looking at photos gave, as far as choosing among them needs it; the small pictures are not loaded."""

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from queries.photos import Photo
from queries.screenshots import is_screenshot

#: Why a photo is set aside, by what its picture is of.
_SUBJECTS = {"text": "picture of text", "blank": "picture of nothing"}


@dataclass(frozen=True, slots=True)
class Look:
    """What the pixels of one photo show.

    `phash` has 8 bytes, `layout` 8 x 8 x 3 (CIELAB means), `contrast` goes from 0 to 127.5; `sharpness` is the variance
    of the Laplacian at a longer side of 240 pixels, None where the picture is smaller or was not decoded; `dark` and
    `bright` are clipped shares, 0 to 1. `subject` is "photograph", "text" or "blank". Where `problem` says why no
    pixels can be read, all the others are None.
    """

    problem: str | None
    phash: bytes | None
    layout: bytes | None
    contrast: float | None
    sharpness: float | None
    dark: float | None
    bright: float | None
    subject: str | None


def looks_of(connection: sqlite3.Connection, keys: Iterable[str]) -> dict[str, Look]:
    """By key; a photo that was not looked at yet has none."""
    rows = connection.execute(_LOOKS, (json.dumps(list(keys)),))
    return {key: Look(*values) for key, *values in rows}


def sets_by_photo(connection: sqlite3.Connection, keys: Iterable[str]) -> dict[str, frozenset[int]]:
    """By key: the numbers of the sets of photos alike that each of these is in; they have no lasting meaning."""
    sets = defaultdict(set)
    for key, number in connection.execute(_SETS, (json.dumps(list(keys)),)):
        sets[key].add(number)
    return {key: frozenset(numbers) for key, numbers in sets.items()}


def scenes_by_photo(connection: sqlite3.Connection, keys: Iterable[str]) -> dict[str, frozenset[int]]:
    """By key: the numbers of the scenes that two of these photos show, though no set holds both, since their cameras'
    clocks do not agree. A photo shows what those alike to it show. The numbers have no lasting meaning."""
    scenes = defaultdict(set)
    for number, pair in enumerate(connection.execute(_SCENES, (json.dumps(list(keys)),))):
        for key in pair:
            scenes[key].add(number)
    return {key: frozenset(numbers) for key, numbers in scenes.items()}


def shown_by_photo(connection: sqlite3.Connection, keys: Iterable[str]) -> dict[str, frozenset[tuple[str, int]]]:
    """By key: the sets and scenes that a photo is of, as marks that two photos share which show the same."""
    asked = list(keys)
    sets, scenes = sets_by_photo(connection, asked), scenes_by_photo(connection, asked)
    return {
        key: frozenset(
            [*(("set", number) for number in sets.get(key, ())), *(("scene", number) for number in scenes.get(key, ()))]
        )
        for key in asked
    }


def set_aside(photo: Photo, look: Look | None) -> str | None:
    """Why a photo is no candidate for a shortlist unless it is kept by hand, in two or three words; None where it is.

    Pure. One that was not looked at yet is judged by its name and size alone.
    """
    if is_screenshot(photo.path, photo.format, photo.camera, photo.width, photo.height):
        return "screenshot"
    if look is None:
        return None
    return "pixels unreadable" if look.problem else _SUBJECTS.get(look.subject or "")


_LOOKS = """
SELECT look.key, problem, phash, layout, contrast, sharpness_240, dark, bright, subject
FROM json_each(?) AS asked JOIN look ON look.key = asked.value
"""

#: `shown` pairs each photo with itself and with those of its sets.
_SCENES = """
WITH asked AS (SELECT value AS key FROM json_each(?)),
shown AS (
  SELECT key, key AS shows FROM asked
  UNION
  SELECT asked.key, other.photo_key
  FROM asked
  JOIN alike_set AS own ON own.photo_key = asked.key
  JOIN alike_set AS other ON other.set_id = own.set_id
)
SELECT DISTINCT min(one.key, other.key), max(one.key, other.key)
FROM scene_pair
JOIN shown AS one ON one.shows = one_key
JOIN shown AS other ON other.shows = other_key
WHERE one.key <> other.key
ORDER BY 1, 2
"""

_SETS = "SELECT photo_key, set_id FROM json_each(?) AS asked JOIN alike_set ON photo_key = asked.value"
