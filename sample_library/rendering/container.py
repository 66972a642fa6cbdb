"""A small MP4 made by hand (ISO/IEC 14496-12): three JPEG pictures as a motion picture of three seconds."""

import struct
from datetime import UTC, datetime

#: The container counts seconds from here.
_EPOCH = datetime(1904, 1, 1, tzinfo=UTC)
_TIMESCALE = 1000
_MATRIX = struct.pack(">9l", 0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000)


def _box(kind: bytes, *parts: bytes) -> bytes:
    body = b"".join(parts)
    return struct.pack(">L4s", len(body) + 8, kind) + body


def _full(kind: bytes, *parts: bytes, flags: int = 0) -> bytes:
    return _box(kind, struct.pack(">L", flags), *parts)


def mp4(frames: list[bytes], size: tuple[int, int], created: datetime) -> bytes:
    """`frames` are JPEG files of `size` pixels, shown for a second each; `created` is aware of its zone."""
    head = _box(b"ftyp", b"isom", struct.pack(">L", 512), b"isommp41")
    data = _box(b"mdat", *frames)
    seconds = int((created - _EPOCH).total_seconds())
    return head + data + _moov(frames, size, seconds, len(head) + 8)


def _moov(frames: list[bytes], size: tuple[int, int], created: int, start: int) -> bytes:
    length = len(frames) * _TIMESCALE
    times = struct.pack(">LL", created, created)
    movie = _full(
        b"mvhd",
        times,
        struct.pack(">LLLH", _TIMESCALE, length, 0x10000, 0x100),
        bytes(10),
        _MATRIX,
        bytes(24),
        struct.pack(">L", 2),
    )
    track = _full(
        b"tkhd",
        times,
        struct.pack(">LLL", 1, 0, length),
        bytes(16),
        _MATRIX,
        struct.pack(">LL", size[0] << 16, size[1] << 16),
        flags=3,
    )
    media = _full(b"mdhd", times, struct.pack(">LLHH", _TIMESCALE, length, 0x55C4, 0))
    handler = _full(b"hdlr", bytes(4), b"vide", bytes(12), b"pictures\0")
    source = _box(b"dinf", _full(b"dref", struct.pack(">L", 1), _full(b"url ", flags=1)))
    information = _box(b"minf", _full(b"vmhd", bytes(8), flags=1), source, _samples(frames, size, start))
    return _box(b"moov", movie, _box(b"trak", track, _box(b"mdia", media, handler, information)))


def _samples(frames: list[bytes], size: tuple[int, int], start: int) -> bytes:
    """Where each frame lies and how long it is shown."""
    sizes = [len(frame) for frame in frames]
    offsets = [start + sum(sizes[:number]) for number in range(len(frames))]
    return _box(
        b"stbl",
        _full(b"stsd", struct.pack(">L", 1), _entry(size)),
        _full(b"stts", struct.pack(">LLL", 1, len(frames), _TIMESCALE)),
        _full(b"stsc", struct.pack(">LLLL", 1, 1, 1, 1)),
        _full(b"stsz", struct.pack(f">LL{len(frames)}L", 0, len(frames), *sizes)),
        _full(b"stco", struct.pack(f">L{len(frames)}L", len(frames), *offsets)),
    )


def _entry(size: tuple[int, int]) -> bytes:
    """A sample entry whose decoder is named by object type 0x6C: JPEG, ISO/IEC 10918-1."""
    config = b"\x04\x0d\x6c\x11" + bytes(11)
    stream = b"\x03" + bytes([3 + len(config) + 3]) + b"\x00\x01\x00" + config + b"\x06\x01\x02"
    picture = struct.pack(">HHLLLH", size[0], size[1], 0x480000, 0x480000, 0, 1)
    return _box(
        b"mp4v",
        bytes(6),
        struct.pack(">H", 1),
        bytes(16),
        picture,
        bytes(32),
        struct.pack(">Hh", 24, -1),
        _full(b"esds", stream),
    )
