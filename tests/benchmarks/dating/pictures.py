"""Pictures of scenes: another seed is another scene, and each device sees a scene in its own way.

A scene is a ground, forms at several depths, and texture. A second device stands elsewhere: its window is shifted and
scaled by a few per cent, near forms move against far ones, somebody else passes by, and its light, contrast and grain
are its own. Frames of a burst differ by a small part of that.
"""

import io
from dataclasses import dataclass, replace
from functools import lru_cache
from random import Random

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from tests.benchmarks.dating.values import View

#: Pixels of a photo, of one that came by message, and of a picture of a phone's screen.
SIZE, _MESSAGED, _SCREEN = (480, 360), (400, 300), (360, 640)
#: Shares of a side by which a second device's window is off, by which it is scaled, and by which the nearest form moves
#: against the ground; frames of a burst differ by `_FRAME` of all that.
_OFF, _SCALE, _MOVES, _FRAME = 0.012, 0.02, 0.03, 0.12


@dataclass(frozen=True, slots=True)
class _Form:
    """One filled form: corners of a polygon or of the box around an ellipse, in shares of the sides."""

    is_ellipse: bool
    corners: tuple[tuple[float, float], ...]
    colour: tuple[int, int, int]
    nearness: float


@dataclass(frozen=True, slots=True)
class _Scene:
    tint: tuple[float, float, float]
    grids: tuple[NDArray[np.float32], ...]
    texture: NDArray[np.float32]
    forms: tuple[_Form, ...]


@dataclass(frozen=True, slots=True)
class _Window:
    """Where a device stands: its window's place and scale, how far near forms move against the ground, and how it
    renders light."""

    left: float
    top: float
    scale: float
    moves: tuple[tuple[float, float], ...]
    gain: float
    light: float


def picture_file(view: View) -> bytes:
    """The picture as a JPEG (a PNG for "screen") without any metadata; the same view gives the same bytes."""
    if view.change == "screen":
        return _screen(view.scene)
    picture = _seen(replace(view, change=""))
    if view.change == "scan":
        sepia = np.array([1.05, 0.97, 0.82], np.float32)
        return _encoded(_image(np.asarray(picture.convert("L"), np.float32)[:, :, None] * sepia), 90)
    if view.change == "messaged":
        return _encoded(picture.resize(_MESSAGED, Image.Resampling.BILINEAR), 72)
    if view.change == "saved again":
        return _encoded(picture, 80)
    if view.change == "print":  # a 6x4 inch print is 3:2: of 4:3 a ninth of the height is cut off (arithmetic)
        width, height = picture.size
        cut = (height - round(width * 2 / 3)) // 2
        return _encoded(picture.crop((0, cut, width, height - cut)), 90)
    return _encoded(picture, 88)


def _encoded(picture: Image.Image, quality: int) -> bytes:
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=quality)
    return file.getvalue()


def _image(cells: NDArray[np.float32]) -> Image.Image:
    return Image.fromarray(cells.clip(0, 255).astype(np.uint8))


@lru_cache(maxsize=16)
def _seen(view: View) -> Image.Image:
    scene, window = _scene(view.scene), _window(view)
    ground = np.empty((SIZE[1], SIZE[0], 3), np.float32)
    for channel in range(3):
        ground[:, :, channel] = scene.tint[channel] + _stretched(scene.grids[channel], window)
    picture = _image(ground)
    pen = ImageDraw.Draw(picture)
    for form, moved in zip((*scene.forms, _passer_by(view)), window.moves, strict=True):
        corners = [_placed(corner, moved, window) for corner in form.corners]
        if form.is_ellipse:
            pen.ellipse(corners, form.colour)
        else:
            pen.polygon(corners, form.colour)
    grain = np.random.default_rng(Random(repr(view)).getrandbits(32)).integers(-4, 5, SIZE[::-1], np.int8)
    lit = (np.asarray(picture, np.float32) - 128) * window.gain + (128 + window.light)
    return _image(lit + (_stretched(scene.texture, window) + grain)[:, :, None])


