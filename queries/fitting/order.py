"""The story's order: the photos as they were lived, the pockets as they are read. Pure."""

from collections.abc import Sequence

from queries.fitting.values import Picture


def places_in_story(pictures: Sequence[Picture]) -> list[float]:
    """Where each photo stands in the story of all of them, 0..1."""
    return _places([picture.order for picture in pictures])


def places_on_spread(count: int) -> list[float]:
    """Where each of so many openings stands, 0..1; left page before right, left to right and top to bottom."""
    return _places(range(count))


def standings(pictures: Sequence[Picture]) -> list[float]:
    """How well each photo stands on the shortlist: 1 for the first, 0 for the last."""
    last = max(len(pictures) - 1, 1)
    return [1 - (place * len(pictures) - 0.5) / last for place in _places([picture.rank for picture in pictures])]


def _places(numbers: Sequence[int]) -> list[float]:
    order = sorted(range(len(numbers)), key=lambda at: numbers[at])
    places = [0.0] * len(numbers)
    for place, at in enumerate(order):
        places[at] = (place + 0.5) / len(numbers)
    return places
