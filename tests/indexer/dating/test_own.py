"""Which claim is believed, how exact it is, and why."""

# ruff: noqa: DTZ001, DTZ901 - wall clocks and universal times are naive here

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.dating import own
from indexer.dating.offsets import Offsets, known_offsets
from indexer.dating.order import CALLED, may_be_chosen, rank
from indexer.dating.own import own_time
from indexer.dating.values import NOTHING_KNOWN
from indexer.facts.file_names import claim_from_name
from indexer.facts.records import Claim, Precision
from tests.indexer.dating.said import PHONE, claim, file, photo, photo_of_files, verdict, world

ORIGINAL = Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second", "25", 120)
DIGITIZED = claim("exif digitized", "2026-03-31T10:00:00")
NAMED = claim("file name", "2026-04-01T11:00:00", text="IMG_20260401_110000.jpg")
ARRIVED = claim("file name", "2026-04-02", arrival=True)
FILE_TIME = claim("file time", "2026-05-01T22:30:00")
MODIFIED = claim("exif modified", "2026-04-03T12:00:00")
GPS = claim("gps", "2026-03-30T07:10:00", utc=True)
BLANK = claim("exif original", None)
XMP = claim("xmp original", "2026-03-30T09:15:20")
IPTC = claim("iptc", "2026-03-30")
NEWER = claim("iptc newer", "2026-03-31")
FOLDER = claim("folder name", "2026-04-01")


@pytest.mark.parametrize(
    ("claims", "chosen"),
    [
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, IPTC, XMP, NEWER, ORIGINAL), ORIGINAL),
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, IPTC, XMP, BLANK), XMP),
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, IPTC, BLANK), IPTC),
        ((FILE_TIME, ARRIVED, NAMED, DIGITIZED, BLANK), DIGITIZED),
        ((FILE_TIME, ARRIVED, NAMED, BLANK), NAMED),
        ((FILE_TIME, ARRIVED, FOLDER), FOLDER),
        ((FILE_TIME, MODIFIED, ARRIVED), ARRIVED),
        ((FILE_TIME, MODIFIED, GPS), GPS),
        ((FILE_TIME, MODIFIED), MODIFIED),
        ((FILE_TIME,), FILE_TIME),
    ],
)
def test_claims_are_believed_in_their_order(claims: tuple[Claim, ...], chosen: Claim) -> None:
    """Exif original, XMP, IPTC, digitized: the order of the Metadata Working Group's guidelines 2.0 (2010); then names,
    and what can only be a last resort, which is always doubtful."""
    said = verdict(*claims)
    assert claims[said.chosen or 0] is chosen
    assert said.doubtful or chosen in (ORIGINAL, XMP, IPTC, NAMED, DIGITIZED, FOLDER)


def test_iptc_that_was_changed_last_comes_before_xmp() -> None:
    """By the same guidelines: its digest says that a program which knows nothing of XMP wrote it."""
    assert verdict(XMP, NEWER).taken == NEWER.when
    assert not verdict(claim("xmp original", "2026-02-01T10:00:00"), NEWER).doubtful
    assert verdict(XMP, IPTC).taken == XMP.when


@pytest.mark.parametrize("last_resort", [MODIFIED, GPS, ARRIVED, FILE_TIME, claim("sidecar modified", "2026-03-30")])
def test_a_last_resort_is_named_and_doubtful(last_resort: Claim) -> None:
    """A modified date never, unless it is labelled a last resort (the same guidelines); the others likewise."""
    said = verdict(last_resort)
    assert (said.doubtful, said.source) == (True, last_resort.source)
    assert "only" in said.reason or "arrived" in said.reason


def test_nothing_claimed_is_nothing_known() -> None:
    """Without claims, or with unusable ones, the time is unknown, not some default."""
    assert verdict() == verdict(BLANK) == NOTHING_KNOWN
    assert NOTHING_KNOWN.doubtful


