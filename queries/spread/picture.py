"""The spread of a week as a picture: both pages side by side, every photo cropped into its cell."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from PIL import Image

from queries.cropping import window_of
from queries.cropping.values import Window
from queries.fitting.values import Filled, Placed
from queries.pull.decoding import small_pictures
from queries.sleeves.values import Box
from queries.spread.paper import CARDS, GREY, INK, PAPER, POCKET, Paper, colour_of
from queries.spread.values import KeptPlan, Page

DPI = 72
#: Inches: around everything, between the pages, above them for the heading, below them for the sleeves' names.
_MARGIN, _FOLD, _HEAD, _FOOT = 0.35, 0.3, 0.75, 0.4
#: A card stands so far inside its pocket.
_CARD_INSET = 0.12
#: No picture is decoded larger than this, in pixels.
_LARGEST = 2400


@dataclass(frozen=True, slots=True)
class Source:
    """A photo to show: its code and a file to read it from, None when there is none any more."""

    code: str
    path: str | None


#: Opens pictures no side longer than so many pixels, by path; absent where one cannot be opened.
Opening = Callable[[Sequence[str], int], Mapping[str, Image.Image]]


def draw_spread(
    kept: KeptPlan,
    sources: Mapping[str, Source],
    heading: str,
    *,
    dpi: int = DPI,
    opening: Opening = small_pictures,
) -> Image.Image:
    """The planned spread at so many pixels to the inch, an RGB picture in sRGB; `sources` by the photos' keys.

    A photo that has no source or cannot be opened is a grey cell with its code.
    """
    left, right = (max(page.width, 1.0) for page in kept.pages)
    height = max(page.height for page in kept.pages)
    paper = Paper(2 * _MARGIN + left + _FOLD + right, _HEAD + height + _FOOT + _MARGIN, dpi)
    paper.write(_MARGIN, _HEAD / 2, heading, 0.26, INK, anchor="lm")
    corners = {"left": (_MARGIN, _HEAD), "right": (_MARGIN + left + _FOLD, _HEAD)}
    for page in kept.pages:
        _draw_page(paper, page, *corners[page.side])
    pictures = _pictures(kept, sources, dpi, opening)
    for number, filled in enumerate(kept.plan.filled):
        _draw_pocket(paper.at(*corners[filled.opening.side]), kept, filled, number, sources, pictures)
    return paper.image


def _draw_page(paper: Paper, page: Page, x: float, y: float) -> None:
    paper.fill(Box(x + 0.03, y + 0.04, page.width, page.height), "#d9d5cd")  # the shadow
    paper.fill(Box(x, y, page.width, page.height), "white")
    paper.write(
        x, y + page.height + _FOOT / 2, f"{page.side} page: {page.sleeve}, {page.face}", 0.17, GREY, anchor="lm"
    )


def _draw_pocket(
    page: Paper,
    kept: KeptPlan,
    filled: Filled,
    number: int,
    sources: Mapping[str, Source],
    pictures: Mapping[str, Image.Image],
) -> None:
    """One pocket with all that it holds, its name and the photos' codes in the corners."""
    box, name = filled.opening.box, filled.opening.name
    collage = filled.collage
    if filled.holds == "empty":
        page.fill(box, "white")
        page.dashed(_inside(box, _CARD_INSET))
    elif filled.holds == "card":
        page.fill(box, POCKET)
        page.fill(_inside(box, _CARD_INSET), CARDS[number % len(CARDS)], corner=0.08)
        page.write(box.x + box.width / 2, box.y + box.height / 2, "card", 0.2, GREY, anchor="mm")
    else:
        page.fill(box, colour_of(collage.background) if collage else PAPER)
        if collage and collage.strip:
            page.dashed(_moved(_inside(collage.strip, 0.04), box))
    for placed in filled.photos:
        picture = _cropped(kept, placed, sources, pictures)
        page.paste(placed.cell, picture, collage.corner if collage else 0.0)
        code = sources[placed.key].code if placed.key in sources else placed.key[:5]
        if picture is None:
            page.write(*_middle(placed.cell), f"{code} cannot be shown", 0.16, GREY, anchor="mm")
        page.tag(placed.cell, code if collage else f"{name}  {code}", at_foot=collage is not None)
    if collage or not filled.photos:
        page.tag(box, name)
    page.outline(box)


def _pictures(kept: KeptPlan, sources: Mapping[str, Source], dpi: int, opening: Opening) -> dict[str, Image.Image]:
    """The photos of the plan that can be opened, by key, decoded as large as the largest of them is shown."""
    paths = {key: source.path for key in kept.keys if (source := sources.get(key)) and source.path}
    placed = [one for filled in kept.plan.filled for one in filled.photos]
    within = min(_LARGEST, max((_needed(one, kept.windows.get(one.key), dpi) for one in placed), default=0))
    decoded = opening(list(dict.fromkeys(paths.values())), within) if paths else {}
    return {key: decoded[path] for key, path in paths.items() if path in decoded}


def _needed(placed: Placed, window: Window | None, dpi: int) -> int:
    """The longer side of the whole picture, in pixels, when the part in the cell has the cell's pixels."""
    width, height = (window.width, window.height) if window else (0.4, 0.4)
    return ceil(dpi * max(placed.cell.width / max(width, 0.02), placed.cell.height / max(height, 0.02)))


def _cropped(
    kept: KeptPlan, placed: Placed, sources: Mapping[str, Source], pictures: Mapping[str, Image.Image]
) -> Image.Image | None:
    picture = pictures.get(placed.key) if placed.key in sources else None
    if picture is None:
        return None
    window = kept.windows.get(placed.key)
    if window is None:
        window = window_of(*picture.size, placed.cell.width / placed.cell.height, None)
    width, height = picture.size
    left, top = min(round(window.left * width), width - 1), min(round(window.top * height), height - 1)
    right, bottom = max(left + 1, round(window.right * width)), max(top + 1, round(window.bottom * height))
    return picture.convert("RGB").crop((left, top, right, bottom))


def _inside(box: Box, inset: float) -> Box:
    inset = min(inset, box.width / 4, box.height / 4)
    return Box(box.x + inset, box.y + inset, box.width - 2 * inset, box.height - 2 * inset)


def _moved(box: Box, by: Box) -> Box:
    return Box(box.x + by.x, box.y + by.y, box.width, box.height)


def _middle(box: Box) -> tuple[float, float]:
    return box.x + box.width / 2, box.y + box.height / 2
