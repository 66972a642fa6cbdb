"""The text chunks of PNG (tEXt, zTXt, iTXt), as far as they carry Exif or XMP.

XMP has a keyword of its own (XMP specification, part 3). Before the eXIf chunk came into the standard, writers put Exif
and XMP into a "raw profile": name, length and hexadecimal digits, each on lines of their own (common practice).
"""

import zlib

from indexer.facts.containers.reader import MAX_BLOCK

TEXT_CHUNKS = frozenset((b"tEXt", b"zTXt", b"iTXt"))

#: PNG limits a keyword to 79 bytes; a zero byte ends it.
KEYWORD = 80

_XMP_KEYWORD = b"XML:com.adobe.xmp"
_PROFILES = frozenset(b"Raw profile type " + name for name in (b"exif", b"APP1", b"xmp"))


def keyword_of(start: bytes) -> bytes | None:
    """The keyword with which a text chunk begins, if it is one of those that carry metadata."""
    keyword = start.split(b"\0", 1)[0]
    return keyword if keyword == _XMP_KEYWORD or keyword in _PROFILES else None


def metadata_of(kind: bytes, chunk: bytes) -> bytes | None:
    """The Exif block or XMP packet in a text chunk with such a keyword; None where it cannot be read."""
    keyword, _, rest = chunk.partition(b"\0")
    text = _text(kind, rest)
    return _profile(text) if text is not None and keyword in _PROFILES else text


def _text(kind: bytes, rest: bytes) -> bytes | None:
    if kind == b"tEXt":
        return rest
    if kind == b"zTXt":
        return _inflated(rest[1:])
    fields = rest[2:].split(b"\0", 2)  # after flag and method: language, translated keyword, text
    if len(fields) < 3:
        return None
    return _inflated(fields[2]) if rest[0] else fields[2]


def _inflated(data: bytes) -> bytes | None:
    inflater = zlib.decompressobj()
    try:
        text = inflater.decompress(data, MAX_BLOCK)
    except zlib.error:
        return None
    return text if inflater.eof else None


def _profile(text: bytes) -> bytes | None:
    lines = text.lstrip().split(b"\n", 2)
    if len(lines) < 3:
        return None
    try:
        return bytes.fromhex(lines[2].decode("ascii"))
    except ValueError:  # not ASCII, or no hexadecimal digits
        return None
