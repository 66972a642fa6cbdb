"""Dates in IPTC blocks (IIM 4.1), and the digest that says which of IPTC and XMP was written last."""

import random
from hashlib import md5

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.iptc import iptc_claims
from indexer.facts.records import Claim


def data_set(number: int, content: bytes, record: int = 2, extended: int = 0) -> bytes:
    """One data set; `extended` is in how many bytes its length is written, where it is not in the usual two."""
    size = (0x8000 | extended).to_bytes(2) + len(content).to_bytes(extended) if extended else len(content).to_bytes(2)
    return bytes((0x1C, record, number)) + size + content


def resource(number: int, content: bytes, name: bytes = b"", signature: bytes = b"8BIM") -> bytes:
    title = bytes((len(name),)) + name
    padded = content + b"\0" * (len(content) % 2)
    return signature + number.to_bytes(2) + title + b"\0" * (len(title) % 2) + len(content).to_bytes(4) + padded


def dated(day: bytes, time: bytes | None = None) -> bytes:
    return data_set(0, b"\0\2") + data_set(55, day) + (data_set(60, time) if time is not None else b"")


def only(block: bytes) -> Claim:
    (claim,) = iptc_claims(None, block)
    return claim


@pytest.mark.parametrize(
    ("day", "time", "when", "precision", "offset"),
    [
        (b"20260330", b"091520+0200", "2026-03-30T09:15:20", "second", 120),
        (b"20260330", b"091520-0330", "2026-03-30T09:15:20", "second", -210),
        (b"20260330", b"091520", "2026-03-30T09:15:20", "second", None),
        (b"20260330", None, "2026-03-30", "day", None),
        (b"20260330", b"", "2026-03-30", "day", None),
        (b"2026-03-30", b"09:15:20+02:00", "2026-03-30T09:15:20", "second", 120),
        (b"19870800", None, "1987-08", "month", None),
        (b"19870000", b"000000+0000", "1987", "year", None),
    ],
)
def test_a_date_is_as_exact_as_it_is_written(
    day: bytes, time: bytes | None, when: str, precision: str, offset: int | None
) -> None:
    """CCYYMMDD with zeros for what is unknown, HHMMSS±HHMM (IIM 4.1, 2:55 and 2:60)."""
    claim = only(dated(day, time))
    assert (claim.source, claim.when, claim.precision, claim.offset_minutes) == ("iptc", when, precision, offset)
    assert claim.problem is None


@pytest.mark.parametrize(
    ("day", "problem"),
    [
        (b"00000000", "blank: the day is not known"),
        (b"", "blank: the day is not known"),
        (b"20261301", "no such day or time"),
        (b"20260230", "no such day or time"),
        (b"20260031", "no such day or time"),
        (b"30.03.2026", "not a date as IPTC writes it (CCYYMMDD)"),
        (b"2026", "not a date as IPTC writes it (CCYYMMDD)"),
    ],
)
def test_what_is_no_date_is_said_to_be_none(day: bytes, problem: str) -> None:
    """The claim is kept, unusable, with the reason."""
    claim = only(dated(day, b"091520"))
    assert (claim.when, claim.problem) == (None, problem)


@pytest.mark.parametrize("time", [b"246000", b"240000+0000", b"noon", b"0915"])
def test_a_time_that_is_none_leaves_the_day(time: bytes) -> None:
    """The day beside it still stands."""
    claim = only(dated(b"20260330", time))
    assert (claim.when, claim.precision) == ("2026-03-30", "day")
    assert "left aside" in (claim.problem or "")


def test_an_offset_that_does_not_exist_leaves_the_time() -> None:
    """As in Exif."""
    claim = only(dated(b"20260330", b"091520+9900"))
    assert (claim.when, claim.offset_minutes) == ("2026-03-30T09:15:20", None)
    assert "+9900" in (claim.problem or "")


def test_the_date_of_digitizing_is_a_claim_of_its_own() -> None:
    """2:62 and 2:63; other records and data sets say nothing."""
    block = data_set(90, b"\x1b%G", record=1) + dated(b"19870800") + data_set(62, b"20260105") + data_set(63, b"120000")
    assert [(claim.source, claim.when) for claim in iptc_claims(None, block)] == [
        ("iptc", "1987-08"),
        ("iptc digitized", "2026-01-05T12:00:00"),
    ]
    assert iptc_claims(None, data_set(55, b"20260330", record=3) + data_set(60, b"120000")) == ()


def test_a_long_data_set_is_passed_over() -> None:
    """A length whose highest bit is set is written in more bytes (IIM 4.1, 1.6)."""
    block = data_set(120, b"word " * 20_000, extended=4) + dated(b"20260330")
    assert only(block).when == "2026-03-30"


def test_the_block_is_found_among_the_image_resources() -> None:
    """Names and contents are padded to even lengths; the first block counts."""
    block = dated(b"20260330")
    resources = resource(0x03ED, b"odd", b"na") + resource(1, b"", b"nam", b"AgHg") + resource(0x0404, block)
    (claim,) = iptc_claims(resources + resource(0x0404, dated(b"20200101")))
    assert claim.when == "2026-03-30"


@pytest.mark.parametrize(
    ("digest", "source"),
    [
        (None, "iptc"),
        (md5(dated(b"20260330")).digest(), "iptc"),
        (bytes(16), "iptc"),
        (md5(dated(b"20260331")).digest(), "iptc newer"),
    ],
    ids=["none", "the same", "zeros", "another"],
)
def test_another_digest_says_that_iptc_is_the_newer(digest: bytes | None, source: str) -> None:
    """Metadata Working Group 2.0: the digest is that of IPTC when XMP was last written with it."""
    resources = resource(0x0404, dated(b"20260330")) + (resource(0x0425, digest) if digest else b"")
    assert [claim.source for claim in iptc_claims(resources)] == [source]


@given(st.binary(max_size=300))
def test_any_bytes_give_claims_or_none(data: bytes) -> None:
    """Whatever stands in either place, nothing is raised and nothing unusable is without its reason."""
    for found in (
        iptc_claims(data),
        iptc_claims(None, data),
        iptc_claims(resource(0x0404, data)),
        iptc_claims(b"8BIM" + data),
    ):
        assert all(claim.when or claim.problem for claim in found)


@given(st.binary(max_size=12), st.binary(max_size=14))
def test_any_bytes_in_a_date_are_a_claim(day: bytes, time: bytes) -> None:
    """The digits of a usable claim stand in the text, so no day was rolled over."""
    claim = only(dated(day, time))
    if claim.when is None:
        assert claim.problem
    else:
        digits = "".join(letter for letter in claim.text if letter.isdigit())
        assert digits.startswith("".join(letter for letter in claim.when if letter.isdigit()))


def test_a_damaged_block_gives_claims_or_none() -> None:
    """A sound block with bytes turned over or cut off is read as far as it goes."""
    dice = random.Random(4)
    sound = resource(0x0404, dated(b"20260330", b"091520+0200") + data_set(62, b"20260331")) + resource(
        0x0425, bytes(16)
    )
    for _ in range(3000):
        block = bytearray(sound)
        for _ in range(dice.randint(1, 5)):
            block[dice.randrange(len(block))] = dice.choice((0, 0xFF, dice.randrange(256)))
        claims = iptc_claims(bytes(block[: dice.randint(0, len(block))]))
        assert all(claim.when or claim.problem for claim in claims)
