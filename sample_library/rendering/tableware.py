"""Things that stand on tables and sills, seen from the side."""

import math

import numpy as np

from .canvas import Canvas, Paint
from .colour import Colour, mix, shade, tone, tones
from .outlines import box, ellipse, points, ribbon, rounded, smooth, turned
from .paint import round_about, sideways, upright
from .plants import sprig


def _round_light(x: float, half: float, colour: Colour) -> Paint:
    return sideways(x - half, x + half, [shade(colour, 0.9), shade(colour, 1.22), colour, shade(colour, 0.55)])


def contact(canvas: Canvas, x: float, foot: float, half: float, strength: float = 0.5) -> None:
    """The dark place where a thing touches the table."""
    canvas.shadow(ellipse(x + half * 0.12, foot, half * 1.25, half * 0.2), strength, half * 0.14, (0.08, 0.05, 0.06))


def mug(
    canvas: Canvas, x: float, foot: float, size: float, colour: Colour, mirror: bool = False, steam: float | None = None
) -> None:
    """A mug `size` high; `steam` is the time in seconds for the curl above it."""
    half, side = size * 0.4, -1 if mirror else 1
    contact(canvas, x, foot, half)
    handle = smooth(
        [
            (x + side * half * 0.85, foot - size * 0.75),
            (x + side * half * 1.75, foot - size * 0.72),
            (x + side * half * 1.7, foot - size * 0.3),
            (x + side * half * 0.85, foot - size * 0.22),
        ],
        False,
        8,
    )
    canvas.shape(ribbon(handle, size * 0.11), shade(colour, 0.7))
    body = np.concatenate(
        [
            points((x - half, foot - size), (x - half * 0.92, foot - size * 0.06)),
            ellipse(x, foot - size * 0.05, half * 0.92, size * 0.07, count=40)[19::-1],
            points((x + half, foot - size)),
        ]
    )
    canvas.shape(body, _round_light(x, half, colour))
    canvas.shape(ellipse(x, foot - size, half, size * 0.1), shade(colour, 1.1))
    canvas.shape(ellipse(x, foot - size * 0.985, half * 0.88, size * 0.075), tone("4c2c1c"))
    if steam is not None:
        vapour(canvas, x, foot - size, size, steam)


def vapour(canvas: Canvas, x: float, y: float, size: float, time: float) -> None:
    """Two curls of steam."""
    t = np.linspace(0, 1, 24)
    for phase, aside in ((0.0, -0.1), (2.4, 0.12)):
        wave = np.sin(t * 6 - time * 2 + phase) * size * 0.14 * t
        path = np.stack([x + aside * size + wave, y - t * size * 1.5], 1)
        canvas.shape(ribbon(path, size * (0.05 + 0.14 * t * (1 - t) * 3)), (1.0, 1.0, 1.0), 0.17, size * 0.07)


def teapot(canvas: Canvas, x: float, foot: float, size: float, colour: Colour, mirror: bool = False) -> None:
    side = -1 if mirror else 1
    contact(canvas, x, foot, size * 0.55)
    spout = smooth(
        [
            (x + side * size * 0.4, foot - size * 0.3),
            (x + side * size * 0.7, foot - size * 0.45),
            (x + side * size * 0.82, foot - size * 0.78),
        ],
        False,
        6,
    )
    canvas.shape(ribbon(spout, np.linspace(size * 0.2, size * 0.09, len(spout))), shade(colour, 0.78))
    handle = smooth(
        [
            (x - side * size * 0.42, foot - size * 0.68),
            (x - side * size * 0.85, foot - size * 0.66),
            (x - side * size * 0.78, foot - size * 0.28),
            (x - side * size * 0.48, foot - size * 0.22),
        ],
        False,
        8,
    )
    canvas.shape(ribbon(handle, size * 0.08), shade(colour, 0.66))
    body = smooth(
        [
            (x - size * 0.3, foot),
            (x - size * 0.56, foot - size * 0.36),
            (x - size * 0.4, foot - size * 0.72),
            (x, foot - size * 0.84),
            (x + size * 0.4, foot - size * 0.72),
            (x + size * 0.56, foot - size * 0.36),
            (x + size * 0.3, foot),
        ],
        True,
        8,
    )
    canvas.shape(
        body,
        round_about(x - size * 0.2, foot - size * 0.55, size * 0.85, [shade(colour, 1.3), colour, shade(colour, 0.5)]),
    )
    canvas.shape(ellipse(x, foot - size * 0.8, size * 0.26, size * 0.07), shade(colour, 1.1))
    canvas.shape(ellipse(x, foot - size * 0.89, size * 0.07, size * 0.06), shade(colour, 0.95))


