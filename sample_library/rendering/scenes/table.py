"""The table from above: baking, breakfast, soup, or the album in the making."""

import math

import numpy as np

from ..canvas import Canvas
from ..colour import mix, shade, tone, tones
from ..dishes import Setting, berry, biscuit, bread, cast, cup, cutlery, napkin, plate, rolling_pin, small_print
from ..light import bloom
from ..noise import field
from ..outlines import box, ellipse, points, ribbon, rounded, scaled, smooth, turned
from ..paint import grained, round_about, slanted
from ..view import View

MOODS = {
    "oak": Setting(tone("b08458"), tone("5c7c8c"), tone("ece4d4"), tone("fff0d0"), tone("2c1c14")),
    "white": Setting(tone("dcd8d0"), tone("c87c5c"), tone("6c8c94"), tone("fffaf0"), tone("4c4c58")),
    "dark": Setting(tone("4c3c38"), tone("a84840"), tone("d8ccb8"), tone("ffd8a0"), tone("0c0808"), 1.05),
    "green": Setting(tone("5c7468"), tone("e0c078"), tone("f0e8d8"), tone("fff4d8"), tone("18241c")),
}


def paint(canvas: Canvas, view: View) -> None:
    setting = MOODS[view.mood]
    dice = view.dice("table")
    _board(canvas, view, setting, bool(dice.random() < 0.5))
    unit = canvas.unit
    centre = (canvas.width * (0.5 - view.lean), canvas.height * 0.5)
    {"baking": _baking, "breakfast": _breakfast, "soup": _soup, "album": _album}[view.form or "breakfast"](
        canvas, view, setting, centre, unit, dice
    )
    rows, columns = canvas.grid()
    corner = (0.0 if dice.random() < 0.5 else canvas.width, 0.0)
    far = np.hypot(columns - corner[0], rows - corner[1]) / np.hypot(canvas.width, canvas.height)
    canvas.rgb *= (np.float32(1.08 * setting.bright) - np.float32(0.4) * far)[..., None] * (
        np.array(setting.light, np.float32) * 0.3 + 0.7
    )
    bloom(canvas, 0.85, 0.25)


def _board(canvas: Canvas, view: View, setting: Setting, upright_grain: bool) -> None:
    cell = (canvas.unit * 0.014, canvas.unit * 0.7)
    grain = field(view.dice("grain"), (canvas.height, canvas.width), cell[::-1] if upright_grain else cell, 4, 0.6)
    canvas.fill(grained(setting.table, grain, 0.34))
    long = canvas.width if upright_grain else canvas.height
    for number in range(1, 5):
        at = long * (number + 0.1 * view.dice(f"seam{number}").normal()) / 5
        seam = points((at, -9), (at, canvas.height + 9)) if upright_grain else points((-9, at), (canvas.width + 9, at))
        canvas.lines([seam], canvas.unit * 0.003, shade(setting.table, 0.45), 0.6)


