"""The values of orders: what went, or is to go, to the lab. Pure. Lengths in µm."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

OrderState = Literal["planned", "sent", "arrived", "dropped"]


@dataclass(frozen=True, slots=True)
class OrderedPiece:
    """A piece on a print: for which week (its first day as told) and pocket, and where it stands.

    `mark` digests all that is printed on it but its week's name and pocket; `keys` are its photos.
    """

    week: date
    pocket: str
    mark: str
    keys: tuple[str, ...]
    x: int
    y: int
    width: int
    height: int
    turned: bool = False


@dataclass(frozen=True, slots=True)
class OrderedPrint:
    """One print of an order; its name is that of its file without the ending: "o12-07"."""

    name: str
    pieces: tuple[OrderedPiece, ...]


@dataclass(frozen=True, slots=True)
class Reprint:
    """A word that pieces of a print are to be printed again: each by its week's first day as told and its pocket."""

    print: str
    pieces: tuple[tuple[date, str], ...]
    told_at: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """An order as it stands now: `folder` has its files, fewer prints than `lower_bound` cannot hold its pieces.

    Times are UTC, None where there was none yet.

    One whose content cannot be read (a newer version told it) has no prints and no folder.
    """

    id: str
    number: int
    folder: str
    prints: tuple[OrderedPrint, ...]
    lower_bound: int
    state: OrderState
    planned_at: str
    sent_at: str | None
    arrived_at: str | None
    reprints: tuple[Reprint, ...] = ()

    @property
    def name(self) -> str:
        """ "o12", "o03": what the names of its prints begin with."""
        return order_name(self.number)

    @property
    def went(self) -> bool:
        """Whether it went to the lab."""
        return self.state in ("sent", "arrived")

    @property
    def pieces(self) -> tuple[OrderedPiece, ...]:
        """All pieces of its prints."""
        return tuple(piece for item in self.prints for piece in item.pieces)


def order_name(number: int) -> str:
    """ "o12", "o03": as short as a lab prints it on the back."""
    return f"o{number:02}"
