"""The room as a whole: whatever the bytes are, an answer or one of the two known findings."""

import functools
import io
import struct
import tracemalloc

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from PIL import Image

from indexer.facts.containers import BrokenContainer, Container, NotAPicture, parse
from indexer.facts.picture_key import picture_key
from tests.indexer.facts.containers import file_makers as make

FLAT = Image.effect_noise((64, 40), 60).convert("RGB")
_SUBS = {
    254: (4, 1),
    256: (4, 160),
    257: (4, 120),
    271: (2, b"Harbour\0"),
    330: (4, "dir 1"),
    34665: (4, "dir 2"),
    273: (4, 8),
    279: (4, 9),
}


@functools.cache
def whole_files() -> tuple[bytes, ...]:
    """One file or more of every format, each of them readable."""
    items = [make.Item(b"hvc1", bytes(90), extents=2), make.exif_item(describes=1), make.xmp_item()]
    items += [make.Item(b"hvc1", b"small", thumbnail_of=1), make.Item(b"grid", b"in idat", in_idat=True)]
    directories = [_SUBS, {256: (4, 6000), 257: (4, 4000)}, {0x9003: (2, b"2026:03:30 09:15:20\0")}]
    uuid = make.box(
        b"uuid", bytes.fromhex("85c0b687820f11e08111f4ce462b6a48"), make.box(b"CMT1", make.tiff(*directories))
    )
    inside = make.jpeg(make.exif_segment(), make.frame(9, 7))
    return (
        make.by_pillow(FLAT, "JPEG", exif=make.EXIF, xmp=make.XMP),
        make.by_pillow(FLAT, "JPEG", progressive=True),
        make.by_pillow(FLAT, "PNG", exif=make.EXIF),
        make.png(make.chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0" + make.XMP), make.chunk(b"IDAT", b"data")),
        make.by_pillow(FLAT, "WEBP", exif=make.EXIF, xmp=make.XMP),
        make.by_pillow(FLAT, "WEBP", lossless=True),
        make.by_pillow(FLAT, "TIFF", compression="tiff_lzw"),
        make.tiff(*directories),
        make.tiff(*directories, byte_order=">"),
        make.heif(items, [make.ispe(40, 30), make.CLAP, make.irot(1), make.imir(0)]),
        make.heif(items, [make.ispe(40, 30), make.irot(3)], wide=True, brand=b"avif"),
        make.box(b"ftyp", b"crx ", bytes(4)) + make.box(b"moov", uuid) + make.box(b"mdat"),
        (b"FUJIFILMCCD-RAW".ljust(84, b"\0") + struct.pack(">II", 92, len(inside))) + inside,
    )


def checked(data: bytes) -> Container | None:
    """What the room says, with its promises checked; None for the two findings."""
    try:
        container = parse(io.BytesIO(data), len(data))
    except (NotAPicture, BrokenContainer):
        return None
    assert container.width > 0
    assert container.height > 0
    assert container.turn is None or 1 <= container.turn <= 8
    assert container.exif is None or container.exif[:4] in (b"II*\0", b"MM\0*")
    assert all(start >= 0 and 0 < length <= len(data) - start for start, length in container.picture_spans)
    assert len(picture_key(io.BytesIO(data), len(data), container.picture_spans)) == 32
    return container


def test_every_whole_file_is_read():
    """The files that the others are made from by damage are good ones."""
    formats = [checked(data).format for data in whole_files()]
    assert formats == ["JPEG"] * 2 + ["PNG"] * 2 + ["WebP"] * 2 + ["TIFF"] + ["raw"] * 2 + [
        "HEIF",
        "AVIF",
        "raw",
        "raw",
    ]


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from([b"", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF\0\1\0\0WEBP", b"II*\0", b"MM\0*", b"IIU\0"])
    | st.sampled_from([b"\0\0\0\x10ftypheic\0\0\0\0\0\0\1\0meta", b"\0\0\0\x10ftypcrx \0\0\0\0\0\0\1\0moov"])
    | st.just(b"FUJIFILMCCD-RAW"),
    st.binary(max_size=400),
)
@example(b"II*\0", b"\xff\xff\xff\xff" * 3)
def test_random_bytes_behind_every_signature_end_in_an_answer(signature, rest):
    """Bytes that make no sense never raise anything else."""
    checked(signature + rest)


@settings(max_examples=500, deadline=None)
@given(st.data())
def test_damaged_files_end_in_an_answer(data):
    """A good file with bytes or lengths overwritten, a piece taken out or cut off, never raises anything else."""
    damaged = bytearray(data.draw(st.sampled_from(whole_files())))
    places = st.integers(0, min(len(damaged), 700) - 4)
    values = st.binary(min_size=1, max_size=4) | st.sampled_from(
        [b"\xff" * 4, bytes(4), b"\x7f\xff\xff\xff", b"\0\0\0\1"]
    )
    for place, value in data.draw(st.lists(st.tuples(places, values), max_size=4)):
        damaged[place : place + len(value)] = value
    start, length = data.draw(st.tuples(places, st.integers(0, 30)))
    del damaged[start : start + length]
    checked(bytes(damaged[: data.draw(st.integers(0, len(damaged)) | st.just(len(damaged)))]))


@pytest.mark.parametrize("number", range(13))
def test_a_file_cut_at_any_byte_of_its_header_ends_in_an_answer(number):
    """Every length of every format's beginning is either read or refused in words."""
    data = whole_files()[number]
    for length in range(min(len(data), 800)):
        checked(data[:length])


@pytest.mark.parametrize(
    "data",
    [
        b"II*\0" + struct.pack("<IHHHII", 8, 1, 256, 4, 0xFFFFFFFF, 8) + bytes(90),
        make.chunk(b"x").join([b"\x89PNG\r\n\x1a\n", b"\xff\xff\xff\xfbIHDR" + b"\x7f" * 60]),
        b"RIFF\xff\xff\xff\xffWEBPEXIF\xff\xff\xff\xff" + bytes(90),
        make.box(b"ftyp", b"heic", bytes(4)) + struct.pack(">I4sQ", 1, b"meta", (1 << 64) - 1) + bytes(90),
        b"\xff\xd8" + b"\xff" * 200_000,
    ],
)
def test_claimed_lengths_are_never_allocated(data):
    """A small file that claims gigabytes costs no more memory than its own size and a window."""
    tracemalloc.start()
    checked(data)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 2 << 20
