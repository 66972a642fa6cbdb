"""How results leave: one JSON document, or lines for a person."""

import json
import shutil
from collections.abc import Iterable, Sequence
from typing import Any

import click

#: Narrower than this no table is set.
NARROWEST = 60
#: From so many columns on tables have room for more: headings spelled out, sizes, file names.
ROOMY = 100


def emit(as_json: bool, document: Any, lines: Iterable[str]) -> None:
    """Print the document as JSON, or the lines. JSON is ASCII, so that any name survives any pipe."""
    if as_json:
        click.echo(json.dumps(document, indent=2))
    else:
        for line in lines:
            click.echo(line.rstrip())


def width() -> int:
    """Columns of the terminal, 80 where there is none (COLUMNS overrules)."""
    return max(NARROWEST, shutil.get_terminal_size((80, 24)).columns)


def columns(rows: Sequence[Sequence[str]], numbers: Iterable[int] = ()) -> list[str]:
    """Rows set as columns two spaces apart; the columns named in `numbers` stand to the right."""
    right = set(numbers)
    widths = [max(map(len, cells)) for cells in zip(*rows, strict=True)]
    return [
        "  ".join(
            cell.rjust(width) if place in right else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def plural(count: int, one: str, many: str = "") -> str:
    """ "1 photo", "1,204 photos"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"