def fruit_bowl(canvas: Canvas, x: float, foot: float, size: float, colour: Colour, dice: np.random.Generator) -> None:
    """A bowl heaped with fruit; `size` is its width."""
    rim = foot - size * 0.34
    contact(canvas, x, foot, size * 0.3)
    skins = tones("d8402c e8902c f0c840 9cb040 c83440 e8a038")
    for row, count in ((0, 5), (1, 4), (2, 2)):
        for number in range(count):
            fx = x + (number - (count - 1) / 2) * size * 0.185
            fy = rim - size * (0.04 + 0.1 * row) - size * 0.03 * (1 - abs(number - (count - 1) / 2) / 3)
            apple(canvas, fx, fy, size * 0.115, skins[int(dice.integers(len(skins)))])
    body = smooth(
        [
            (x - size * 0.5, rim),
            (x - size * 0.4, foot - size * 0.13),
            (x - size * 0.2, foot),
            (x + size * 0.2, foot),
            (x + size * 0.4, foot - size * 0.13),
            (x + size * 0.5, rim),
            (x, rim + size * 0.05),
        ],
        True,
        8,
    )
    canvas.shape(body, _round_light(x, size * 0.5, colour))
    band = smooth(
        [
            (x - size * 0.46, foot - size * 0.22),
            (x, foot - size * 0.17),
            (x + size * 0.46, foot - size * 0.22),
            (x + size * 0.445, foot - size * 0.18),
            (x, foot - size * 0.13),
            (x - size * 0.445, foot - size * 0.18),
        ],
        True,
        8,
    )
    canvas.shape(band, mix(colour, (1, 1, 1), 0.5), 0.6)


def apple(canvas: Canvas, x: float, y: float, radius: float, skin: Colour) -> None:
    canvas.shape(
        ellipse(x, y, radius, radius * 0.96),
        round_about(
            x - radius * 0.35, y - radius * 0.4, radius * 1.5, [mix(skin, (1, 1, 0.9), 0.45), skin, shade(skin, 0.45)]
        ),
    )


def candle(
    canvas: Canvas, x: float, foot: float, height: float, wax: Colour, flame: float | None = 0.0, width: float = 0.28
) -> None:
    """A candle; `flame` is the time in seconds for its flicker, None when it is out."""
    half = height * width / 2
    canvas.shape(
        rounded(x - half, foot - height, x + half, foot, half * 0.3),
        sideways(x - half, x + half, [shade(wax, 0.85), shade(wax, 1.15), shade(wax, 0.7)]),
    )
    canvas.shape(ellipse(x, foot - height, half, half * 0.28), shade(wax, 1.15))
    canvas.lines(
        [points((x, foot - height), (x, foot - height - half * 0.8))], max(1.0, half * 0.16), (0.15, 0.1, 0.08)
    )
    if flame is not None:
        flicker(canvas, x, foot - height - half * 0.5, half * 1.5 + height * 0.08, flame + x * 0.013)


def flicker(canvas: Canvas, x: float, y: float, size: float, time: float) -> None:
    """A candle flame standing on y, with its light."""
    sway = math.sin(time * 5) * 0.12 + math.sin(time * 13) * 0.06
    canvas.glow(x, y - size * 0.6, size * 6, (1.0, 0.62, 0.26), 0.34)
    canvas.glow(x, y - size * 0.6, size * 2.2, (1.0, 0.75, 0.38), 0.6)
    body = smooth(
        [
            (x, y),
            (x - size * 0.27, y - size * 0.4),
            (x + sway * size * 0.4, y - size * 1.35),
            (x + size * 0.27, y - size * 0.4),
        ],
        True,
        8,
    )
    canvas.shape(
        body, upright(y - size * 1.3, y, [(1.0, 0.76, 0.3), (1.0, 0.93, 0.65), (0.95, 0.75, 0.45)]), 1.0, size * 0.04
    )


