"""The table of contents of HEIF files."""

import io
import struct

import pytest

from indexer.facts.containers.boxes import boxes
from indexer.facts.containers.item_table import Item, ItemTable, read_item_table
from indexer.facts.containers.reader import MAX_BLOCK, Reader
from indexer.facts.containers.values import BrokenContainer
from tests.indexer.facts.containers import file_makers as make

PITM = make.full(b"pitm", 0, 0, struct.pack(">H", 1))


def table_of(data: bytes) -> ItemTable:
    reader = Reader(io.BytesIO(data), len(data))
    return read_item_table(reader, next(box for box in boxes(reader, 0, len(data)) if box.kind == b"meta"))


def meta(*parts: bytes) -> bytes:
    return make.full(b"meta", 0, 0, PITM, *parts)


@pytest.mark.parametrize("wide", [False, True])
def test_items_spans_references_and_properties_are_read_in_their_order(wide):
    """The versions with 16-bit and with 32-bit numbers say the same."""
    items = [
        make.Item(b"hvc1", b"picture", extents=2),
        make.Item(b"hvc1", b"small", thumbnail_of=1),
        make.exif_item(describes=1),
        make.xmp_item(describes=1),
        make.Item(b"grid", b"in idat", in_idat=True),
    ]
    data = make.heif(items, [make.ispe(40, 30), make.irot(1), make.ispe(9, 9)], wide=wide, gap=b"--")
    table = table_of(data)
    read = {number: b"".join(data[s : s + n] for s, n in spans) for number, spans in table.spans.items()}
    assert read == {number: item.data for number, item in enumerate(items, 1)}
    assert list(table.items.values()) == [
        Item(b"hvc1"),
        Item(b"hvc1"),
        Item(b"Exif"),
        Item(b"mime", b"application/rdf+xml"),
        Item(b"grid"),
    ]
    assert table.references == {(b"thmb", 2): (1,), (b"cdsc", 3): (1,), (b"cdsc", 4): (1,)}
    assert [box.kind for box in table.properties] == [b"ispe", b"irot", b"ispe"]
    assert len(table.spans[1]) == 2


def iloc(version: int, widths: int, *entries: bytes) -> bytes:
    number = ">I" if version >= 2 else ">H"
    return make.full(b"iloc", version, 0, struct.pack(">H", widths), struct.pack(number, len(entries)), *entries)


@pytest.mark.parametrize(
    ("location", "spans"),
    [
        # Version 0: base offset of 4 bytes, offset of 4, length of 4.
        (iloc(0, 0x4440, struct.pack(">HHIHII", 1, 0, 100, 1, 5, 7)), ((105, 7),)),
        # Offsets and lengths of 8 bytes.
        (iloc(0, 0x8800, struct.pack(">HHHQQ", 1, 0, 1, 1 << 40, 1 << 33)), ((1 << 40, 1 << 33),)),
        # Version 1 with an extent index of 4 bytes before each extent.
        (iloc(1, 0x4404, struct.pack(">HHHHIII", 1, 0, 0, 1, 9, 5, 7)), ((5, 7),)),
        # An item whose extents are in another file, or in another item, has no place in this one.
        (iloc(0, 0x4400, struct.pack(">HHHII", 1, 1, 1, 5, 7)), ()),
        (iloc(1, 0x4400, struct.pack(">HHHHII", 1, 2, 0, 1, 5, 7)), ()),
        # In `idat`, of which this file has none.
        (iloc(1, 0x4400, struct.pack(">HHHHII", 1, 1, 0, 1, 5, 7)), ()),
        # Of two entries for one item the first counts.
        (iloc(0, 0x4400, *(struct.pack(">HHHII", 1, 0, 1, n, 7) for n in (5, 6))), ((5, 7),)),
    ],
)
def test_places_are_read_in_every_version_and_width(location, spans):
    """The fields of `iloc` have the widths that it states (ISO/IEC 14496-12, 8.11.3)."""
    assert table_of(meta(location)).spans == {1: spans}


def test_a_stretch_without_a_length_goes_on_to_the_end():
    """No length stands for all that follows, in the file or in `idat`."""
    places = [
        struct.pack(">HHHHI", n, method, 0, 1, start) for n, method, start in ((1, 0, 20), (2, 1, 3), (3, 0, 9999))
    ]
    data = meta(iloc(1, 0x4000, *places), make.box(b"idat", b"0123456789"))
    table = table_of(data)
    assert table.spans[1] == ((20, len(data) - 20),)
    assert [data[s : s + n] for s, n in table.spans[2]] == [b"3456789"]
    assert table.spans[3] == ((9999, 0),)


@pytest.mark.parametrize(("flags", "form"), [(0, ">B"), (1, ">H")])
def test_properties_are_those_of_the_main_item_alone(flags, form):
    """The top bit of an association is no part of its number; 0 and numbers beyond the list stand for none."""
    essential = 0x8000 if flags else 0x80
    others = struct.pack(">HB", 2, 1) + struct.pack(form, 1)
    chosen = b"".join(struct.pack(form, number) for number in (essential | 2, 0, 1, 9))
    ipma = make.full(b"ipma", 0, flags, struct.pack(">I", 2), others, struct.pack(">HB", 1, 4), chosen)
    table = table_of(meta(make.box(b"iprp", make.box(b"ipco", make.irot(1), make.imir(1)), ipma)))
    assert [box.kind for box in table.properties] == [b"imir", b"irot"]


def infe(version: int, number: int) -> bytes:
    return make.full(b"infe", version, 0, struct.pack(">HH", number, 0), b"hvc1\0")


def test_entries_that_name_no_kind_are_left_out_and_the_first_of_a_number_counts():
    """Old entries and doubles do not confuse the list."""
    table = table_of(meta(make.full(b"iinf", 1, 0, struct.pack(">I", 3), infe(0, 7), infe(2, 1), infe(2, 1))))
    assert table.items == {1: Item(b"hvc1")}


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (make.full(b"meta", 0, 0), "main one"),
        (make.full(b"meta", 0, 0, make.box(b"pitm")), "cut short"),
        (meta(iloc(0, 0x4400)[:-1] + b"\5"), "cut short"),
        (meta(make.full(b"iloc", 2, 0, struct.pack(">HI", 0, 1 << 31))), "more items"),
        (meta(iloc(0, 0, *[struct.pack(">HHH", 1, 0, 0xFFFF)] * 3)), "more stretches"),
        (meta(make.full(b"iref", 0, 0, *[make.box(b"dimg", struct.pack(">HH", 1, 0xFFFF))] * 2)), "more references"),
        (meta(make.box(b"iprp", make.full(b"ipma", 0, 0, struct.pack(">I", 1 << 30)))), "more items"),
        (meta(make.box(b"iprp", bytes(MAX_BLOCK + 1))), "larger than"),
    ],
)
def test_tables_that_cannot_be_are_refused(data, reason):
    """What a table claims is checked before it is gone through."""
    with pytest.raises(BrokenContainer, match=reason):
        table_of(data)
