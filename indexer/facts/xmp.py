"""XMP packet (ISO 16684-1) in, claims out: the dates that editing programs write beside Exif, or in its place."""

import re
from collections.abc import Iterator
from datetime import datetime
from xml.etree import ElementTree

from indexer.facts.metadata import parse_offset
from indexer.facts.records import Claim, Precision

#: Property and source of the claim. As the Metadata Working Group maps them (Guidelines for Handling Image Metadata
#: 2.0, 2010): DateCreated is when the picture was taken, CreateDate when it was digitized, ModifyDate when it was
#: changed.
_PROPERTIES = {
    "{http://ns.adobe.com/exif/1.0/}DateTimeOriginal": "xmp original",
    "{http://ns.adobe.com/photoshop/1.0/}DateCreated": "xmp original",
    "{http://ns.adobe.com/xap/1.0/}CreateDate": "xmp digitized",
    "{http://ns.adobe.com/xap/1.0/}ModifyDate": "xmp modified",
}

#: ISO 8601 as XMP has it: a year, a month, a day, or a moment with or without a zone; some writers put GMT before it.
_DATE = re.compile(
    r"(\d{4})(?:-(\d\d)(?:-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.(\d+))?)?\s*(?:GMT)?(Z|[+-]\d\d:?\d\d)?)?)?)?",
    re.ASCII,
)


def xmp_claims(packet: bytes) -> tuple[Claim, ...]:
    """The claims of a packet; one that is unusable where it cannot be read. Entities are never expanded."""
    if not packet:
        return ()
    if b"<!DOCTYPE" in packet or b"<!ENTITY" in packet:
        return (Claim("xmp", "", None, problem="it declares entities, which no photo needs: left aside"),)
    try:
        root = ElementTree.fromstring(packet.strip(b"\0 \r\n\t"))
    except (ElementTree.ParseError, ValueError, LookupError):
        return (Claim("xmp", "", None, problem="no XML that can be read"),)
    return tuple(dict.fromkeys(xmp_date_claim(source, text) for source, text in _dates(root)))


def xmp_date_claim(source: str, text: str) -> Claim:
    """A claim from an XMP date, as exact as it is written."""
    match = _DATE.fullmatch(text)
    if not match:
        return Claim(source, text, None, problem="not a date as XMP writes it")
    year, month, day, hour, minute, second, fraction, zone = match.groups()
    precision: Precision = "second" if second else "minute" if hour else "day" if day else "month" if month else "year"
    try:
        moment = datetime(  # noqa: DTZ001 - the zone is kept apart
            int(year), int(month or 1), int(day or 1), int(hour or 0), int(minute or 0), int(second or 0)
        )
    except ValueError:
        return Claim(source, text, None, problem="no such day or time")
    offset, problem = parse_offset("" if zone in (None, "Z") else zone)
    return Claim(
        source,
        text,
        moment.isoformat()[: _LETTERS[precision]],
        precision,
        fraction=fraction or "",
        offset_minutes=offset,
        is_utc=zone == "Z",
        problem=problem,
    )


#: How many letters of an ISO 8601 moment each precision takes.
_LETTERS: dict[Precision, int] = {"second": 19, "minute": 16, "day": 10, "month": 7, "year": 4}


def _dates(root: ElementTree.Element) -> Iterator[tuple[str, str]]:
    """(source, text) of every date property, written as an element or as an attribute."""
    for element in root.iter():
        for name, text in ((element.tag, element.text), *element.attrib.items()):
            if name in _PROPERTIES and text and text.strip():
                yield _PROPERTIES[name], text.strip()
