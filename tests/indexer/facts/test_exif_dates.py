"""The dates of Exif. Forms and rules: Exif 2.32 (CIPA DC-008), as FACTS "Dates" quotes it."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.exif_dates import exif_date_claim, parse_offset

EMPTY_DATES = ["    :  :     :  :  ", " " * 19, "0000:00:00 00:00:00", "", ":", "\0" * 20, "0000-00-00"]


@pytest.mark.parametrize("text", EMPTY_DATES)
def test_a_blank_date_is_no_date(text: str) -> None:
    """All blank, all but the colons blank, and zeros (seen in the wild: from memory) are neither 1970 nor year 1."""
    claim = exif_date_claim("exif original", text)
    assert claim.when is None
    assert claim.problem
    assert "blank" in claim.problem


@pytest.mark.parametrize(
    "text",
    ["2024:02:30 10:00:00", "2023:02:29 10:00:00", "2024:13:01 10:00:00", "2024:01:32 10:00:00",
     "2024:01:01 24:00:00", "2024:01:01 10:60:00", "2024:01:01 10:00:60", "0000:01:01 10:00:00"],
)  # fmt: skip
def test_a_day_that_does_not_exist_is_not_rolled_over(text: str) -> None:
    """2024:02:30 is invalid and does not become the first of March."""
    claim = exif_date_claim("exif original", text)
    assert (claim.when, claim.text) == (None, text)
    assert claim.problem == "no such day or time"


@pytest.mark.parametrize(
    "text", ["2024:05:01", "5/1/2024 10:00:00", "yesterday 12", "2024:05:01 10:00", "20240501 100000", "１２３"]
)
def test_another_form_is_said_to_be_one(text: str) -> None:
    """What is not in the form of Exif is not guessed at."""
    claim = exif_date_claim("exif original", text)
    assert claim.when is None
    assert "YYYY:MM:DD HH:MM:SS" in (claim.problem or "")


@pytest.mark.parametrize(
    ("text", "offset", "day"),
    [("2024:05:01 23:30:00", "+02:00", "2024-05-01"), ("2024:01:01 00:30:00", "+13:00", "2024-01-01")],
)
def test_the_day_is_that_of_the_wall_clock(text: str, offset: str, day: str) -> None:
    """The offset names the zone and moves nothing."""
    claim = exif_date_claim("exif original", text, "", offset)
    assert (claim.when or "")[:10] == day


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("+02:00", 120), ("-05:00", -300), ("+05:45", 345), ("+13:00", 780), ("+14:00", 840), ("-12:00", -720),
     ("-00:00", 0), ("Z", 0), ("+0200", 120), ("+02:00\0", 120), ("", None), ("   :  ", None), ("\0" * 7, None)],
)  # fmt: skip
def test_offsets_are_read_as_minutes_east(text: str, minutes: int | None) -> None:
    """`+HH:MM`, blanks where it is unknown; the widest zones are those of the IANA database."""
    assert parse_offset(text) == (minutes, None)


@pytest.mark.parametrize("text", ["+14:15", "-15:00", "+99:99", "+02:60", "02:00", "+2", "east", "+02:00:00"])
def test_an_offset_that_does_not_exist_is_left_aside_and_said(text: str) -> None:
    """The time stays usable without it."""
    assert parse_offset(text)[0] is None
    claim = exif_date_claim("exif original", "2024:05:01 10:00:00", "", text)
    assert (claim.when, claim.offset_minutes) == ("2024-05-01T10:00:00", None)
    assert text in (claim.problem or "")


@pytest.mark.parametrize(
    ("text", "when", "precision"),
    [
        ("2008:05:30   :  :  ", "2008-05-30", "day"),
        ("2008:05:30   :  :", "2008-05-30", "day"),
        ("2008:05:30 10:15:  ", "2008-05-30T10:15", "minute"),
        ("1987:06:     :  :  ", "1987-06", "month"),
        ("1987:06:00 00:00:00", "1987-06", "month"),
        ("1987:00:00 00:00:00", "1987", "year"),
        ("2000:01:01 00:00:00", "2000-01-01T00:00:00", "second"),
    ],
)
def test_what_is_not_known_makes_a_date_less_exact(text: str, when: str, precision: str) -> None:
    """Blanks stand for what is unknown; scanners write zeros for month and day (from memory). Midnight is a time."""
    claim = exif_date_claim("exif original", text)
    assert (claim.when, claim.precision, claim.problem) == (when, precision, None)


@pytest.mark.parametrize(
    "text",
    ["1987:00:15 00:00:00", "1987:06:00 10:00:00", "1987:00:00 10:00:00", "2008:05:30 10:  :  ", "2008:  :30 10:00:00"],
)
def test_a_known_part_after_an_unknown_one_is_no_date(text: str) -> None:
    """What is in between is not guessed."""
    assert exif_date_claim("exif original", text).problem == "no such day or time"


@pytest.mark.parametrize(
    ("text", "fraction", "offset", "is_utc"),
    [
        ("2012-09-17T15:53:45-04:00", "", -240, False),  # seen in the package scikit-image
        ("2024-04-22T14:38:09GMT+2", "", 120, False),  # seen in the package pillow-heif
        ("2024:05:01 10:00:00.25", "25", None, False),
        ("2024:05:01 10:00:00Z", "", None, True),
        ("2024:05:01 10:00:00 ", "", None, False),
        ("2024:05:01 10:00:00+99:00", "", None, False),
    ],
)
def test_a_zone_or_fraction_behind_the_time_is_read(text: str, fraction: str, offset: int | None, is_utc: bool) -> None:
    """Some writers put there what Exif has tags of its own for."""
    claim = exif_date_claim("exif modified", text)
    assert re.sub(r"\D", "", claim.when or "") == re.sub(r"\D", "", text)[:14]
    assert (claim.fraction, claim.offset_minutes, claim.is_utc) == (fraction, offset, is_utc)
    assert ("+99" in (claim.problem or "")) == ("+99" in text)


def test_an_endless_text_is_cut() -> None:
    """What is written down stays small, and is no date."""
    claim = exif_date_claim("exif original", "2024:05:01 10:00:00" + "0" * 100_000, "1" * 100_000)
    assert claim.when is None
    assert len(claim.text) <= 64


def test_the_offset_of_its_own_tag_comes_first() -> None:
    """The standard's place for it outranks what is written behind the time."""
    assert exif_date_claim("exif original", "2024:05:01 10:00:00+02:00", "", "+03:00").offset_minutes == 180


