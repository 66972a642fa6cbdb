"""A drawing in inches: filled boxes, photos with round corners, dashed frames, small text."""

from dataclasses import dataclass, field, replace
from math import ceil

from PIL import Image, ImageColor, ImageDraw, ImageFont

from queries.sleeves.values import Box

TABLE, POCKET, PAPER = "#ece9e2", "#f7f5f0", "#e3dccd"
INK, GREY, PALE, LINE = "#2b2b2b", "#77736b", "#dcdad5", "#c9c4ba"
CARDS = ("#dfe8e4", "#f1e3d3", "#e4e1ee", "#e9ecd6")
#: The edges of round corners are drawn so many times finer and then averaged.
_FINER = 4


@dataclass(frozen=True, slots=True)
class Paper:
    """A picture that is drawn on in inches; `x` and `y` are where its own zero lies."""

    width: float
    height: float
    dpi: int
    x: float = 0.0
    y: float = 0.0
    image: Image.Image = field(default_factory=lambda: Image.new("RGB", (1, 1)))

    def __post_init__(self) -> None:
        if self.image.size == (1, 1):
            size = ceil(self.width * self.dpi), ceil(self.height * self.dpi)
            object.__setattr__(self, "image", Image.new("RGB", size, TABLE))

    def at(self, x: float, y: float) -> "Paper":
        """The same picture, measured from another corner."""
        return replace(self, x=x, y=y)

    def fill(self, box: Box, colour: str, corner: float = 0.0) -> None:
        """A box of one colour, its corners of this radius."""
        left, top, right, bottom = self._pixels(box)
        self.image.paste(colour, (left, top), _mask(right - left, bottom - top, corner * self.dpi))

    def paste(self, box: Box, picture: Image.Image | None, corner: float = 0.0) -> None:
        """A picture stretched to the box; grey where there is none."""
        left, top, right, bottom = self._pixels(box)
        size = right - left, bottom - top
        shown = picture.resize(size, Image.Resampling.LANCZOS) if picture else Image.new("RGB", size, PALE)
        self.image.paste(shown, (left, top), _mask(*size, corner * self.dpi))

    def outline(self, box: Box) -> None:
        """The seam of a pocket: a fine line with white on its inner side, so that neighbours stand apart."""
        left, top, right, bottom = self._pixels(box)
        pen = ImageDraw.Draw(self.image)
        pen.rectangle((left, top, right, bottom), outline=LINE)
        pen.rectangle((left + 1, top + 1, right - 1, bottom - 1), outline="white", width=2)

    def dashed(self, box: Box) -> None:
        """A dashed frame."""
        left, top, right, bottom = self._pixels(box)
        pen = ImageDraw.Draw(self.image)
        for x in range(left, right, 10):
            for y in (top, bottom):
                pen.line((x, y, min(x + 5, right), y), fill=LINE)
        for y in range(top, bottom, 10):
            for x in (left, right):
                pen.line((x, y, x, min(y + 5, bottom)), fill=LINE)

    def write(self, x: float, y: float, text: str, size: float, colour: str, anchor: str) -> None:
        """Text of this height in inches, in the free font that comes with Pillow."""
        place = round((self.x + x) * self.dpi), round((self.y + y) * self.dpi)
        font = ImageFont.load_default(max(8.0, size * self.dpi))
        ImageDraw.Draw(self.image).text(place, text, fill=colour, font=font, anchor=anchor)

    def tag(self, box: Box, text: str, *, at_foot: bool = False) -> None:
        """A small pale label in the box's left upper corner, or its left lower one."""
        left, top, _, bottom = self._pixels(box)
        font = ImageFont.load_default(max(8.0, 0.15 * self.dpi))
        wide, high = round(font.getlength(text)) + 8, round(0.22 * self.dpi)
        start = bottom - high - 5 if at_foot else top + 5
        self.image.paste("white", (left + 5, start), _mask(wide, high, 3).point(lambda share: share * 13 // 16))
        pen = ImageDraw.Draw(self.image)
        pen.text((left + 9, start + high / 2), text, fill=INK, font=font, anchor="lm")

    def _pixels(self, box: Box) -> tuple[int, int, int, int]:
        left, right = (round((self.x + x) * self.dpi) for x in (box.x, box.x + box.width))
        top, bottom = (round((self.y + y) * self.dpi) for y in (box.y, box.y + box.height))
        return left, top, max(right, left + 1), max(bottom, top + 1)


def colour_of(name: str) -> str:
    """A colour as CSS writes it; white where it is none."""
    try:
        ImageColor.getrgb(name)
    except ValueError:
        return "white"
    return name


def _mask(width: int, height: int, corner: float) -> Image.Image:
    """Where a box with round corners covers, 0..255."""
    if corner < 0.5:
        return Image.new("L", (width, height), 255)
    fine = Image.new("L", (width * _FINER, height * _FINER), 0)
    box = (0, 0, fine.width - 1, fine.height - 1)
    ImageDraw.Draw(fine).rounded_rectangle(box, min(corner * _FINER, *(side / 2 for side in fine.size)), fill=255)
    return fine.resize((width, height), Image.Resampling.BOX)
