"""Every sleeve that can be named: those that the person drew, and those made by rule; which are at home."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from indexer.errors import WordError
from queries.sleeves.by_rule import TICKED, sleeves_by_rule
from queries.sleeves.notation import drawing_of, sleeve_of
from queries.sleeves.sizes import Size, Unit, parse_size
from queries.sleeves.values import Sleeve

#: How like a name must be to be shown where another was meant, 0..1, and how many are.
_LIKENESS, _SHOWN = 0.4, 3
_OF_RULE = Size(1.0, 1.0, "in")


@dataclass(frozen=True, slots=True)
class Known:
    """A sleeve, and how it is drawn."""

    sleeve: Sleeve
    at_home: bool
    cell: Size
    told: str | None = None  # the drawing; None where it is made by rule

    @property
    def name(self) -> str:
        return self.sleeve.name

    @property
    def unit(self) -> Unit:
        return self.cell.unit

    @property
    def drawing(self) -> str:
        return self.told if self.told is not None else drawing_of(self.sleeve, self.cell.inches())


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The drawn ones first, in the order they were told; then those made by rule, the plainest first.

    `broken` names drawings that cannot be read, with the reason: a backup changed by hand may bring one.
    """

    known: tuple[Known, ...]
    broken: tuple[tuple[str, str], ...] = ()

    def at_home(self) -> tuple[Sleeve, ...]:
        return tuple(item.sleeve for item in self.known if item.at_home)

    def named(self, name: str) -> Known:
        """The sleeve of this name, capitals or not. Raises WordError with the nearest names."""
        wanted = _folded(name)
        found = [item for item in self.known if _folded(item.name) == wanted]
        exact = [item for item in found if item.name == name]
        if exact or found:
            return (exact or found)[0]
        raise WordError(self._unknown(name))

    def drawn_name(self, name: str) -> str:
        """The name of a drawn sleeve as it was told, of one that cannot be read too. Raises WordError."""
        if name in dict(self.broken):
            return name
        item = self.named(name)
        if item.sleeve.made == "by rule":
            raise WordError(
                f'"{item.name}" is made by rule and stays; if it is not at home, say:'
                f' weeksheaf sleeves own --not "{item.name}"'
            )
        return item.name

    def refuse_names_by_rule(self, names: Iterable[str]) -> None:
        """Raises WordError where a drawing has the name of a sleeve made by rule."""
        of_rule = {_folded(item.name) for item in self.known if item.sleeve.made == "by rule"}
        if taken := [name for name in names if _folded(name) in of_rule]:
            raise WordError(f'a sleeve made by rule is named "{taken[0]}"; give your drawing another name')

    def _unknown(self, name: str) -> str:
        near = nearest(name, [item.name for item in self.known])
        hint = f"the nearest: {', '.join(map(quoted, near))}; " if near else ""
        return f'there is no sleeve "{name}"; {hint}weeksheaf sleeves --all lists them'


def catalogue(connection: sqlite3.Connection | None) -> Catalogue:
    """All that there is; without an index, what comes with the tool."""
    owned, told = _owned(connection), _drawings(connection)
    drawn, broken = [], []
    for name, cell_text, drawing in told:
        try:
            cell = parse_size(cell_text)
            drawn.append(Known(sleeve_of(name, cell, drawing), owned.get(name, True), cell, drawing))
        except WordError as error:
            broken.append((name, str(error)))
    taken = {name for name, _, _ in told}
    by_rule = (
        Known(sleeve, owned.get(sleeve.name, sleeve.name in TICKED), _OF_RULE)
        for sleeve in sleeves_by_rule()
        if sleeve.name not in taken
    )
    return Catalogue((*drawn, *by_rule), tuple(broken))


def nearest(name: str, names: Iterable[str]) -> list[str]:
    """The names most like this one, the likest first, capitals or not."""
    from difflib import get_close_matches  # needed after a slip alone

    by_folded = {_folded(other): other for other in names}
    return [by_folded[near] for near in get_close_matches(_folded(name), by_folded, _SHOWN, _LIKENESS)]


def quoted(name: str) -> str:
    """As it is typed in a shell."""
    return f'"{name}"'


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()


def _owned(connection: sqlite3.Connection | None) -> dict[str, bool]:
    rows = connection.execute("SELECT name, owned FROM sleeve_owned") if connection else ()
    return {name: bool(owned) for name, owned in rows}


def _drawings(connection: sqlite3.Connection | None) -> list[tuple[str, str, str]]:
    if connection is None:
        return []
    rows = connection.execute("SELECT name, cell, drawing FROM sleeve_drawing ORDER BY told_at, name")
    return [(name, cell, drawing) for name, cell, drawing in rows]
