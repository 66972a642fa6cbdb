"""Lengths as whole micrometres, so that inches and millimetres both stay exact. Pure."""

UM_PER_INCH = 25_400  # the international inch
UM_PER_MM = 1_000


def in_pixels(length: int, dpi: int) -> int:
    """Micrometres from an edge in pixels, halves away from it."""
    return (2 * length * dpi + UM_PER_INCH) // (2 * UM_PER_INCH)


def micrometres(inches: float) -> int:
    """The whole micrometre nearest."""
    return round(inches * UM_PER_INCH)