def _window(view: View) -> _Window:
    """Drawn from the device and, far less, from the frame."""
    forms = (*_scene(view.scene).forms, _passer_by(view))
    eye, frame = Random(f"{view.scene} {view.eye}"), Random(f"{view.scene} {view.eye} {view.frame}")

    def off(most: float) -> float:
        return most * (eye.uniform(-1, 1) + (_FRAME * frame.uniform(-1, 1) if view.frame else 0))

    moves = tuple((off(_MOVES) * form.nearness, off(_MOVES) * form.nearness) for form in forms)
    return _Window(off(_OFF), off(_OFF), 1 + off(_SCALE), moves, eye.uniform(0.9, 1.1), eye.uniform(-8, 8))


def _passer_by(view: View) -> _Form:
    """Somebody whom this device alone saw there."""
    return _form(Random(f"{view.scene} {view.eye} passing by"), 5)


def _placed(corner: tuple[float, float], moved: tuple[float, float], window: _Window) -> tuple[float, float]:
    x, y = ((share + by - 0.5) * window.scale + 0.5 for share, by in zip(corner, moved, strict=True))
    return (x + window.left) * SIZE[0], (y + window.top) * SIZE[1]


def _stretched(grid: NDArray[np.float32], window: _Window) -> NDArray[np.float32]:
    """The grid over the whole picture, as the window shows it; its outermost cells are beyond every window."""
    rows, columns = grid.shape
    wide, high = columns * 0.84 / window.scale, rows * 0.84 / window.scale
    left, top = (columns - wide) / 2 - window.left * wide, (rows - high) / 2 - window.top * high
    box = (max(left, 0.0), max(top, 0.0), min(left + wide, columns), min(top + high, rows))
    picture = Image.fromarray(grid).resize(SIZE, Image.Resampling.BICUBIC, box)
    return np.asarray(picture, np.float32)


@lru_cache(maxsize=16)
def _scene(number: int) -> _Scene:
    random, cells = Random(f"scene {number}"), np.random.default_rng(number)
    coarse, fine = cells.uniform(-60, 60, (5, 6)), cells.uniform(-25, 25, (3, 9, 11))
    grids = []
    for channel in range(3):
        large = Image.fromarray((coarse * random.uniform(0.4, 1.2)).astype(np.float32)).resize((11, 9))
        grids.append(np.asarray(large, np.float32) + fine[channel].astype(np.float32))
    texture = cells.uniform(-14, 14, (60, 80)).astype(np.float32)
    tint = (random.uniform(70, 190), random.uniform(70, 190), random.uniform(70, 190))
    forms = tuple(_form(random, place) for place in range(random.randint(8, 13)))
    return _Scene(tint, tuple(grids), texture, forms)


def _form(random: Random, place: int) -> _Form:
    """The first are large and far, the later ones smaller and near."""
    most = 0.3 if place < 3 else 0.15 if place < 7 else 0.07
    x, y, wide, tall = random.random(), random.random(), random.uniform(0.4, 1) * most, random.uniform(0.4, 1.2) * most
    colour = (random.randrange(256), random.randrange(256), random.randrange(256))
    kind = random.randrange(3)
    box = ((x - wide, y - tall), (x + wide, y - tall), (x + wide, y + tall), (x - wide, y + tall))
    if kind == 0:
        return _Form(True, (box[0], box[2]), colour, min(1.0, 0.1 + place / 9))
    corners = (
        box if kind == 1 else tuple((x + random.uniform(-wide, wide), y + random.uniform(-tall, tall)) for _ in box)
    )
    return _Form(False, corners, colour, min(1.0, 0.1 + place / 9))


def _screen(scene: int) -> bytes:
    """A picture of a phone's screen: a bar, some boxes, and rows of marks that could be words."""
    random = Random(f"screen {scene}")
    picture = Image.new("RGB", _SCREEN, (random.randint(225, 255),) * 3)
    pen = ImageDraw.Draw(picture)
    pen.rectangle((0, 0, _SCREEN[0], random.randint(40, 90)), tuple(random.randint(20, 200) for _ in range(3)))
    y = 100
    while y < _SCREEN[1] - 20:
        if random.random() < 0.2:
            tall = random.randint(40, 140)
            pen.rectangle((20, y, random.randint(120, 340), y + tall), tuple(random.randint(40, 230) for _ in range(3)))
            y += tall + 14
        x, end = 20, random.randint(140, 340)
        while x < end:
            pen.rectangle((x, y, min(x + random.randint(8, 44), end), y + 8), (40, 40, 50))
            x += 51
        y += 18
    file = io.BytesIO()
    picture.save(file, "PNG", compress_level=1)
    return file.getvalue()
