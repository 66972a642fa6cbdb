"""The plan of a week's spread, as JSON and in words."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from textwrap import wrap
from typing import Any

from queries.cli.documents import week_fields
from queries.cli.output import columns, plural, width
from queries.cli.visible import visible
from queries.cropping.values import WHOLE
from queries.fitting.resolution import whole_dpi
from queries.fitting.values import Collage, Filled, Plan
from queries.photos import Photo
from queries.sleeves.sizes import size_words
from queries.sleeves.values import Box
from queries.spread.elsewhere import elsewhere_words
from queries.spread.planning import Spread
from queries.spread.text import drawing, lost_words
from queries.spread.values import KeptPlan, Page
from queries.weeks import Week, week_words

_HEADINGS = ("pocket", "size", "photo", "cut off", "dpi", "why")
#: So many letters of "why" stand beside the other columns at least.
_WHY_AT_LEAST = 20
#: Keeps a number and its sign in one line.
_PER_CENT = "\u00a0%"


def document(week: Week, spread: Spread, picture: Path | None) -> dict[str, Any]:
    """`crop` is left, top, right, bottom in fractions of the upright picture; `lost` the share cut off, 0 to 1."""
    kept = spread.kept
    return {
        "week": week_fields(week),
        "pages": [_page_fields(page, kept, spread.photos) for page in kept.pages],
        "optimal": kept.plan.optimal,
        "gap": kept.plan.gap,
        "balance": kept.plan.balance,
        "value": kept.plan.value,
        "photos": len(kept.keys),
        "cards": _count(kept.plan, "card"),
        "elsewhere": [
            {
                "code": spread.photos[found.key].code,
                "path": spread.photos[found.key].path,
                "kind": found.kind,
                "other": spread.photos[found.other].code if found.other in spread.photos else found.other[:5],
                "week": found.week.name,
                "done": found.is_done,
            }
            for found in spread.elsewhere
        ],
        "notes": list(spread.notes),
        "picture": str(picture.absolute()) if picture else None,
    }


def lines(week: Week, spread: Spread, picture: Path | None) -> Iterator[str]:
    """What is to be known first, both pages drawn, and a row for each photo and card."""
    kept, codes = spread.kept, {key: photo.code for key, photo in spread.photos.items()}
    codes = {key: codes.get(key, key[:5]) for key in kept.keys} | codes
    cards = _count(kept.plan, "card")
    yield f"{week_words(week)} ({week.name}): {plural(len(kept.keys), 'photo')}, {plural(cards, 'card')}"
    for page in kept.pages:
        yield f'{page.side} page: the {page.face} of "{visible(page.sleeve)}"'
    for note in (*spread.notes, *(elsewhere_words(found, codes) for found in spread.elsewhere)):
        yield from wrap(visible(note), width(), subsequent_indent="  ", break_long_words=False)
    yield ""
    yield from drawing(kept.pages, kept.plan, codes, width())
    yield ""
    yield from _table(kept, codes)
    yield ""
    yield _quality(kept.plan)
    if picture:
        yield f"Drawn: {visible(str(picture))}"


def _quality(plan: Plan) -> str:
    if plan.optimal:
        best = "No other plan is better"
    else:
        best = f"No other plan is better by more than {plan.gap:.1%}".replace("%", " %")
    return f"{best}; balance {plan.balance:.2f} of 1"


def _count(plan: Plan, holds: str) -> int:
    return sum(filled.holds == holds for filled in plan.filled)


def _table(kept: KeptPlan, codes: Mapping[str, str]) -> Iterator[str]:
    rows = [_HEADINGS, *(row for filled in kept.plan.filled for row in _rows(filled, kept, codes))]
    *first, last = zip(*rows, strict=True)
    shown = columns(list(zip(*first, strict=True)), numbers=(3, 4))
    widest = max(map(len, shown))
    room = max(_WHY_AT_LEAST, width() - widest - 2)
    for row, why in zip(shown, last, strict=True):
        for number, part in enumerate(wrap(why.replace(" %", _PER_CENT), room) or [""]):
            yield f"{(row if number == 0 else '').ljust(widest)}  {part.replace(_PER_CENT, ' %')}"


def _rows(filled: Filled, kept: KeptPlan, codes: Mapping[str, str]) -> Iterator[tuple[str, ...]]:
    """A row of a pocket; of a collage one for the pocket and one for each photo in it."""
    name, box = filled.opening.name, filled.opening.box
    if filled.holds != "photo":
        yield name, size_words(box.width, box.height), filled.holds, "", "", filled.why
    for number, placed in enumerate(filled.photos, 1):
        lost = lost_words(_shown(kept, placed.key, placed.kept)) or "-"
        if filled.holds == "photo":
            place, size, why = name, size_words(box.width, box.height), filled.why
        else:
            place, size, why = f"{name}.{number}", size_words(placed.cell.width, placed.cell.height), ""
        yield place, size, codes[placed.key], lost, str(whole_dpi(placed.dpi)), why


def _page_fields(page: Page, kept: KeptPlan, photos: Mapping[str, Photo]) -> dict[str, Any]:
    return {
        "side": page.side,
        "sleeve": page.sleeve,
        "face": page.face,
        "width_in": page.width,
        "height_in": page.height,
        "pockets": [
            _pocket_fields(filled, kept, photos) for filled in kept.plan.filled if filled.opening.side == page.side
        ],
    }


def _pocket_fields(filled: Filled, kept: KeptPlan, photos: Mapping[str, Photo]) -> dict[str, Any]:
    return {
        "pocket": filled.opening.name,
        **_box_fields(filled.opening.box),
        "holds": filled.holds,
        "why": filled.why,
        "photos": [
            {
                "path": photos[placed.key].path if placed.key in photos else None,
                "code": photos[placed.key].code if placed.key in photos else placed.key[:5],
                "key": placed.key,
                **_box_fields(placed.cell),
                "crop": [window.left, window.top, window.right, window.bottom],
                "lost": 1 - _shown(kept, placed.key, placed.kept),
                "dpi": placed.dpi,
            }
            for placed in filled.photos
            for window in [kept.windows.get(placed.key, WHOLE)]
        ],
        "collage": _collage_fields(filled.collage) if filled.collage else None,
    }


def _collage_fields(collage: Collage) -> dict[str, Any]:
    return {
        "name": collage.name,
        "gap_in": collage.gap,
        "border_in": collage.border,
        "corner_in": collage.corner,
        "background": collage.background,
        "strip": _box_fields(collage.strip) if collage.strip else None,
    }


def _box_fields(box: Box) -> dict[str, float]:
    return {"x_in": box.x, "y_in": box.y, "width_in": box.width, "height_in": box.height}


def _shown(kept: KeptPlan, key: str, planned: float) -> float:
    """The share of a picture that is shown: by its window, which is cut to whole pixels."""
    return kept.windows[key].share if key in kept.windows else planned