def vase(
    canvas: Canvas, x: float, foot: float, size: float, colour: Colour, flowers: list[Colour], dice: np.random.Generator
) -> None:
    """A vase with tulips or twigs; `size` is the height of the vase."""
    for number in range(7):
        lean = (number - 3) * 0.2 + dice.normal() * 0.05
        top = (x + lean * size * 1.3, foot - size * (1.75 + 0.3 * dice.random() - 0.25 * abs(lean)))
        stem = smooth(
            [(x + lean * size * 0.1, foot - size * 0.8), (x + lean * size * 0.6, foot - size * 1.3), top], False, 8
        )
        canvas.shape(ribbon(stem, size * 0.03), tone("5c8448"))
        leaf = smooth(
            [
                (x + lean * size * 0.2, foot - size * 0.9),
                (x + lean * size * 1.3 - size * 0.04, foot - size * 1.15),
                (x + lean * size * 1.9, foot - size * 1.42),
                (x + lean * size * 1.1, foot - size * 1.28),
            ],
            True,
            6,
        )
        canvas.shape(leaf, shade(tone("6c9c54"), 1.1 - 0.35 * (number % 2)))
        _tulip_head(canvas, top[0], top[1], size * 0.2, flowers[number % len(flowers)], lean)
    contact(canvas, x, foot, size * 0.26)
    body = smooth(
        [
            (x - size * 0.14, foot - size * 0.9),
            (x - size * 0.2, foot - size * 0.6),
            (x - size * 0.3, foot - size * 0.3),
            (x - size * 0.2, foot),
            (x + size * 0.2, foot),
            (x + size * 0.3, foot - size * 0.3),
            (x + size * 0.2, foot - size * 0.6),
            (x + size * 0.14, foot - size * 0.9),
        ],
        True,
        8,
    )
    canvas.shape(body, _round_light(x, size * 0.3, colour))


def _tulip_head(canvas: Canvas, x: float, y: float, size: float, colour: Colour, lean: float) -> None:
    for part, factor in (
        ([(-0.7, 0.3), (-0.75, -0.8), (-0.1, -0.3), (0, 0.7)], 0.85),
        ([(0.7, 0.3), (0.75, -0.8), (0.1, -0.3), (0, 0.7)], 0.75),
        ([(-0.45, 0.4), (-0.3, -0.5), (0, -1.0), (0.3, -0.5), (0.45, 0.4), (0, 0.75)], 1.1),
    ):
        shape = smooth([(x + a * size, y + b * size) for a, b in part], True, 6)
        canvas.shape(turned(shape, lean * 0.8, (x, y)), shade(colour, factor))


def pot(canvas: Canvas, x: float, foot: float, size: float, colour: Colour) -> None:
    """A clay pot `size` high."""
    half = size * 0.45
    contact(canvas, x, foot, half)
    canvas.shape(
        points(
            (x - half * 0.9, foot - size * 0.8),
            (x - half * 0.66, foot),
            (x + half * 0.66, foot),
            (x + half * 0.9, foot - size * 0.8),
        ),
        _round_light(x, half, colour),
    )
    canvas.shape(box(x - half, foot - size, x + half, foot - size * 0.76), _round_light(x, half, shade(colour, 1.08)))
    canvas.shape(ellipse(x, foot - size, half * 0.95, size * 0.07), tone("3c2a20"))


def potted(
    canvas: Canvas,
    x: float,
    foot: float,
    size: float,
    colour: Colour,
    leaf: Colour,
    dice: np.random.Generator,
    kind: str = "bush",
) -> None:
    """A pot with a plant: "bush" of round leaves, or "shoots"."""
    if kind == "shoots":
        for number in range(5):
            sprig(
                canvas,
                x + (number - 2) * size * 0.16,
                foot - size * 0.98,
                size * (0.5 + 0.35 * dice.random()),
                leaf,
                2,
                (number - 2) * 0.1,
            )
    else:
        for number in range(26):
            angle, reach = dice.random() * math.pi, size * (0.25 + 0.6 * dice.random())
            cx, cy = x + math.cos(angle) * reach, foot - size * 1.0 - math.sin(angle) * reach * 1.15
            blade = ellipse(cx, cy, size * 0.2, size * 0.11, dice.random() * 3, 20)
            canvas.shape(blade, shade(leaf, 0.7 + 0.55 * (number / 26) - 0.15 * math.cos(angle)))
    pot(canvas, x, foot, size, colour)
