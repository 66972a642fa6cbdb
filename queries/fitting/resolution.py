"""How fine a photo prints in a cell. Pure."""

from queries.fitting import weights
from queries.fitting.values import Picture
from queries.sleeves.values import Box


def dpi_of(picture: Picture, cell: Box) -> float:
    """The picture's pixels for an inch of the cell, once cropped to its aspect and zoomed."""
    return min(picture.width / cell.width, picture.height / cell.height) / picture.zoom


def is_blurry(dpi: float) -> bool:
    return dpi < weights.BLURRY_DPI


def whole_dpi(dpi: float) -> int:
    """As it is told: rounded, but what is blurry never up to the number from which on it is not."""
    whole = round(dpi)
    return whole - 1 if is_blurry(dpi) and not is_blurry(whole) else whole


def lack_of(dpi: float, by: weights.Weights) -> float:
    """Points to take away: none from 300 dpi on, more towards 200, and much more below."""
    if dpi >= weights.FINE_DPI:
        return 0.0
    if dpi >= weights.BLURRY_DPI:
        return by.soft * (weights.FINE_DPI - dpi) / (weights.FINE_DPI - weights.BLURRY_DPI)
    return by.soft + by.blurry * (2 - dpi / weights.BLURRY_DPI)
