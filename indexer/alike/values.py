"""The frozen values that cross this room's borders, and the numbers of its methods. Light: numpy is not needed here."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

#: Raised when two photos would be found alike that were not before, or the other way: all are then compared anew.
COMPARING = 3
#: Raised when the same likenesses would make other sets or other keepers: the sets are then made anew.
GROUPING = 1

Kind = Literal["copy", "burst"]
Choice = Literal["keep", "leave"]


@dataclass(frozen=True, slots=True)
class Looked:
    """One photo, as comparing needs it.

    `moment`: seconds of the local wall clock since 1970, corrected where its clock is, None unless known to the minute
    at least (then the minute's middle) and by more than the file's own time, which copying changes, or what other
    photos tell; `exact`: known to the second. `own_time`: the capture time as the camera wrote it, uncorrected,
    "2026-03-30T09:15:20.123", None where it did not. `camera`: "make|model", '' when not named. Sizes as displayed.
    The rest is as `Fingerprint` and `PixelFacts` have it.
    """

    key: str
    moment: float | None
    exact: bool
    own_time: str | None
    camera: str
    width: int
    height: int
    made_from: str
    phash: bytes
    dhash: bytes
    grey: bytes
    layout: bytes
    contrast: float


@dataclass(frozen=True, slots=True)
class Likeness:
    """Two photos that show one picture or one scene; `one` is the smaller key. `score`: how sure, more is surer.

    A "scene" was seen by two cameras whose times do not agree: it makes no set, and tells of their clocks.
    """

    one: str
    other: str
    kind: Kind | Literal["scene"]
    score: float


@dataclass(frozen=True, slots=True)
class Contender:
    """One photo that may stand for a set.

    `taken` sorts by capture time ("2026-03-30T09:15:20.123"; unknown ones last, as "~"); `is_lent`: copies or
    neighbours told it, so that it says nothing of what it resembles besides. `own_time` and `camera` as in
    `Looked`; `pixels` is width x height; `format` is by content. `bytes` is the file's size, `place` what the file is
    called, the last resort of every order. `is_edited`: an editor saved it after it was taken, or its name says so.
    `sharpness` at the sides 960, 480 and 240, `dark` and `bright` as in `PixelFacts`. `choice` is what the person said.
    """

    key: str
    taken: str
    own_time: str | None
    camera: str
    pixels: int
    format: str
    bytes: int
    place: tuple[str, ...]
    is_edited: bool
    sharpness: tuple[float | None, float | None, float | None]
    dark: float
    bright: float
    choice: Choice | None = None
    is_lent: bool = False


@dataclass(frozen=True, slots=True)
class AlikeSet:
    """A set of photos alike: `members`, the first keeper in front and the others in the order they were taken.

    `keepers` are those that stand for it: none where the person left all of it out (then the one that would have been
    it is in front), several where they kept several. `reason` says why the first one was chosen.
    """

    kind: Kind
    members: tuple[str, ...]
    keepers: frozenset[str]
    reason: str


Contenders = Mapping[str, Contender]


def times_agree(one: str | None, other: str | None) -> bool:
    """Whether two cameras' own times can be of one shot: the same, one of them without its fraction, or one unknown."""
    return one is None or other is None or one.startswith(other) or other.startswith(one)
