"""Where things stand on the week sheet."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from queries.pull.sheet_layout import (
    CAPTION,
    COLUMNS,
    DPI,
    FOOT,
    MARGIN,
    PAGE_HEIGHT,
    PAGE_WIDTH,
    TILE,
    Entry,
    day_words,
    fitted,
    lay_out,
)
from queries.weeks import WeekRule

WEEK = WeekRule().week_named(2026, 14)
DAYS = st.sampled_from([*WEEK.days(), date(2025, 12, 31), None])
SIDES = st.sampled_from([0, 1, 90, 1200, 3000, 4000, 30_000])


def entry(code: str, day: date | None, width: int = 4, height: int = 3) -> Entry:
    return Entry(code, day, "09:15", False, False, width, height, None)


def test_the_page_prints_on_a4_and_letter() -> None:
    """The page is no wider than A4 (210 mm, ISO 216) and no higher than US Letter (11 in, ANSI/ASME Y14.1)."""
    assert PAGE_WIDTH / DPI <= 210 / 25.4
    assert PAGE_HEIGHT / DPI <= 11


@given(st.lists(st.tuples(DAYS, SIDES, SIDES), max_size=60))
def test_every_picture_stands_once_in_its_own_room(week: list[tuple[date | None, int, int]]) -> None:
    """No picture is lost, none runs over another or out of the page, each page has a heading above its first row."""
    entries = [entry(str(number), day, width, height) for number, (day, width, height) in enumerate(week)]
    pages = lay_out(entries, WEEK)
    assert sorted(tile.entry.code for page in pages for tile in page.tiles) == sorted(each.code for each in entries)
    for page in pages:
        boxes = [(tile.x, tile.y, tile.x + tile.width, tile.y + tile.height + CAPTION) for tile in page.tiles]
        for place, (left, top, right, bottom) in enumerate(boxes):
            assert MARGIN <= left < right <= PAGE_WIDTH - MARGIN
            assert 0 < top < bottom < FOOT
            for other in boxes[place + 1 :]:
                assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
        if page.tiles:
            assert page.headings[0].baseline < min(tile.y for tile in page.tiles)
            assert page.headings[-1].baseline < max(tile.y for tile in page.tiles)


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
    assert [heading.text for heading in page.headings] == ["Sunday 5 April", "Day not known"]


def test_pictures_fit_without_being_cropped() -> None:
    """The longer side fills the tile and the other keeps the proportion."""
    assert fitted(4000, 3000) == (TILE, round(TILE * 3 / 4))
    assert fitted(3000, 4000) == (round(TILE * 3 / 4), TILE)
    assert fitted(500, 500) == (TILE, TILE)
