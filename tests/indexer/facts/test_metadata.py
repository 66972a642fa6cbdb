"""Exif blocks and the dates in them. Forms and rules: Exif 2.32 (CIPA DC-008), as FACTS "Dates" quotes it."""

import random
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.facts.metadata import Metadata, MetadataError, read_exif
from indexer.facts.records import Camera, Claim

MAKE, MODEL, ORIENTATION, DATE_TIME = 0x010F, 0x0110, 0x0112, 0x0132
ORIGINAL, DIGITIZED = 0x9003, 0x9004
OFFSET, OFFSET_ORIGINAL, SUBSEC_ORIGINAL = 0x9010, 0x9011, 0x9291
BODY_SERIAL = 0xA431
LATITUDE_REF, LATITUDE, LONGITUDE_REF, LONGITUDE, GPS_TIME, GPS_DATE = 1, 2, 3, 4, 7, 29

Block = Callable[..., bytes]


def claims_by_source(metadata: Metadata) -> dict[str, Claim]:
    return {claim.source: claim for claim in metadata.claims}


def test_each_date_is_a_claim_of_its_own(exif_block: Block) -> None:
    """Original, digitized and modified dates are kept apart, each with its own offset and sub-seconds."""
    block = exif_block(
        {DATE_TIME: "2026:04:03 12:00:00"},
        {ORIGINAL: "2026:03:30 09:15:20", DIGITIZED: "2026:03:31 10:00:00", OFFSET: "+01:00",
         OFFSET_ORIGINAL: "+02:00", SUBSEC_ORIGINAL: "250 "},
    )  # fmt: skip
    claims = claims_by_source(read_exif(block))
    original, modified = claims["exif original"], claims["exif modified"]
    assert (original.when, original.offset_minutes, original.fraction) == ("2026-03-30T09:15:20", 120, "250")
    assert (claims["exif digitized"].when, claims["exif digitized"].offset_minutes) == ("2026-03-31T10:00:00", None)
    assert (modified.when, modified.offset_minutes, modified.fraction) == ("2026-04-03T12:00:00", 60, "")


def test_the_original_date_may_stand_in_the_main_directory(exif_block: Block) -> None:
    """TIFF/EP (ISO 12234-2) has it there; a real file of the package piexif too."""
    (claim,) = read_exif(exif_block({ORIGINAL: "2006:02:14 22:00:58"})).claims
    assert (claim.source, claim.when) == ("exif original", "2006-02-14T22:00:58")


def test_a_blank_date_in_a_block_is_kept_as_evidence(exif_block: Block) -> None:
    """The claim stays, with what is wrong with it."""
    (claim,) = read_exif(exif_block(exif={ORIGINAL: "0000:00:00 00:00:00"})).claims
    assert (claim.when, claim.text) == (None, "0000:00:00 00:00:00")


def test_gps_time_is_a_claim_in_universal_time(exif_block: Block) -> None:
    """GPSDateStamp and GPSTimeStamp are UTC."""
    block = exif_block(gps={GPS_DATE: "2026:03:30", GPS_TIME: (7.0, 10.0, 5.0)})
    (claim,) = read_exif(block).claims
    assert (claim.source, claim.when, claim.is_utc) == ("gps", "2026-03-30T07:10:05", True)


@pytest.mark.parametrize("gps", [{GPS_DATE: "2026:02:30", GPS_TIME: (7.0, 1.0, 5.0)},
                                 {GPS_DATE: "2026:03:30", GPS_TIME: (24.0, 0.0, 0.0)},
                                 {GPS_DATE: "noon", GPS_TIME: (7.0, 1.0, 5.0)},
                                 {GPS_DATE: "2026:03", GPS_TIME: (7.0, 1.0, 5.0)}])  # fmt: skip
def test_a_gps_time_that_does_not_exist_is_said_to_be_none(gps: dict[int, Any], exif_block: Block) -> None:
    """It is kept as evidence without a time."""
    (claim,) = read_exif(exif_block(gps=gps)).claims
    assert (claim.when, claim.problem) == (None, "no such day or time")


