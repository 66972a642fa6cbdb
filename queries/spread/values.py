"""The values of a week's spread: its pages, what was asked for, and the plan as it is kept. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from queries.cropping.values import Window
from queries.fitting.values import Asked, Plan
from queries.weeks import Week

Side = Literal["left", "right"]
Face = Literal["front", "back"]
SIDES: tuple[Side, Side] = ("left", "right")
#: Told as a crop: back to where the detail is.
AUTO = "auto"
#: The face that each page of a spread is: the back of one sleeve, and the front of the next.
FACES: dict[Side, Face] = {"left": "back", "right": "front"}


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a spread: the face of a sleeve. Sizes in inches."""

    side: Side
    sleeve: str
    face: Face
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A week's plan as it is kept.

    `asked` is what the person fixed, `named` the keys of the photos named (none: those of the shortlist). By key:
    `crops` are the crops told ("left", ... or 0..1), `zooms` the zooms told, `windows` the part shown of each photo.
    """

    pages: tuple[Page, Page]
    plan: Plan
    asked: Asked
    named: tuple[str, ...] = ()
    crops: Mapping[str, str | float] = field(default_factory=dict)
    zooms: Mapping[str, float] = field(default_factory=dict)
    windows: Mapping[str, Window] = field(default_factory=dict)

    @property
    def keys(self) -> tuple[str, ...]:
        """The photos on it, in the order of the pockets."""
        return tuple(placed.key for filled in self.plan.filled for placed in filled.photos)


@dataclass(frozen=True, slots=True)
class Wishes:
    """What was asked for just now; None and empty where nothing was. Photos are keys, pockets have their names.

    `freed` are the pockets that nothing is fixed for any longer, `style` the fields of the collages' style that change.
    """

    named: tuple[str, ...] = ()
    left: str | None = None
    right: str | None = None
    card_count: int | None = None
    photo_count: int | None = None
    pins: Mapping[str, str] = field(default_factory=dict)
    cards: frozenset[str] = frozenset()
    collages: Mapping[str, int] = field(default_factory=dict)
    freed: frozenset[str] = frozenset()
    mat: float | None = None
    style: Mapping[str, Any] = field(default_factory=dict)
    crops: Mapping[str, str | float] = field(default_factory=dict)
    zooms: Mapping[str, float] = field(default_factory=dict)

    def sleeve(self, side: Side) -> str | None:
        """The sleeve named for a page."""
        return self.left if side == "left" else self.right

    def crops_after(self, before: Mapping[str, str | float]) -> dict[str, str | float]:
        """The crops that hold after these ones."""
        return {key: crop for key, crop in {**before, **self.crops}.items() if crop != AUTO}

    @property
    def is_nothing(self) -> bool:
        """Whether the plan is only to be shown."""
        return self == Wishes()

    @property
    def only_crops(self) -> bool:
        """Whether nothing but crops is asked for: they move no photo."""
        return bool(self.crops) and self == Wishes(crops=self.crops)


@dataclass(frozen=True, slots=True)
class Bound:
    """A page whose sleeve a neighbouring week's plan uses: this page is the other face of it."""

    side: Side
    sleeve: str
    face: Face
    week: Week


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A photo of this plan that stands, or one alike to it stands, on the pages of another week.

    `kind` is "same", "copy" or "burst"; `other` is the key of the one there; `is_done` says that those pages are made.
    """

    key: str
    other: str
    kind: str
    week: Week
    is_done: bool
