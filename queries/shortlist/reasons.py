"""Why each photo is on the shortlist, in a few words. Pure."""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date, datetime

from queries.shortlist import weights
from queries.shortlist.resemblance import looks_alike
from queries.shortlist.values import Candidate, Occasion
from queries.weeks import WEEKDAYS

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
#: The hour until which each part of a day goes, and its name.
_PARTS = ((5, "night"), (12, "morning"), (17, "afternoon"), (22, "evening"), (24, "night"))


def reasons_of(order: Sequence[int], candidates: Sequence[Candidate], occasions: Sequence[Occasion]) -> list[str]:
    """A reason for each place in `order`, which is the order of choice."""
    names = occasion_names(occasions)
    sizes = Counter(occasions)
    shown: dict[Occasion, list[Candidate]] = {}
    reasons = []
    for place in order:
        candidate, occasion = candidates[place], occasions[place]
        before = shown.setdefault(occasion, [])
        reasons.append(_reason(candidate, before, names[occasion], sizes[occasion]))
        before.append(candidate)
    return reasons


def _reason(candidate: Candidate, before: Sequence[Candidate], occasion: str, size: int) -> str:
    """`before` are those of its occasion that were chosen before it."""
    if candidate.is_kept:
        return "kept by you"
    if size == 1:
        return f"stands for all of {occasion}" if candidate.sets else f"the only one of {occasion}"
    if not before:
        return f"first choice of {occasion}"
    is_known = candidate.phash is not None and all(other.phash is not None for other in before)
    if is_known and looks_alike([candidate], before).max() < weights.SAME_VIEW:
        return f"a different view of {occasion}"
    return f"one more of {occasion}"


def occasion_names(occasions: Iterable[Occasion]) -> dict[Occasion, str]:
    """What to call each: "Tuesday", "Saturday afternoon" or, where an afternoon has two, "second occasion of Saturday".

    A day's photos without a clock time are those of "Tuesday, hour unknown", unless they are all that it has.
    """
    each = list(dict.fromkeys(occasions))
    names = [_part_name(occasion) for occasion in each]
    return {
        occasion: name if names.count(name) == 1 else _counted_name(occasion)
        for occasion, name in zip(each, names, strict=True)
    }


def _part_name(occasion: Occasion) -> str:
    day = _day(occasion.day)
    if occasion.of == 1:
        return day
    if occasion.start is None:
        return f"{day}, hour unknown"
    return _hour_name(day, occasion.day, occasion.start)


def _hour_name(name: str, day: date, moment: datetime) -> str:
    """The small hours belong to the night before, unless the album day is said to begin with them."""
    if moment.date() == day and moment.hour < _PARTS[0][0]:
        return f"the small hours of {name}"
    return f"{name} {next(part for until, part in _PARTS if moment.hour < until)}"


def _day(day: date) -> str:
    return WEEKDAYS[day.weekday()].capitalize()


def _counted_name(occasion: Occasion) -> str:
    day = _day(occasion.day)
    if occasion.place > len(_ORDINALS):
        return f"occasion {occasion.place} of {day}"
    return f"the {_ORDINALS[occasion.place - 1]} occasion of {day}"