def _breakfast(
    canvas: Canvas, view: View, setting: Setting, centre: tuple[float, float], unit: float, dice: np.random.Generator
) -> None:
    spin = dice.random() * 6.28
    napkin(
        canvas,
        setting,
        centre[0] - unit * 0.42 * math.cos(spin),
        centre[1] + unit * 0.3 * math.sin(spin),
        unit * 0.22,
        spin,
    )
    px, py = centre[0] + unit * 0.1 * dice.normal(), centre[1] + unit * 0.06 * dice.normal()
    cutlery(canvas, setting, px - unit * 0.34, py, unit * 0.26, -0.1 + 0.2 * dice.normal(), "knife")
    cutlery(canvas, setting, px + unit * 0.34, py + unit * 0.02, unit * 0.26, 0.1 + 0.2 * dice.normal(), "spoon")
    plate(canvas, setting, px, py, unit * 0.27, setting.ware, unit * 0.02, 0.74)
    for side in (-1, 1):
        toast = turned(
            rounded(
                px + side * unit * 0.075 - unit * 0.085,
                py - unit * 0.1,
                px + side * unit * 0.075 + unit * 0.085,
                py + unit * 0.09,
                unit * 0.035,
            ),
            side * 0.25 + spin * 0.05,
            (px, py),
        )
        cast(canvas, setting, toast, unit * 0.012)
        canvas.shape(toast, tone("a86c34"))
        inner = scaled(toast, 0.86)
        canvas.shape(
            inner,
            grained(
                tone("e8bc78"),
                field(view.dice(f"toast{side}"), (canvas.height, canvas.width), (unit * 0.02, unit * 0.02), 2),
                0.35,
            ),
        )
        jam = smooth(
            (
                ellipse(toast[:, 0].mean(), toast[:, 1].mean(), unit * 0.05, unit * 0.04, count=9)
                + dice.normal(size=(9, 2)) * unit * 0.008
            ),
            True,
            6,
        )
        canvas.shape(jam, tones("b82438 e08c2c 6c2450")[view.seed % 3], 0.9, unit * 0.001)
    for number, (angle, drink, colour) in enumerate(
        ((spin + 0.8, tone("4c2c1c"), setting.cloth), (spin + 2.6, tone("e8943c"), mix(setting.ware, (1, 1, 1), 0.4)))
    ):
        cup(
            canvas,
            setting,
            centre[0] + math.cos(angle) * unit * 0.46,
            centre[1] + math.sin(angle) * unit * 0.34,
            unit * 0.085,
            colour,
            drink,
            number + spin,
        )
    ex, ey = centre[0] + math.cos(spin + 4.2) * unit * 0.48, centre[1] + math.sin(spin + 4.2) * unit * 0.36
    plate(canvas, setting, ex, ey, unit * 0.1, shade(setting.ware, 0.98), unit * 0.03, 0.8)
    for number in range(14):
        angle = number * 2.4
        berry(
            canvas,
            ex + math.cos(angle) * unit * 0.05 * math.sqrt(number / 14),
            ey + math.sin(angle) * unit * 0.05 * math.sqrt(number / 14),
            unit * 0.018,
            tones("a82c3c 3c4474 c8384c")[number % 3],
        )


