"""Plans made up for tests: small pages of few pockets."""

from collections.abc import Mapping
from datetime import date

from queries.cropping.values import Window
from queries.fitting.values import Asked, Collage, Filled, Opening, Placed, Plan
from queries.photos import Photo
from queries.sleeves.values import Box
from queries.spread.values import KeptPlan, Page
from queries.weeks import Week, WeekRule

RULE = WeekRule()
KITE, PIER, GULL, CAT = ("abcde" + letter * 27 for letter in "0123")


def week(day: str) -> Week:
    return RULE.week_of(date.fromisoformat(day))


def wide(name: str, key: str | None = None, *, number: int = 0) -> Filled:
    """A 6x4 pocket of a page with one column of them; a card where there is no photo."""
    box = Box(0, 4 * number, 6, 4)
    opening = Opening(name, "left" if name[0] == "L" else "right", box)
    if key is None:
        return Filled(opening, "card", (), None, "no photo left for it")
    return Filled(opening, "photo", (Placed(key, box, 8 / 9, 300.0),), None, "loses 11 % top and bottom")


def pair(name: str, *keys: str) -> Filled:
    """A 6x4 pocket with two photos in it."""
    cells = (Box(0, 0, 3, 4), Box(3, 0, 3, 4))
    collage = Collage("2 side by side", cells, 0.0, 0.0, 0.0, "white", None)
    placed = tuple(Placed(key, cell, 0.5, 250.0) for key, cell in zip(keys, cells, strict=True))
    return Filled(
        Opening(name, "left" if name[0] == "L" else "right", Box(0, 0, 6, 4)), "collage", placed, collage, "2"
    )


def plan(*filled: Filled) -> Plan:
    return Plan(filled, True, 0.0, 1.0, 2.5, ("A thin week",))


def kept(
    *filled: Filled,
    left: str = "2 wide, one column",
    right: str = "2 wide, one column",
    asked: Asked | None = None,
    named: tuple[str, ...] = (),
    windows: Mapping[str, Window] | None = None,
) -> KeptPlan:
    pages = (Page("left", left, "back", 6, 8), Page("right", right, "front", 6, 8))
    made = plan(*(filled or (wide("L1", KITE), wide("L2", number=1), wide("R1", PIER), wide("R2", number=1))))
    return KeptPlan(pages, made, asked or Asked(), named, windows=windows or {})


def photo(key: str, **more: object) -> Photo:
    """A 4:3 photo of which no file is there."""
    given: dict[str, object] = {
        "key": key, "code": key[:6], "path": f"/no/{key}.jpg", "paths": (f"/no/{key}.jpg",), "size": 1, "mtime_ns": 1,
        "format": "JPEG", "taken": "2026-04-06T10:00:00", "fraction": "", "precision": "second", "zone": None,
        "source": "exif original", "doubtful": False, "reason": "", "shape": "landscape", "width": 1600, "height": 1200,
        "orientation": 1, "camera": None, "damage": None, "placed": "2026-04-06T10:00:00",
    }  # fmt: skip
    return Photo(**(given | more))  # type: ignore[arg-type]
