"""order.json: what the folder of an order holds, sealed so that a change by hand is seen. Values and text. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from queries.made_files.sealed import MADE_BY, body_of, is_sealed, sealed_text

FORMAT = 1
FILE_NAME = "order.json"


@dataclass(frozen=True, slots=True)
class MadeFile:
    """A file in the folder as it was written: its name, SHA-256, size in bytes and file time."""

    file: str
    sha256: str
    size: int
    mtime_ns: int


@dataclass(frozen=True, slots=True)
class HeldOrder:
    """What a folder's order.json says: the order's lasting identity, its number, and the files that were made."""

    id: str
    number: int
    files: tuple[MadeFile, ...]


def order_text(id: str, number: int, order: Mapping[str, Any], files: Sequence[MadeFile]) -> str:  # noqa: A002
    """The text of order.json; `order` is what people and programs want to know of it."""
    rows = [asdict(file) for file in files]
    return sealed_text({"made_by": MADE_BY, "format": FORMAT, "id": id, "order": number, **order, "files": rows})


def held_order(data: bytes) -> HeldOrder | str:
    """An order.json read back, or in words why it cannot be relied on."""
    body = body_of(data)
    if isinstance(body, str):
        return body
    if body.get("format") != FORMAT:
        return "another version of weeksheaf made it"
    if not is_sealed(body):
        return "it was edited by hand"
    try:
        files = tuple(_made_file(row) for row in body["files"])
        return HeldOrder(str(body["id"]), int(body["order"]), files)
    except (KeyError, TypeError, ValueError, OverflowError):
        return "it does not hold what it should"


def _made_file(row: Mapping[str, Any]) -> MadeFile:
    """The row, if the file it names is a plain name: no path may lead out of the folder."""
    name = str(row["file"])
    if not name or name == FILE_NAME or name.startswith(".") or any(letter in name for letter in "/\\:\0"):
        raise ValueError
    return MadeFile(name, str(row["sha256"]), int(row["size"]), int(row["mtime_ns"]))
