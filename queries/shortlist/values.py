"""The values of a shortlist: what may be chosen, what was, and why. Pure."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Candidate:
    """One photo of a week, as choosing sees it.

    `day` is its album day; `taken` the local wall clock, None where only the day is known. `width` and `height` are
    pixels as displayed, `shape` is "portrait", "landscape" or "square". `keeper` is false for a photo that is left
    out; `choice` is what the person said ("keep", "leave" or None); `sets` are the numbers of its sets of photos alike,
    `scenes` those of the scenes that it and a photo of another camera show. `code` names it to the person.
    `set_aside` says why it is chosen only when kept by hand, in two or three words, or is None. The rest is as
    `queries.looks.Look` has it, None where it is not known.
    """

    key: str
    day: date
    taken: datetime | None
    width: int
    height: int
    shape: str
    keeper: bool = True
    choice: str | None = None
    sets: frozenset[int] = frozenset()
    scenes: frozenset[int] = frozenset()
    set_aside: str | None = None
    code: str = ""
    phash: bytes | None = None
    layout: bytes | None = None
    sharpness: float | None = None
    dark: float | None = None
    bright: float | None = None
    contrast: float | None = None

    @property
    def is_kept(self) -> bool:
        return self.choice == "keep"


@dataclass(frozen=True, slots=True)
class Occasion:
    """A stretch of one day without a long pause in it.

    `place` counts the occasions of the day from 1, `of` says how many there are. `start` is when its first photo was
    taken; None marks the photos that have no clock time, which end their day.
    """

    day: date
    place: int
    of: int
    start: datetime | None


@dataclass(frozen=True, slots=True)
class Chosen:
    """A photo on the shortlist. `rank` is the order of choice, from 0: the first k make the shortlist of k photos."""

    candidate: Candidate
    occasion: Occasion
    rank: int
    reason: str


#: Why a photo is set aside that another camera took of what one chosen shows; the code of that one follows.
SAME_SCENE = "same scene as"


@dataclass(frozen=True, slots=True)
class SetAside:
    """A photo that could not be chosen, and why in two or three words; `keep` brings it in."""

    candidate: Candidate
    reason: str


@dataclass(frozen=True, slots=True)
class Shortlist:
    """The photos proposed for a week; both tuples are in the order they were taken.

    `asked` is how many were wanted: there are fewer when the week has no more to choose from, and more when more were
    kept by hand. `candidates` counts those there were to choose from; of what they show, `days` and `occasions` count
    what there is.
    """

    asked: int
    chosen: tuple[Chosen, ...]
    set_aside: tuple[SetAside, ...]
    candidates: int
    days: int
    occasions: int

    @property
    def kept(self) -> int:
        """How many were kept by hand."""
        return sum(item.candidate.is_kept for item in self.chosen)

    @property
    def days_shown(self) -> int:
        return len({item.occasion.day for item in self.chosen})

    @property
    def occasions_shown(self) -> int:
        return len({item.occasion for item in self.chosen})

    def count(self, shape: str) -> int:
        """How many of the chosen are "portrait", "landscape" or "square"."""
        return sum(item.candidate.shape == shape for item in self.chosen)
