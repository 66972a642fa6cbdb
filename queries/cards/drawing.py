"""A card as pixels."""

from functools import lru_cache

from PIL import Image, ImageDraw, ImageFont

from queries.cards.fonts import font_file, measure
from queries.cards.values import Card, CardLine, CardRule, Tone

#: sRGB. A warm near-black is kinder than black on a glossy print and still has a contrast of 12 to 1 on white.
COLOURS: dict[Tone, tuple[int, int, int]] = {"ink": (56, 49, 45), "soft": (178, 168, 160), "accent": (164, 84, 56)}
#: Letters are drawn at so many times their size and scaled down: smooth edges, and places exact to a part of a pixel.
_FINER = 4


def draw_card(card: Card, width: int, height: int) -> Image.Image:
    """The card in so many pixels, RGB (sRGB)."""
    image = Image.new("RGB", (width, height), "white")
    scale = width / card.width
    for rule in card.rules:
        _draw_rule(image, rule, scale)
    for line in card.lines:
        _draw_line(image, line, scale)
    return image


def _draw_rule(image: Image.Image, rule: CardRule, scale: float) -> None:
    top, left = round(rule.y * scale), round(rule.x * scale)
    thickness = max(1, round(rule.thickness * scale))
    right = round((rule.x + rule.length) * scale) - 1
    ImageDraw.Draw(image).rectangle((left, top, right, top + thickness - 1), fill=COLOURS[rule.tone])


def _draw_line(image: Image.Image, line: CardLine, scale: float) -> None:
    """Letter by letter, each at the place that its width in the font gives, so that lines end as they were measured
    whatever library for shaping text is at hand."""
    fine = scale * _FINER
    pixels = line.points * 25_400 / 72 * fine
    font = _font(line.bold, pixels)
    above = round(1.1 * pixels) // _FINER + 1
    left, top = int(line.x * scale) - 2, round(line.baseline * scale) - above
    strip = Image.new("L", ((image.width - left) * _FINER, round(1.6 * pixels) // _FINER * _FINER + _FINER), 0)
    pen = ImageDraw.Draw(strip)
    x = float(line.x)
    for sign in line.text:
        pen.text((round(x * fine) - left * _FINER, above * _FINER), sign, fill=255, font=font, anchor="ls")
        x += measure(sign, line.points, line.bold) + line.spread
    mask = strip.reduce(_FINER)
    image.paste(COLOURS[line.tone], (left, top), mask)


@lru_cache(maxsize=16)
def _font(bold: bool, pixels: float) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(font_file(bold)), pixels, layout_engine=ImageFont.Layout.BASIC)