@pytest.mark.parametrize(
    ("refs", "signs"), [(("N", "E"), (1, 1)), (("S", "W"), (-1, -1)), (("s", "w"), (-1, -1)), (("", ""), (1, 1))]
)
def test_places_are_degrees_north_and_east(refs: tuple[str, str], signs: tuple[int, int], exif_block: Block) -> None:
    """Degrees, minutes and seconds become one number, negative in the south and west."""
    block = exif_block(
        gps={LATITUDE_REF: refs[0], LATITUDE: (38.0, 42.0, 36.0), LONGITUDE_REF: refs[1], LONGITUDE: (9.0, 8.0, 24.0)}
    )
    metadata = read_exif(block)
    assert metadata.latitude == pytest.approx(signs[0] * 38.71)
    assert metadata.longitude == pytest.approx(signs[1] * 9.14)


def crafted_latitude(kind: int, *words: int) -> bytes:
    """A block by hand whose GPS latitude has that TIFF type and, in pairs of four bytes, those values."""
    values = b"".join((word & 0xFFFFFFFF).to_bytes(4) for word in words)
    main = (1).to_bytes(2) + bytes.fromhex("8825 0004 00000001") + (26).to_bytes(4) + bytes(4)
    latitude = bytes.fromhex("0002") + kind.to_bytes(2) + (len(words) // 2).to_bytes(4) + (44).to_bytes(4)
    return b"MM\0*" + (8).to_bytes(4) + main + (1).to_bytes(2) + latitude + bytes(4) + values


RATIONAL, SIGNED_RATIONAL, ASCII = 5, 10, 2


@pytest.mark.parametrize(
    "block",
    [
        crafted_latitude(RATIONAL, 91, 1, 0, 1, 0, 1),
        crafted_latitude(RATIONAL, 90, 1, 0, 1, 1, 1),
        crafted_latitude(RATIONAL, 38, 1, 42, 1),
        crafted_latitude(RATIONAL, 38, 1, 42, 1, 0, 0),
        crafted_latitude(RATIONAL, 0, 0, 0, 0, 0, 0),
        crafted_latitude(RATIONAL),
        crafted_latitude(ASCII, 0x33383432, 0x33383432),
        crafted_latitude(SIGNED_RATIONAL, -500, 1, 0, 1, 0, 1),  # the tag's type has no sign, yet a block may say so
    ],
    ids=["beyond the pole", "a second beyond", "two parts", "36/0", "0/0", "none", "text", "signed"],
)
def test_a_place_that_does_not_exist_is_none(block: bytes) -> None:
    """A latitude beyond a pole, of two parts, of zero denominators or of another type is left aside."""
    assert read_exif(block) == Metadata()


def test_the_crafted_block_is_read_where_its_place_exists() -> None:
    """The block of the check above is sound, so it is refused for its place alone."""
    assert read_exif(crafted_latitude(RATIONAL, 38, 1, 42, 1, 36, 1)).latitude == pytest.approx(38.71)


def test_the_camera_is_named_as_the_file_names_it(exif_block: Block) -> None:
    """Make, model and serial number without the padding of fixed fields."""
    block = exif_block({MAKE: "Gull Optics \0\0", MODEL: "  Skerry 3"}, {BODY_SERIAL: "0042\0junk"})
    assert read_exif(block).camera == Camera("Gull Optics", "Skerry 3", "0042")


def test_letters_that_cannot_be_shown_become_blanks(exif_block: Block) -> None:
    """A line break or an escape in a camera's name does not reach the terminal."""
    camera = read_exif(exif_block({MAKE: "Gull\n\x1b[31m"})).camera
    assert camera.make.isprintable()


@pytest.mark.parametrize(("value", "orientation"), [(1, 1), (6, 6), (8, 8), (0, 1), (9, 1), (65535, 1)])
def test_reserved_orientations_count_as_one(value: int, orientation: int, exif_block: Block) -> None:
    """Only 1 to 8 have a meaning (Exif tag 0x0112)."""
    assert read_exif(exif_block({ORIENTATION: value})).orientation == orientation


@pytest.mark.parametrize("block", [b"", b"II*\0", b"MM\0*\0\0\0\x08", b"Exif\0\0"])
def test_a_block_without_tags_says_nothing(block: bytes) -> None:
    """Nothing inside is no damage, or damage named in one line."""
    assert is_fenced(block)


@pytest.mark.parametrize("refs", [("N", "E"), ("S", "W")])
def test_a_place_of_zeros_is_no_place(refs: tuple[str, str], exif_block: Block) -> None:
    """A receiver without a fix writes 0, 0 (common practice): the place is absent, and its time is no evidence."""
    zeros = {LATITUDE_REF: refs[0], LATITUDE: (0.0, 0.0, 0.0), LONGITUDE_REF: refs[1], LONGITUDE: (0.0, 0.0, 0.0)}
    for time in ({}, {GPS_DATE: "2026:03:30", GPS_TIME: (7.0, 10.0, 5.0)}):
        metadata = read_exif(exif_block(gps=zeros | time))
        (claim,) = metadata.claims
        assert (metadata.latitude, metadata.longitude, claim.source, claim.when) == (None, None, "gps", None)
        assert "0, 0" in (claim.problem or "")


def test_a_place_on_one_of_the_zero_lines_is_one(exif_block: Block) -> None:
    """The equator and the meridian of Greenwich are places."""
    place = {LATITUDE_REF: "N", LATITUDE: (0.0, 0.0, 0.0), LONGITUDE_REF: "E", LONGITUDE: (9.0, 30.0, 0.0)}
    metadata = read_exif(exif_block(gps=place))
    assert (metadata.latitude, metadata.longitude, metadata.claims) == (0.0, 9.5, ())


@pytest.mark.parametrize("day", ["0000:00:00", "    :  :  ", "0"])
def test_a_blank_gps_date_is_said_to_be_none(day: str, exif_block: Block) -> None:
    """A real phone picture has the date 0 and the time 00:00:00 (seen in the package opencv-doc)."""
    claims = read_exif(exif_block(gps={GPS_DATE: day, GPS_TIME: (0.0, 0.0, 0.0)})).claims
    assert [(claim.when, "blank" in (claim.problem or "")) for claim in claims] == [(None, True)]


def test_a_gps_date_without_its_time_is_unusable(exif_block: Block) -> None:
    """A day of universal time does not tell the wall clock."""
    (claim,) = read_exif(exif_block(gps={GPS_DATE: "2026:03:30"})).claims
    assert (claim.when, claim.problem) == (None, "there is no time of day with it")


def is_fenced(block: bytes) -> bool:
    """Whether reading gives values or the one error; anything else is raised."""
    try:
        metadata = read_exif(block)
    except MetadataError as error:
        return bool(str(error)) and "\n" not in str(error)
    assert 1 <= metadata.orientation <= 8
    assert metadata.latitude is None or -90 <= metadata.latitude <= 90
    assert metadata.longitude is None or -180 <= metadata.longitude <= 180
    return all(claim.when or claim.problem for claim in metadata.claims)


#: A directory of 65,535 entries that are not there takes the reader a third of a second.
patient = settings(deadline=None)


@patient
@given(st.binary(max_size=200), st.sampled_from([b"", b"II*\0", b"MM\0*", b"II*\0\x08\0\0\0", b"MM\0*\0\0\0\x08"]))
def test_any_bytes_are_metadata_or_the_one_error(data: bytes, beginning: bytes) -> None:
    """No block makes the reader raise anything but MetadataError."""
    assert is_fenced(beginning + data)


@patient
@given(st.integers(0, 2**32), st.integers(1, 6), st.integers(0, 400))
def test_a_damaged_block_is_metadata_or_the_one_error(exif_block: Block, seed: int, changed: int, cut: int) -> None:
    """A real block with bytes turned over, or cut off, is read or refused."""
    block = bytearray(
        exif_block(
            {MAKE: "Gull Optics", ORIENTATION: 6, DATE_TIME: "2026:04:03 12:00:00"},
            {ORIGINAL: "2026:03:30 09:15:20", OFFSET_ORIGINAL: "+02:00", BODY_SERIAL: "0042"},
            {LATITUDE_REF: "N", LATITUDE: (38.0, 42.0, 36.0), GPS_DATE: "2026:03:30", GPS_TIME: (7.0, 10.0, 5.0)},
        )
    )
    dice = random.Random(seed)
    for _ in range(changed):
        block[dice.randrange(len(block))] = dice.choice((0, 1, 0xFF, dice.randrange(256)))
    assert is_fenced(bytes(block[: max(8, len(block) - cut)]))
