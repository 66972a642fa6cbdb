"""The picture in the making: a field of light and the few ways to paint on it.

Every shape is drawn as a mask at twice its size or more and brought down, so edges are soft; paints are colours or
functions of the place, so that nothing has to be flat.
"""

import math
from collections.abc import Callable, Sequence

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from .colour import Colour
from .noise import Field
from .outlines import Points

#: The colours at rows (n, 1) and columns (1, m), as an array that spreads to (n, m, 3).
Shading = Callable[[Field, Field], Field]
#: What a mask is filled with.
Paint = Colour | Shading

_SMALL = 400_000


class Canvas:
    """Rows x columns x 3 floats, about 0 to 1. `unit` is the shorter side: sizes of things are shares of it."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.unit = min(width, height)
        self.rgb = np.zeros((height, width, 3), np.float32)

    def fill(self, paint: Paint) -> None:
        """Cover everything."""
        self._blend((0, 0, self.width, self.height), np.ones((), np.float32), paint)

    def shape(self, outline: Points, paint: Paint, opacity: float = 1.0, blur: float = 0.0) -> None:
        """One filled outline."""
        self.shapes([outline], paint, opacity, blur)

    def shapes(self, outlines: Sequence[Points], paint: Paint, opacity: float = 1.0, blur: float = 0.0) -> None:
        """Several filled outlines as one: where they overlap nothing adds up. `blur` in pixels softens their edges."""
        self._draw(outlines, paint, opacity, blur, lambda pen, outline: pen.polygon(outline, fill=255))

    def lines(
        self, paths: Sequence[Points], width: float, paint: Paint, opacity: float = 1.0, blur: float = 0.0
    ) -> None:
        """Strokes of one width; thinner than a pixel they grow faint instead."""
        faint = min(1.0, width)
        self._draw(paths, paint, opacity * faint, blur, None, max(width, 1.0))

    def dabs(self, spots: Points, radii: Field | float, paint: Paint, opacity: float = 1.0, blur: float = 0.0) -> None:
        """Many round spots as one mask: leaves, flakes, pebbles."""
        sizes = np.broadcast_to(np.asarray(radii, np.float64), (len(spots),))[:, None]
        corners = np.concatenate([spots - sizes, spots + sizes], 1).reshape(-1, 2, 2)
        self._draw(list(corners), paint, opacity, blur, lambda pen, corner: pen.ellipse(corner, fill=255))

    def glow(
        self, x: float, y: float, radius: float, colour: Colour, strength: float = 1.0, squash: float = 1.0
    ) -> None:
        """Light that fades to nothing at `radius`; it brightens what is there and never beyond white."""
        area = self._area(x - radius, y - radius * squash, x + radius, y + radius * squash)
        if area is None:
            return
        rows, columns = self._grid(area)
        far = ((columns - x) / radius) ** 2 + ((rows - y) / (radius * squash)) ** 2
        light = np.float32(strength) * np.clip(1 - far, 0, 1) ** 3
        self._screen(area, light, colour)

    def light(self, mask: Field, colour: Colour) -> None:
        """Brighten by a mask as large as the picture."""
        self._screen((0, 0, self.width, self.height), mask, colour)

    def veil(self, mask: Field | float, paint: Paint) -> None:
        """Lay a paint over everything, as thick as the mask (rows x columns, or one number) says."""
        self._blend((0, 0, self.width, self.height), np.asarray(mask, np.float32), paint)

    def shadow(self, outline: Points, strength: float, blur: float, colour: Colour = (0.1, 0.1, 0.2)) -> None:
        """Darken softly below an outline."""
        self.shape(outline, colour, strength, blur)

    def soften(self, radius: float) -> None:
        """Put what is painted so far out of focus, as things far behind the subject are."""
        self.rgb = blurred(self.rgb, radius)

    def grid(self) -> tuple[Field, Field]:
        """Row numbers as a column and column numbers as a row, to reckon with places."""
        return self._grid((0, 0, self.width, self.height))

    def _draw(
        self,
        outlines: Sequence[Points],
        paint: Paint,
        opacity: float,
        blur: float,
        draw: Callable[[ImageDraw.ImageDraw, list[tuple[float, float]]], None] | None,
        width: float = 0.0,
    ) -> None:
        if not len(outlines):
            return
        margin = blur * 3 + width + 2
        low = np.min([outline.min(0) for outline in outlines], 0) - margin
        high = np.max([outline.max(0) for outline in outlines], 0) + margin
        area = self._area(low[0], low[1], high[0], high[1])
        if area is None:
            return
        left, top, right, bottom = area
        finer = 4 if (right - left) * (bottom - top) < _SMALL else 2
        mask = Image.new("L", ((right - left) * finer, (bottom - top) * finer))
        pen = ImageDraw.Draw(mask)
        for outline in outlines:
            corners = [(float(x), float(y)) for x, y in (outline - (left, top)) * finer]
            if draw is None:
                pen.line(corners, fill=255, width=max(1, round(width * finer)), joint="curve")
            else:
                draw(pen, corners)
        mask = mask.reduce(finer)
        if blur:
            mask = _soft(mask, float(blur))
        self._blend(area, np.asarray(mask, np.float32) * np.float32(opacity / 255), paint)

    def _area(self, left: float, top: float, right: float, bottom: float) -> tuple[int, int, int, int] | None:
        whole = (
            max(0, math.floor(left)),
            max(0, math.floor(top)),
            min(self.width, math.ceil(right)),
            min(self.height, math.ceil(bottom)),
        )
        return whole if whole[0] < whole[2] and whole[1] < whole[3] else None

    @staticmethod
    def _grid(area: tuple[int, int, int, int]) -> tuple[Field, Field]:
        left, top, right, bottom = area
        return (
            np.arange(top, bottom, dtype=np.float32)[:, None],
            np.arange(left, right, dtype=np.float32)[None, :],
        )

    def _blend(self, area: tuple[int, int, int, int], mask: Field, paint: Paint) -> None:
        left, top, right, bottom = area
        under = self.rgb[top:bottom, left:right]
        over = paint(*self._grid(area)) if callable(paint) else np.array(paint, np.float32)
        share = mask[..., None] if mask.ndim else mask
        under += (over - under) * share

    def _screen(self, area: tuple[int, int, int, int], light: Field, colour: Colour) -> None:
        left, top, right, bottom = area
        under = self.rgb[top:bottom, left:right]
        under += (1 - np.minimum(under, 1)) * light[..., None] * np.array(colour, np.float32)


def _soft(mask: Image.Image, radius: float) -> Image.Image:
    shrink = max(1, int(radius / 4))
    if shrink == 1:
        return mask.filter(ImageFilter.GaussianBlur(radius))
    small = mask.reduce(shrink).filter(ImageFilter.GaussianBlur(radius / shrink))
    return small.resize(mask.size, Image.Resampling.BICUBIC)


def blurred(rgb: Field, radius: float) -> Field:
    """The picture, or one channel of it, blurred by about `radius` pixels."""
    if rgb.ndim == 2:
        return _blurred_channel(rgb, radius)
    return np.stack([_blurred_channel(rgb[..., channel], radius) for channel in range(rgb.shape[2])], 2)


def _blurred_channel(values: Field, radius: float) -> Field:
    """A large blur is done on a smaller picture, a small one by making it smaller and large again."""
    height, width = values.shape
    shrink = radius / 2.5 if radius > 3 else 1 + radius * 0.8
    image = Image.fromarray(np.ascontiguousarray(values))
    small = np.asarray(image.resize((max(2, int(width / shrink)), max(2, int(height / shrink))), Image.Resampling.BOX))
    for _ in range(3 if radius > 3 else 0):
        small = _box_blurred(_box_blurred(small, radius / shrink).T, radius / shrink).T
    return np.asarray(Image.fromarray(np.ascontiguousarray(small)).resize((width, height), Image.Resampling.BICUBIC))


def _box_blurred(values: Field, sigma: float) -> Field:
    """Three passes of a box this wide come close to a Gaussian of `sigma`."""
    half = max(1, round(sigma))
    padded = np.pad(values, ((half + 1, half), (0, 0)), mode="edge")
    sums = np.cumsum(padded, 0, dtype=np.float64)
    return ((sums[2 * half + 1 :] - sums[: -2 * half - 1]) / (2 * half + 1)).astype(np.float32)
