"""The key of a photo."""

import hashlib
import io
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from indexer.facts.picture_key import BEGINNING, HASHED_WHOLE, picture_key
from tests.indexer.facts.containers.file_makers import by_pillow, exif_segment, parsed, segment

DATA = random.Random(7).randbytes(600_000)
PICTURE = by_pillow(Image.effect_noise((500, 400), 90), "JPEG", quality=95)
SCAN = PICTURE.index(b"\xff\xda")


def key_of(data: bytes, *spans: tuple[int, int]) -> str:
    return picture_key(io.BytesIO(data), len(data), spans)


def photo_key(data: bytes) -> str:
    return key_of(data, *parsed(data).picture_spans)


@pytest.mark.parametrize("length", [1, 1000, BEGINNING, HASHED_WHOLE])
def test_short_data_are_hashed_whole_behind_their_length(length):
    """The key is BLAKE2b (RFC 7693) of the length in 8 bytes and the data, in 16 bytes."""
    expected = hashlib.blake2b(length.to_bytes(8, "big") + DATA[:length], digest_size=16).hexdigest()
    assert key_of(DATA, (0, length)) == expected
    assert key_of(b"--" + DATA, (2, length)) == expected


def test_long_data_are_hashed_by_their_beginning_and_sixteen_blocks_over_the_rest():
    """The first 64 KB, then 16 blocks of 4 KB, the first behind the beginning and the last at the end."""
    rest = len(DATA) - (64 << 10) - 4096
    blocks = [DATA[(64 << 10) + rest * n // 15 :][:4096] for n in range(16)]
    hashed = len(DATA).to_bytes(8, "big") + DATA[: 64 << 10] + b"".join(blocks)
    assert DATA.endswith(blocks[-1])
    assert key_of(DATA, (0, len(DATA))) == hashlib.blake2b(hashed, digest_size=16).hexdigest()


@pytest.mark.parametrize("length", [0, 1000, 2_500_000])
def test_without_spans_the_whole_file_counts(length):
    """Every byte of it, also of a file longer than one block."""
    data = (DATA * 5)[:length]
    expected = hashlib.blake2b(length.to_bytes(8, "big") + data, digest_size=16).hexdigest()
    assert key_of(data) == expected


@settings(deadline=None)
@given(st.lists(st.integers(0, 600_000), max_size=8), st.randoms())
def test_the_key_does_not_depend_on_where_the_data_lie(cuts, chance):
    """The same data in any number of pieces, anywhere and in any order in the file, have one key."""
    ends = sorted({*cuts, len(DATA)} - {0})
    pieces = [DATA[start:end] for start, end in zip([0, *ends], ends, strict=False)]
    order = list(range(len(pieces)))
    chance.shuffle(order)
    file, spans = b"", {}
    for number in order:
        file += chance.randbytes(5)
        spans[number] = (len(file), len(pieces[number]))
        file += pieces[number]
    assert key_of(file, *(spans[number] for number in range(len(pieces)))) == key_of(DATA, (0, len(DATA)))


APP_SEGMENTS = st.lists(
    st.builds(segment, st.sampled_from([0xE0, 0xE1, 0xE2, 0xED, 0xFE]), st.binary(max_size=500))
    | st.builds(exif_segment, st.binary(max_size=500)),
    max_size=4,
)


@settings(deadline=None)
@given(APP_SEGMENTS)
def test_a_retagged_jpeg_keeps_its_key(segments):
    """Whatever metadata segments come or go before the picture, the photo stays the same."""
    assert photo_key(b"\xff\xd8" + b"".join(segments) + PICTURE[2:]) == photo_key(PICTURE)


@settings(deadline=None)
@given(st.integers(0, (64 << 10) - 1), st.integers(1, 255))
def test_a_changed_byte_near_the_beginning_of_the_picture_changes_the_key(place, change):
    """Another picture of the same length is another photo."""
    changed = bytearray(PICTURE)
    changed[SCAN + 2 + place] ^= change
    spans = parsed(PICTURE).picture_spans
    assert len(PICTURE) - SCAN > HASHED_WHOLE
    assert key_of(bytes(changed), *((s + 2, n - 2) for s, n in spans)) != key_of(
        PICTURE, *((s + 2, n - 2) for s, n in spans)
    )


def test_a_picture_cut_short_has_another_key():
    """The length counts, even where the blocks that are hashed agree."""
    assert photo_key(PICTURE[:-10] + b"\xff\xd9") != photo_key(PICTURE)
    assert key_of(bytes(300_000), (0, 300_000)) != key_of(bytes(300_001), (0, 300_001))


def test_a_file_that_became_shorter_is_an_error_of_the_disk():
    """A key of half a file would be the key of another photo."""
    with pytest.raises(OSError, match="became shorter"):
        picture_key(io.BytesIO(DATA), len(DATA) + 10, ())
