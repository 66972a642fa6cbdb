"""Which sleeves the pages of a week share with its neighbours. Pure.

A spread is the back of one sleeve and the front of the next: the left page lies behind the right page of the week
before, and the right page before the left page of the week after.
"""

from collections.abc import Iterable, Mapping

from queries.spread.values import FACES, SIDES, Bound, Face, KeptPlan, Page, Side
from queries.weeks import Week, week_words

_OTHER_FACE: dict[Face, Face] = {"front": "back", "back": "front"}
OTHER_SIDE: dict[Side, Side] = {"left": "right", "right": "left"}


def bound_pages(before: Week | None, after: Week | None, plans: Mapping[Week, KeptPlan]) -> dict[Side, Bound]:
    """By side: the page that a neighbour's plan settles. `before` and `after` are the weeks whose pages come before
    and after in the album (skipped weeks have none), or None where the calendar ends."""
    bound = {}
    for side, week in zip(SIDES, (before, after), strict=True):
        if week is not None and week in plans:
            shared = page_on(plans[week].pages, OTHER_SIDE[side])
            bound[side] = Bound(side, shared.sleeve, _OTHER_FACE[shared.face], week)
    return bound


def page_on(pages: Iterable[Page], side: Side) -> Page:
    """The page of that side."""
    return next(page for page in pages if page.side == side)


def bound_words(bound: Mapping[Side, Bound], pages: Iterable[Page]) -> list[str]:
    """For each page that shares its sleeve with a neighbour, or should: one line for the person."""
    return [_words(bound[page.side], page) for page in pages if page.side in bound]


def face_of(side: Side, bound: Mapping[Side, Bound], sleeve: str) -> Face:
    """The face that a page shows of this sleeve."""
    shared = bound.get(side)
    return shared.face if shared and shared.sleeve == sleeve else FACES[side]


def _words(bound: Bound, page: Page) -> str:
    place, theirs = ("before", "right") if bound.side == "left" else ("after", "left")
    shared = f"the {theirs} page of the week {place} ({week_words(bound.week)})"
    if page.sleeve == bound.sleeve:
        return f"The {bound.side} page is the other face of {shared}."
    return (
        f'The {bound.side} page was to be the {bound.face} of "{bound.sleeve}", the other face of {shared}; with'
        " another sleeve here, the two weeks share none."
    )
