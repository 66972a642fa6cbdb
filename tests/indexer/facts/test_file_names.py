"""Dates in file names, against FACTS "File names" (forms found in phone file names and in code that writes them)."""

import re
from datetime import UTC, datetime

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from indexer.facts.file_names import EARLIEST_TYPED_YEAR, EARLIEST_YEAR, PATTERNS, claim_from_name

LATEST = 2027


@pytest.mark.parametrize(
    ("name", "when", "precision"),
    [
        ("IMG_20260105_023000.jpg", "2026-01-05T02:30:00", "second"),
        ("IMG_20260105_023000_HDR.jpg", "2026-01-05T02:30:00", "second"),
        ("IMG_20260105_023000~2.jpg", "2026-01-05T02:30:00", "second"),
        ("IMG_20260105_023000(1).jpg", "2026-01-05T02:30:00", "second"),
        ("20260105_023000.heic", "2026-01-05T02:30:00", "second"),
        ("img_20260105_023000.JPG", "2026-01-05T02:30:00", "second"),
        ("2026-01-05 02.30.00.jpg", "2026-01-05T02:30:00", "second"),
        ("2026-01-05 02-30-00.jpg", "2026-01-05T02:30:00", "second"),
        ("2026-01-05-02-30-00-123.jpg", "2026-01-05T02:30:00", "second"),
        ("Screenshot_20260512-104248.png", "2026-05-12T10:42:48", "second"),
        ("Screenshot_20260512-104248_Tide table.png", "2026-05-12T10:42:48", "second"),
        ("Screenshot 2026-05-12 at 16.42.48.png", "2026-05-12T16:42:48", "second"),
        ("2026-01-05.jpg", "2026-01-05", "day"),
        ("IMG_20260105.jpg", "2026-01-05", "day"),
        ("scan 2026.01.05 kitchen.tif", "2026-01-05", "day"),
        ("harbour 2026-01.jpg", "2026-01", "month"),
        ("20260105_02_30_00_harbour.jpg", "2026-01-05T02:30:00", "second"),
        ("harbour_2026-01-05_023000.jpg", "2026-01-05T02:30:00", "second"),
        ("VID_20260105_023000.still.jpg", "2026-01-05T02:30:00", "second"),
        ("20260105T023000.jpg", "2026-01-05T02:30:00", "second"),
        ("Screenshot 2026-05-12 um 16.42.48.png", "2026-05-12T16:42:48", "second"),
        ("Screenshot 2026-05-12 a las 4.42.48 PM.png", "2026-05-12T16:42:48", "second"),
        ("Screenshot 2026-05-12 \u00e0 16.42.48.png", "2026-05-12T16:42:48", "second"),
        ("1987-08.tif", "1987-08", "month"),
        ("1987-08-15 kitchen.tif", "1987-08-15", "day"),
        ("1900-01.tif", "1900-01", "month"),
        ("summer 1987.jpg", "1987", "year"),
        ("the old harbour 1912", "1912", "year"),
        ("\u00e9t\u00e9 1987.tif", "1987", "year"),
        ("20240229.jpg", "2024-02-29", "day"),
        ("19900101.jpg", "1990-01-01", "day"),
        ("20271231.jpg", "2027-12-31", "day"),
        ("😀 20260105_023000\n.jpg", "2026-01-05T02:30:00", "second"),
        ("\udcff20260105.jpg", "2026-01-05", "day"),
    ],
)
def test_a_dated_name_gives_the_local_time_it_carries(name: str, when: str, precision: str) -> None:
    """The claim is the wall clock, as exact as the name: a date-only name gives a day and not midnight."""
    claim = claim_from_name(name, LATEST)
    assert claim
    assert (claim.source, claim.text, claim.when, claim.precision) == ("file name", name, when, precision)
    assert not claim.is_utc
    assert not claim.is_arrival


@pytest.mark.parametrize(
    "name",
    [
        "PXL_20260105_020000000.jpg",
        "PXL_20260105_020000000.MP.jpg",
        "PXL_20260105_020000000~2.jpg",
        "pxl_20260105_020000000.jpg",
        "1PXL_20260105_020000000.jpg",  # a digit before the letters is not part of the number
        "000012PXL_20260105_020000000.jpg",
    ],
)
def test_a_name_written_in_universal_time_says_so(name: str) -> None:
    """PXL_YYYYMMDD_HHMMSSmmm is UTC (found in three code bases), with milliseconds."""
    claim = claim_from_name(name, LATEST)
    assert claim
    assert (claim.when, claim.fraction, claim.is_utc) == ("2026-01-05T02:00:00", "000", True)


def test_thirteen_digits_are_milliseconds_since_1970() -> None:
    """13-digit epoch milliseconds are universal time (from memory); Python's own calendar gives the date."""
    moment = datetime(2026, 1, 5, 2, 0, 0, tzinfo=UTC)
    claim = claim_from_name(f"{int(moment.timestamp())}123.jpg", LATEST)
    assert claim
    assert (claim.when, claim.fraction, claim.is_utc) == ("2026-01-05T02:00:00", "123", True)


