"""What the settings say of the lab's prints and of the paper at home. Pure."""

import re
from dataclasses import dataclass

from indexer.errors import WordError
from queries.lengths import in_pixels, micrometres
from queries.sleeves.sizes import MM_PER_INCH, Size, Unit, parse_length, parse_size

#: Papers that have a name: ISO 216 and ANSI/ASME Y14.1 (from memory).
PAPERS = {"a4": "210x297mm", "a3": "297x420mm", "a5": "148x210mm", "letter": "8.5x11in", "legal": "8.5x14in"}
#: No lab and no home printer takes paper beyond these sides, in inches, and no print is made of dots beyond these.
_LEAST_SIDE, _LARGEST_SIDE = 2.0, 44.0
_LEAST_DPI, _LARGEST_DPI = 72, 1200
#: A lab that takes more of an edge prints another size than it says, in inches.
_LARGEST_TRIM = 0.5


@dataclass(frozen=True, slots=True)
class Lab:
    """What the lab prints on: width and height in micrometres, dots per inch, and what it may take at the left, top,
    right and bottom edge. `unit` is the one in which the person thinks."""

    width: int
    height: int
    dpi: int
    trim: tuple[int, int, int, int] = (0, 0, 0, 0)
    unit: Unit = "in"

    @property
    def pixels(self) -> tuple[int, int]:
        """Width and height of a print."""
        return in_pixels(self.width, self.dpi), in_pixels(self.height, self.dpi)


def lab_of(size: str, dpi: str, trim: str) -> Lab:
    """The lab of three settings that were checked."""
    told = parse_size(size)
    width, height = told.inches()
    edges = [micrometres(edge) for edge in _edges(trim)]
    left, top, right, bottom = edges
    return Lab(micrometres(width), micrometres(height), int(dpi), (left, top, right, bottom), told.unit)


def paper_of(text: str) -> tuple[int, int]:
    """Width and height of a checked `home.paper` in micrometres."""
    width, height = parse_size(text).inches()
    return micrometres(width), micrometres(height)


def check_size(text: str) -> str:
    """A lab's size in its one written form: 6x4in. Raises WordError."""
    return str(_paper(text, "print.size", "6x4in or 152x102mm"))


def check_home_paper(text: str) -> str:
    """A paper by name or size in its one written form: 210x297mm. Raises WordError."""
    named = PAPERS.get(text.strip().lower(), text)
    return str(_paper(named, "home.paper", "A4, letter, 210x297mm or 8.5x11in"))


def check_dpi(text: str) -> str:
    """Raises WordError."""
    number = text.strip()
    if not number.isdecimal() or len(number) > 5 or not _LEAST_DPI <= int(number) <= _LARGEST_DPI:
        raise WordError(f"print.dpi is a number from {_LEAST_DPI} to {_LARGEST_DPI}, not {text!r} (most labs: 300)")
    return str(int(number))


def check_trim(text: str) -> str:
    """One length for all edges, or four for left, top, right and bottom; in one written form. Raises WordError."""
    lengths = _edges(text)
    if max(lengths) > _LARGEST_TRIM:
        raise WordError(f"print.lab_trim is what a lab takes of an edge, at most {_LARGEST_TRIM:g} in, not {text!r}")
    unit: Unit = "mm" if re.search("mm|cm", text.lower()) else "in"
    words = [_length_text(length, unit) for length in lengths]
    return words[0] if len(set(words)) == 1 else " ".join(words)


def _paper(text: str, name: str, examples: str) -> Size:
    try:
        size = parse_size(text)
    except WordError as error:
        raise WordError(f"{name} is a size such as {examples}, not {text!r}") from error
    if not all(_LEAST_SIDE <= side <= _LARGEST_SIDE for side in size.inches()):
        raise WordError(f"{name} has sides from {_LEAST_SIDE:g} to {_LARGEST_SIDE:g} inches, not {text!r}")
    return size


def _edges(text: str) -> list[float]:
    """Left, top, right and bottom in inches. A comma parts lengths or is a decimal one: four parts are four edges. The
    one unit that is told holds for all."""
    parts = [part for part in re.split(r"[,;\s]+", re.sub(r"(?<=\d)\s+(?=in|mm|cm|\")", "", text.strip())) if part]
    if len(parts) != 4:
        return [_edge(text, text)] * 4
    units = {unit for part in parts for unit in re.findall(r"mm|cm|in|\"", part.lower())}
    unit = units.pop() if len(units) == 1 else ""
    if units and any(part[-1].isdecimal() for part in parts):
        raise _no_trim(text)  # a number among lengths of several units may mean either
    return [_edge(f"{part}{unit}" if part[-1].isdecimal() else part, text) for part in parts]


def _edge(part: str, whole: str) -> float:
    try:
        return parse_length(part)
    except WordError as error:
        raise _no_trim(whole) from error


def _no_trim(text: str) -> WordError:
    return WordError(
        f"print.lab_trim is one length for all edges, such as 1/16in, or four for left,top,right,bottom, such as"
        f" 2mm,1mm,2mm,1mm; not {text!r}"
    )


def _length_text(inches: float, unit: Unit) -> str:
    """So exact that what was told comes back as it was told; no micrometre is lost."""
    number = inches * MM_PER_INCH if unit == "mm" else inches
    return f"{round(number, 9):.12g}{unit}"