def test_the_verdict_keeps_all_that_the_claim_says() -> None:
    """Time, fraction, offset and precision are the chosen claim's own, the wall clock untouched by the offset."""
    said = verdict(ORIGINAL)
    assert (said.taken, said.placed, said.fraction) == ("2026-03-30T09:15:20", "2026-03-30T09:15:20", "25")
    assert (said.offset_minutes, said.precision, said.source, said.doubtful) == (120, "second", "exif original", False)
    assert "camera" in said.reason


@pytest.mark.parametrize(
    ("claims", "words"),
    [
        ((claim("file name", "2026-03"),), "month"),
        ((claim("xmp original", "1987"),), "year"),
        ((claim("exif original", "1989-12-31T23:59:59"),), "clock"),
        ((claim("exif original", "9999-12-31T23:59:59"),), "clock"),
        ((claim("exif original", "2026-06-03T00:00:00"),), "clock"),
        ((ORIGINAL, claim("xmp original", "2026-05-30")), "XMP"),
        ((ORIGINAL, claim("sidecar original", "2026-05-30")), "sidecar"),
        ((ORIGINAL, claim("iptc", "2026-05-30")), "IPTC"),
        ((ORIGINAL, claim("file name", "2026-05-30T10:00:00")), "its name"),
        ((ORIGINAL, claim("exif digitized", "2026-03-01T10:00:00")), "digitizing"),
        ((ORIGINAL, claim("exif modified", "2026-03-01T10:00:00")), "last change"),
        ((ORIGINAL, claim("file name", "2026-03-20", arrival=True)), "arrived before"),
        ((ORIGINAL, claim("file time", "2026-03-01T10:00:00")), "the file is older"),
        ((ORIGINAL, claim("gps", "2026-05-30T10:00:00", utc=True)), "satellites"),
        ((ORIGINAL, claim("folder name", "2026-05-30")), "its folder"),
        ((ORIGINAL, claim("folder name", "2024")), "its folder"),
        ((DIGITIZED,), "digitized"),
    ],
)
def test_a_doubtful_time_says_what_the_doubt_is(claims: tuple[Claim, ...], words: str) -> None:
    """A time that should be looked at is still given, with the reason; what contradicts it is named."""
    said = verdict(*claims)
    assert said.doubtful
    assert words in said.reason
    assert said.taken


@pytest.mark.parametrize(
    "others",
    [
        (claim("exif digitized", "2026-03-30T09:15:20"),),
        (claim("exif digitized", "2026-05-30T09:15:20"),),  # a print that was scanned later, with its date typed in
        (claim("exif modified", "2026-05-30T10:00:00"),),  # an edit
        (claim("xmp original", "2026-03"),),
        (claim("xmp original", "2026-04-05"),),  # another day of the same week
        (claim("file name", "2026-04-20", arrival=True),),
        (claim("file time", "2026-05-30T10:00:00"),),
        (claim("file time", "2026-03-29T10:00:00"),),  # less than the zones of the world apart
        (claim("file name", "2026-03-30T22:15:20", utc=True),),  # eleven hours east would do, twelve west too
        (claim("gps", "2026-03-28T06:00:00", utc=True),),  # an old fix
        (claim("folder name", "2026-03-01"),),  # a journey began then
        (claim("folder name", "2026"),),
    ],
)
def test_what_zones_edits_and_arrivals_explain_is_no_contradiction(others: tuple[Claim, ...]) -> None:
    """Only claims that ought to agree, and would put the photo into another week, make it doubtful."""
    said = verdict(ORIGINAL, *others)
    assert (said.doubtful, said.taken) == (False, ORIGINAL.when)


@pytest.mark.parametrize("when", ["1990-01-01T00:00:00", "2026-06-02T23:59:59", "2026-03-30", "2026-03-30T09:15"])
def test_an_ordinary_time_stands(when: str) -> None:
    """The first day of 1990 and tomorrow, which it is already further east, are no doubt, nor is a day alone."""
    assert not verdict(claim("exif original", when)).doubtful


