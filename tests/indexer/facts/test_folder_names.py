"""Dates in the names of folders. The forms are common practice; none is a standard's."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.folder_names import EARLIEST_YEAR, claim_from_folders

LATEST = 2027


@pytest.mark.parametrize(
    ("path", "when", "text"),
    [
        ("2026-03-30 kite day", "2026-03-30", "2026-03-30 kite day"),
        ("kite day 2026-03-30", "2026-03-30", "kite day 2026-03-30"),
        ("20260330", "2026-03-30", "20260330"),
        ("2026_03_30", "2026-03-30", "2026_03_30"),
        ("2026.03.30 2 boats", "2026-03-30", "2026.03.30 2 boats"),
        ("2026-03", "2026-03", "2026-03"),
        ("2026_03 harbour", "2026-03", "2026_03 harbour"),
        ("1987", "1987", "1987"),
        ("1987 summer", "1987", "1987 summer"),
        ("Summer 1987", "1987", "Summer 1987"),
        ("1900", "1900", "1900"),
        ("2026/03/30", "2026-03-30", "2026/03/30"),
        ("2026/03", "2026-03", "2026/03"),
        ("2026/2026-03/30", "2026-03-30", "2026-03/30"),
        ("2026/03 March/30", "2026-03-30", "2026/03 March/30"),
        ("2026/03-Mar", "2026-03", "2026/03-Mar"),
        ("2026-03-30/best", "2026-03-30", "2026-03-30"),
        ("2020/2026-03-30", "2026-03-30", "2026-03-30"),
        ("2026-03-30/1987", "1987", "1987"),
        ("2026-03/100HARBR", "2026-03", "2026-03"),
        ("2026/best of/30", "2026", "2026"),
    ],
)
def test_the_nearest_folder_with_a_date_speaks(path: str, when: str, text: str) -> None:
    """As exact as its name, together with the folders above where it is a month's or day's number."""
    claim = claim_from_folders(path.split("/"), LATEST)
    assert claim
    precision = {10: "day", 7: "month", 4: "year"}[len(when)]
    assert (claim.source, claim.when, claim.text, claim.precision) == ("folder name", when, text, precision)


@pytest.mark.parametrize(
    ("name", "when"),
    [
        ("2026-03-28 - 2026-03-30", "2026-03"),
        ("2026-03-28_2026-03-30", "2026-03"),
        ("2026-03-28 to 2026-04-02", "2026"),
        ("2026-03-30-31", "2026-03"),
        ("2026-03-30 - 04-02", "2026"),
        ("2026-03_2026-05", "2026"),
        ("2025-12-30 - 2026-01-02", None),
        ("1985 - 1990", None),
        ("1985-1990", None),
    ],
)
def test_a_span_tells_what_all_of_it_agrees_on(name: str, when: str | None) -> None:
    """A photo from a folder of several days was not taken on the first of them."""
    claim = claim_from_folders([name], LATEST)
    assert (claim.when if claim else None) == when


@pytest.mark.parametrize(
    "path",
    [
        "", "harbour", "100HARBR", "100_0330", "DCIM/100HARBR", "30.03.2026", "05-01-2026", "05-01-2026-10",
        "2026-13", "2026-13-01", "2026-02-30", "20261301", "1120260330", "202603300", "202603", "1899", "2028",
        "2028-01-01", "03/30", "2026-W14", "room1987", "1000 photos", "00/00", "２０２６",
    ],
)  # fmt: skip
def test_other_folders_carry_none(path: str) -> None:
    """Names by DCF (CIPA DC-009), day and month in another order, days that do not exist, years out of range."""
    assert claim_from_folders(path.split("/"), LATEST) is None


@pytest.mark.parametrize("path", ["2026/13", "2026/00", "2026/3", "2026/10 best", "2026/03 May", "2026/05-04"])
def test_a_number_that_may_be_something_else_leaves_the_year(path: str) -> None:
    """Only two digits alone, or with that month's name, are a month; the order of 05-04 is not guessed."""
    claim = claim_from_folders(path.split("/"), LATEST)
    assert claim
    assert claim.when == "2026"


def test_a_day_that_does_not_exist_leaves_the_month() -> None:
    """Nothing is rolled over."""
    claim = claim_from_folders(["2026", "02", "30"], LATEST)
    assert claim
    assert (claim.when, claim.text) == ("2026-02", "2026/02")


def test_no_folder_makes_no_claim() -> None:
    """A photo that lies in the library folder itself."""
    assert claim_from_folders((), LATEST) is None


NUMBERS = st.integers(0, 2040).map(str) | st.integers(0, 40).map("{:02}".format)
NEARLY = st.lists(NUMBERS | st.sampled_from(["-", "_", ".", " ", " - ", "March", "x"]), max_size=7).map("".join)


@given(st.lists(NEARLY | st.text(max_size=20), max_size=4))
def test_any_names_make_one_claim_or_none(folders: list[str]) -> None:
    """A claim has its ISO form, a year in range, and numbers that stand in the names in this order."""
    claim = claim_from_folders(folders, LATEST)
    if claim is None:
        return
    parts = (claim.when or "").split("-")
    assert EARLIEST_YEAR <= int(parts[0]) <= LATEST
    assert re.search(".*".join(parts), claim.text, re.DOTALL), "rolled over"
    assert claim.precision == ("year", "month", "day")[len(parts) - 1]


def test_thousands_of_folders_in_one_another_are_read_at_once() -> None:
    """A path may hold as many as the system takes; three folders tell a day, and what lies deeper is no date."""
    day = claim_from_folders(["2026", "03", "03"], LATEST)
    assert claim_from_folders(["2026", *["03"] * 2000, "30"], LATEST) == day
    assert claim_from_folders(["03"] * 2000, LATEST) is None
