"""HEIF and AVIF: the main picture of a file of items, its size, its turn, its metadata, and where the pictures lie.

The Exif orientation in these files only describes; `irot` and `imir` are what turns the picture (ISO/IEC 23008-12).
"""

from indexer.facts.containers.boxes import Box, boxes
from indexer.facts.containers.exif_block import as_tiff
from indexer.facts.containers.item_table import Item, ItemTable, read_item_table
from indexer.facts.containers.reader import MAX_BLOCK, Reader
from indexer.facts.containers.turning import Turn
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container, Format, Spans

_NOT_PICTURES = frozenset((b"Exif", b"mime", b"uri ", b"text"))
_XMP_TYPE = b"application/rdf+xml"


def parse(reader: Reader, name: Format) -> Container:
    """The header of a HEIF or AVIF file. Raises `BrokenContainer` where its table of contents cannot be used."""
    meta = next((box for box in boxes(reader, 0, reader.size) if box.kind == b"meta"), None)
    if meta is None:
        raise BrokenContainer("it has no table of contents for a still picture, or ends before it (cut off)")
    table = read_item_table(reader, meta)
    width, height, turn = _shape(reader, table.properties)
    claimed = _picture_spans(table)
    spans = tuple(
        (start, min(length, reader.size - start)) for start, length in claimed if length and start < reader.size
    )
    return Container(
        name,
        width,
        height,
        turn=turn.orientation,
        exif=_exif(reader, table),
        xmp=_xmp(reader, table),
        picture_spans=spans,
        damage=None if spans == claimed else CUT_OFF,
    )


def _shape(reader: Reader, properties: tuple[Box, ...]) -> tuple[int, int, Turn]:
    """Stored size of the main picture and its turn: the properties apply in the order of their association."""
    width = height = 0
    turn = Turn()
    for box in properties:
        content = reader.at(box.start, min(box.length, 32))
        if box.kind == b"ispe" and len(content) >= 12 and not width:
            width, height = int.from_bytes(content[4:8]), int.from_bytes(content[8:12])
        elif box.kind == b"irot" and content:
            turn = turn.then_irot(content[0] & 3)
        elif box.kind == b"imir" and content:
            turn = turn.then_imir(content[0] & 1)
        elif box.kind == b"clap" and len(content) >= 16:
            cut = _clean_aperture(content)
            across, down = cut[::-1] if turn.swaps_sides else cut
            width, height = min(width, across), min(height, down)
    if not width or not height:
        raise BrokenContainer("it gives no size of its main picture")
    return width, height, turn


def _clean_aperture(content: bytes) -> tuple[int, int]:
    """Width and height of the part that is shown (ISO/IEC 14496-12, 12.1.4): two fractions, rounded."""
    across, across_by, down, down_by = (int.from_bytes(content[i : i + 4]) for i in (0, 4, 8, 12))
    if not across_by or not down_by:
        raise BrokenContainer("it gives no size of its main picture")
    return (2 * across + across_by) // (2 * across_by), (2 * down + down_by) // (2 * down_by)


def _picture_spans(table: ItemTable) -> Spans:
    """Where the pictures lie, in the order of the items: no metadata or thumbnails, which a retagging may change."""
    spans: list[tuple[int, int]] = []
    for number, item in table.items.items():
        if item.kind not in _NOT_PICTURES and (b"thmb", number) not in table.references:
            spans += table.spans.get(number, ())
    return tuple(spans)


def _exif(reader: Reader, table: ItemTable) -> bytes | None:
    data = _described(reader, table, Item(b"Exif"))
    if data is None or len(data) < 4:
        return None
    offset = int.from_bytes(data[:4])
    # Some writers leave the leading offset out, or set it to zero before an "Exif" identifier.
    return as_tiff(data[4 + offset :]) or as_tiff(data[4:]) or as_tiff(data)


def _xmp(reader: Reader, table: ItemTable) -> bytes | None:
    return _described(reader, table, Item(b"mime", _XMP_TYPE))


def _described(reader: Reader, table: ItemTable, wanted: Item) -> bytes | None:
    """The content of the item of that kind that describes the main picture (`cdsc`), or that says of no picture."""
    main = {table.primary, *table.references.get((b"dimg", table.primary), ())}
    for number, item in table.items.items():
        targets = table.references.get((b"cdsc", number), ())
        if item == wanted and (not targets or main.intersection(targets)):
            return _content(reader, table.spans.get(number, ()))
    return None


def _content(reader: Reader, spans: Spans) -> bytes | None:
    """The data of an item, or None where they do not lie in the file or are larger than a header may be."""
    if sum(length for _, length in spans) > MAX_BLOCK:
        return None
    if not all(reader.holds(start, length) for start, length in spans):
        return None
    return b"".join(reader.at(start, length) for start, length in spans)
