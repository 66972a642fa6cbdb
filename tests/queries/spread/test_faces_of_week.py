"""Which sleeves the pages of a week share with its neighbours"""

from queries.spread.faces_of_week import bound_pages, bound_words, face_of, page_on
from queries.spread.values import Page
from tests.queries.spread.made_plans import kept, week

BEFORE, THIS, AFTER = (week(day) for day in ("2026-03-30", "2026-04-06", "2026-04-13"))


def test_without_neighbours_nothing_is_bound() -> None:
    """A week whose neighbours have no plan has both pages free; so has one at the calendar's edge."""
    assert bound_pages(BEFORE, AFTER, {THIS: kept()}) == {}
    assert bound_pages(None, None, {THIS: kept()}) == {}


def test_the_left_page_is_the_back_of_the_right_page_before() -> None:
    """The sleeve whose front is last week's right page shows its back on this week's left."""
    bound = bound_pages(BEFORE, AFTER, {BEFORE: kept(right="9 square")})
    assert {side: (item.sleeve, item.face, item.week) for side, item in bound.items()} == {
        "left": ("9 square", "back", BEFORE)
    }


def test_the_right_page_is_the_front_of_the_left_page_after() -> None:
    """The sleeve whose back is next week's left page shows its front on this week's right."""
    bound = bound_pages(BEFORE, AFTER, {AFTER: kept(left="6 tall")})
    assert (bound["right"].sleeve, bound["right"].face) == ("6 tall", "front")


def test_the_plan_says_which_page_is_shared() -> None:
    """One line a shared page, naming the neighbour; another one where the sleeve was chosen otherwise."""
    bound = bound_pages(BEFORE, AFTER, {BEFORE: kept(right="9 square"), AFTER: kept(left="6 tall")})
    pages = (Page("left", "9 square", "back", 12, 12), Page("right", "8 wide", "front", 12, 12))
    shared, apart = bound_words(bound, pages)
    assert "other face of the right page of the week before (30 Mar - 5 Apr 2026, week 14)" in shared
    assert 'was to be the front of "6 tall"' in apart
    assert "share none" in apart


def test_the_face_of_a_page() -> None:
    """A page shows what its neighbour leaves; without one, the left page is a back and the right a front."""
    bound = bound_pages(BEFORE, AFTER, {BEFORE: kept(right="9 square")})
    assert face_of("left", bound, "9 square") == "back"
    assert [face_of(page.side, {}, "6 tall") for page in kept().pages] == ["back", "front"]
    assert page_on(kept().pages, "right").side == "right"
