"""The allotment: rows running to the back fence, shed, tools; from cleared beds to first shoots."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..crops import PLANTS, Spot
from ..figures import figure
from ..garden_things import shed, watering_can
from ..light import bloom
from ..noise import ground
from ..outlines import box, down_to, ellipse, points, ridge
from ..paint import upright
from ..plants import bare_tree, leafy_tree
from ..sky import clouds, sky, sun
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    soil: list[Colour]
    path: Colour
    far: Colour
    crops: tuple[str, ...]
    sun: Colour | None = None
    snow: float = 0.0
    leaves: list[Colour] | None = None


MOODS = {
    "autumn": Mood(
        tones("7c9cbc b4c4cc ecd8b4"),
        tones("7c6450 5c4434 3c2c24"),
        tone("9c8c5c"),
        tone("8c8478"),
        ("leek", "cabbage", "bare", "pumpkin"),
        tone("ffdca0"),
        0.0,
        tones("7c4c24 b8702c e0a040"),
    ),
    "frost": Mood(
        tones("98b4d4 c4d4e4 f4e4dc"),
        tones("a49c98 847874 645858"),
        tone("b4b8b0"),
        tone("a8b0bc"),
        ("cabbage", "bare", "leek", "bare"),
        tone("ffe8d0"),
        0.55,
    ),
    "digging": Mood(
        tones("8ca8bc bccad0 e0e0d4"),
        tones("74584a 543c30 34241c"),
        tone("8c945c"),
        tone("949c94"),
        ("bare", "bare", "leek", "bare"),
    ),
    "spring": Mood(
        tones("5ca4e0 a4d0ec ecf0dc"),
        tones("846048 644434 402c20"),
        tone("94ac54"),
        tone("94a890"),
        ("shoot", "tulip", "shoot", "cabbage"),
        tone("fff4d0"),
        0.0,
        tones("6c8c3c 94b44c c4d878"),
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("allotment")
    line = canvas.height * (0.36 + 0.1 * dice.random())
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, (1.0, 0.99, 0.97), mix(mood.sky[0], mood.sky[-1], 0.5), 0.5, 0.6)
    if mood.sun:
        sun(canvas, canvas.width * (0.15 + 0.7 * dice.random()), line * 0.45, canvas.unit * 0.016, mood.sun, 0.8)
    hill = ridge(view.dice("hill"), -20, canvas.width + 20, line - canvas.unit * 0.01, canvas.unit * 0.09)
    canvas.shape(down_to(hill, line + 4), mix(mood.far, mood.sky[-1], 0.45))
    _edge(canvas, view, mood, line, dice)
    vanish = canvas.width * (0.3 + 0.4 * dice.random() - view.lean * 0.2)
    canvas.shape(
        box(-9, line, canvas.width + 9, canvas.height + 9),
        upright(line, canvas.height, [mix(mood.path, mood.sky[-1], 0.35), mood.path, shade(mood.path, 0.7)]),
    )
    _rows(canvas, view, mood, line, vanish)
    _things(canvas, view, line, dice)
    bloom(canvas, 0.82, 0.3)


def _edge(canvas: Canvas, view: View, mood: Mood, line: float, dice: np.random.Generator) -> None:
    """Trees, shed and fence along the back."""
    for number in range(6):
        x, size = canvas.width * (dice.random() - view.lean * 0.15), canvas.unit * (0.16 + 0.16 * dice.random())
        bark = mix(tone("4c4038"), mood.far, 0.4)
        if mood.leaves and number % 2:
            leafy_tree(
                canvas,
                view.dice(f"tree{number}"),
                x,
                line + 3,
                size,
                bark,
                [mix(leaf, mood.far, 0.25) for leaf in mood.leaves],
            )
        else:
            bare_tree(canvas, view.dice(f"tree{number}"), x, line + 3, size, bark, 5, mood.snow)
    canvas.soften(canvas.unit * 0.0012)
    x, size = (
        canvas.width * (0.12 + 0.76 * dice.random() - view.lean * 0.25),
        canvas.unit * (0.2 + 0.05 * dice.random()),
    )
    wall = tones("4c6c64 7c4c3c 5c6c8c 8c7450")[view.seed % 4]
    shed(canvas, x, line + canvas.unit * 0.03, size, wall, mood.sky[0], mood.snow)
    pickets = [
        points(
            (a, line + canvas.unit * 0.03),
            (a, line - canvas.unit * 0.035),
            (a + canvas.unit * 0.005, line - canvas.unit * 0.043),
            (a + canvas.unit * 0.01, line - canvas.unit * 0.035),
            (a + canvas.unit * 0.01, line + canvas.unit * 0.03),
        )
        for a in np.arange(-9, canvas.width, canvas.unit * 0.024)
        if abs(a - x) > size * 0.55
    ]
    canvas.shapes(pickets, mix(tone("b0a48c"), mood.far, 0.3))
    canvas.shape(
        box(-9, line - canvas.unit * 0.022, x - size * 0.5, line - canvas.unit * 0.015),
        mix(tone("8c806c"), mood.far, 0.3),
    )
    canvas.shape(
        box(x + size * 0.5, line - canvas.unit * 0.022, canvas.width + 9, line - canvas.unit * 0.015),
        mix(tone("8c806c"), mood.far, 0.3),
    )


def _rows(canvas: Canvas, view: View, mood: Mood, line: float, vanish: float) -> None:
    """Ridges of soil that meet at a vanishing point, each with its crop."""
    dice = view.dice("rows")
    start = line + canvas.unit * 0.06
    depth = canvas.height - line
    texture = np.zeros((canvas.height, canvas.width), np.float32)
    texture[int(line) :] = ground(view.dice("soil"), (canvas.height - int(line), canvas.width), canvas.unit * 0.04, 1.0)
    spacing = canvas.unit * (0.3 + 0.08 * dice.random())
    offset = dice.random() * spacing - view.lean * canvas.width * 1.4

    def at(across: float, y: float) -> tuple[float, float]:
        return vanish + (across - vanish) * (y - line) / depth * 1.0, y

    def middle(across: float, y: float) -> float:
        return at(across, y)[0]

    lanes = np.arange(-canvas.width * 2.0, canvas.width * 3.0, spacing) + offset
    for lane in lanes:
        left, right = lane - spacing * 0.33, lane + spacing * 0.33
        bed = points(at(left, start), at(right, start), at(right, canvas.height + 9), at(left, canvas.height + 9))
        if bed[:, 0].max() < 0 or bed[:, 0].min() > canvas.width:
            continue
        canvas.shape(bed, upright(start, canvas.height, mood.soil[:2]))
        crown = points(
            at(lane - spacing * 0.2, start),
            at(lane + spacing * 0.02, start),
            at(lane + spacing * 0.02, canvas.height + 9),
            at(lane - spacing * 0.2, canvas.height + 9),
        )
        canvas.shape(crown, shade(mood.soil[0], 1.18), 0.5, canvas.unit * 0.012)
        side = points(
            at(right, start),
            at(right + spacing * 0.06, start),
            at(right + spacing * 0.06, canvas.height + 9),
            at(right, canvas.height + 9),
        )
        canvas.shape(side, mood.soil[2], 0.8, canvas.unit * 0.004)
    canvas.rgb *= (1 + texture * 0.18)[..., None]
    if mood.snow:
        top = int(line)
        lying = ground(view.dice("snow"), (canvas.height - top, canvas.width), canvas.unit * 0.12, 2)
        mask = np.zeros((canvas.height, canvas.width), np.float32)
        mask[top:] = np.clip(0.42 + lying * 1.6, 0, 0.85) * mood.snow * 1.3
        canvas.veil(mask, (0.93, 0.95, 0.99))
    for number, lane in enumerate(lanes):
        _crop(
            canvas,
            view,
            mood.crops[(number + view.seed) % len(mood.crops)],
            partial(middle, lane),
            start,
            line,
            mood,
            number,
        )


def _crop(
    canvas: Canvas,
    view: View,
    kind: str,
    lane: Callable[[float], float],
    start: float,
    line: float,
    mood: Mood,
    number: int,
) -> None:
    """Plants along one bed, `lane` gives its middle at a level; evenly spaced on the ground, so closer farther off."""
    if kind == "bare":
        return
    dice = view.dice(f"crop{number}")
    depth = canvas.height - line
    step = 1.0 / (start - line)
    places = []
    while True:
        y = line + 1.0 / step
        if y > canvas.height + canvas.unit * 0.1:
            break
        places.append(y)
        step -= 0.9 / depth / (1.6 if kind in ("leek", "shoot", "tulip") else 1.0)
        if step <= 0:
            break
    for y in places:
        size = canvas.unit * 0.11 * (y - line) / depth
        x = lane(y) + dice.normal() * size * 0.12
        if -size < x < canvas.width + size and size > 3:
            spot = Spot(x, y, size * (0.85 + 0.3 * dice.random()), dice, mood.sky[-1], mood.snow)
            PLANTS[kind](canvas, spot)


def _things(canvas: Canvas, view: View, line: float, dice: np.random.Generator) -> None:
    """A gardener, or a watering can, in the middle distance."""
    x = canvas.width * (0.2 + 0.6 * dice.random() - view.lean * 0.6)
    foot = line + (canvas.height - line) * (0.22 + 0.2 * dice.random())
    size = (foot - line) * 1.5 + canvas.unit * 0.06
    if view.form == "person":
        canvas.shadow(ellipse(x + size * 0.15, foot, size * 0.3, size * 0.04), 0.4, size * 0.02)
        hands = figure(
            canvas,
            x,
            foot,
            size,
            tones("3c5c7c a84c3c 5c7048")[view.seed % 3],
            tones("d8a83c 4c4c6c c8c0a8")[view.seed % 3],
            0.0,
            (0.1, 0.34),
        )
        handle = points((hands[1][0], hands[1][1]), (hands[1][0] + size * 0.04, foot + size * 0.02))
        canvas.lines([np.array([hands[1] - (0, size * 0.1), handle[1]])], size * 0.025, tone("8c6840"))
        canvas.shape(
            points(
                (handle[1, 0] - size * 0.06, foot - size * 0.12),
                (handle[1, 0] + size * 0.08, foot - size * 0.12),
                (handle[1, 0] + size * 0.05, foot + size * 0.04),
                (handle[1, 0] - size * 0.02, foot + size * 0.04),
            ),
            tone("7c848c"),
        )
    else:
        watering_can(canvas, x, foot, size * 0.3)
