"""What a picture file is, by its content, and where things lie in it: reads headers, decodes nothing."""

from functools import partial
from typing import BinaryIO, Protocol

from indexer.facts.containers import crx, isobmff, jpeg, png, raf, tiff, webp
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.sniff import SNIFFED, Kind, sniff
from indexer.facts.containers.values import BrokenContainer, Container, NotAPicture

__all__ = ["BrokenContainer", "Container", "NotAPicture", "parse"]


class _Parser(Protocol):
    def __call__(self, reader: Reader) -> Container: ...


_PARSERS: dict[Kind, _Parser] = {
    "jpeg": jpeg.parse,
    "png": png.parse,
    "webp": webp.parse,
    "heif": partial(isobmff.parse, name="HEIF"),
    "avif": partial(isobmff.parse, name="AVIF"),
    "crx": crx.parse,
    "tiff": tiff.parse,
    "raf": raf.parse,
}


def parse(file: BinaryIO, size: int) -> Container:
    """What the header of `file`, of `size` bytes, says.

    Raises `NotAPicture` for another kind of file, `BrokenContainer` for a picture whose header cannot be used, and
    nothing else for any bytes; a disk that fails raises OSError.
    """
    reader = Reader(file, size)
    kind = sniff(reader.at(0, min(SNIFFED, size)))
    return _PARSERS[kind](reader)