@pytest.mark.parametrize(
    "text", ["2024:05:01 03:20:11 PM", "2024:05:01 03:20:11PM", "2024:05:01 03:20:11 \u5348\u5f8c"]
)
def test_half_a_day_behind_the_time_leaves_the_day(text: str) -> None:
    """Whether the hour is of twelve or of 24 is not guessed; the day stands, with what is wrong."""
    claim = exif_date_claim("exif original", text)
    assert (claim.when, claim.precision) == ("2024-05-01", "day")
    assert "only the day" in (claim.problem or "")


TEXT = st.text(max_size=30)
NEARLY = st.from_regex(r"\d{4}[:/.-]\d{2}[:/.-]\d{2}[ T]\d{2}:\d{2}:\d{2}.{0,8}")


@given(TEXT | NEARLY, TEXT, TEXT | st.from_regex(r"[+-]\d{2}:?\d{2}"))
def test_any_text_in_a_date_field_is_a_claim(text: str, fraction: str, offset: str) -> None:
    """A claim has a time whose very digits stand in the text, or a problem; never an exception, never another day."""
    claim = exif_date_claim("exif original", text, fraction, offset)
    assert claim.source == "exif original"
    assert re.fullmatch(r"\d*", claim.fraction, re.ASCII)
    assert claim.offset_minutes is None or abs(claim.offset_minutes) <= 14 * 60
    if claim.when is None:
        assert claim.problem
    else:
        digits = "".join(str(int(letter)) for letter in text if letter.isdecimal())
        assert digits.startswith(re.sub(r"\D", "", claim.when))
