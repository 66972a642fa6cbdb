"""Old prints as a scanner gives them back: white border, faded dyes, dust, a little askew."""

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageFilter

from .noise import field


@dataclass(frozen=True, slots=True)
class Aging:
    """`yellow` and `fade` from 0 to 1, `askew` in degrees."""

    yellow: float
    fade: float
    askew: float
    seed: int


def scanned(image: Image.Image, aging: Aging, border: float = 0.045) -> Image.Image:
    """The print on the scanner's bed, RGB, a little larger than the picture."""
    dice = np.random.default_rng(aging.seed)
    edge = round(max(image.size) * border)
    width, height = image.width + 2 * edge, image.height + 2 * edge
    sheet = Image.new("RGB", (width, height), (247, 242, 230))
    sheet.paste(_faded(image.filter(ImageFilter.GaussianBlur(0.8)), aging), (edge, edge))
    values = np.asarray(sheet, np.float32) / 255
    stain = field(dice, (height, width), (height * 0.4, width * 0.4), 2)[..., None]
    values *= 1 - aging.yellow * stain * np.array((0.0, 0.05, 0.16), np.float32)
    sheet = Image.fromarray((np.clip(values, 0, 1) * 255 + 0.5).astype(np.uint8))
    bed = Image.new("RGB", (width + edge, height + edge), (226, 226, 224))
    turned = sheet.rotate(aging.askew, Image.Resampling.BICUBIC, expand=False, fillcolor=(226, 226, 224))
    bed.paste(turned, (edge // 2, edge // 2))
    return _dusted(bed, dice)


def _faded(image: Image.Image, aging: Aging) -> Image.Image:
    """Old dyes: cyan goes first, blacks turn brown, everything loses contrast."""
    values = np.asarray(image, np.float32) / 255
    grey = values.mean(2, keepdims=True)
    values = grey + (values - grey) * (1 - 0.35 * aging.fade)
    low = np.array((0.17, 0.11, 0.08), np.float32) * aging.fade
    high = 1 - np.array((0.02, 0.06, 0.2), np.float32) * aging.yellow
    return Image.fromarray((np.clip(low + values * (high - low), 0, 1) * 255 + 0.5).astype(np.uint8))


def _dusted(image: Image.Image, dice: np.random.Generator) -> Image.Image:
    values = np.asarray(image).copy()
    for _ in range(40):
        row, column = int(dice.integers(image.height - 3)), int(dice.integers(image.width - 3))
        values[row : row + int(dice.integers(1, 3)), column : column + int(dice.integers(1, 3))] = 238
    return Image.fromarray(values)