@pytest.mark.parametrize("impossible", ["2099-01-02T10:00:00", "1980-01-01T00:00:00"])
def test_a_date_that_cannot_be_gives_way_to_one_that_can(impossible: str) -> None:
    """A departure that the reason tells of; among last resorts alone it stays, doubtful."""
    broken = claim("exif original", impossible)
    said = verdict(broken, NAMED)
    assert (said.taken, said.source, said.doubtful) == (NAMED.when, "file name", False)
    assert "which cannot be" in said.reason
    alone = verdict(broken, FILE_TIME, ARRIVED)
    assert (alone.taken, alone.doubtful) == (impossible, True)


def test_a_name_older_than_the_scan_dates_the_print() -> None:
    """A departure from the order that the reason tells of: a scanner writes the day of the scan."""
    said = verdict(claim("exif digitized", "2026-03-30T10:00:00"), claim("folder name", "1987-08"))
    assert (said.taken, said.precision, said.source, said.doubtful) == ("1987-08", "month", "folder name", True)
    dated = verdict(claim("exif digitized", "2026-03-30T10:00:00"), claim("file name", "2001-08-14"))
    assert (dated.taken, dated.doubtful) == ("2001-08-14", False)
    assert "digitized" in dated.reason


def test_a_date_of_digitizing_that_a_name_bears_out_is_a_cameras() -> None:
    """Some cameras write no other (seen in real files); alone it may be that of a scan."""
    assert not verdict(DIGITIZED, claim("file name", "2026-03-31T10:00:01")).doubtful
    assert not verdict(claim("exif digitized", "2026-03-31T10:00:00", 120)).doubtful
    assert verdict(DIGITIZED, FILE_TIME).doubtful


@pytest.mark.parametrize(("folder", "is_doubtful"), [("2026-12", False), ("2027", False), ("1987", True)])
def test_a_later_folder_does_not_contradict_what_the_satellites_bear_out(folder: str, is_doubtful: bool) -> None:
    """Photos are gathered for a calendar of next year; an earlier folder may be of the print that a phone scanned."""
    assert verdict(ORIGINAL, claim("folder name", folder)).doubtful
    assert verdict(ORIGINAL, GPS, claim("folder name", folder)).doubtful is is_doubtful


def test_a_folder_or_an_arrival_does_not_make_a_scan_a_photo() -> None:
    """Scans are filed by the day they were made, and sent."""
    assert verdict(DIGITIZED, claim("folder name", "2026-03-31")).doubtful
    assert verdict(DIGITIZED, claim("file name", "2026-03-31", arrival=True)).doubtful


@pytest.mark.parametrize("day_zero", ["1970-01-01T00:00:00", "1979-12-31T23:00:00"])
def test_a_file_time_that_was_never_set_contradicts_nothing(day_zero: str) -> None:
    """Archives and devices without a clock give the day zero of their format to all they hold (common practice)."""
    assert not verdict(ORIGINAL, claim("file time", day_zero)).doubtful


def test_a_more_exact_claim_that_agrees_is_taken() -> None:
    """A month in XMP and a day of that month in the name: the day; another month's day is a contradiction or none."""
    said = verdict(claim("xmp original", "2026-03"), claim("file name", "2026-03-14T10:00:00"))
    assert (said.taken, said.doubtful) == ("2026-03-14T10:00:00", False)
    assert verdict(claim("xmp original", "2026-03"), claim("file name", "2026-05-14T10:00:00")).taken == "2026-03"
    assert verdict(claim("xmp original", "2026-03-14"), claim("file name", "2026-03-14T10:00:00")).precision == "second"
    assert verdict(claim("xmp original", "2026-03"), claim("file time", "2026-03-14T10:00:00")).taken == "2026-03"


