"""Prints of a few pieces, and the photos for them, made up."""

from pathlib import Path
from typing import Any

from PIL import Image

from queries.cropping.values import WHOLE, Window
from queries.cutting.values import Rect
from queries.prints.values import PhotoPart, PicturePiece, PixelBox, PlacedPiece, PrintJob
from tests.queries.spread.made_plans import week

WEEK = week("2026-03-30")
SIX_BY_FOUR = (0, 0, 1800, 1200)


def um(pixels: int) -> int:
    """Pixels at 300 dpi in micrometres."""
    return round(pixels * 25_400 / 300)


def save(image: Image.Image, path: Path, **options: Any) -> str:
    image.save(path, **options)
    return str(path)


def part(key: str, box: PixelBox, window: Window = WHOLE, corner: int = 0) -> PhotoPart:
    """A photo in a cell given in pixels at 300 dpi."""
    left, top, right, bottom = (um(edge) for edge in box)
    return PhotoPart(key, window, Rect(left, top, right - left, bottom - top), um(corner))


def photo_piece(key: str, width: int, height: int, window: Window = WHOLE) -> PicturePiece:
    """A photo of so many pixels at 300 dpi."""
    one = part(key, (0, 0, width, height), window)
    return PicturePiece("2026-W14 L1", WEEK, "L1", um(width), um(height), (one,), "white", "photo")


def collage(background: str, width: int, height: int, *parts: PhotoPart) -> PicturePiece:
    return PicturePiece("2026-W14 R1", WEEK, "R1", um(width), um(height), parts, background, "collage")


def job(*placed: PlacedPiece, marks: tuple[PixelBox, ...] = (), **sources: str) -> PrintJob:
    return PrintJob("o01-01", 1800, 1200, 300, placed, marks, sources)