@pytest.mark.parametrize(
    ("name", "fraction"),
    [
        ("20260105T020000Z.jpg", ""),
        ("IMG_20260105T020000.123Z.jpg", "123"),
        ("2026-01-05T02-00-00Z.jpg", ""),
        ("2026-01-05T020000Z harbour.jpg", ""),
        ("2026-01-05T02.00.00.123Z.jpg", "123"),
    ],
)
def test_a_z_behind_the_time_is_universal_time(name: str, fraction: str) -> None:
    """ISO 8601 writes it so."""
    claim = claim_from_name(name, LATEST)
    assert claim
    assert (claim.when, claim.fraction, claim.is_utc) == ("2026-01-05T02:00:00", fraction, True)


@pytest.mark.parametrize(
    "name",
    [
        "photo_2026-01-05_02-30-00.jpg",
        "photo_2026-01-05_02-30-00 (2).jpg",
        "harbour-2026-01-05-023000.jpg",
        "harbour-2026-01-05-02-30-00-123.jpg",
        "Copy of photo_2026-01-05_02-30-00.jpg",
        "Copy of harbour-2026-01-05-023000.jpg",
    ],
)
def test_a_saved_message_tells_the_time_it_arrived(name: str) -> None:
    """Two forms in which message programs save pictures (from memory)."""
    claim = claim_from_name(name, LATEST)
    assert claim
    assert (claim.when, claim.precision, claim.is_arrival) == ("2026-01-05T02:30:00", "second", True)


@pytest.mark.parametrize(
    "name",
    [
        "IMG-20260105-WA0012.jpg",
        "IMG-20260105-WA0012 (2).jpg",
        "7IMG-20260105-WA0012.jpg",
        "IMG-20260105-WA00123.jpg",
        "STK-20260105-WA0012.webp",
    ],
)
def test_a_message_copy_tells_the_day_it_arrived(name: str) -> None:
    """IMG-YYYYMMDD-WA#### is the day a message arrived, without a time."""
    claim = claim_from_name(name, LATEST)
    assert claim
    assert (claim.when, claim.precision, claim.is_arrival) == ("2026-01-05", "day", True)


@pytest.mark.parametrize(
    ("clock", "time"),
    [
        ("4.42.48\u202fPM", "16:42:48"),  # U+202F, the narrow no-break space, stands before AM and PM
        ("4.42.48\u202fAM", "04:42:48"),
        ("4.42.48 pm", "16:42:48"),
        ("4.42.48\u00a0pm", "16:42:48"),
        ("4.42.48PM", "16:42:48"),
        ("4.42.48_PM", "16:42:48"),
        ("12.05.00\u202fAM", "00:05:00"),
        ("12.05.00\u202fPM", "12:05:00"),
        ("11.59.59 PM", "23:59:59"),
        ("0.05.00", "00:05:00"),
        ("16.42.48 Amber sails", "16:42:48"),
    ],
)
def test_screenshots_tell_the_time_by_either_clock(clock: str, time: str) -> None:
    """Twelve or 24 hours, either case; 12 AM is midnight and 12 PM is noon."""
    claim = claim_from_name(f"Screenshot 2026-05-12 at {clock}.png", LATEST)
    assert claim
    assert claim.when == f"2026-05-12T{time}"


@pytest.mark.parametrize("clock", ["13.05.00 PM", "0.05.00 AM", "24.00.00", "10.60.00", "10.00.60"])
def test_an_hour_that_does_not_exist_leaves_the_day(clock: str) -> None:
    """A time that no clock shows is refused and not rolled over; the date beside it still stands."""
    claim = claim_from_name(f"Screenshot 2026-05-12 at {clock}.png", LATEST)
    assert claim
    assert (claim.when, claim.precision) == ("2026-05-12", "day")


@pytest.mark.parametrize(
    "name",
    [
        "IMG_20261305_101010.jpg",  # month 13
        "IMG_20260132_101010.jpg",  # day 32
        "IMG_20260230_101010.jpg",
        "2025-02-29.jpg",
        "2026-13.jpg",
        "2026-00.jpg",
        "00000000_000000.jpg",
        "1202601051.jpg",  # digits inside a longer run
        "120260105.jpg",
        "202601051.jpg",
        "20260105023000.jpg",
        "17675784001234.jpg",  # 14 digits
        "1767578400.jpg",  # 10 digits
        "2767578400123.jpg",  # milliseconds of the year 2057
        "05-01-2026.jpg",  # day-month order is not guessed
        "01.05.2026.jpg",
        "05012026.jpg",
        "20112013.jpg",
        "05-01-2026_10.jpg",
        "05-01-2026-02.jpg",
        "05-01-2026 10-20-30.jpg",
        "19891231.jpg",  # years outside 1990..next year
        "20280101.jpg",
        "2028-01.jpg",
        "PXL_20280101_000000000.jpg",
        "IMG_0412.jpg",  # DCF (CIPA DC-009) names: letters and a counter
        "DSC02026.jpg",
        "P1010412.JPG",
        "100_2026.JPG",
        "2026.jpg",
        "1987.jpg",
        "1987 summer.jpg",
        "photo 1987.jpg",
        "my scan 1987.jpg",
        "summer_1987.jpg",
        "summer 1899.jpg",
        "summer 2028.jpg",
        "summer 19871.jpg",
        "1899-12.tif",
        "19891231_101010.jpg",
        "harbour.jpg",
        "",
    ],
)
def test_other_digits_are_no_date(name: str) -> None:
    """What is no date, or may be none, makes no claim."""
    assert claim_from_name(name, LATEST) is None


