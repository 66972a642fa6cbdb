"""The font of the cards: Source Serif Pro, under the SIL Open Font License 1.1; `font-source-serif-pro` brings it."""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from reportlab.pdfbase.ttfonts import TTFont

from indexer.errors import PrintError
from queries.cards.values import UM_PER_POINT

_PACKAGE = "font_source_serif_pro"


def font_file(bold: bool = False) -> Path:
    """The TrueType file of the regular weight or the semibold. Raises PrintError where the package is not installed."""
    name = f"SourceSerifPro-{'Semibold' if bold else 'Regular'}.ttf"
    spec = find_spec(_PACKAGE)
    for folder in (spec.submodule_search_locations or ()) if spec else ():
        if (path := Path(folder, "files", name)).is_file():
            return path
    raise PrintError(f"the font {name} is not installed: pip install --force-reinstall font-source-serif-pro")


@cache
def pdf_font(bold: bool = False) -> TTFont:
    """The font as reportlab reads it."""
    return TTFont("Words-Bold" if bold else "Words", str(font_file(bold)))


def measure(text: str, points: float, bold: bool = False) -> float:
    """The width of a text in micrometres, by the advance widths of its letters alone: so both outputs agree."""
    return float(pdf_font(bold).stringWidth(text, points)) * UM_PER_POINT


def has_letter(letter: str) -> bool:
    """Whether the font can draw it, in both weights."""
    return all(ord(letter) in pdf_font(bold).face.charToGlyph for bold in (False, True))
