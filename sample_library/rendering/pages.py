"""Screens as somebody kept them: a ferry timetable, a recipe, the weather, a tram map; of no real program."""

import math
from collections.abc import Sequence

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from .colour import Colour, tone, tones

#: Drawn at twice the size, then brought down.
_FINER = 2


class Page:
    """A flat page with a few plain marks: boxes, discs, lines, figures and bars that stand for words."""

    def __init__(self, width: int, height: int, paper: str) -> None:
        self.size = (width, height)
        self.image = Image.new("RGB", (width * _FINER, height * _FINER), _bytes(tone(paper)))
        self.pen = ImageDraw.Draw(self.image)

    def box(self, left: float, top: float, right: float, bottom: float, colour: str, radius: float = 0.0) -> None:
        corners = [value * _FINER for value in (left, top, right, bottom)]
        self.pen.rounded_rectangle(corners, radius * _FINER, fill=_bytes(tone(colour)))

    def disc(self, x: float, y: float, radius: float, colour: str) -> None:
        self.pen.ellipse(
            [value * _FINER for value in (x - radius, y - radius, x + radius, y + radius)], fill=_bytes(tone(colour))
        )

    def line(self, corners: Sequence[tuple[float, float]], width: float, colour: str) -> None:
        path = [(x * _FINER, y * _FINER) for x, y in corners]
        self.pen.line(path, fill=_bytes(tone(colour)), width=round(width * _FINER), joint="curve")

    def figures(self, x: float, y: float, text: str, size: float, colour: str) -> None:
        """Digits and signs, centred on x, y."""
        font = ImageFont.load_default(size * _FINER)
        self.pen.text((x * _FINER, y * _FINER), text, fill=_bytes(tone(colour)), font=font, anchor="mm")

    def words(self, x: float, y: float, widths: list[float], colour: str, high: float = 12.0) -> None:
        """Bars in place of words."""
        for width in widths:
            self.box(x, y, x + width, y + high, colour, high / 2)
            x += width + high * 0.8

    def finished(self) -> Image.Image:
        return self.image.resize(self.size, Image.Resampling.LANCZOS)


def _bytes(colour: Colour) -> tuple[int, int, int]:
    return round(colour[0] * 255), round(colour[1] * 255), round(colour[2] * 255)


def _status(page: Page, clock: str, ink: str) -> None:
    page.figures(58, 26, clock, 20, ink)
    page.box(page.size[0] - 66, 17, page.size[0] - 28, 35, ink, 4)
    for number in range(4):
        page.box(page.size[0] - 130 + 13 * number, 33 - 5 * number, page.size[0] - 122 + 13 * number, 35, ink, 1)


def timetable() -> Image.Image:
    page = Page(720, 1440, "f2f5f7")
    page.box(0, 0, 720, 250, "1f4e66")
    _status(page, "20:45", "ffffff")
    page.words(48, 92, [150, 96], "ffffff", 24)
    page.line([(48, 196), (300, 196)], 6, "8fc3d6")
    page.line([(330, 180), (352, 196), (330, 212)], 6, "8fc3d6")
    page.words(380, 186, [120, 60], "d5e8ef", 20)
    times = [(hour, minute) for hour in range(6, 21, 2) for minute in (40,)]
    for row, (hour, minute) in enumerate(times):
        top = 290 + row * 134
        page.box(32, top, 688, top + 116, "ffffff", 18)
        page.figures(112, top + 44, f"{hour:02d}:{minute}", 34, "16303f")
        page.figures(112, top + 86, f"{hour + 1:02d}:25", 22, "6f8794")
        page.line([(200, top + 58), (430, top + 58)], 4, "b9cdd6")
        page.disc(200, top + 58, 9, "2c7d9c")
        page.disc(430, top + 58, 9, "e0803c")
        page.words(460, top + 34, [90, 60], "93a8b3", 14)
        page.words(460, top + 66, [50, 80], "c7d4da", 14)
        if row == 3:
            page.box(620, top + 40, 668, top + 76, "f4d9c2", 18)
    return page.finished()