def test_next_year_is_the_last_one_believed() -> None:
    """The latest year is the caller's to say."""
    assert claim_from_name("20260105.jpg", 2026)
    assert claim_from_name("20260105.jpg", 2025) is None


DIGITS = st.text("0123456789", min_size=1, max_size=9)
PARTS = st.sampled_from(
    ["IMG_", "PXL_", "IMG-", "-WA", "Screenshot ", " at ", "-", "_", ".", " ", "\u202f", "PM", "am"]
)
NEARLY = st.builds(
    "{}{:04}{}{:02}{}{:02}{}{:02}{}{:02}{}{:02}{}".format,
    PARTS | st.just(""), st.integers(1980, 2040), st.sampled_from(["", "-", "_", "."]), st.integers(0, 13),
    st.sampled_from(["", "-", "_", "."]), st.integers(0, 32), st.sampled_from(["_", "-", " ", " at ", ""]),
    st.integers(0, 25), st.sampled_from(["", "-", "."]), st.integers(0, 61), st.sampled_from(["", "-", "."]),
    st.integers(0, 61), PARTS | st.just("") | st.just(" PM"),
)  # fmt: skip
NAMES = NEARLY | st.lists(DIGITS | PARTS, max_size=8).map("".join) | st.text()


@given(NAMES)
@example("٢٠٢٦٠١٠٥_١٠٢٠٣٠٤٥٦.jpg")  # digits of another script
@example("1²³4567890123")
def test_any_name_makes_one_claim_or_none(name: str) -> None:
    """Whatever the name, a claim has its precision's ISO form, a year in range, and the very digits of the name."""
    claim = claim_from_name(name, LATEST)
    if claim is None:
        return
    form = {
        "second": r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d",
        "day": r"\d{4}-\d\d-\d\d",
        "month": r"\d{4}-\d\d",
        "year": r"\d{4}",
    }
    assert re.fullmatch(form[claim.precision], claim.when or "", re.ASCII)
    earliest = EARLIEST_YEAR if claim.precision == "second" else EARLIEST_TYPED_YEAR
    assert earliest <= int((claim.when or "")[:4]) <= LATEST
    assert re.fullmatch(r"(\d{3})?", claim.fraction, re.ASCII)
    day = re.split("[-T]", claim.when or "")[:3]
    is_epoch = re.search(r"(?<!\d)1\d{12}(?!\d)", name)
    assert is_epoch or re.search(r"[-_.]?".join(day), name), "rolled over"


def test_every_row_of_the_table_is_reached() -> None:
    """Each pattern speaks for some name above, so none is dead."""
    names = [
        "PXL_20260105_020000000", "IMG-20260105-WA0012", "photo_2026-01-05_02-30-00", "harbour-2026-01-05-023000",
        "Scan_20260105", "scan 2026-01-05 02.30.00", "2026-05-12 at 4.42.48 PM", "20260105T023000Z",
        "2026-01-05T02-30-00Z", "20260105_023000", "20260105_02_30_00", "2026-01-05 02.30.00", "2026-01-05", "20260105",
        "1767578400123", "2026-01", "summer 1987",
    ]  # fmt: skip
    firsts = [next(row for row in PATTERNS if row.pattern.search(name)) for name in names]
    assert firsts == list(PATTERNS)


@pytest.mark.parametrize(
    "name",
    [
        "2026-03-30_0915_3f9a2.jpg",
        "2026-03-30_0915-07_3f9a2c.heic",
        "2026-03-30_0915-07-123_3f9a2.webp",
        "2026-03-30_notime_3f9a2.tif",
        "2026-03_noday_3f9a2.jpg",
    ],
)
def test_the_name_of_a_pulled_copy_is_no_evidence(name: str) -> None:
    """It repeats a verdict, doubtful ones too: a working folder that came into the library must not settle them."""
    assert claim_from_name(name, 2027) is None


@pytest.mark.parametrize("name", ["Scan_20260105.jpg", "scan 2026-01-05 10.11.12.jpg", "Scanned20260105_101112.jpeg"])
def test_the_day_of_a_scan_is_an_arrival(name: str) -> None:
    """Scanning programs name by it (common practice); what a person types, or of an older print, is that of the
    picture."""
    claim = claim_from_name(name, 2027)
    assert claim
    assert (claim.when, claim.precision, claim.is_arrival) == ("2026-01-05", "day", True)
    for typed in ("scan 2026-01-05 kitchen.jpg", "scan_19950814.jpg", "scandinavia 2026-01-05.jpg"):
        claim = claim_from_name(typed, 2027)
        assert claim
        assert not claim.is_arrival
