"""The part of each photo that its pocket shows"""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from queries.cropping.looking import NOTHING, Seen
from queries.cropping.values import WHOLE, Window
from queries.photos import Photo
from queries.spread.values import KeptPlan
from queries.spread.windows import windows_of
from tests.queries.spread.made_plans import KITE, PIER, kept, pair, photo, wide

PLAN = kept(wide("L1", KITE), wide("R1", PIER))


def windows(plan: KeptPlan, before: KeptPlan | None = None, **sides: int) -> tuple[dict[str, Window], list[str]]:
    """The windows, and the photos that were looked at for them."""
    looked_at: list[str] = []

    def look(asked: Sequence[Photo]) -> dict[str, Seen]:
        looked_at.extend(one.key for one in asked)
        return {one.key: NOTHING for one in asked}

    photos = {KITE: photo(KITE, **sides), PIER: photo(PIER)}
    return windows_of(plan, before, photos, look), looked_at


def test_a_window_has_the_shape_of_its_cell() -> None:
    """A 4:3 photo in a 6x4 pocket loses a ninth of its height."""
    found, looked_at = windows(PLAN)
    assert {key: (window.width, round(window.height, 9)) for key, window in found.items()} == {
        KITE: (1.0, round(8 / 9, 9)),
        PIER: (1.0, round(8 / 9, 9)),
    }
    assert looked_at == [KITE, PIER]


def test_what_needs_no_cutting_is_not_looked_at() -> None:
    """A 3:2 photo is shown whole."""
    found, looked_at = windows(PLAN, width=1800, height=1200)
    assert (found[KITE], looked_at) == (WHOLE, [PIER])


def test_what_was_told_is_not_looked_at_either() -> None:
    """`--crop` overrules where the detail is."""
    found, looked_at = windows(replace(PLAN, crops={KITE: "top", PIER: 1.0}))
    assert (found[KITE].top, found[PIER].bottom, looked_at) == (0.0, pytest.approx(1.0), [])


def test_a_window_stays_while_cell_and_words_do() -> None:
    """Planned again, a photo in a cell of the same shape is not looked at anew; told otherwise or in another it is."""
    mine = Window(0, 0.05, 1, 0.05 + 8 / 9)
    before = replace(PLAN, windows={KITE: mine, PIER: mine})
    swapped = kept(wide("L1", PIER), wide("R1", KITE))
    assert windows(swapped, before) == ({KITE: mine, PIER: mine}, [])
    assert windows(replace(PLAN, zooms={KITE: 1.5}), before)[1] == [KITE]
    assert windows(replace(PLAN, crops={KITE: "top"}), before)[0][KITE] != mine
    assert windows(kept(pair("L1", KITE, PIER)), before)[1] == [KITE, PIER]
