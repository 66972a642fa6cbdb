"""The ruler print: one print by which the person sees what the lab takes of each edge, and whether it enlarges.

At each edge stairs of short lines lead inward, each beside the number that is its distance from the edge of the file.
A line is drawn inward from that distance, so it is whole exactly when the lab took no more than its number says.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Literal

from PIL import Image, ImageDraw

from queries.cards.breaking import Word, break_lines, line_text
from queries.cards.drawing import draw_card
from queries.cards.fonts import measure
from queries.cards.values import UM_PER_POINT, Card, CardLine
from queries.lengths import UM_PER_INCH, UM_PER_MM, in_pixels

Edge = Literal["left", "top", "right", "bottom"]
Unit = Literal["in", "mm"]

EDGES: tuple[Edge, ...] = ("left", "top", "right", "bottom")
#: Steps of the stairs in micrometres (1/32 in is 793.75: doubled to stay whole) and how many there are.
_HALF_STEPS = {"in": UM_PER_INCH // 16, "mm": UM_PER_MM}
_STEPS = {"in": 12, "mm": 16}
_NUMBER_POINTS = 7.0
_CAPTION_POINTS = 9.0
_CAPTION = ("Three greys without a tint.", "If they look coloured, or differ", "next time, so will your photos.")
_PITCH = 3_400  # from one stair to the next along an edge, µm: a number in 7 points with air around it
_PITCH_ACROSS = 6_000  # and along the upper and lower edge, where numbers stand side by side
_STAIR = 2_600  # length of a stair's line
_DEEP = 16_000  # what the stairs and their numbers take at each edge, µm
#: Of the print's height: where the stairs at the sides have their middle, and where the line to measure lies.
_STAIRS_MIDDLE, _SCALE_Y = 0.42, 0.81
_TEXT_SIZES = (10.0, 9.0, 8.0, 7.0, 6.0)
_LEADING = 1.3
_GREYS = (64, 128, 192)
_PATCH = 9 * UM_PER_MM
_HALF_MARK = 2 * UM_PER_MM  # of the marks at the ends of the line that is to be measured


@dataclass(frozen=True, slots=True)
class Stair:
    """A line parallel to an edge: its number as typed, its distance from the edge, and where it lies in pixels (left,
    top, right, bottom; right and bottom not included)."""

    edge: Edge
    number: str
    distance: int
    box: tuple[int, int, int, int]


def ruler_print(width: int, height: int, dpi: int, unit: Unit) -> Image.Image:
    """The print in so many pixels, RGB (sRGB)."""
    size = width * UM_PER_INCH // dpi, height * UM_PER_INCH // dpi
    stairs = stairs_of(width, height, dpi, unit)
    length, told = scale_line(size[0], unit)
    lines, foot = _text(size, told, unit)
    numbers = [_number(stair, dpi) for stair in stairs]
    image = draw_card(Card(*size, 0, (*lines, *numbers, *_caption(size, foot))), width, height)
    pen = ImageDraw.Draw(image)
    for box in (*(stair.box for stair in stairs), *scale_boxes(width, height, dpi, length)):
        pen.rectangle((box[0], box[1], box[2] - 1, box[3] - 1), fill="black")
    for box, grey in _patches(size, foot):
        pen.rectangle([in_pixels(side, dpi) for side in box], fill=(grey, grey, grey))
    return image


def stairs_of(width: int, height: int, dpi: int, unit: Unit) -> tuple[Stair, ...]:
    """The lines at all four edges of a print in so many pixels, as many as there is room for."""
    return tuple(stair for edge in EDGES for stair in _stairs(edge, width, height, dpi, unit))


def scale_line(width: int, unit: Unit) -> tuple[int, str]:
    """The length of the line that is to be measured on a print of that width in micrometres, and how it is said."""
    if unit == "in":
        inches = max(1, (width - UM_PER_INCH) // UM_PER_INCH)
        return inches * UM_PER_INCH, f"{inches} in"
    centimetres = min(10, max(2, (width - UM_PER_INCH) // (10 * UM_PER_MM)))
    return centimetres * 10 * UM_PER_MM, f"{centimetres * 10} mm"


def scale_boxes(width: int, height: int, dpi: int, length: int) -> tuple[tuple[int, int, int, int], ...]:
    """The line and its two end marks in pixels; the marks' left sides are `length` apart."""
    long, thick = in_pixels(length, dpi), _thick(dpi)
    left, middle, half = (width - long) // 2, _scale_y(height), in_pixels(_HALF_MARK, dpi)
    return (
        (left, middle, left + long, middle + thick),
        (left, middle - half, left + thick, middle + half),
        (left + long, middle - half, left + long + thick, middle + half),
    )


