"""Dates in XMP packets."""

import tracemalloc
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.records import Claim
from indexer.facts.xmp import MAX_SIDECAR, sidecar_claims, xmp_claims, xmp_date_claim

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
        # As in Exif: seen in files of the packages mate-backgrounds and opencv-doc.
        ("2018:06:06 22:20:11", "2018-06-06T22:20:11", "second", None, False),
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


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be", "utf-16-le"])
def test_entities_are_seen_in_any_encoding(encoding: str) -> None:
    """The parser says so and not the bytes, which another encoding would hide."""
    bomb = (
        '\ufeff<!DOCTYPE x [<!ENTITY a "ha">]><x>&a;</x>'
        if encoding != "utf-16"
        else '<!DOCTYPE x [<!ENTITY a "ha">]><x/>'
    )
    (claim,) = xmp_claims(bomb.encode(encoding))
    assert "entities" in (claim.problem or "")


def test_other_encodings_are_read() -> None:
    """ISO 16684-1 allows UTF-16."""
    text = packet('xmp:CreateDate="2026-03-30"').decode().split("?>", 1)[1].split("<?xpacket")[0]
    assert [claim.when for claim in xmp_claims(text.encode("utf-16"))] == ["2026-03-30"]


def test_dates_of_other_pictures_are_none_of_this_one() -> None:
    """What a picture was made from is described deeper inside."""
    described = f'<rdf:Description {NAMESPACES} xmp:CreateDate="2001-01-01"/>'
    inner = f"<xmp:Pantry><rdf:Bag><rdf:li>{described}</rdf:li></rdf:Bag></xmp:Pantry>"
    elements = f"{inner}<xmp:CreateDate>2026-03-30</xmp:CreateDate>"
    assert [claim.when for claim in xmp_claims(packet(elements=elements))] == ["2026-03-30"]


def test_a_packet_of_many_elements_takes_little_memory() -> None:
    """No tree is built: below 8 MB for a packet of 4 MB."""
    large = packet(elements="<a/>" * 1_000_000 + "<xmp:CreateDate>2026</xmp:CreateDate>")
    tracemalloc.start()
    claims = xmp_claims(large)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert [claim.when for claim in claims] == ["2026"]
    assert peak < 8 << 20


def test_a_crafted_packet_does_not_fill_the_index() -> None:
    """Neither with one endless date nor with very many."""
    endless = packet(elements=f"<xmp:CreateDate>{'2026' * 100_000}</xmp:CreateDate>")
    assert [len(claim.text) for claim in xmp_claims(endless)] == [64]
    many = packet(elements="".join(f"<xmp:CreateDate>{year}</xmp:CreateDate>" for year in range(1000, 9999)))
    assert len(xmp_claims(many)) == 32


def test_a_blank_date_says_so() -> None:
    """Zeros are not the year 1."""
    assert "blank" in (xmp_date_claim("xmp original", "0000-00-00T00:00:00").problem or "")


def test_a_sidecar_is_read_as_a_packet(tmp_path: Path) -> None:
    """Its sources are its own, and entities, broken XML and nothing at all are said with the file's name."""
    file = tmp_path / "a.xmp"
    file.write_bytes(packet('xmp:CreateDate="2026-03-30" photoshop:DateCreated="2026-03-29T10:00:00+02:00"'))
    assert [(claim.source, claim.when) for claim in sidecar_claims(str(file))] == [
        ("sidecar digitized", "2026-03-30"),
        ("sidecar original", "2026-03-29T10:00:00"),
    ]
    for content, problem in ((b'<!DOCTYPE x [<!ENTITY a "">]><x/>', "entities"), (b"<x>", "no XML"), (b"", "empty")):
        file.write_bytes(content)
        (claim,) = sidecar_claims(str(file))
        assert (claim.source, claim.text, claim.when) == ("sidecar", "a.xmp", None)
        assert problem in (claim.problem or "")


def test_a_sidecar_of_an_absurd_size_is_left_aside(tmp_path: Path) -> None:
    """Up to the bound it is read."""
    file = tmp_path / "a.xmp"
    sound = packet('xmp:CreateDate="2026-03-30"')
    file.write_bytes(sound.ljust(MAX_SIDECAR))
    assert [claim.when for claim in sidecar_claims(str(file))] == ["2026-03-30"]
    file.write_bytes(sound.ljust(MAX_SIDECAR + 1))
    (claim,) = sidecar_claims(str(file))
    assert (claim.text, claim.when) == ("a.xmp", None)
    assert "4 MB" in (claim.problem or "")


@given(st.binary(max_size=200))
def test_any_bytes_give_claims(data: bytes) -> None:
    """Whatever stands in the packet's place, nothing is raised, and nothing unreadable is believed."""
    for start in (b"", b"<x>", b'<?xml version="1.0" encoding="'):
        assert all(claim.problem for claim in xmp_claims(start + data) if claim.when is None)


NEARLY = st.from_regex(r"\d{4}([-:]\d\d([-:]\d\d([T ]\d\d:\d\d(:\d\d(\.\d)?)?(Z|[+-]\d\d:\d\d)?)?)?)?.?")


@given(st.text(max_size=30) | NEARLY)
def test_any_text_in_a_date_gives_a_claim(text: str) -> None:
    """Usable and the very digits of the text, or with the reason why not."""
    claim = xmp_date_claim("xmp original", text)
    assert (claim.when is None) == (claim.precision == "unknown")
    assert claim.when or claim.problem
    digits = "".join(str(int(letter)) for letter in text if letter.isdecimal())
    assert digits.startswith("".join(letter for letter in claim.when or "" if letter.isdigit()))
