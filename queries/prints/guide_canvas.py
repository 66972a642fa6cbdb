"""Pages to draw on, in micrometres from the left upper corner, and the few marks that the cutting guide is made of."""

import io
from collections.abc import Sequence
from dataclasses import dataclass, field

from PIL import Image
from reportlab.lib.utils import ImageReader, simpleSplit
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from queries.cards.fonts import pdf_font
from queries.cards.values import UM_PER_POINT
from queries.cutting.values import Rect

INK, GREY, LIGHT, CUT = "#222222", "#6b6b6b", "#c9c5bd", "#b3261e"

#: From the base line of one line of text to that of the next, in times of the letters' size.
LEADING = 1.36
_HATCH_STEP = 2_200
_JPEG_QUALITY = 80


@dataclass(slots=True)
class Pages:
    """A PDF in the making. Sizes of letters are points, all other lengths µm. The same drawing gives the same bytes."""

    width: int
    height: int
    title: str
    buffer: io.BytesIO = field(default_factory=io.BytesIO)
    canvas: Canvas = field(init=False)

    def __post_init__(self) -> None:
        for bold in (False, True):
            pdfmetrics.registerFont(pdf_font(bold))
        size = (self.width / UM_PER_POINT, self.height / UM_PER_POINT)
        self.canvas = Canvas(self.buffer, pagesize=size, invariant=1, pageCompression=1)
        self.canvas.setTitle(self.title)

    def done(self) -> bytes:
        self.canvas.save()
        return self.buffer.getvalue()

    def turn_page(self) -> None:
        self.canvas.showPage()

    def write(
        self, x: float, y: float, text: str, points: float, *, bold: bool = False, colour: str = INK, anchor: str = "l"
    ) -> None:
        """One line of text with its base line at y; `anchor` l, m or r says which end of it stands at x."""
        self.canvas.setFillColor(colour)
        self.canvas.setFont(_font(bold), points)
        draw = {"l": self.canvas.drawString, "m": self.canvas.drawCentredString, "r": self.canvas.drawRightString}
        draw[anchor](*self._at(x, y), text)

    def line(self, x0: float, y0: float, x1: float, y1: float, points: float, colour: str = INK) -> None:
        self.canvas.setStrokeColor(colour)
        self.canvas.setLineWidth(points)
        self.canvas.line(*self._at(x0, y0), *self._at(x1, y1))

    def frame(self, box: Rect, points: float, colour: str = INK) -> None:
        self.canvas.setStrokeColor(colour)
        self.canvas.setLineWidth(points)
        self.canvas.rect(*self._box(box), stroke=1, fill=0)

    def plate(self, box: Rect, corner: float, opacity: float = 1.0, rim: str | None = None) -> None:
        """A white field with round corners, and a fine line of the colour `rim` around it."""
        self.canvas.saveState()
        self.canvas.setFillColor("white", alpha=opacity)
        if rim:
            self.canvas.setStrokeColor(rim)
            self.canvas.setLineWidth(0.4)
        self.canvas.roundRect(*self._box(box), corner / UM_PER_POINT, stroke=int(rim is not None), fill=1)
        self.canvas.restoreState()

    def disc(self, x: float, y: float, radius: float, text: str, points: float) -> None:
        self.canvas.setFillColor(CUT)
        self.canvas.circle(*self._at(x, y), radius / UM_PER_POINT, stroke=0, fill=1)
        self.write(x, y + 0.36 * points * UM_PER_POINT, text, points, bold=True, colour="#ffffff", anchor="m")

    def hatch(self, box: Rect) -> None:
        """White with fine lines: paper that is thrown away."""
        self.canvas.saveState()
        outline = self.canvas.beginPath()
        outline.rect(*self._box(box))
        self.canvas.clipPath(outline, stroke=0, fill=0)
        self.plate(box, 0)
        for start in range(box.x - box.height, box.right, _HATCH_STEP):
            first = -(-start // _HATCH_STEP) * _HATCH_STEP
            self.line(first, box.bottom, first + box.height, box.y, 0.35, LIGHT)
        self.canvas.restoreState()

    def picture(self, picture: bytes, box: Rect, share: float) -> None:
        """A picture, of which only so large a share shows through white."""
        with Image.open(io.BytesIO(picture)) as opened:
            rgb = opened.convert("RGB")
        pale = Image.blend(Image.new("RGB", rgb.size, "white"), rgb, share)
        jpeg = io.BytesIO()
        pale.save(jpeg, "JPEG", quality=_JPEG_QUALITY)
        self.canvas.drawImage(ImageReader(jpeg), *self._box(box))

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x / UM_PER_POINT, (self.height - y) / UM_PER_POINT

    def _box(self, box: Rect) -> tuple[float, float, float, float]:
        return (*self._at(box.x, box.bottom), box.width / UM_PER_POINT, box.height / UM_PER_POINT)


def wrapped(text: str, points: float, width: int, *, bold: bool = False) -> Sequence[str]:
    """The text in lines that are no wider than `width` µm."""
    if _font(bold) not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(pdf_font(bold))
    lines: list[str] = simpleSplit(text, _font(bold), points, width / UM_PER_POINT)
    return lines


def text_width(text: str, points: float, *, bold: bool = False) -> float:
    return float(pdf_font(bold).stringWidth(text, points)) * UM_PER_POINT


def line_height(points: float) -> int:
    return round(points * LEADING * UM_PER_POINT)


def _font(bold: bool) -> str:
    return str(pdf_font(bold).fontName)
