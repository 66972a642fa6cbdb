"""Lengths as whole micrometres, so that inches and millimetres both stay exact. Pure."""

UM_PER_INCH = 25_400  # the international inch
UM_PER_MM = 1_000


def in_pixels(length: int, dpi: int) -> int:
    """Micrometres from an edge in pixels, halves away from it."""
    return (2 * length * dpi + UM_PER_INCH) // (2 * UM_PER_INCH)


def micrometres(inches: float) -> int:
    """The whole micrometre nearest."""
    return round(inches * UM_PER_INCH)


#: From a size in inches to the round millimetres or centimetres it is named by is no more, in µm: 152.4 to 150 mm.
_ROUNDED = 2_500


def inches_meant(width: int, height: int) -> tuple[int, int] | None:
    """The half inches that a paper told in millimetres is named after: 6x4 in is sold as 152x102 mm and as 10x15 cm
    (common practice). None where it is no such size, or exact in inches."""
    half = UM_PER_INCH // 2
    meant = round(width / half) * half, round(height / half) * half
    if meant == (width, height) or abs(meant[0] - width) > _ROUNDED or abs(meant[1] - height) > _ROUNDED:
        return None
    return meant