def _baking(
    canvas: Canvas, view: View, setting: Setting, centre: tuple[float, float], unit: float, dice: np.random.Generator
) -> None:
    flour = field(view.dice("flour"), (canvas.height, canvas.width), (unit * 0.1, unit * 0.1), 5, 0.6)
    rows, columns = canvas.grid()
    near = np.clip(1 - np.hypot(columns - centre[0], (rows - centre[1]) * 1.2) / (unit * 0.62), 0, 1)
    canvas.veil(np.clip(flour * 1.9 - 0.72, 0, 1) * near * np.float32(0.85), (0.97, 0.95, 0.92))
    dough = smooth(
        ellipse(centre[0], centre[1], unit * 0.36, unit * 0.27, count=11) + dice.normal(size=(11, 2)) * unit * 0.015,
        True,
        8,
    )
    cast(canvas, setting, dough, unit * 0.012, 0.4)
    canvas.shape(
        dough,
        slanted(
            (centre[0] - unit * 0.3, centre[1] - unit * 0.3),
            (centre[0] + unit * 0.3, centre[1] + unit * 0.3),
            tones("f0d8a8 e0be88"),
        ),
    )
    for number in range(9):
        x = centre[0] + unit * (-0.24 + 0.16 * (number % 4)) + dice.normal() * unit * 0.012
        y = centre[1] + unit * (-0.15 + 0.14 * (number // 4)) + dice.normal() * unit * 0.012
        biscuit(canvas, setting, x, y, unit * 0.052, number + view.seed, number % 3 == 0)
    spin = dice.random() * 3
    rolling_pin(
        canvas,
        setting,
        centre[0] + unit * 0.3 * math.cos(spin),
        centre[1] + unit * 0.38,
        unit * 0.34,
        0.3 * dice.normal(),
    )
    for number in range(7):
        angle = spin + 2.4 + number * 0.21
        x, y = (
            centre[0] + math.cos(angle) * unit * (0.52 + 0.05 * (number % 2)),
            centre[1] + math.sin(angle) * unit * 0.4,
        )
        cast(canvas, setting, ellipse(x, y, unit * 0.05, unit * 0.05), unit * 0.01)
        biscuit(canvas, setting, x, y, unit * 0.058, number, False, tone("c88444"))
    plate(
        canvas,
        setting,
        centre[0] - unit * 0.5,
        centre[1] - unit * 0.3,
        unit * 0.16,
        shade(setting.ware, 0.98),
        unit * 0.05,
        0.86,
    )
    canvas.shape(
        ellipse(centre[0] - unit * 0.5, centre[1] - unit * 0.3, unit * 0.125, unit * 0.125),
        round_about(centre[0] - unit * 0.5, centre[1] - unit * 0.3, unit * 0.13, tones("ffffff f4ece0 d8ccbc")),
        1.0,
        unit * 0.006,
    )


def _soup(
    canvas: Canvas, view: View, setting: Setting, centre: tuple[float, float], unit: float, dice: np.random.Generator
) -> None:
    spin = dice.random() * 3
    napkin(canvas, setting, centre[0] + unit * 0.3, centre[1] + unit * 0.22, unit * 0.26, spin)
    broth = tones("d87c2c b84830 8c9c48")[view.seed % 3]
    for number, (dx, dy, radius) in enumerate(((-0.26, -0.06, 0.24), (0.3, 0.1, 0.22), (0.16, -0.36, 0.13))):
        x, y, r = (
            centre[0] + dx * unit + dice.normal() * unit * 0.02,
            centre[1] + dy * unit + dice.normal() * unit * 0.02,
            radius * unit,
        )
        plate(canvas, setting, x, y, r, shade(setting.ware, 1.0), r * 0.22, 0.84)
        canvas.shape(
            ellipse(x, y, r * 0.8, r * 0.8),
            round_about(x + r * 0.2, y + r * 0.2, r, [shade(broth, 1.18), broth, shade(broth, 0.72)]),
        )
        swirl = np.array(
            [(x + math.cos(a) * r * 0.07 * a, y + math.sin(a) * r * 0.07 * a) for a in np.linspace(1, 8.2, 50)]
        )
        canvas.shape(ribbon(swirl, np.linspace(r * 0.03, r * 0.11, 50)), (0.98, 0.95, 0.88), 0.85, r * 0.015)
        for _ in range(9):
            a, d = dice.random() * 6.3, r * 0.6 * dice.random()
            leaf = ellipse(x + math.cos(a) * d, y + math.sin(a) * d, r * 0.07, r * 0.035, a * 2, 16)
            canvas.shape(leaf, shade(tone("4c8c3c"), 0.8 + 0.4 * dice.random()))
        if number < 2:
            cutlery(canvas, setting, x + r * 1.2, y + r * 0.2, unit * 0.28, 0.2 * dice.normal(), "spoon")
    bread(canvas, view, setting, centre[0] - unit * 0.42, centre[1] + unit * 0.34, unit * 0.2, 0.4 * dice.normal())


def _album(
    canvas: Canvas, view: View, setting: Setting, centre: tuple[float, float], unit: float, dice: np.random.Generator
) -> None:
    """An open album page with small prints, loose cards, scissors."""
    lean = 0.06 * dice.normal()
    page = turned(
        box(centre[0] - unit * 0.36, centre[1] - unit * 0.36, centre[0] + unit * 0.36, centre[1] + unit * 0.36),
        lean,
        centre,
    )
    cast(canvas, setting, page, unit * 0.02)
    canvas.shape(page, slanted(tuple(page[0]), tuple(page[2]), tones("f8f4ec e4ded2")))
    prints = tones("4c7c9c e0a860 6c8c5c c87058 3c4c6c d8c0a0")
    for row in range(3):
        x = centre[0] - unit * 0.33
        for wide in ((2, 1, 1), (1, 2, 1), (1, 1, 2))[(row + view.seed) % 3]:
            w = unit * (0.152 * wide + 0.012 * (wide - 1))
            y = centre[1] - unit * 0.33 + row * unit * 0.225
            if dice.random() < 0.85:
                small_print(
                    canvas,
                    setting,
                    turned(box(x, y, x + w, y + unit * 0.21), lean, centre),
                    prints[int(dice.integers(6))],
                    prints[int(dice.integers(6))],
                )
            x += w + unit * 0.012
    for number in range(6):
        angle = number * 1.05 + dice.random() * 0.5
        x, y = (
            centre[0] + math.cos(angle) * unit * (0.56 + 0.1 * dice.random()),
            centre[1] + math.sin(angle) * unit * 0.42,
        )
        small_print(
            canvas,
            setting,
            turned(
                box(x - unit * 0.09, y - unit * 0.065, x + unit * 0.09, y + unit * 0.065), dice.normal() * 0.5, (x, y)
            ),
            prints[int(dice.integers(6))],
            prints[int(dice.integers(6))],
        )
    cutlery(canvas, setting, centre[0] + unit * 0.45, centre[1] + unit * 0.05, unit * 0.3, 0.4, "knife")
    cup(
        canvas,
        setting,
        centre[0] - unit * 0.52,
        centre[1] - unit * 0.3,
        unit * 0.085,
        setting.cloth,
        tone("5c3420"),
        2.0,
    )
