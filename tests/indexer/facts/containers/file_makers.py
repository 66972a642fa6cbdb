"""Small files of every container format, written by hand so that a test can say where each byte lies."""

import io
import struct
import zlib
from dataclasses import dataclass
from typing import Any

from PIL import Image

from indexer.facts.containers import Container, parse

EXIF = b"MM\0*" + struct.pack(">IHHHIHHI", 8, 1, 0x0112, 3, 1, 6, 0, 0)
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"/>'
XMP_IDENTIFIER = b"http://ns.adobe.com/xap/1.0/\0"


def parsed(data: bytes) -> Container:
    """What the room says of a file of that content."""
    return parse(io.BytesIO(data), len(data))


def by_pillow(picture: Image.Image, name: str, **options: Any) -> bytes:
    """The picture as Pillow writes it."""
    file = io.BytesIO()
    picture.save(file, name, **options)
    return file.getvalue()


# JPEG


def segment(marker: int, payload: bytes = b"") -> bytes:
    return bytes((0xFF, marker)) + struct.pack(">H", len(payload) + 2) + payload


def frame(width: int, height: int, marker: int = 0xC0) -> bytes:
    return segment(marker, struct.pack(">BHHB", 8, height, width, 1) + b"\1\x11\0")


def jpeg(*header: bytes, scan: bytes = b"coded data", end: bytes = b"\xff\xd9") -> bytes:
    """A JPEG of these header segments, one scan and an end."""
    return b"\xff\xd8" + b"".join(header) + segment(0xDA, b"\1\1\0\0\x3f\0") + scan + end


def exif_segment(block: bytes = EXIF) -> bytes:
    return segment(0xE1, b"Exif\0\0" + block)


# PNG and WebP


def chunk(kind: bytes, payload: bytes = b"") -> bytes:
    return struct.pack(">I", len(payload)) + kind + payload + struct.pack(">I", zlib.crc32(kind + payload))


def png(*chunks: bytes, width: int = 40, height: int = 30, end: bytes = chunk(b"IEND")) -> bytes:
    header = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + header + b"".join(chunks) + end


def riff(kind: bytes, payload: bytes = b"") -> bytes:
    return kind + struct.pack("<I", len(payload)) + payload + b"\0" * (len(payload) & 1)