def recipe() -> Image.Image:
    page = Page(720, 1440, "fbf7f0")
    _status(page, "17:10", "4a3a30")
    page.box(32, 64, 688, 470, "e9b872", 28)
    page.disc(360, 268, 150, "f7efe2")
    page.disc(360, 268, 122, "d9772b")
    for number in range(26):
        angle = number * 2.4
        reach = 110 * math.sqrt(number / 26)
        page.disc(
            360 + reach * math.cos(angle),
            268 + reach * math.sin(angle),
            6 + number % 3,
            "5c8c3c" if number % 2 else "f7e0b4",
        )
    page.words(48, 520, [230, 130], "4a3a30", 30)
    for number, share in enumerate(("2", "40", "4")):
        page.box(48 + number * 214, 590, 244 + number * 214, 690, "f1e4d0", 16)
        page.figures(146 + number * 214, 630, share, 34, "b4591f")
        page.words(100 + number * 214, 660, [92], "c9ad8c", 12)
    for row in range(6):
        top = 740 + row * 54
        page.box(48, top, 76, top + 28, "b4591f" if row < 2 else "ffffff", 6)
        page.line([(48, top), (76, top), (76, top + 28), (48, top + 28), (48, top)], 3, "b4591f")
        page.words(100, top + 7, [90 + 37 * (row % 3), 120, 60 + 20 * (row % 2)], "8c7868", 14)
    for row in range(9):
        page.words(48, 1092 + row * 36, [140, 90 + 30 * (row % 4), 180 - 20 * (row % 3), 70], "d8c9b6", 13)
    return page.finished()


