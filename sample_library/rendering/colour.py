"""Colours as three floats from 0 to 1, in the display space of sRGB."""

from collections.abc import Sequence

Colour = tuple[float, float, float]

WHITE: Colour = (1.0, 1.0, 1.0)
BLACK: Colour = (0.0, 0.0, 0.0)


def tone(text: str) -> Colour:
    """The colour written as six hexadecimal digits, such as "c8742e"."""
    red, green, blue = (int(text[place : place + 2], 16) / 255 for place in (0, 2, 4))
    return red, green, blue


def tones(text: str) -> list[Colour]:
    """Several colours, written with spaces between them."""
    return [tone(word) for word in text.split()]


def mix(first: Colour, second: Colour, share: float) -> Colour:
    """`share` 0 gives the first colour, 1 the second."""
    red, green, blue = (one + (other - one) * share for one, other in zip(first, second, strict=True))
    return red, green, blue


def shade(colour: Colour, factor: float) -> Colour:
    """Darker for factors below 1, lighter above, never beyond white."""
    red, green, blue = (min(1.0, part * factor) for part in colour)
    return red, green, blue


def along(stops: Sequence[Colour], place: float) -> Colour:
    """The colour at `place` 0..1 on a scale of evenly spaced colours."""
    last = len(stops) - 1
    scaled = min(max(place, 0.0), 1.0) * last
    low = min(int(scaled), max(last - 1, 0))
    return mix(stops[low], stops[min(low + 1, last)], scaled - low)
