"""The table of contents of a HEIF file (ISO/IEC 14496-12, section 8.11, and ISO/IEC 23008-12): its `meta` box.

It tells which items there are (iinf), where their data lie (iloc), how they refer to each other (iref), and which
properties describe the primary one (iprp).
"""

from dataclasses import dataclass

from indexer.facts.containers.boxes import Box, boxes, by_kind, full_box
from indexer.facts.containers.reader import MAX_BLOCK, Cursor, Reader
from indexer.facts.containers.values import BrokenContainer, Spans

#: Items and stretches of data in one file. The largest phone pictures, in tiles, have about a thousand.
MAX_ITEMS = 20_000
MAX_EXTENTS = 50_000
MAX_REFERENCES = 50_000

_TABLES = frozenset((b"iinf", b"iloc", b"iref", b"iprp"))


@dataclass(frozen=True, slots=True)
class Item:
    """One item: its kind ("hvc1", "grid", "Exif", "mime", ...) and, for "mime", what it holds."""

    kind: bytes
    content_type: bytes = b""


@dataclass(frozen=True, slots=True)
class ItemTable:
    """What the `meta` box says.

    `items` stand in the order of the file; `spans` may reach beyond its end; `references` go from (kind, item) to
    items; `properties` are those of the primary item in the order of their association.
    """

    primary: int
    items: dict[int, Item]
    spans: dict[int, Spans]
    references: dict[tuple[bytes, int], tuple[int, ...]]
    properties: tuple[Box, ...]


def read_item_table(reader: Reader, meta: Box) -> ItemTable:
    """The table in that `meta` box. Raises `BrokenContainer` where it cannot be used."""
    parts = by_kind(reader, meta.start + 4, meta.end)
    if b"pitm" not in parts:
        raise BrokenContainer("it does not say which of its pictures is the main one")
    if any(box.length > MAX_BLOCK for kind, box in parts.items() if kind in _TABLES):
        raise BrokenContainer("its table of contents is larger than a picture can have")
    version, _, content = full_box(reader, parts[b"pitm"])
    primary = content.uint(4 if version else 2)
    return ItemTable(
        primary=primary,
        items=_items(reader, parts[b"iinf"]) if b"iinf" in parts else {},
        spans=_locations(reader, parts[b"iloc"], parts.get(b"idat")) if b"iloc" in parts else {},
        references=_references(reader, parts[b"iref"]) if b"iref" in parts else {},
        properties=_properties(reader, parts[b"iprp"], primary) if b"iprp" in parts else (),
    )


def _items(reader: Reader, iinf: Box) -> dict[int, Item]:
    version = reader.at(iinf.start, min(iinf.length, 1))
    first_entry = iinf.start + (8 if version != b"\0" else 6)
    items: dict[int, Item] = {}
    for box in boxes(reader, first_entry, iinf.end):
        version_of_entry, _, entry = full_box(reader, box)
        if box.kind != b"infe" or version_of_entry < 2:
            continue  # the older entries name no kind; HEIF does not use them
        number = entry.uint(2 if version_of_entry == 2 else 4)
        entry.take(2)
        kind = entry.take(4)
        names = entry.rest().split(b"\0", 2)
        items.setdefault(number, Item(kind, names[1] if kind == b"mime" and len(names) > 1 else b""))
    return items


def _locations(reader: Reader, iloc: Box, idat: Box | None) -> dict[int, Spans]:
    version, _, table = full_box(reader, iloc)
    widths = table.uint(2)
    offset_width, length_width, base_width = widths >> 12, widths >> 8 & 15, widths >> 4 & 15
    index_width = widths & 15 if version else 0
    number_width = 4 if version >= 2 else 2
    count = table.uint(number_width)
    if count > MAX_ITEMS:
        raise BrokenContainer("it claims more items than a picture can have")
    found: dict[int, Spans] = {}
    room = MAX_EXTENTS
    for _ in range(count):
        number = table.uint(number_width)
        method = table.uint(2) & 15 if version else 0
        elsewhere = table.uint(2)
        base = table.uint(base_width)
        extents = table.uint(2)
        room -= extents
        if room < 0:
            raise BrokenContainer("it claims more stretches of data than a picture can have")
        source = _source(reader, method, elsewhere, idat)
        spans = []
        for _ in range(extents):
            table.take(index_width)
            offset = base + table.uint(offset_width)
            length = table.uint(length_width)
            if source is not None:
                start = source.start + offset
                spans.append((start, length or max(source.end - start, 0)))  # no length: to the end
        found.setdefault(number, tuple(spans))
    return found


def _source(reader: Reader, method: int, elsewhere: int, idat: Box | None) -> Box | None:
    """What the offsets of an item count from: the file, or `idat`; None where the data cannot be placed in the file."""
    if elsewhere:
        return None  # in another file
    return {0: Box(b"", 0, reader.size), 1: idat}.get(method)


def _references(reader: Reader, iref: Box) -> dict[tuple[bytes, int], tuple[int, ...]]:
    version = reader.at(iref.start, min(iref.length, 1))
    width = 2 if version == b"\0" else 4
    found: dict[tuple[bytes, int], tuple[int, ...]] = {}
    room = MAX_REFERENCES
    for box in boxes(reader, iref.start + 4, iref.end):
        content = Cursor(reader.at(box.start, box.length))
        origin = content.uint(width)
        count = content.uint(2)
        room -= count
        if room < 0:
            raise BrokenContainer("it claims more references than a picture can have")
        targets = tuple(content.uint(width) for _ in range(count))
        found[box.kind, origin] = found.get((box.kind, origin), ()) + targets
    return found


def _properties(reader: Reader, iprp: Box, primary: int) -> tuple[Box, ...]:
    known: list[Box] = []
    chosen: list[int] = []
    for box in boxes(reader, iprp.start, iprp.end):
        if box.kind == b"ipco" and not known:
            known = list(boxes(reader, box.start, box.end))
        elif box.kind == b"ipma":
            chosen += _associations(reader, box, primary)
    return tuple(known[index - 1] for index in chosen if 0 < index <= len(known))


def _associations(reader: Reader, ipma: Box, primary: int) -> list[int]:
    """Numbers, from 1, of the properties of that item in the order in which they apply."""
    version, flags, table = full_box(reader, ipma)
    width = 2 if flags & 1 else 1
    mask = 0x7FFF if flags & 1 else 0x7F  # the top bit says that the property must be understood
    count = table.uint(4)
    if count > MAX_ITEMS:
        raise BrokenContainer("it claims more items than a picture can have")
    for _ in range(count):
        number = table.uint(4 if version else 2)
        properties = table.uint(1)
        if number == primary:
            return [table.uint(width) & mask for _ in range(properties)]
        table.take(properties * width)
    return []
