"""How many pixels a print may have, so that no computer runs out of memory over it. Pure."""

from indexer.errors import PrintError
from queries.print_settings import Lab

#: 12x12 in at 600 dots per inch are 52 million. A print is held some three times over while it is drawn, three bytes a
#: pixel.
MOST_PIXELS = 80_000_000


def check_pixels(lab: Lab) -> None:
    """Raise PrintError where a print of that size would have more, with the dots per inch that go."""
    width, height = lab.pixels
    if width * height <= MOST_PIXELS:
        return
    dpi = int(lab.dpi * (MOST_PIXELS / (width * height)) ** 0.5)
    raise PrintError(
        f"print.size at print.dpi makes {width} x {height} pixels, more than can be drawn; set fewer to the inch:"
        f" weeksheaf settings print.dpi {dpi}"
    )
