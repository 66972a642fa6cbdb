"""Dates in XMP packets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.records import Claim
from indexer.facts.xmp import xmp_claims, xmp_date_claim

NAMESPACES = (
    'xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:xmp="http://ns.adobe.com/xap/1.0/" '
    'xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" xmlns:exif="http://ns.adobe.com/exif/1.0/"'
)


def packet(attributes: str = "", elements: str = "") -> bytes:
    return (
        f'<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/" {NAMESPACES}><rdf:RDF>'
        f'<rdf:Description rdf:about="" {attributes}>{elements}</rdf:Description></rdf:RDF></x:xmpmeta>'
        '<?xpacket end="w"?>   \0\0'
    ).encode()


def test_dates_stand_as_attributes_or_as_elements() -> None:
    """Both ways of RDF are read, each date once, with the source that says what it is the date of."""
    claims = xmp_claims(
        packet(
            'xmp:CreateDate="2026-03-30T09:15:20" photoshop:DateCreated="2026-03-30"',
            "<exif:DateTimeOriginal>2026-03-30</exif:DateTimeOriginal><xmp:ModifyDate>2026-04-01T10:00Z</xmp:ModifyDate>",
        )
    )
    assert [(claim.source, claim.when, claim.precision) for claim in claims] == [
        ("xmp digitized", "2026-03-30T09:15:20", "second"),
        ("xmp original", "2026-03-30", "day"),
        ("xmp modified", "2026-04-01T10:00", "minute"),
    ]


@pytest.mark.parametrize(
    ("text", "when", "precision", "offset", "is_utc"),
    [
        ("1994", "1994", "year", None, False),
        ("1994-07", "1994-07", "month", None, False),
        ("1994-07-16", "1994-07-16", "day", None, False),
        ("2026-03-30T09:15", "2026-03-30T09:15", "minute", None, False),
        ("2026-03-30T09:15:20.25+02:00", "2026-03-30T09:15:20", "second", 120, False),
        ("2026-03-30T09:15:20Z", "2026-03-30T09:15:20", "second", None, True),
        # In the wild, in a file of the pillow-heif source package.
        ("2024-04-22T14:38:09.526GMT+02:00", "2024-04-22T14:38:09", "second", 120, False),
    ],
)
def test_a_date_is_as_exact_as_it_is_written(
    text: str, when: str, precision: str, offset: int | None, is_utc: bool
) -> None:
    """XMP dates may be partial (ISO 16684-1: from memory)."""
    claim = xmp_date_claim("xmp original", text)
    assert (claim.when, claim.precision, claim.offset_minutes, claim.is_utc) == (when, precision, offset, is_utc)
    assert claim.problem is None


@pytest.mark.parametrize("text", ["2026-13-01", "2026-02-30", "2026-03-30T24:00", "yesterday", "30.03.2026", "٢٠٢٦"])
def test_what_is_no_date_is_said_to_be_none(text: str) -> None:
    """The claim is kept, unusable, with the reason; nothing is rolled over."""
    claim = xmp_date_claim("xmp original", text)
    assert claim.when is None
    assert claim.problem


def test_entities_are_not_expanded() -> None:
    """A packet that declares entities could grow without bound; it is left aside with the reason."""
    bomb = b'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]>' + packet('xmp:CreateDate="2026"')
    assert xmp_claims(bomb) == (
        Claim("xmp", "", None, problem="it declares entities, which no photo needs: left aside"),
    )


@given(st.binary(max_size=200))
def test_any_bytes_give_claims(data: bytes) -> None:
    """Whatever stands in the packet's place, nothing is raised, and nothing unreadable is believed."""
    for start in (b"", b"<x>", b'<?xml version="1.0" encoding="'):
        assert all(claim.problem for claim in xmp_claims(start + data) if claim.when is None)


@given(st.text(max_size=30))
def test_any_text_in_a_date_gives_a_claim(text: str) -> None:
    """Usable, or with the reason why not."""
    claim = xmp_date_claim("xmp original", text)
    assert (claim.when is None) == (claim.precision == "unknown")
