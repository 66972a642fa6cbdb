"""A plan as text, and back"""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from queries.cropping.values import Window
from queries.fitting.values import Asked, Collage, Filled, Opening, Placed, Plan, Style
from queries.sleeves.values import Box
from queries.spread.plan_words import plan_in, plan_text
from queries.spread.values import KeptPlan, Page
from tests.queries.spread.made_plans import KITE, PIER, kept, pair, wide

lengths = st.floats(0, 50, allow_nan=False)
boxes = st.builds(Box, lengths, lengths, lengths, lengths)
keys = st.text("0123456789abcdef", min_size=32, max_size=32)
names = st.text(max_size=12)
placed = st.builds(Placed, keys, boxes, st.floats(0, 1), lengths)
collages = st.builds(
    Collage, names, st.lists(boxes, max_size=4).map(tuple), lengths, lengths, lengths, names, st.none() | boxes
)
openings = st.builds(Opening, names, st.sampled_from(["left", "right"]), boxes)
filled = st.builds(
    Filled,
    openings,
    st.sampled_from(["photo", "collage", "card", "empty"]),
    st.lists(placed, max_size=4).map(tuple),
    st.none() | collages,
    names,
)
plans = st.builds(
    Plan,
    st.lists(filled, max_size=4, unique_by=lambda item: item.opening.name).map(tuple),
    st.booleans(),
    lengths,
    lengths,
    lengths,
    st.lists(names, max_size=2).map(tuple),
)
pockets = st.frozensets(names, max_size=3)
asked = st.builds(
    Asked,
    st.dictionaries(names, keys, max_size=3),
    pockets,
    st.dictionaries(names, st.integers(1, 4), max_size=3),
    pockets,
    st.none() | st.integers(0, 20),
    st.none() | st.integers(1, 20),
    lengths,
    st.builds(Style, lengths, lengths, lengths, names, lengths, st.sampled_from(["top", "bottom", "left", "right"])),
)
pages = st.tuples(
    st.builds(Page, st.just("left"), names, st.sampled_from(["front", "back"]), lengths, lengths),
    st.builds(Page, st.just("right"), names, st.sampled_from(["front", "back"]), lengths, lengths),
)
kept_plans = st.builds(
    KeptPlan,
    pages,
    plans,
    asked,
    st.lists(keys, max_size=3).map(tuple),
    st.dictionaries(keys, st.sampled_from(["left", "top"]) | st.floats(0, 1), max_size=3),
    st.dictionaries(keys, st.floats(1, 10), max_size=3),
    st.dictionaries(keys, st.builds(Window, lengths, lengths, lengths, lengths), max_size=3),
)


@given(kept_plans)
def test_a_plan_comes_back_as_it_was(plan: KeptPlan) -> None:
    """Whatever is in a plan is in its text, which is one line of ASCII."""
    text = plan_text(plan)
    assert plan_in(text) == plan
    assert text.isascii()
    assert "\n" not in text


def test_fields_of_another_form_are_passed_over_or_have_their_defaults() -> None:
    """A plan kept before a field was there, or after one came to be, still stands."""
    said = json.loads(plan_text(kept(wide("L1", KITE), pair("R1", PIER, KITE[::-1]))))
    for name in ("asked", "named", "crops", "zooms", "windows"):
        del said[name]
    said["mood"] = said["pages"][0]["mood"] = said["plan"]["filled"][0]["opening"]["mood"] = "calm"
    del said["plan"]["words"]
    before = kept(wide("L1", KITE), pair("R1", PIER, KITE[::-1]))
    assert plan_in(json.dumps(said)) == replace(before, plan=replace(before.plan, words=()))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        "3",
        "null",
        "{}",
        '{"form": 2}',
        '{"form": 1, "pages": []}',
        "[" * 100_000,
        '{"form":1,"pages":7}',
    ],
)
def test_what_is_no_plan_is_none(text: str) -> None:
    """A text that cannot be read is not taken for a plan, and raises nothing."""
    assert plan_in(text) is None


@pytest.mark.parametrize("value", ["wide", None, [], {"x": 1}])
def test_a_length_that_is_no_number_makes_no_plan(value: object) -> None:
    """What will be reckoned with is a number."""
    said = json.loads(plan_text(kept()))
    said["plan"]["filled"][0]["opening"]["box"]["width"] = value
    assert plan_in(json.dumps(said)) is None


def test_a_pocket_that_stands_twice_makes_no_plan() -> None:
    """Two fillings of one pocket contradict each other."""
    assert plan_in(plan_text(kept(wide("L1", KITE), wide("L1", PIER)))) is None
    swapped = replace(kept(), pages=kept().pages[::-1])
    assert plan_in(plan_text(swapped)) is None


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("opening", "side"), float("nan")),
        (("opening", "side"), "middle"),
        (("opening", "box", "height"), 1e308),
        (("opening", "box", "width"), 10**400),
        (("opening", "box", "x"), True),
        (("photos", 0, "cell", "y"), float("nan")),
        (("photos", 0, "dpi"), float("inf")),
        (("holds",), "soup"),
    ],
)
def test_numbers_that_no_page_has_make_no_plan(place: tuple[str | int, ...], value: object) -> None:
    """A backup may have been changed by hand: such a plan cannot be read, and is no traceback later."""
    said = json.loads(plan_text(kept()))
    inner = said["plan"]["filled"][0]
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = value
    assert plan_in(json.dumps(said)) is None


def test_a_plan_of_which_nothing_was_proven_is_one() -> None:
    """Its gap has no end."""
    said = json.loads(plan_text(kept()))
    said["plan"]["gap"] = float("inf")
    read = plan_in(json.dumps(said))
    assert read
    assert read.plan.gap == 1e6
