"""Which claim is believed, how exact it is, and why."""

# ruff: noqa: DTZ001, DTZ901 - wall clocks and universal times are naive here

from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.capture_time import NOTHING_KNOWN, ORDER, CaptureTime, decide
from indexer.facts.file_names import claim_from_name
from indexer.facts.records import Claim, Precision

TOMORROW = date(2026, 6, 2)
ORIGINAL = Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second", "25", 120)
DIGITIZED = Claim("exif digitized", "2026:03:31 10:00:00", "2026-03-31T10:00:00", "second")
NAMED = Claim("file name", "IMG_20260401_110000.jpg", "2026-04-01T11:00:00", "second")
ARRIVED = Claim("file name", "IMG-20260402-WA0001.jpg", "2026-04-02", "day", is_arrival=True)
FILE_TIME = Claim("file time", "2026-05-01T22:30:00 UTC", "2026-05-01T22:30:00", "second", is_utc=True, is_arrival=True)
MODIFIED = Claim("exif modified", "2026:04:03 12:00:00", "2026-04-03T12:00:00", "second")
GPS = Claim("gps", "2026:03:30 07:10:00 UTC", "2026-03-30T07:10:00", "second", is_utc=True)
BLANK = Claim("exif original", "", None, problem="blank")


def at_home(utc: datetime) -> datetime:
    """Two hours east of Greenwich."""
    return utc.replace(tzinfo=UTC).astimezone(timezone(timedelta(hours=2)))


def verdict(*claims: Claim, zone_is_told: bool = True) -> CaptureTime:
    return decide(claims, at_home, zone_is_told, TOMORROW)


@pytest.mark.parametrize(
    ("claims", "chosen"),
    [
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, ORIGINAL), ORIGINAL),
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, BLANK), DIGITIZED),
        ((FILE_TIME, ARRIVED, NAMED, BLANK), NAMED),
        ((FILE_TIME, ARRIVED), ARRIVED),
        ((FILE_TIME, MODIFIED, GPS), FILE_TIME),
    ],
)
def test_claims_are_believed_in_their_order(claims: tuple[Claim, ...], chosen: Claim) -> None:
    """Exif original, else digitized, else a dated file name, that of an arrival last, else the file's own time.

    The order of the Exif dates is that of the Metadata Working Group's guidelines 2.0 (2010).
    """
    assert claims[verdict(*claims).chosen or 0] is chosen


def test_an_edit_and_a_gps_fix_are_never_the_capture_time() -> None:
    """The modified date is that of an edit, and a fix may be hours old: neither is chosen for want of better."""
    assert verdict(MODIFIED, GPS, BLANK) == NOTHING_KNOWN
    assert NOTHING_KNOWN.doubtful
    assert NOTHING_KNOWN.reason


def test_nothing_claimed_is_nothing_known() -> None:
    """Without claims the time is unknown, not some default."""
    assert (verdict().taken, verdict().precision, verdict().chosen) == (None, "unknown", None)


def test_the_earlier_one_wins_among_equals() -> None:
    """Of two files of one photo that say different things, the first given is believed."""
    later = Claim("exif original", "x", "2026-01-01T00:00:00", "second")
    assert verdict(ORIGINAL, later).chosen == 0
    assert verdict(later, ORIGINAL).chosen == 0


def test_the_verdict_keeps_all_that_the_claim_says() -> None:
    """Time, fraction, offset and precision are the chosen claim's own, the wall clock untouched by the offset."""
    said = verdict(ORIGINAL)
    assert (said.taken, said.fraction, said.offset_minutes) == ("2026-03-30T09:15:20", "25", 120)
    assert (said.precision, said.source, said.doubtful) == ("second", "exif original", False)
    assert "camera" in said.reason


def test_universal_time_is_turned_into_the_wall_clock_at_home() -> None:
    """The local day may be another one, and the offset of that moment is kept."""
    said = verdict(FILE_TIME)
    assert (said.taken, said.offset_minutes) == ("2026-05-02T00:30:00", 120)


def test_a_name_in_universal_time_lands_in_the_week_of_the_wall_clock() -> None:
    """FACTS "File names": PXL_20260105_020000000 at UTC-5 is Sunday 2026-01-04 21:00, so week 1 and not week 2."""
    claim = claim_from_name("PXL_20260105_020000000.jpg", 2027)
    assert claim
    said = decide(
        [claim], lambda utc: utc.replace(tzinfo=UTC).astimezone(timezone(-timedelta(hours=5))), True, TOMORROW
    )
    assert (said.taken, said.offset_minutes, said.doubtful) == ("2026-01-04T21:00:00", -300, False)
    assert datetime.fromisoformat(said.taken or "").isocalendar()[:2] == (2026, 1)


