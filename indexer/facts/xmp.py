"""XMP packet (ISO 16684-1) in, claims out: the dates that editing programs write into a file, or into one beside it."""

import re
from pathlib import Path
from xml.etree import ElementTree

from indexer.facts.containers.reader import read_at
from indexer.facts.dates import LONGEST_TEXT, NO_SUCH_TIME, is_blank, iso_text
from indexer.facts.exif_dates import exif_date_claim, parse_offset
from indexer.facts.records import Claim

#: A sidecar larger than this is left aside; the largest real ones, with masks in them, stay below 2 MB (memory).
MAX_SIDECAR = 4 << 20

#: Property and what its date is. As the Metadata Working Group maps them (Guidelines for Handling Image Metadata 2.0,
#: 2010): DateCreated is when the picture was taken, CreateDate when it was digitized, ModifyDate when it was changed.
#: The last two are the older names of CreateDate and ModifyDate (XMP specification, part 2).
_PROPERTIES = {
    "{http://ns.adobe.com/exif/1.0/}DateTimeOriginal": "original",
    "{http://ns.adobe.com/photoshop/1.0/}DateCreated": "original",
    "{http://ns.adobe.com/xap/1.0/}CreateDate": "digitized",
    "{http://ns.adobe.com/xap/1.0/}ModifyDate": "modified",
    "{http://ns.adobe.com/exif/1.0/}DateTimeDigitized": "digitized",
    "{http://ns.adobe.com/tiff/1.0/}DateTime": "modified",
}
_RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
#: What a property of the picture itself stands in; deeper ones are of pictures that it was made from.
_DESCRIBED = (f"{_RDF}RDF", f"{_RDF}Description")

#: ISO 8601 as XMP has it: a year, a month, a day, or a moment with or without a zone; some writers put GMT before it.
_DATE = re.compile(
    r"(\d{4})(?:-(\d\d)(?:-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.(\d+))?)?\s*(?:GMT)?(Z|[+-]\d\d:?\d\d)?)?)?)?",
    re.ASCII,
)
#: Some editing programs copy the date as Exif has it (seen in the packages mate-backgrounds and opencv-doc).
_AS_IN_EXIF = re.compile(r"\d{4}:\d\d:\d\d \d\d:\d\d:\d\d", re.ASCII)
#: A packet has one of each property; a crafted one could fill the index with them.
_MOST_DATES = 32
_BYTE_ORDER_MARKS = (b"\xff\xfe", b"\xfe\xff")


class _Entities(Exception):  # noqa: N818 - named for what was found
    """The packet declares entities."""


class _Dates:
    """Takes the events of a parser and keeps what the date properties hold: no tree is built, however large the packet.

    `found` are (what it is the date of, text) in the order of the packet.
    """

    def __init__(self) -> None:
        self.found: list[tuple[str, str]] = []
        self._open: list[str] = []
        self._text: list[str] | None = None

    def doctype(self, *_: str | None) -> None:
        raise _Entities

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        is_property = tuple(self._open[-2:]) == _DESCRIBED and tag in _PROPERTIES
        self._text = [] if is_property else None
        if tag == _DESCRIBED[1] and self._open[-1:] == [_DESCRIBED[0]]:
            for name, text in attributes.items():
                self._keep(name, text)
        self._open.append(tag)

    def data(self, text: str) -> None:
        if self._text is not None:
            self._text.append(text)

    def end(self, tag: str) -> None:
        self._open.pop()
        if self._text is not None:
            self._keep(tag, "".join(self._text))
            self._text = None

    def close(self) -> None:
        """Called when the packet has ended."""

    def _keep(self, name: str, text: str) -> None:
        if name in _PROPERTIES and text.strip() and len(self.found) < _MOST_DATES:
            self.found.append((_PROPERTIES[name], text.strip()[:LONGEST_TEXT]))


def xmp_claims(packet: bytes, origin: str = "xmp", name: str = "") -> tuple[Claim, ...]:
    """The claims of a packet; one that is unusable where it cannot be read. Entities are never expanded.

    Sources are `origin` with "original", "digitized" or "modified"; `name` is the text of what cannot be read.
    """
    if not packet:
        return ()
    dates = _Dates()
    parser = ElementTree.XMLParser(target=dates)
    try:
        parser.feed(packet if packet.startswith(_BYTE_ORDER_MARKS) else packet.strip(b"\0 \r\n\t"))
        parser.close()
    except _Entities:
        return (Claim(origin, name, None, problem="it declares entities, which no photo needs: left aside"),)
    except (ElementTree.ParseError, ValueError, LookupError):
        return (Claim(origin, name, None, problem="no XML that can be read"),)
    return tuple(dict.fromkeys(xmp_date_claim(f"{origin} {what}", text) for what, text in dates.found))


def sidecar_claims(path: str) -> tuple[Claim, ...]:
    """The claims of an XMP file beside a photo. Raises OSError where it cannot be opened."""
    file = Path(path)
    with file.open("rb") as opened:
        packet = read_at(opened, 0, MAX_SIDECAR + 1)
    if len(packet) > MAX_SIDECAR:
        too_large = f"larger than {MAX_SIDECAR >> 20} MB, more than a sidecar can need: left aside"
        return (Claim("sidecar", file.name, None, problem=too_large),)
    if not packet:
        return (Claim("sidecar", file.name, None, problem="the file is empty"),)
    return xmp_claims(packet, "sidecar", file.name)


def xmp_date_claim(source: str, text: str) -> Claim:
    """A claim from an XMP date, as exact as it is written."""
    if _AS_IN_EXIF.match(text):
        return exif_date_claim(source, text)
    match = _DATE.fullmatch(text)
    if not match:
        return Claim(source, text, None, problem="not a date as XMP writes it")
    if is_blank(match[0][:10]):
        return Claim(source, text, None, problem="blank: the time is not known")
    *fields, fraction, zone = match.groups()
    try:
        when, precision = iso_text(*(int(field) for field in fields if field))
    except ValueError:
        return Claim(source, text, None, problem=NO_SUCH_TIME)
    offset, problem = parse_offset("" if zone in (None, "Z") else zone)
    return Claim(
        source,
        text,
        when,
        precision,
        fraction=fraction or "",
        offset_minutes=offset,
        is_utc=zone == "Z",
        problem=problem,
    )
