"""Made pictures of text: pages, notes, receipts and chats, as scanned, as photographed on a table, as on a screen."""

import random

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

KINDS = ("page", "note", "receipt", "chat", "dark chat")
_WORDS = [
    "the",
    "harbour",
    "boat",
    "tide",
    "bread",
    "list",
    "eggs",
    "milk",
    "Tuesday",
    "ferry",
    "ticket",
    "and",
    "of",
    "in",
]
_WORDS += ["a", "to", "meeting", "minutes", "photo", "market", "gull", "lantern", "kite", "seven", "thanks", "tomorrow"]
_PAPER = {
    "page": (245, 244, 240), "note": (250, 240, 150), "receipt": (235, 232, 228), "chat": (236, 232, 225),
    "dark chat": (22, 24, 28),
}  # fmt: skip
_SIDES = ((720, 960), (960, 720), (540, 960))


def text_picture(kind: str, seed: int) -> Image.Image:
    """One of its kind; paper is photographed on a table in uneven light, a chat comes straight from the screen."""
    chance = random.Random(seed)
    picture = Image.new("RGB", chance.choice(_SIDES), _PAPER[kind])
    size = chance.choice((36, 48, 60)) if kind == "note" else chance.choice((14, 16, 18, 22, 28))
    if "chat" in kind:
        _write_chat(picture, size, kind == "dark chat", chance)
        return picture
    _write_page(picture, size, kind, chance)
    return _photographed(picture, chance, np.random.default_rng(seed))


def _write_page(picture: Image.Image, size: int, kind: str, chance: random.Random) -> None:
    draw, font = ImageDraw.Draw(picture), ImageFont.load_default(size)
    left, width = (0.25, 0.5) if kind == "receipt" else (0.08, 0.84)
    y = 2.0 * size
    while y < picture.height - 2 * size:
        if chance.random() > 0.12:
            share = 1 if chance.random() < 0.75 else chance.uniform(0.4, 0.8)
            text = _line(draw, font, picture.width * width * share, chance)
            draw.text((picture.width * left, y), text, font=font, fill=(25, 30, 60))
        y += 1.45 * size


def _write_chat(picture: Image.Image, size: int, is_dark: bool, chance: random.Random) -> None:
    draw, font = ImageDraw.Draw(picture), ImageFont.load_default(size)
    mine, theirs, ink = ((30, 80, 70), (45, 47, 52), 225) if is_dark else ((215, 245, 200), (255, 255, 255), 20)
    y = 2.0 * size
    while y < picture.height - 2 * size:
        is_mine, lines = chance.random() < 0.5, chance.randint(1, 4)
        width = picture.width * chance.uniform(0.4, 0.75)
        x = picture.width - width - 20 if is_mine else 20
        box = (x, y, x + width, y + lines * size * 1.5 + size)
        draw.rounded_rectangle(box, 14, fill=mine if is_mine else theirs)
        for number in range(lines):
            text = _line(draw, font, width - 30, chance)
            draw.text((x + 14, y + size * (0.4 + 1.5 * number)), text, font=font, fill=(ink,) * 3)
        y = box[3] + size


def _line(draw: ImageDraw.ImageDraw, font: ImageFont.ImageFont, width: float, chance: random.Random) -> str:
    text = chance.choice(_WORDS)
    while draw.textlength(longer := f"{text} {chance.choice(_WORDS)}", font=font) <= width:
        text = longer
    return text


def _photographed(page: Image.Image, chance: random.Random, random: np.random.Generator) -> Image.Image:
    """On a table, a little turned, the light falling off, with noise and blur."""
    page = page.rotate(
        chance.uniform(-6, 6), Image.Resampling.BICUBIC, fillcolor=chance.choice(((120, 90, 60), (70, 70, 75)))
    )
    light = np.outer(
        np.linspace(chance.uniform(0.75, 1), 1, page.height), np.linspace(chance.uniform(0.6, 1), 1, page.width)
    )
    tint = np.array((1, chance.uniform(0.93, 1), chance.uniform(0.8, 1)))
    values = np.asarray(page) * light[:, :, None] * tint
    values += random.normal(0, chance.uniform(1, 5), values.shape[:2])[:, :, None]
    return Image.fromarray(values.clip(0, 255).astype(np.uint8)).filter(
        ImageFilter.GaussianBlur(chance.uniform(0, 1.2))
    )