def test_a_zone_that_was_only_guessed_makes_universal_time_doubtful() -> None:
    """The reason names the setting that settles it."""
    claim = Claim("file name", "PXL", "2026-01-05T02:00:00", "second", is_utc=True)
    assert not verdict(claim).doubtful
    guessed = verdict(claim, zone_is_told=False)
    assert guessed.doubtful
    assert "home.timezone" in guessed.reason


@pytest.mark.parametrize(
    ("claim", "words"),
    [
        (FILE_TIME, "file's own time"),
        (ARRIVED, "arrived"),
        (Claim("file name", "x", "2026-03", "month"), "month"),
        (Claim("file name", "x", "2026", "year"), "year"),
        (Claim("exif original", "x", "1989-12-31T23:59:59", "second"), "clock"),
        (Claim("exif original", "x", "0001-01-01T00:00:00", "second"), "clock"),
        (Claim("exif original", "x", "2026-06-03T00:00:00", "second"), "clock"),
        (Claim("exif original", "x", "9999-12-31T23:59:59", "second"), "clock"),
        (Claim("file name", "x", "2026-06-03", "day"), "clock"),
    ],
)
def test_a_doubtful_time_says_what_the_doubt_is(claim: Claim, words: str) -> None:
    """A time that should be looked at is still given, with the reason."""
    said = verdict(claim)
    assert said.doubtful
    assert words in said.reason
    assert said.taken


@pytest.mark.parametrize(
    ("when", "precision"),
    [
        ("1990-01-01T00:00:00", "second"),
        ("2026-06-02T23:59:59", "second"),  # it is tomorrow already further east
        ("2026-03-30", "day"),
        ("2026-03-30T09:15", "minute"),
    ],
)
def test_an_ordinary_time_stands(when: str, precision: Precision) -> None:
    """The first day of 1990 and tomorrow are no doubt, nor is a day without a time."""
    assert not verdict(Claim("exif original", "x", when, precision)).doubtful


def test_a_moment_outside_the_calendar_is_unknown() -> None:
    """Universal time whose wall clock would leave the calendar gives no time instead of an error."""
    claim = Claim("file time", "x", datetime.max.isoformat(timespec="seconds"), "second", is_utc=True, is_arrival=True)
    assert verdict(claim) == NOTHING_KNOWN


MOMENTS = st.datetimes(datetime(1, 1, 1), datetime(9999, 12, 31)).map(lambda moment: moment.isoformat("T", "seconds"))
CLAIMS = st.builds(
    Claim,
    st.sampled_from([*ORDER, "exif modified", "gps", "xmp"]),
    st.text(),
    st.none() | MOMENTS,
    st.sampled_from(["second", "minute", "day", "month", "year"]),
    is_utc=st.booleans(),
    is_arrival=st.booleans(),
)


@given(st.lists(CLAIMS, max_size=6), st.booleans())
def test_any_evidence_gives_a_verdict_that_points_at_it(claims: list[Claim], zone_is_told: bool) -> None:
    """The chosen claim is one of those given, with a time, of the best source, and every verdict has a reason."""
    said = decide(claims, at_home, zone_is_told, TOMORROW)
    assert said.reason
    if said.chosen is None:
        assert (said.taken, said.doubtful) == (None, True)
    else:
        usable = [claim for claim in claims if claim.when and claim.source in ORDER]
        assert claims[said.chosen] in usable
        assert ORDER.index(said.source) == min(ORDER.index(claim.source) for claim in usable)


def test_files_of_one_photo_that_name_different_days_are_doubtful() -> None:
    """Two copies whose original dates lie on different days leave the week open; on one day they agree."""
    other = Claim("exif original", "2026:05:10 09:15:20", "2026-05-10T09:15:20", "second")
    assert verdict(ORIGINAL, NAMED, other).doubtful
    assert verdict(ORIGINAL, other).taken == ORIGINAL.when
    assert not verdict(ORIGINAL, NAMED, ORIGINAL).doubtful


def test_the_day_of_an_export_is_doubtful_and_comes_after_the_name() -> None:
    """XMP's CreateDate is often when a program wrote the file (common practice); its DateCreated is believed."""
    created = Claim("xmp original", "2026-03-29", "2026-03-29", "day")
    exported = Claim("xmp digitized", "2026-05-01T10:00:00", "2026-05-01T10:00:00", "second")
    assert verdict(exported, NAMED).taken == NAMED.when
    assert verdict(exported, FILE_TIME).doubtful
    assert (verdict(exported, NAMED, created).taken, verdict(created).doubtful) == ("2026-03-29", False)


def test_universal_time_to_the_minute_stays_so() -> None:
    """Turned to local time it is no more exact than it was."""
    claim = Claim("xmp original", "2026-04-01T22:30Z", "2026-04-01T22:30", "minute", is_utc=True)
    assert verdict(claim).taken == "2026-04-02T00:30"
