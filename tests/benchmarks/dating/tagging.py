"""Metadata as bytes, laid into a JPEG or a PNG.

Exif by Pillow; the XMP packet (ISO 16684-1), the IPTC block (IIM 4.1) inside its Photoshop resource, and the segments
of a JPEG (ITU-T T.81, B.1.1.4) by hand.
"""

import hashlib
import struct
from datetime import datetime

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

from tests.benchmarks.dating.values import Exif, Iptc, Photo, Xmp

_EXIF_IFD, _GPS_IFD = 0x8769, 0x8825
_XMP_MARK, _PHOTOSHOP_MARK = b"http://ns.adobe.com/xap/1.0/\0", b"Photoshop 3.0\0"
_NAMESPACES = {
    "exif": "http://ns.adobe.com/exif/1.0/",
    "photoshop": "http://ns.adobe.com/photoshop/1.0/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
}
#: A place in open water, so that nobody lives there: degrees north and west.
_PLACE = (39.2, 11.4)


def tagged(picture: bytes, photo: Photo) -> bytes:
    """The picture file with all that stands in the photo; a PNG stays bare."""
    if not picture.startswith(b"\xff\xd8"):
        return picture
    segments = b""
    if photo.exif:
        segments += _segment(0xE1, exif_block(photo.exif))
    if photo.xmp:
        segments += _segment(0xE1, _XMP_MARK + xmp_packet(photo.xmp))
    if photo.iptc:
        segments += _segment(0xED, _PHOTOSHOP_MARK + iptc_resources(photo.iptc))
    return picture[:2] + segments + picture[2:]


def exif_block(values: Exif) -> bytes:
    """The payload of the Exif segment; a tag whose value is "" is left out."""
    exif = Image.Exif()
    details = exif.get_ifd(_EXIF_IFD)
    for tag, text in (
        (0x010F, values.make),
        (0x0110, values.model),
        (0x0131, values.software),
        (0x0132, values.modified),
    ):
        if text:
            exif[tag] = text
    has_offset = dict.fromkeys((36880, 36881, 36882), values.offset) if values.offset else {}
    has_fraction = {0x9291: values.fraction} if values.fraction else {}
    for tag, text in {0x9003: values.original, 0x9004: values.digitized, 0xA431: values.serial, **has_offset,
                      **has_fraction}.items():  # fmt: skip
        if text:
            details[tag] = text
    if values.gps:
        _locate(exif, values.gps)
    return exif.tobytes()


def xmp_packet(properties: Xmp) -> bytes:
    """A packet whose properties are attributes of one description."""
    prefixes = sorted({name.partition(":")[0] for name, _ in properties})
    spaces = " ".join(f'xmlns:{prefix}="{_NAMESPACES[prefix]}"' for prefix in prefixes)
    values = " ".join(f'{name}="{text}"' for name, text in properties)
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
        f'<rdf:Description rdf:about="" {spaces} {values}/></rdf:RDF></x:xmpmeta><?xpacket end="w"?>'
    ).encode()


def iptc_resources(values: Iptc) -> bytes:
    """Photoshop image resources: the IPTC block (0x0404), and its MD5 digest (0x0425) where there is one."""
    block = _data_set(2, 55, values.date) + _data_set(2, 60, values.time)
    resources = _resource(0x0404, block)
    if values.digest != "none":
        digested = block if values.digest == "matching" else block + b"before"
        resources += _resource(0x0425, hashlib.md5(digested, usedforsecurity=False).digest())
    return resources


def _segment(marker: int, payload: bytes) -> bytes:
    return struct.pack(">BBH", 0xFF, marker, len(payload) + 2) + payload


def _data_set(record: int, number: int, text: str) -> bytes:
    return struct.pack(">BBBH", 0x1C, record, number, len(text)) + text.encode("ascii")


def _resource(number: int, data: bytes) -> bytes:
    """With an empty name, padded to an even length."""
    return b"8BIM" + struct.pack(">HHL", number, 0, len(data)) + data + b"\0" * (len(data) % 2)


def _locate(exif: Image.Exif, fix: datetime) -> None:
    gps = exif.get_ifd(_GPS_IFD)
    gps[0] = b"\x02\x03\x00\x00"
    gps[1], gps[2], gps[3], gps[4] = "N", _degrees(_PLACE[0]), "W", _degrees(_PLACE[1])
    gps[7] = tuple(IFDRational(number, 1) for number in (fix.hour, fix.minute, fix.second))
    gps[29] = f"{fix:%Y:%m:%d}"


def _degrees(value: float) -> tuple[IFDRational, ...]:
    whole = int(value)
    return IFDRational(whole, 1), IFDRational(round((value - whole) * 60), 1), IFDRational(0, 1)