def _stairs(edge: Edge, width: int, height: int, dpi: int, unit: Unit) -> Iterator[Stair]:
    is_side = edge in ("left", "right")
    pitch = in_pixels(_PITCH if is_side else _PITCH_ACROSS, dpi)
    side = height if is_side else width
    middle = round(side * _STAIRS_MIDDLE) if is_side else side // 2
    steps = min(_STEPS[unit], 2 * (middle - in_pixels(_DEEP // 2, dpi)) // pitch - 1)
    start = middle - (steps + 1) * pitch // 2
    for step in range(steps + 1):
        distance = _HALF_STEPS[unit] * step // 2
        inward, along = in_pixels(distance, dpi), start + step * pitch
        box = _box(edge, inward, (along, along + in_pixels(_STAIR, dpi)), _thick(dpi), width, height)
        yield Stair(edge, _said(step, unit), distance, box)


def _box(
    edge: Edge, inward: int, along: tuple[int, int], thick: int, width: int, height: int
) -> tuple[int, int, int, int]:
    start, end = along
    if edge == "left":
        return inward, start, inward + thick, end
    if edge == "right":
        return width - inward - thick, start, width - inward, end
    if edge == "top":
        return start, inward, end, inward + thick
    return start, height - inward - thick, end, height - inward


def _said(step: int, unit: Unit) -> str:
    """A stair's number as it is typed: 3/32 or 2.5."""
    return str(Fraction(step, 32)) if unit == "in" else f"{step / 2:g}"


def _number(stair: Stair, dpi: int) -> CardLine:
    """The number on the inner side of its line."""
    left, top, right, bottom = (side * UM_PER_INCH / dpi for side in stair.box)
    wide, tall, air = measure(stair.number, _NUMBER_POINTS, False), _NUMBER_POINTS * 0.65 * UM_PER_POINT, 700
    x = {"left": right + air, "right": left - air - wide}.get(stair.edge, (left + right - wide) / 2)
    baseline = {"top": bottom + air + tall, "bottom": top - air}.get(stair.edge, (top + bottom + tall) / 2)
    return CardLine(stair.number, round(x), round(baseline), _NUMBER_POINTS)


def _text(size: tuple[int, int], told: str, unit: Unit) -> tuple[list[CardLine], int]:
    """What to do, as large as there is room for above the line, and where the text ends. A paper without room for words
    gets none."""
    room, bottom = size[0] - 2 * _DEEP, _scale_y(size[1]) - 2 * _HALF_MARK
    for points in _TEXT_SIZES:
        leading = points * _LEADING * UM_PER_POINT
        lines, top = [], float(_DEEP)
        for paragraph, bold in _words(told, unit):
            for text in _broken(paragraph, points, bold, room):
                lines.append(CardLine(text, _DEEP, round(top + 0.8 * leading), points, bold))
                top += leading
            top += 0.4 * leading
        if top <= bottom:
            return lines, round(top)
    return [], _DEEP


def _words(told: str, unit: Unit) -> list[tuple[str, bool]]:
    """Paragraphs, and which stand out."""
    example = "1/16in,1/32in,1/16in,1/32in" if unit == "in" else "2mm,1.5mm,2mm,1.5mm"
    reading = (
        "Hold this print so that you can read it. At each edge, find the outermost line that you can still see and note"
        " its number. Then type the numbers for left, top, right and bottom, like this:"
    )
    measuring = (
        f"The line below is {told} long. If you measure more, the lab enlarges: order at true size, without borderless"
        " enlargement, and order this print again."
    )
    return [(reading, False), (f"weeksheaf settings print.lab_trim {example}", True), (measuring, False)]


def _broken(text: str, points: float, bold: bool, width: int) -> list[str]:
    lines = break_lines([Word(part) for part in text.split()], width, partial(measure, points=points, bold=bold))
    return [line_text(line) for line in lines]


def _patches(size: tuple[int, int], foot: int) -> Iterator[tuple[tuple[int, int, int, int], int]]:
    """Grey patches below the text, where there is room: two orders that differ in them came out differently."""
    step = _PATCH + 2 * UM_PER_MM
    if foot + _PATCH > _scale_y(size[1]) - 2 * _HALF_MARK or len(_GREYS) * step > size[0] - 2 * _DEEP:
        return
    for place, grey in enumerate(_GREYS):
        left = _DEEP + place * step
        yield (left, foot, left + _PATCH, foot + _PATCH), grey


def _caption(size: tuple[int, int], foot: int) -> Iterator[CardLine]:
    """What the patches are for, beside them where there is room."""
    right = max((box[2] for box, _ in _patches(size, foot)), default=size[0]) + 3 * UM_PER_MM
    leading = _CAPTION_POINTS * _LEADING * UM_PER_POINT
    for place, text in enumerate(_CAPTION):
        if right + measure(text, _CAPTION_POINTS, False) <= size[0] - _DEEP:
            yield CardLine(text, right, round(foot + (place + 1) * leading), _CAPTION_POINTS)


def _scale_y(height: int) -> int:
    return round(height * _SCALE_Y)


def _thick(dpi: int) -> int:
    return max(1, dpi // 150)