def test_universal_time_is_turned_into_the_wall_clock_at_home() -> None:
    """The local day may be another one, and the offset of that moment is kept."""
    said = verdict(FILE_TIME)
    assert (said.taken, said.offset_minutes) == ("2026-05-02T00:30:00", 120)
    to_the_minute = claim("xmp original", "2026-04-01T22:30", utc=True)
    assert verdict(to_the_minute).taken == "2026-04-02T00:30"


def test_a_name_in_universal_time_lands_in_the_week_of_the_wall_clock() -> None:
    """FACTS "File names": PXL_20260105_020000000 at UTC-5 is Sunday 2026-01-04 21:00, so week 1 and not week 2."""
    named = claim_from_name("PXL_20260105_020000000.jpg", 2027)
    assert named
    west = replace(world(), to_local=lambda utc: utc.replace(tzinfo=UTC).astimezone(timezone(-timedelta(hours=5))))
    said = own_time(photo("a", named), {}, Offsets(), west)
    assert (said.taken, said.offset_minutes, said.doubtful) == ("2026-01-04T21:00:00", -300, False)
    assert datetime.fromisoformat(said.taken or "").isocalendar()[:2] == (2026, 1)


def test_a_photos_own_zone_turns_its_universal_time() -> None:
    """An offset that another claim of it carries comes before that of home, but not that of whoever edited it later."""
    named = claim("file name", "2026-01-05T02:00:00", utc=True)
    assert verdict(named, claim("sidecar digitized", "2026-01-04T21:00:00", -300)).taken == "2026-01-04T21:00:00"
    edited = verdict(named, claim("exif modified", "2026-07-01T10:00:00", -300))
    assert (edited.taken, edited.offset_minutes) == ("2026-01-05T04:00:00", 120)


def test_the_zone_of_a_neighbour_of_the_same_camera_and_day_comes_before_that_of_home() -> None:
    """On a journey the home zone would be hours off."""
    utc = datetime(2026, 1, 5, 1)
    offsets = Offsets({(PHONE.make, PHONE.model, PHONE.serial): [(utc, -300)]})
    named = claim("file name", "2026-01-05T02:00:00", utc=True)
    assert own_time(photo("a", named, camera=PHONE), {}, offsets, world()).taken == "2026-01-04T21:00:00"
    later = claim("file name", "2026-01-06T02:00:00", utc=True)
    assert own_time(photo("a", later, camera=PHONE), {}, offsets, world()).taken == "2026-01-06T04:00:00"


def test_the_zone_of_home_is_doubtful_where_another_device_was_abroad_and_the_week_hangs_on_it() -> None:
    """A message without metadata, named by whoever took it: at home or on the journey, nothing tells."""
    offsets = known_offsets([photo("w", claim("exif original", "2026-01-04T19:00:00", -300), camera=PHONE)])
    edge = claim("file name", "2026-01-05T02:00:00", utc=True)
    said = own_time(photo("a", edge, folder="2/messages"), {}, offsets, world())
    assert (said.taken, said.doubtful) == ("2026-01-05T04:00:00", True)
    assert "another zone" in said.reason
    inside = claim("file name", "2026-01-04T13:00:00", utc=True)
    assert not own_time(photo("a", inside, folder="2/messages"), {}, offsets, world()).doubtful


def test_a_zone_that_was_only_guessed_is_doubtful_where_the_week_hangs_on_it() -> None:
    """The reason names the setting that settles it; in the middle of a week every zone gives the same."""
    edge = claim("file name", "2026-01-05T02:00:00", utc=True)
    assert not verdict(edge).doubtful
    guessed = verdict(edge, zone_is_told=False)
    assert guessed.doubtful
    assert "home.timezone" in guessed.reason
    assert not verdict(claim("file name", "2026-01-07T12:00:00", utc=True), zone_is_told=False).doubtful


