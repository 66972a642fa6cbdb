"""Market day: stalls under striped awnings, crates of fruit, people between them."""

import numpy as np

from ..canvas import Canvas
from ..colour import mix, shade, tone, tones
from ..figures import figure
from ..houses import Street, house_row
from ..light import bloom
from ..noise import ground
from ..outlines import Points, box, ellipse, moved, smooth
from ..paint import upright
from ..sky import clouds, sky
from ..stalls import CLOTHS, MarketDay, stall
from ..view import View

MOODS = {
    "morning": MarketDay(
        tones("7cb4dc b4d8e8 f0ecdc"),
        tones("d8a878 c88468 e0ccA0 a8b8b4 d4c0a8"),
        tones("a89c90 c4b4a0 8c7c70"),
        tone("e4e0d4"),
    ),
    "grey": MarketDay(
        tones("98a4ac b8c0c4 d4d6d4"),
        tones("a88c7c 9c7c70 b4a894 8c989c"),
        tones("84848a 9c9a9c 64646c"),
        tone("c8ccce"),
        0.9,
    ),
    "advent": MarketDay(
        tones("141c3c 2c3460 5c4c74"),
        tones("4c4458 5c4850 44485c"),
        tones("54485c 6c5860 2c2838"),
        tone("3c3c5c"),
        0.62,
        1.0,
        0.6,
    ),
    "spring": MarketDay(
        tones("68acec a8d4f0 f0f4e8"),
        tones("f0b8a0 f0d8a0 b4d0c0 e8e0d0 d0a0a0"),
        tones("c0b4a4 d8cab4 a09484"),
        tone("f0f0e4"),
        1.05,
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("market")
    line = canvas.height * (0.5 + 0.06 * dice.random())
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, mix(mood.sky[-1], (1, 1, 1), 0.5), mood.sky[0], 0.4, 0.6)
    street = Street(
        [mix(wall, mood.air, 0.1) for wall in mood.walls],
        tones("7c5048 6c5858 5c4c54"),
        mix(tone("3c4858"), mood.air, 0.2),
        0.5 * mood.lamps,
        snow=mood.snow,
        air=mood.air,
        far=0.3,
    )
    house_row(
        canvas,
        view.dice("back"),
        street,
        -30 - view.lean * 60,
        canvas.width + 30,
        line + canvas.unit * 0.06,
        canvas.unit * (0.42 + 0.12 * dice.random()),
    )
    canvas.soften(canvas.unit * 0.0022)
    _paving(canvas, view, mood, line + canvas.unit * 0.03)
    if mood.lamps:
        _light_strings(canvas, view, line)
    _passers(canvas, view, mood, line, 0)
    _far_stalls(canvas, view, mood, line, dice)
    _passers(canvas, view, mood, line, 1)
    _near_stall(canvas, view, mood, dice)
    bloom(canvas, 0.75, 0.4)


def _paving(canvas: Canvas, view: View, mood: MarketDay, top: float) -> None:
    canvas.shape(box(-9, top, canvas.width + 9, canvas.height + 9), upright(top, canvas.height, mood.stone))
    rows = canvas.height - int(top)
    stones = ground(view.dice("stones"), (rows, canvas.width), canvas.unit * 0.09, 1.7)
    canvas.rgb[int(top) :] *= (1 + stones * 0.28)[..., None]
    if mood.lamps:
        canvas.glow(canvas.width * 0.5, top + rows * 0.4, canvas.width * 0.55, (1.0, 0.66, 0.36), 0.4, 0.45)


def _far_stalls(canvas: Canvas, view: View, mood: MarketDay, line: float, dice: np.random.Generator) -> None:
    count = 3 + int(dice.integers(2))
    for number in range(count):
        x = canvas.width * ((number + 0.5 + 0.3 * dice.normal()) / count - view.lean * 0.4)
        size = canvas.unit * (0.26 + 0.06 * dice.random())
        stall(
            canvas,
            x,
            line + canvas.unit * (0.13 + 0.03 * dice.random()),
            size,
            CLOTHS[int(dice.integers(6))],
            mood,
            dice,
        )


def _near_stall(canvas: Canvas, view: View, mood: MarketDay, dice: np.random.Generator) -> None:
    size = canvas.unit * (0.62 + 0.2 * dice.random())
    side = 1 if dice.random() < 0.5 else -1
    x = canvas.width * (0.5 + side * (0.18 + 0.16 * dice.random()) - view.lean * 1.2)
    stall(canvas, x, canvas.height * (0.9 + 0.06 * dice.random()), size, CLOTHS[view.seed % 6], mood, dice)
    keeper = x - side * size * 0.72
    _person(canvas, mood, keeper, canvas.height * 0.97, canvas.unit * 0.42, dice, 0.0)


def _passers(canvas: Canvas, view: View, mood: MarketDay, line: float, row: int) -> None:
    dice = view.dice(f"passers{row}")
    for _ in range(3 + int(dice.integers(4))):
        pace = dice.choice((-1, 1)) * canvas.unit * 0.06
        x = canvas.width * (dice.random() - view.lean * 0.6) + pace * view.step
        height = canvas.unit * (0.16 + 0.08 * row + 0.03 * dice.random())
        _person(
            canvas,
            mood,
            x,
            line + canvas.unit * (0.1 + 0.1 * row + 0.03 * dice.random()),
            height,
            dice,
            view.step * 4 + x,
        )


def _person(
    canvas: Canvas,
    mood: MarketDay,
    x: float,
    foot: float,
    height: float,
    dice: np.random.Generator,
    phase: float,
) -> None:
    coat = shade(mix(CLOTHS[int(dice.integers(6))], tone("40465a"), 0.45), mood.light)
    cap = shade(CLOTHS[int(dice.integers(6))], mood.light * 0.95)
    canvas.shadow(ellipse(x, foot, height * 0.2, height * 0.03), 0.35, height * 0.02)
    figure(
        canvas, x, foot, height, coat, cap, 0.25 * float(np.sin(phase)), (0.12 * dice.random(), 0.12 * dice.random())
    )


def _light_strings(canvas: Canvas, view: View, line: float) -> None:
    dice = view.dice("strings")
    for number in range(4):
        y = line * (0.25 + 0.16 * number)
        cord: Points = smooth(
            [
                (-9, y - 20),
                (canvas.width * (0.3 + 0.1 * dice.random()), y + canvas.unit * 0.05),
                (canvas.width * 0.7, y + canvas.unit * 0.04),
                (canvas.width + 9, y - 30),
            ],
            False,
            14,
        )
        canvas.lines([cord], canvas.unit * 0.0014, (0.1, 0.1, 0.14), 0.8)
        for spot in cord[1::2]:
            canvas.glow(spot[0], spot[1] + 4, canvas.unit * 0.035, (1.0, 0.75, 0.4), 0.55)
        canvas.dabs(moved(cord[1::2], 0, 4), canvas.unit * 0.0045, (1.0, 0.93, 0.72))
