"""Made pictures as comparing gets them, and what is done to copies of them."""

from typing import Any

import numpy as np
from PIL import Image, ImageDraw, ImageOps

from indexer.alike.signals import Pictures, pictures_of
from indexer.alike.values import Looked
from indexer.facts.fingerprint import fingerprint_of
from tests.indexer.facts import scenes


def scene(seed: int, width: int = 320, height: int = 240) -> Image.Image:
    """A made picture with forms that have edges: as a photograph has, besides its smooth ones."""
    random = np.random.default_rng(seed)
    image = scenes.scene(width, height, seed)
    draw = ImageDraw.Draw(image)
    for _ in range(12):
        x, y = random.uniform(0, width), random.uniform(0, height)
        across, down = random.uniform(0.04, 0.2, 2) * (width, height)
        colour = tuple(int(value) for value in random.integers(20, 235, 3))
        shape = draw.ellipse if random.random() < 0.5 else draw.rectangle
        shape((x - across, y - down, x + across, y + down), fill=colour)
    return image


def cut(image: Image.Image, share: float) -> Image.Image:
    """So much is missing of each side: half of it at either end."""
    across, down = image.width * share / 2, image.height * share / 2
    return image.crop((round(across), round(down), round(image.width - across), round(image.height - down)))


def framed(image: Image.Image, share: float) -> Image.Image:
    """With a white border as wide as that share of the longer side."""
    return ImageOps.expand(image, round(max(image.size) * share), "white")


def brightened(image: Image.Image, factor: float = 1.15) -> Image.Image:
    return Image.eval(image, lambda value: min(255, round(value * factor)))


def moved(seed: int, share: float) -> Image.Image:
    """The scene from a camera turned aside: that share of its width has left the picture, and as much has come in."""
    wide = scene(seed, 480, 240)
    left = round(320 * share)
    return wide.crop((left, 0, left + 320, 240))


def looked(key: str, image: Image.Image, moment: float | None = None, **other: Any) -> Looked:
    """The photo of that picture; what is not said is not known."""
    print_ = fingerprint_of(image)
    values: dict[str, Any] = {
        "exact": True, "own_time": None, "camera": "", "width": image.width, "height": image.height,
        "made_from": "decode", "phash": print_.phash, "dhash": print_.dhash, "grey": print_.grey,
        "layout": print_.layout, "contrast": print_.contrast,
    }  # fmt: skip
    return Looked(key=key, moment=moment, **{**values, **other})


def pictures(*images: Image.Image) -> Pictures:
    return pictures_of([fingerprint_of(image) for image in images])


def grey(*images: Image.Image) -> np.ndarray:
    return pictures(*images).grey
