"""The reading corner: armchair, lamp, shelf of books, a rug, sometimes rain at the window."""

from dataclasses import dataclass

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..furniture import armchair, bookcase, side_table, standard_lamp
from ..light import bloom
from ..outlines import box, ellipse, scaled
from ..paint import upright
from ..rooms import light_pool, planks, rain_on_glass, wall, window
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    wall: Colour
    floor: Colour
    chair: Colour
    rug: Colour
    outside: list[Colour]
    lamp: float
    light: float


MOODS = {
    "evening": Mood(tone("6c5c60"), tone("7c5438"), tone("2c6464"), tone("a84c3c"), tones("1c2848 343c64"), 1.0, 0.72),
    "afternoon": Mood(tone("c8b89c"), tone("a87c54"), tone("b85c3c"), tone("3c6480"), tones("9cc4dc e8e8d8"), 0.0, 1.0),
    "rain": Mood(tone("848c8c"), tone("805c44"), tone("c0943c"), tone("5c5c84"), tones("6c7c88 98a4a8"), 0.7, 0.82),
    "night": Mood(tone("3c4460"), tone("5c4440"), tone("8c4454"), tone("c0a468"), tones("0c1430 1c2444"), 1.0, 0.58),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("reading")
    floor = canvas.height * (0.74 + 0.05 * dice.random())
    left = bool(dice.random() < 0.5)
    way = 1 if left else -1
    chair_x = canvas.width * (0.5 + way * (0.02 + 0.1 * dice.random()) - view.lean)
    lamp_x = chair_x - way * canvas.unit * 0.42
    wall(
        canvas,
        shade(mood.wall, 0.55 + 0.45 * mood.light),
        ((lamp_x / canvas.width) if mood.lamp else (0.8 if left else 0.2), 0.3),
        0.42,
    )
    wood = shade(mix(mood.floor, tone("4c3424"), 0.35), mood.light)
    case_x = canvas.width * ((0.8 if left else 0.2) - view.lean * 0.5)
    bookcase(canvas, view.dice("books"), case_x, floor, wood, mood.light)
    _outlook(canvas, view, mood, canvas.width * (0.12 if left else 0.88) - view.lean * canvas.width * 0.5, floor)
    canvas.soften(canvas.unit * 0.002)
    planks(canvas, view, floor, mood.floor, mood.light, 5)
    canvas.shape(box(-9, floor - canvas.unit * 0.03, canvas.width + 9, floor), shade(mood.wall, 1.12 * mood.light))
    rug = ellipse(chair_x, floor + (canvas.height - floor) * 0.58, canvas.unit * 0.62, (canvas.height - floor) * 0.36)
    canvas.shape(rug, shade(mood.rug, mood.light))
    for share, tint in (
        (0.88, mix(mood.rug, (1, 0.95, 0.85), 0.6)),
        (0.84, mood.rug),
        (0.6, mix(mood.rug, (0.1, 0.1, 0.2), 0.4)),
        (0.56, mood.rug),
    ):
        canvas.shape(scaled(rug, share), shade(tint, mood.light))
    if mood.lamp:
        light_pool(canvas, chair_x, floor + (canvas.height - floor) * 0.5, canvas.unit * 0.8, 0.45 * mood.lamp)
        canvas.glow(lamp_x, floor - canvas.unit * 0.62, canvas.unit * 0.7, (1.0, 0.75, 0.42), 0.42 * mood.lamp)
    standard_lamp(canvas, lamp_x, floor + canvas.unit * 0.03, canvas.unit * 0.75, mood.lamp)
    depth = canvas.height - floor
    size = canvas.unit * (0.52 + 0.06 * dice.random())
    armchair(canvas, view, chair_x, floor + depth * 0.55, size, shade(mood.chair, mood.light), way)
    table_x = chair_x + way * canvas.unit * 0.48
    side_table(canvas, view, table_x, floor + depth * 0.5, canvas.unit * 0.26, mood.light)
    bloom(canvas, 0.75, 0.45, 0.03)


def _outlook(canvas: Canvas, view: View, mood: Mood, x: float, floor: float) -> None:
    a, b, top, low = x - canvas.unit * 0.17, x + canvas.unit * 0.17, canvas.height * 0.12, floor - canvas.unit * 0.26
    canvas.shape(box(a, top, b, low), upright(top, low, mood.outside))
    if view.mood == "rain":
        rain_on_glass(canvas, view, (a, top, b, low))
    window(canvas, a, top, b, low, shade(mix((0.95, 0.93, 0.88), mood.wall, 0.3), mood.light), (2, 3))
