"""The cat on the windowsill, looking out."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..houses import Street, house_row
from ..light import bloom
from ..outlines import Points, box, down_to, ellipse, placed, points, ribbon, ridge, smooth
from ..paint import sideways, upright
from ..plants import bare_tree
from ..rooms import bokeh, curtain, rain_on_glass, sill, window
from ..tableware import potted
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    outside: list[Colour]
    wall: Colour
    frame: Colour
    cloth: Colour
    rim: Colour
    lit: float = 0.0
    snow: float = 0.0
    rain: bool = False
    light: float = 1.0


MOODS = {
    "rain": Mood(
        tones("74848f 8c9aa4 a8b0b4"),
        tone("746c64"),
        tone("d8d4c8"),
        tone("8c6c5c"),
        tone("c8d4dc"),
        0.2,
        0.0,
        True,
        0.85,
    ),
    "snow": Mood(
        tones("a8bcd8 c8d4e4 e4e6ec"), tone("b09c88"), tone("f0ece4"), tone("a84c44"), tone("f0f4ff"), 0.15, 0.9
    ),
    "night": Mood(
        tones("0c1430 1c2850 344070"),
        tone("4c4050"),
        tone("8c8488"),
        tone("3c4c6c"),
        tone("8ca4dc"),
        0.7,
        0.2,
        False,
        0.55,
    ),
    "sun": Mood(tones("7cbce8 b4daf0 f4eed8"), tone("dcc8a4"), tone("fbf8f0"), tone("d8a850"), tone("fff4cc")),
    "gold": Mood(tones("6c84b8 d8a088 ffd08c"), tone("a8745c"), tone("e4d0bc"), tone("5c6c54"), tone("ffdc9c"), 0.1),
}
_FURS = tones("c8743c 5c5c64 2c2a30 b89878")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("cat")
    level = canvas.height * (0.72 + 0.06 * dice.random())
    wide = min(canvas.width * 0.62, canvas.unit * (0.78 + 0.14 * dice.random()))
    left = (
        canvas.width * (0.2 + 0.14 * dice.random()) - view.lean * canvas.width * 0.6
        if canvas.width > canvas.height
        else canvas.width * 0.19
    )
    right, top = left + wide, canvas.height * 0.07
    _outlook(canvas, view, mood, level)
    canvas.soften(canvas.unit * 0.004)
    if mood.rain:
        rain_on_glass(canvas, view, (left, top, right, level))
    _surround(canvas, mood, left, top, right, level)
    window(canvas, left, top, right, level, shade(mood.frame, mood.light), (2, 2), 0.024)
    sill(
        canvas,
        left - canvas.unit * 0.09,
        right + canvas.unit * 0.09,
        level + canvas.unit * 0.018,
        canvas.unit * 0.045,
        shade(mood.frame, mood.light),
    )
    foot = level + canvas.unit * 0.03
    side = 1 if dice.random() < 0.5 else -1
    middle = (left + right) / 2
    potted(
        canvas,
        middle + side * wide * 0.36,
        foot,
        canvas.unit * (0.1 + 0.03 * dice.random()),
        tone("b8643c"),
        shade(tone("6c9450"), mood.light),
        dice,
    )
    _cat(
        canvas,
        view,
        mood,
        middle - side * wide * (0.1 + 0.15 * dice.random()) - view.lean * canvas.width * 0.3,
        foot,
        canvas.unit * (0.36 + 0.08 * dice.random()),
        side < 0,
    )
    edge = left - canvas.unit * 0.03 if side > 0 else right + canvas.unit * 0.03
    reach = canvas.unit * 0.2
    curtain(
        canvas,
        view,
        edge - (reach if side > 0 else reach * 0.35),
        edge + (reach * 0.35 if side > 0 else reach),
        -9,
        canvas.height + 9,
        shade(mood.cloth, mood.light),
    )
    bloom(canvas, 0.78, 0.45, 0.03)


def _outlook(canvas: Canvas, view: View, mood: Mood, level: float) -> None:
    canvas.fill(upright(0, level, mood.outside))
    hill = ridge(view.dice("hill"), -9, canvas.width + 9, level * 0.72, canvas.unit * 0.12)
    canvas.shape(down_to(hill, level + 50), mix(mood.outside[1], tone("405468"), 0.4 * (1 - mood.snow * 0.8)))
    street = Street(
        [
            mix(wall, mood.outside[1], 0.25 if mood.light > 0.7 else 0.75)
            for wall in tones("b8644c d8a868 8ca0a8 c8b8a0")
        ],
        tones("6c4c48 5c5460"),
        mix(tone("34404c"), mood.outside[0], 0.3),
        mood.lit,
        snow=mood.snow,
        air=mood.outside[1],
        far=0.25,
    )
    house_row(
        canvas, view.dice("houses"), street, -40 - view.lean * 200, canvas.width + 40, level * 0.98, canvas.unit * 0.24
    )
    if view.form == "tree":
        bare_tree(
            canvas,
            view.dice("tree"),
            canvas.width * 0.62 - view.lean * 400,
            level * 1.1,
            canvas.unit * 0.75,
            shade(mix(mood.outside[0], tone("3c342c"), 0.7), 0.8),
            6,
            mood.snow,
        )
    if mood.lit > 0.5:
        bokeh(canvas, view, 16, tones("ffc870 ffe4b0 ff9c60"), (0.1, 0.5, 0.9, 0.72), 0.014, 0.7)
    if mood.snow > 0.5:
        dice = view.dice("flakes")
        canvas.dabs(dice.random((160, 2)) * (canvas.width, level), canvas.unit * 0.004, (1.0, 1.0, 1.0), 0.8)


def _surround(canvas: Canvas, mood: Mood, left: float, top: float, right: float, level: float) -> None:
    """The wall of the room, dark against the light, and the light that falls along it."""
    wall = shade(mood.wall, 0.72 * mood.light)
    parts = [
        box(-9, -9, canvas.width + 9, top),
        box(-9, level, canvas.width + 9, canvas.height + 9),
        box(-9, -9, left, canvas.height + 9),
        box(right, -9, canvas.width + 9, canvas.height + 9),
    ]
    canvas.shapes(parts, upright(0, canvas.height, [shade(wall, 1.05), wall, shade(wall, 0.62)]))
    for x in (left, right):
        canvas.glow(x, (top + level) / 2, canvas.unit * 0.24, mood.rim, 0.2 * mood.light, 1.6)


def _cat(canvas: Canvas, view: View, mood: Mood, x: float, foot: float, size: float, mirror: bool) -> None:
    """Seen from behind, ears up; the tail hangs over the edge and moves."""
    fur = shade(mix(_FURS[view.seed % 4], mood.outside[0], 0.08), 0.2 + 0.65 * mood.light)

    def put(*pairs: tuple[float, float]) -> Points:
        return placed(pairs, x, foot, size, mirror)

    canvas.shadow(ellipse(x, foot, size * 0.4, size * 0.05), 0.5, size * 0.03)
    wag = 0.06 * math.sin(view.step * 1.5)
    tail = smooth(put((0.2, -0.06), (0.42, -0.04), (0.5, 0.14), (0.46 + wag, 0.36), (0.56 + wag * 2, 0.5)), False, 8)
    canvas.shape(ribbon(tail, np.linspace(size * 0.1, size * 0.07, len(tail))), shade(fur, 0.85))
    canvas.dabs(tail[-1:], size * 0.035, shade(fur, 0.85))
    body = smooth(
        put(
            (-0.3, 0), (-0.37, -0.2), (-0.27, -0.5), (-0.15, -0.68), (0.13, -0.68), (0.26, -0.5), (0.37, -0.2), (0.3, 0)
        ),
        True,
        8,
    )
    turn = 0.03 * math.sin(view.step * 0.8)
    head = smooth(
        put(
            (-0.19 + turn, -0.74),
            (-0.2 + turn, -0.86),
            (-0.1 + turn, -0.94),
            (0.1 + turn, -0.94),
            (0.2 + turn, -0.86),
            (0.19 + turn, -0.74),
            (0.08 + turn, -0.64),
            (-0.08 + turn, -0.64),
        ),
        True,
        6,
    )
    ears = [
        put((a + turn, -0.85), (b + turn, -1.07), (c + turn, -0.93))
        for a, b, c in ((-0.2, -0.17, -0.05), (0.2, 0.17, 0.05))
    ]
    canvas.shapes([body, head, *ears], mood.rim, 0.75, size * 0.012)
    inner = [(shape - (x, foot - size * 0.5)) * 0.972 + (x, foot - size * 0.49) for shape in (body, head, *ears)]
    canvas.shapes(
        inner,
        sideways(
            x - size * 0.38, x + size * 0.38, [shade(fur, 1.15), shade(fur, 0.85), shade(fur, 1.0), shade(fur, 0.75)]
        ),
        1.0,
        size * 0.008,
    )
    if fur[0] > 0.3:
        bands = [
            ribbon(smooth(put((-0.2, y), (0, y - 0.03), (0.2, y)), False, 6), size * 0.03)
            for y in (-0.2, -0.33, -0.46, -0.58)
        ]
        canvas.shapes(bands, shade(fur, 0.72), 0.5, size * 0.012)
    canvas.lines(
        [
            smooth(put((-0.22, -0.02), (-0.2, -0.22), (-0.06, -0.3)), False, 6),
            smooth(put((0.22, -0.02), (0.2, -0.22), (0.06, -0.3)), False, 6),
        ],
        size * 0.012,
        shade(fur, 0.6),
        0.6,
        size * 0.006,
    )
    canvas.shape(
        down_to(points((x - size * 0.3, foot - size * 0.1), (x + size * 0.3, foot - size * 0.1)), foot),
        shade(fur, 0.5),
        0.3,
        size * 0.05,
    )