def webp(*chunks: bytes) -> bytes:
    body = b"WEBP" + b"".join(chunks)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def vp8x(width: int, height: int) -> bytes:
    return riff(b"VP8X", bytes(4) + (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little"))


# TIFF


def tiff(*directories: dict[int, tuple[int, Any]], byte_order: str = "<", magic: bytes = b"") -> bytes:
    """A chain of directories of {tag: (type, content)}: bytes for types 2 and 7, numbers for 3 and 4.

    A number may be "dir N", the offset of directory N, and it is then one that the chain leaves out.
    """
    size = {2: 1, 3: 2, 4: 4, 7: 1}
    pointed = {int(content.split()[1]) for d in directories for _, content in d.values() if isinstance(content, str)}
    places, at = [], 8
    for directory in directories:
        places.append(at)
        at += 6 + 12 * len(directory)
    out, contents = b"", b""
    for number, directory in enumerate(directories):
        out += struct.pack(byte_order + "H", len(directory))
        for tag, (kind, content) in sorted(directory.items()):
            if isinstance(content, str):
                content = places[int(content.split()[1])]
            if isinstance(content, int):
                content = (content,)
            if not isinstance(content, bytes):
                content = struct.pack(f"{byte_order}{len(content)}{'H' if kind == 3 else 'I'}", *content)
            out += struct.pack(byte_order + "HHI", tag, kind, len(content) // size[kind])
            if len(content) > 4:
                out += struct.pack(byte_order + "I", at + len(contents))
                contents += content
            else:
                out += content.ljust(4, b"\0")
        follows = next((n for n in range(number + 1, len(directories)) if n not in pointed | {0}), None)
        out += struct.pack(byte_order + "I", places[follows] if follows and number not in pointed else 0)
    magic = magic or (b"II*\0" if byte_order == "<" else b"MM\0*")
    return magic + struct.pack(byte_order + "I", 8) + out + contents


# ISO-BMFF


def box(kind: bytes, *parts: bytes) -> bytes:
    content = b"".join(parts)
    return struct.pack(">I", len(content) + 8) + kind + content


def full(kind: bytes, version: int, flags: int, *parts: bytes) -> bytes:
    return box(kind, bytes((version,)), flags.to_bytes(3), *parts)


def ispe(width: int, height: int) -> bytes:
    return full(b"ispe", 0, 0, struct.pack(">II", width, height))


def irot(angle: int) -> bytes:
    return box(b"irot", bytes((angle,)))


def imir(axis: int) -> bytes:
    return box(b"imir", bytes((axis,)))


@dataclass(frozen=True)
class Item:
    """One item of a HEIF file. `extents` is in how many stretches its data lie; `describes` is its `cdsc` reference."""

    kind: bytes
    data: bytes
    content_type: bytes = b""
    in_idat: bool = False
    extents: int = 1
    describes: int | None = None
    thumbnail_of: int | None = None


def exif_item(block: bytes = EXIF, describes: int | None = None) -> Item:
    return Item(b"Exif", struct.pack(">I", 6) + b"Exif\0\0" + block, describes=describes)


def xmp_item(packet: bytes = XMP, describes: int | None = None) -> Item:
    return Item(b"mime", packet, b"application/rdf+xml", describes=describes)


def heif(
    items: list[Item],
    properties: list[bytes],
    *,
    primary: int = 1,
    brand: bytes = b"heic",
    gap: bytes = b"",
    wide: bool = False,
    properties_of: int | None = None,
) -> bytes:
    """A HEIF file of items numbered from 1; all the properties, in that order, are the primary item's or another's.

    `gap` lies before each item's data; `wide` writes the versions of the boxes with 32-bit numbers.
    """
    head = box(b"ftyp", brand, bytes(4), b"mif1", brand)
    described = properties_of or primary
    size = len(_meta(items, properties, primary, described, wide, [0] * len(items)))
    at = len(head) + size + 8
    places, media, idat = [], b"", b""
    for item in items:
        if item.in_idat:
            places.append(len(idat))
            idat += item.data
        else:
            places.append(at + len(media) + len(gap))
            media += gap + item.data
    return head + _meta(items, properties, primary, described, wide, places) + box(b"mdat", media)


def _meta(
    items: list[Item], properties: list[bytes], primary: int, described: int, wide: bool, places: list[int]
) -> bytes:
    number = ">I" if wide else ">H"
    handler = full(b"hdlr", 0, 0, bytes(4), b"pict", bytes(13))
    associated = bytes(0x80 | i + 1 for i in range(len(properties)))
    ipma = struct.pack(">I", 1) + struct.pack(number, described) + bytes((len(properties),)) + associated
    parts = [
        handler,
        full(b"pitm", int(wide), 0, struct.pack(number, primary)),
        full(b"iloc", 2 if wide else 1, 0, _iloc(items, number, places)),
        full(b"iinf", 0, 0, struct.pack(">H", len(items)), *(_infe(i, item, wide) for i, item in _numbered(items))),
        box(b"iprp", box(b"ipco", *properties), full(b"ipma", int(wide), 0, ipma)),
    ]
    if references := b"".join(_references(items, number)):
        parts.append(full(b"iref", int(wide), 0, references))
    if idat := b"".join(item.data for item in items if item.in_idat):
        parts.append(box(b"idat", idat))
    return full(b"meta", 0, 0, *parts)


def _numbered(items: list[Item]) -> list[tuple[int, Item]]:
    return list(enumerate(items, 1))


def _iloc(items: list[Item], number: str, places: list[int]) -> bytes:
    out = struct.pack(">H", 0x4400) + struct.pack(number, len(items))
    for (i, item), place in zip(_numbered(items), places, strict=True):
        out += struct.pack(number, i) + struct.pack(">HHH", int(item.in_idat), 0, item.extents)
        step = -(-len(item.data) // item.extents)
        for start in (step * k for k in range(item.extents)):
            out += struct.pack(">II", place + start, len(item.data[start : start + step]))
    return out


def _infe(number: int, item: Item, wide: bool) -> bytes:
    names = b"\0" + (item.content_type + b"\0" if item.content_type else b"")
    return full(b"infe", 3 if wide else 2, 0, struct.pack(">IH" if wide else ">HH", number, 0), item.kind, names)


def _references(items: list[Item], number: str) -> list[bytes]:
    found = []
    for i, item in _numbered(items):
        for kind, target in ((b"cdsc", item.describes), (b"thmb", item.thumbnail_of)):
            if target is not None:
                found.append(box(kind, struct.pack(number, i), struct.pack(">H", 1), struct.pack(number, target)))
    return found


# A picture of four grey fields (40 110 / 170 235), 32 x 16 pixels in the top left corner of a coded 64 x 64, as an HEVC
# still picture. Encoded for these tests from pixels of our own.
CODED = bytes.fromhex(
    "000000762801ae264322b5b0c3ec3bfe8f6ee7c6c3ba3689930960d99680686bba8d150746b2360fd8ec0ef3e104eccab3b9fafd806126c6c6e6e273"
    "5a59b3574d1a43db1c9a0fc9f482c0467238014381962dea0df5d040f0ae3d47170e50a92938485ddc12631acc9d9f1f95b3d63fe3b26580c7802eac"
    "32e0"
)
CODED_SIZE = (64, 64)
SHOWN_SIZE = (32, 16)
HVCC = box(
    b"hvcC",
    bytes.fromhex(
        "0104080000009ff8000000001ef000fcfcf8f800000f03600001001740010c01ffff0408000003009ff800000300001eba024061000100264201"
        "010408000003009ff800000300001ec08204165baaba6b9b02000003003200000300021062000100064401c173c189"
    ),
)


def clap(width: int, height: int, across: int, down: int) -> bytes:
    """Clean aperture: the part shown, its centre moved by `across`/2 and `down`/2 pixels (ISO/IEC 14496-12)."""
    return box(b"clap", struct.pack(">IIIIiIiI", width, 1, height, 1, across, 2, down, 2))


#: What is shown of CODED.
CLAP = clap(32, 16, 32 - 64, 16 - 64)