def weather() -> Image.Image:
    page = Page(1280, 800, "dbe8f2")
    for row in range(400):
        shade = tuple(round(a + (b - a) * row / 400) for a, b in zip((124, 160, 200), (219, 232, 242), strict=True))
        page.pen.line([(0, row * 4 // 2), (2560, row * 4 // 2)], fill=shade, width=3)
    page.disc(300, 250, 92, "fbe3a0")
    for x, y, radius in ((250, 300, 60), (330, 280, 80), (410, 306, 62), (330, 324, 60)):
        page.disc(x, y, radius, "f7fafc")
    page.box(210, 300, 460, 366, "f7fafc", 33)
    page.figures(640, 260, "-2°", 150, "ffffff")
    page.words(800, 220, [180, 110], "eef4f8", 22)
    page.words(800, 268, [120, 150], "c9dbe8", 18)
    page.box(60, 450, 1220, 750, "eef4f8", 26)
    line = [(120 + 160 * n, 600 + y) for n, y in enumerate((10, 24, 42, 30, -6, -28, -12))]
    page.line(line, 5, "e0803c")
    for number, (x, y) in enumerate(line):
        page.disc(x, y, 9, "e0803c")
        page.figures(x, y - 34, f"{(-2, -3, -4, -3, 0, 2, 1)[number]}°", 26, "34546c")
        page.words(x - 34, 690, [68], "a9c0d0", 14)
        page.disc(x, 496, 17, "f4c95c" if number in (3, 4, 5) else "b9cbd8")
    return page.finished()


def tram_map() -> Image.Image:
    page = Page(720, 1440, "f4f1ea")
    page.box(0, 0, 720, 1440, "f4f1ea")
    water = [(0, 1010), (180, 960), (330, 1040), (520, 980), (720, 1060), (720, 1440), (0, 1440)]
    page.pen.polygon([(x * _FINER, y * _FINER) for x, y in water], fill=_bytes(tone("b5d5e2")))
    for number, colour in enumerate(("dfe8d2", "e6e0d4", "dfe8d2")):
        page.box(60 + 220 * number, 260 + 150 * (number % 2), 230 + 220 * number, 480 + 150 * (number % 2), colour, 22)
    routes = (
        ("c8443c", [(70, 240), (210, 380), (360, 380), (500, 540), (500, 900), (640, 1000)]),
        ("2c7c9c", [(650, 220), (500, 380), (360, 540), (210, 700), (210, 940)]),
        ("e0a034", [(60, 700), (360, 700), (640, 700)]),
    )
    for colour, path in routes:
        page.line([(float(x), float(y)) for x, y in path], 14, colour)
        for x, y in path:
            page.disc(x, y, 15, "ffffff")
            page.disc(x, y, 9, colour)
            page.words(x + 24, y - 26, [70 + x % 40], "7d766a", 11)
    page.box(0, 0, 720, 150, "ffffff")
    _status(page, "08:09", "3a3a3a")
    page.box(36, 64, 684, 124, "ece8df", 30)
    page.words(76, 86, [190, 80], "a39c90", 16)
    page.box(36, 1230, 684, 1400, "ffffff", 26)
    page.disc(96, 1315, 30, "c8443c")
    page.figures(96, 1315, "4", 30, "ffffff")
    page.words(150, 1290, [220, 90], "55504a", 18)
    page.words(150, 1328, [120], "b8b1a6", 14)
    page.figures(610, 1315, "08:14", 30, "2f2f2f")
    return page.finished()


def drawing() -> Image.Image:
    """A child's drawing in crayon: the house, the sun, the boat, the cat."""
    dice = np.random.default_rng(7)
    width, height = 640, 460
    image = Image.new("RGB", (width * 2, height * 2), (250, 248, 240))
    pen = ImageDraw.Draw(image)

    def crayon(corners: list[tuple[float, float]], colour: str, thick: int = 9) -> None:
        for _ in range(3):
            wobble = [(x * 2 + dice.normal() * 3, y * 2 + dice.normal() * 3) for x, y in corners]
            pen.line(wobble, fill=_bytes(tone(colour)), width=thick, joint="curve")

    def scribble(left: float, top: float, right: float, bottom: float, colour: str) -> None:
        rows = np.arange(top, bottom, 5)
        crayon([(left if n % 2 else right, y) for n, y in enumerate(rows)], colour, 7)

    scribble(0, 330, 640, 450, "5c9ccc")
    scribble(0, 290, 330, 335, "6cac4c")
    scribble(90, 170, 230, 290, "e8c454")
    crayon([(90, 290), (90, 170), (230, 170), (230, 290)], "7c4c2c")
    crayon([(75, 172), (160, 90), (245, 172), (75, 172)], "c83c34", 12)
    for x in (112, 180):
        crayon([(x, 195), (x + 30, 195), (x + 30, 225), (x, 225), (x, 195)], "3c6cac")
    crayon([(148, 290), (148, 245), (172, 245), (172, 290)], "7c4c2c")
    crayon([(540 + 44 * math.cos(a), 80 + 44 * math.sin(a)) for a in np.linspace(0, 6.5, 24)], "f0b428", 14)
    for angle in np.linspace(0, 6.28, 11):
        crayon(
            [
                (540 + 58 * math.cos(angle), 80 + 58 * math.sin(angle)),
                (540 + 88 * math.cos(angle), 80 + 88 * math.sin(angle)),
            ],
            "f0b428",
        )
    crayon([(380, 350), (560, 350), (530, 395), (410, 395), (380, 350)], "c83c34", 12)
    crayon([(470, 350), (470, 200), (550, 330), (470, 335)], "8c4c9c", 10)
    crayon([(290 + 26 * math.cos(a), 262 + 22 * math.sin(a)) for a in np.linspace(0, 6.4, 18)], "4c4c4c")
    crayon([(268, 250), (272, 226), (284, 242)], "4c4c4c")
    crayon([(298, 242), (310, 226), (314, 250)], "4c4c4c")
    crayon([(316, 268), (344, 250), (350, 226)], "4c4c4c")
    for tint, x in zip(tones("d0409c e87830"), (40, 350), strict=True):
        pen.ellipse((x * 2, 540, x * 2 + 40, 580), fill=_bytes(tint))
    return image.resize((width, height), Image.Resampling.LANCZOS)
