"""What a file is, told from its first bytes and never from its name.

The signatures are those of the formats' own standards and registrations; the four-letter brands of ISO-BMFF files
(ISO/IEC 14496-12) are listed in ISO/IEC 23008-12 (HEIF), in the AV1 image format, and in the register of MP4 brands.
"""

import codecs
from typing import Literal

from indexer.facts.containers.values import BrokenContainer, NotAPicture

Kind = Literal["jpeg", "png", "webp", "heif", "avif", "crx", "tiff", "raf"]

#: As much of the beginning as the decision needs.
SNIFFED = 1024

_SIGNATURES: tuple[tuple[bytes, Kind], ...] = (
    (b"\xff\xd8\xff", "jpeg"),
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"II*\0", "tiff"),
    (b"MM\0*", "tiff"),
    (b"IIRO", "tiff"),
    (b"IIRS", "tiff"),
    (b"MMOR", "tiff"),
    (b"IIU\0", "tiff"),
    (b"FUJIFILMCCD-RAW", "raf"),
)

#: Photos that somebody would miss, in formats that this room does not read.
_UNREAD: tuple[tuple[bytes, str], ...] = (
    (b"\xff\x0a", "a JPEG XL picture"),
    (b"\0\0\0\x0cJXL ", "a JPEG XL picture"),
    (b"\0\0\0\x0cjP  ", "a JPEG 2000 picture"),
    (b"\xff\x4f\xff\x51", "a JPEG 2000 picture"),
    (b"II+\0", "a BigTIFF picture"),
    (b"MM\0+", "a BigTIFF picture"),
    (b"FOVb", "a raw file of another kind"),
    (b"\0MRM", "a raw file of another kind"),
    (b"II\x1a\0\0\0HEAPCCDR", "a raw file of another kind"),
)

_OTHERS: tuple[tuple[int, bytes, str], ...] = (
    (0, b"GIF8", "a GIF animation or drawing"),
    (0, b"BM", "a BMP drawing"),
    (0, b"8BPS", "a layered drawing"),
    (0, b"\0\0\1\0", "an icon"),
    (0, b"%PDF", "a PDF document"),
    (0, b"%!PS", "a PostScript document"),
    (0, b"PK\3\4", "a zip archive"),
    (0, b"PK\5\6", "a zip archive"),
    (0, b"\x1f\x8b", "an archive"),
    (0, b"7z\xbc\xaf\x27\x1c", "an archive"),
    (0, b"Rar!\x1a\7", "an archive"),
    (257, b"ustar", "an archive"),
    (0, b"SQLite format 3\0", "a database"),
    (0, b"\x7fELF", "a program"),
    (0, b"MZ", "a program"),
    (0, b"\x1a\x45\xdf\xa3", "a video"),
    (0, b"FLV\1", "a video"),
    (0, b"\x30\x26\xb2\x75\x8e\x66\xcf\x11", "a video"),
    (0, b"\0\0\1\xba", "a video"),
    (0, b"\0\0\1\xb3", "a video"),
    (4, b"moov", "a video"),
    (4, b"mdat", "a video"),
    (4, b"wide", "a video"),
    (4, b"free", "a video"),
    (4, b"skip", "a video"),
    (4, b"pnot", "a video"),
    (0, b"ID3", "a sound recording"),
    (0, b"fLaC", "a sound recording"),
    (0, b"OggS", "a sound recording"),
    (0, b"#!AMR", "a sound recording"),
    (0, b"\xff\xfb", "a sound recording"),
)

_RIFF = {b"AVI ": "a video", b"WAVE": "a sound recording"}

_HEIF = frozenset(b"heic heix heim heis hevc hevx hevm hevs avci avcs jpeg jpgs j2ki j2is vvic vvis evbi evbs".split())
_AVIF = frozenset((b"avif", b"avis"))
_ANY_CODEC = frozenset((b"mif1", b"mif2", b"mif3", b"msf1", b"miaf"))
_PICTURES = _HEIF | _AVIF | _ANY_CODEC
_SOUND = frozenset((b"M4A ", b"M4B ", b"M4P "))
_VIDEO = (b"iso", b"mp4", b"mp7", b"avc1", b"qt  ", b"3g", b"M4V", b"MSNV", b"dash", b"XAVC", b"f4v ", b"mmp4")


def sniff(head: bytes) -> Kind:
    """The kind of picture file that begins with these bytes (`SNIFFED` of them, or the whole file).

    Raises `NotAPicture` for anything else and `BrokenContainer` for photos in formats that are not read.
    """
    for signature, kind in _SIGNATURES:
        if head.startswith(signature):
            return kind
    if head[4:8] == b"ftyp":
        return _by_brands(head)
    if head.startswith(b"RIFF") and len(head) >= 12:
        if head[8:12] == b"WEBP":
            return "webp"
        raise NotAPicture(_RIFF.get(head[8:12], "an unknown kind of file"))
    for signature, what in _UNREAD:
        if head.startswith(signature):
            raise BrokenContainer(f"{what}, a format that is not read")
    raise NotAPicture(_other(head))


def _by_brands(head: bytes) -> Kind:
    box_end = int.from_bytes(head[:4])
    major = head[8:12]
    compatible = head[16:box_end]
    brands = [major, *(compatible[i : i + 4] for i in range(0, len(compatible) - 3, 4))]
    if major == b"crx ":
        return "crx"
    if major in _SOUND:
        raise NotAPicture("a sound recording")
    if major.startswith(_VIDEO):
        raise NotAPicture("a video")
    if _PICTURES.isdisjoint(brands):
        raise NotAPicture("an unknown kind of file")
    # "mif1" and its like leave the codec open: the first brand that names one decides.
    named = [brand for brand in brands if brand in _HEIF or brand in _AVIF]
    return "avif" if named and named[0] in _AVIF else "heif"


def _other(head: bytes) -> str:
    if not head:
        return "an empty file"
    for offset, signature, what in _OTHERS:
        if head.startswith(signature, offset):
            return what
    if _is_transport_stream(head):
        return "a video"
    return "plain text" if _is_text(head) else "an unknown kind of file"


def _is_transport_stream(head: bytes) -> bool:
    """MPEG-2 transport stream (ISO/IEC 13818-1): packets of 188 bytes, or of 192 with a time stamp before each."""
    plain = head[0::188]
    stamped = head[4::192]
    return any(len(starts) >= 3 and set(starts) == {0x47} for starts in (plain, stamped))


def _is_text(head: bytes) -> bool:
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return True
    try:
        text = codecs.getincrementaldecoder("utf-8-sig")().decode(head)  # a letter may be cut at the end
    except UnicodeDecodeError:
        return False
    return all(letter.isprintable() or letter in "\t\n\r\f\x1b" for letter in text)