@pytest.mark.parametrize("year", ["0001", "9999"])
@pytest.mark.parametrize("source", CALLED)
def test_the_ends_of_the_calendar_contradict_like_any_other_time(source: str, year: str) -> None:
    """Zones and stale fixes reach beyond them, which ends no run."""
    for when in (year, f"{year}-12-31", f"{year}-12-31T23:59:59", f"{year}-01-01T00:00:00"):
        assert verdict(ORIGINAL, claim(source, when)).taken
        assert verdict(claim("exif digitized", when), claim(source, "2026-03-30")).taken
        assert verdict(claim("exif original", f"{year}-12-31"), claim(source, when)).doubtful


def test_a_moment_outside_the_calendar_is_unknown() -> None:
    """Universal time whose wall clock would leave the calendar gives no time instead of an error."""
    assert verdict(claim("file time", datetime.max.isoformat(timespec="seconds"))) == NOTHING_KNOWN


def test_files_of_one_photo_that_name_different_weeks_are_doubtful() -> None:
    """Two files whose original dates lie in different weeks leave the week open; in one week the first is taken."""
    other = claim("exif original", "2026-05-10T09:15:20")
    said = own_time(photo_of_files("a", (file(1, "a"), [ORIGINAL]), (file(2, "b"), [other])), {}, Offsets(), world())
    assert said.doubtful
    assert "its files give different days: 30 Mar 2026 and 10 May 2026" in said.reason
    assert said.taken == ORIGINAL.when
    near = claim("exif original", "2026-03-31T09:15:20")
    assert not own_time(
        photo_of_files("a", (file(1, "a"), [ORIGINAL]), (file(2, "b"), [near])), {}, Offsets(), world()
    ).doubtful


PRECISIONS: dict[Precision, int] = {"second": 19, "minute": 16, "day": 10, "month": 7, "year": 4}


@st.composite
def claims(draw: st.DrawFn) -> Claim:
    """Any claim of any source."""
    precision = draw(st.sampled_from(list(PRECISIONS)))
    moment = draw(st.none() | st.datetimes().map(lambda at: at.isoformat("T", "seconds")))
    return Claim(
        draw(st.sampled_from([*CALLED, "xmp", "unheard of"])),
        draw(st.text()),
        moment and moment[: PRECISIONS[precision]],
        precision,
        is_utc=draw(st.booleans()) and precision in ("second", "minute"),
        is_arrival=draw(st.booleans()),
        offset_minutes=draw(st.none() | st.integers(-840, 840)),
    )


@given(st.lists(claims(), max_size=6), st.booleans())
def test_any_evidence_gives_a_verdict_that_points_at_it(given_claims: list[Claim], zone_is_told: bool) -> None:
    """The chosen claim is one of those given, with a time, and every verdict has a reason of one line."""
    said = verdict(*given_claims, zone_is_told=zone_is_told)
    assert said.reason
    assert "\n" not in said.reason
    if said.chosen is None:
        assert said == NOTHING_KNOWN
    else:
        chosen = given_claims[said.chosen]
        assert may_be_chosen(chosen)
        assert said.source == chosen.source
        if all(len(item.when or "") in (0, 19) and not item.is_utc for item in given_claims):
            usable = [rank(item) for item in given_claims if may_be_chosen(item)]
            assert rank(chosen) == min(usable) or chosen.source in ("file name", "folder name")


@pytest.mark.parametrize("source", ["file name", "folder name"])
def test_a_name_is_no_clock(source: str) -> None:
    """A print's day that somebody typed is to be looked at, and nothing is asked of a clock."""
    said = verdict(claim(source, "1974-05-12"))
    assert (said.doubtful, said.reason) == (True, "a day before 1990, told by a name alone")


def test_thousands_of_files_of_one_photo_are_judged_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """One that lies in as many folders: what the photo tells of itself is asked once, not for every file."""
    asked = []
    monkeypatch.setattr(own, "own_offset", lambda said: asked.append(len(said)))
    many = [claim("file time", f"2026-05-01T22:{n // 60:02}:{n % 60:02}", utc=True) for n in range(3000)]
    assert verdict(*many).source == "file time"
    assert asked == [3000]
