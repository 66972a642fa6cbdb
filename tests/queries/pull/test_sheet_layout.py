"""Where things stand on the week sheet."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from queries.pull.sheet_cells import CODE_LINE
from queries.pull.sheet_layout import day_words, lay_out
from queries.pull.sheet_values import CAPTION, COLUMNS, DPI, FOOT, MARGIN, PAGE_HEIGHT, PAGE_WIDTH, Aside, Entry, Small
from queries.weeks import WeekRule

WEEK = WeekRule().week_named(2026, 14)
DAYS = st.sampled_from([*WEEK.days(), date(2025, 12, 31), None])
SIDES = st.sampled_from([0, 1, 90, 1200, 3000, 4000, 30_000])


def small(*note: str) -> Small:
    return Small("0a1b2", 4, 3, None, note)


def entry(code: str, day: date | None, width: int = 4, height: int = 3) -> Entry:
    return Entry(code, day, "09:15", False, False, width, height, None)


def test_the_page_prints_on_a4_and_letter() -> None:
    """The page is no wider than A4 (210 mm, ISO 216) and no higher than US Letter (11 in, ANSI/ASME Y14.1)."""
    assert PAGE_WIDTH / DPI <= 210 / 25.4
    assert PAGE_HEIGHT / DPI <= 11


@given(
    st.lists(st.tuples(DAYS, SIDES, SIDES, st.sampled_from([0, 0, 0, 1, 3, 5, 12, 40, 150])), max_size=40),
    st.lists(DAYS, max_size=30),
)
def test_every_picture_stands_once_in_its_own_room(
    week: list[tuple[date | None, int, int, int]], apart: list[date | None]
) -> None:
    """No picture is lost, none runs over another or out of the page, each page has a heading above its first row."""
    entries = [
        replace(entry(str(number), day, width, height), behind=(small(),) * count)
        for number, (day, width, height, count) in enumerate(week)
    ]
    asides = [Aside(day, small("copy of 3f9a2", "2025-W52")) for day in apart]
    pages = lay_out(entries, WEEK, asides)
    assert sorted(tile.entry.code for page in pages for tile in page.tiles) == sorted(each.code for each in entries)
    assert sum(len(page.prints) for page in pages) == sum(count for *_, count in week) + len(apart)
    for page in pages:
        boxes = [(tile.x, tile.y, tile.x + tile.width, tile.y + tile.height + CAPTION) for tile in page.tiles]
        for place, (left, top, right, bottom) in enumerate(boxes):
            assert MARGIN <= left < right <= PAGE_WIDTH - MARGIN
            assert 0 < top < bottom < FOOT
            for other in boxes[place + 1 :]:
                assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
        for place in page.prints:
            assert MARGIN <= place.x < place.x + place.width <= PAGE_WIDTH - MARGIN
            assert 0 < place.y < place.y + place.height + CODE_LINE < FOOT
        tops = [place.y for place in (*page.tiles, *page.prints)]
        if tops:
            assert page.headings[0].baseline < min(tops)
            assert page.headings[-1].baseline < max(tops)


def test_days_follow_each_other_and_captions_share_a_line() -> None:
    """A day has one heading, its pictures stand in rows of four, and each row's pictures end on one line."""
    monday, friday = date(2026, 3, 30), date(2026, 4, 3)
    entries = [entry(f"m{number}", monday, 4, 3 + number % 3) for number in range(5)] + [entry("f0", friday)]
    (page,) = lay_out(entries, WEEK)
    assert [(heading.text, heading.count) for heading in page.headings] == [
        ("Monday 30 March", "5 photos"),
        ("Friday 3 April", "1 photo"),
    ]
    first_row = page.tiles[:COLUMNS]
    assert len({tile.y + tile.height for tile in first_row}) == 1
    assert [tile.x for tile in first_row] == sorted({tile.x for tile in first_row})
    assert page.tiles[COLUMNS].x == first_row[0].x


def test_a_long_day_is_continued() -> None:
    """On the next page its heading stands again and says so; a week without photos still has a page."""
    pages = lay_out([entry(str(number), date(2026, 4, 1)) for number in range(30)], WEEK)
    assert [page.headings[0].text for page in pages] == ["Wednesday 1 April", "Wednesday 1 April, continued"]
    assert len(lay_out([], WEEK)) == 1


def test_the_days_in_words() -> None:
    """A day outside of the week has its year, and a day that is not known says so, last of all."""
    assert day_words(date(2026, 3, 30), WEEK) == "Monday 30 March"
    assert day_words(date(2026, 3, 30) - timedelta(days=89), WEEK) == "Wednesday 31 December 2025"
    (page,) = lay_out([entry("a", None), entry("b", date(2026, 4, 5))], WEEK)
    assert [heading.text for heading in page.headings] == ["Sunday 5 April", "Put here by hand"]


def test_what_is_left_out_is_counted_and_ends_its_day() -> None:
    """A day's heading counts what is left out; what stands behind no picture comes at the day's end, or makes a day."""
    monday, friday = date(2026, 3, 30), date(2026, 4, 3)
    entries = [replace(entry("m", monday), behind=(small(), small())), entry("n", monday)]
    (page,) = lay_out(entries, WEEK, [Aside(monday, small("left out by you")), Aside(friday, small())])
    assert [heading.count for heading in page.headings] == ["2 photos, 3 left out", "1 left out"]
    last = [place for place in page.prints if place.small.note]
    assert last[0].y > max(tile.y + tile.height for tile in page.tiles)
    assert page.headings[1].baseline > last[0].y


def test_pictures_too_many_for_a_row_follow_below_their_keeper() -> None:
    """Forty small pictures stand beside and below the one, before the next picture of the day."""
    entries = [replace(entry("m", date(2026, 3, 30)), behind=(small(),) * 40), entry("n", date(2026, 3, 30))]
    (page,) = lay_out(entries, WEEK)
    first, second = page.tiles
    assert second.y > max(place.y for place in page.prints) > first.y + first.height + CAPTION
