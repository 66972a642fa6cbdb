"""A TOML file of drawings -> checked drawings. One bad drawing refuses the whole file."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from indexer.errors import WordError
from queries.sleeves.notation import sleeve_of
from queries.sleeves.sizes import Size, parse_size
from queries.sleeves.values import Sleeve

#: Bytes. A drawing of 13 inches in cells of a millimetre has 110,000.
LARGEST_FILE = 1_000_000
LONGEST_NAME = 40
EXAMPLE = '[sleeve."NAME"] with cell = "1in" and drawing = """..."""'
_KEYS = ("cell", "drawing")


@dataclass(frozen=True, slots=True)
class Drawn:
    """A checked drawing: `drawing` is what is kept of it, a row a line, without blank lines and outer spaces."""

    sleeve: Sleeve
    cell: Size
    drawing: str

    @property
    def name(self) -> str:
        return self.sleeve.name


def read_drawings(file: Path) -> tuple[Drawn, ...]:
    """The drawings of a file, in its order. Raises WordError, which names the file and the sleeve, row and column."""
    text = _text(file)
    try:
        document = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise WordError(f"{file} is not TOML ({error}); write {EXAMPLE}") from error
    try:
        return drawings_in(document)
    except WordError as error:
        raise WordError(f"{file}: {error}") from error


def drawings_in(document: Mapping[str, Any]) -> tuple[Drawn, ...]:
    """The drawings of a TOML document. Raises WordError."""
    _refuse_others(document, ("sleeve",), "the file")
    sleeves = document.get("sleeve")
    if not isinstance(sleeves, dict) or not sleeves:
        raise WordError(f"there is no sleeve in it; write {EXAMPLE}")
    found = tuple(_drawn(name, table) for name, table in sleeves.items())
    names = [drawn.name for drawn in found]
    if twice := [name for name in names if names.count(name) > 1]:
        raise WordError(f'two sleeves are named "{twice[0]}"; give one of them another name')
    return found


def _drawn(name: str, table: object) -> Drawn:
    name = checked_name(name)
    if not isinstance(table, dict) or not isinstance(table.get("drawing"), str):
        raise WordError(f'sleeve "{name}" has no drawing; write {EXAMPLE}')
    _refuse_others(table, _KEYS, f'sleeve "{name}"')
    cell = _cell(name, table.get("cell", "1in"))
    rows = (line.strip() for line in table["drawing"].splitlines())
    drawing = "\n".join(row for row in rows if row)
    return Drawn(sleeve_of(name, cell, drawing), cell, drawing)


def checked_name(name: str) -> str:
    """The name with single spaces. Raises WordError."""
    name = " ".join(name.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        raise WordError(f"{name!r} names no sleeve; a name is one line of 1 to {LONGEST_NAME} letters")
    return name


def _cell(name: str, told: object) -> Size:
    try:
        if isinstance(told, bool) or not isinstance(told, str | int | float):
            raise WordError(f"{told!r} is no size")
        return parse_size(str(told))
    except WordError as error:
        raise WordError(f'sleeve "{name}": cell: {error}; write cell = "1in", "10mm" or "1in x 0.5in"') from error


def _refuse_others(table: Mapping[str, Any], keys: tuple[str, ...], what: str) -> None:
    if others := [key for key in table if key not in keys]:
        raise WordError(f"{what} has {others[0]!r}, which means nothing here; what may stand there: {', '.join(keys)}")


def _text(file: Path) -> str:
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        raise WordError(f"{file} cannot be read ({getattr(error, 'strerror', error)}); check the name") from error
    if len(data) > LARGEST_FILE:
        raise WordError(f"{file} is too large for a file of drawings (over 1 MB); check the name")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise WordError(f"{file} is not a text in UTF-8; save it as one, or check the name") from error
