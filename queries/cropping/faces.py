"""Heads in a picture, by the face detector of dlib where that is installed: `pip install weeksheaf[faces]`.

It finds upright faces looking at the camera, more or less, by histograms of oriented gradients (Dalal and Triggs, CVPR
2005; its model is part of the library). DEVELOPERS.md, "Choices", has what it finds and misses.
"""

from functools import cache
from typing import Any

import numpy as np
from PIL import Image

from queries.cropping.values import Window

#: The longer side of the picture that is searched, in pixels. The smallest face found is 70 or so across.
SIDE = 1280
#: What a find must be worth; the best false find among 255 photos without a face was worth 0.05.
_LEAST_WORTH = 0.25
#: From brow and chin to the whole head with its hair, in heights and widths of the face found.
_ABOVE, _BELOW, _BESIDE = 0.6, 0.2, 0.35


def can_find() -> bool:
    """Whether the detector is installed."""
    return _detector() is not None


def heads_in(picture: Image.Image) -> tuple[Window, ...]:
    """The heads found in an upright picture, in no set order; none where the detector is not installed."""
    detector = _detector()
    if detector is None:
        return ()
    scale = SIDE / max(picture.size)
    size = max(1, round(picture.width * scale)), max(1, round(picture.height * scale))
    grey = np.asarray(picture.convert("L").resize(size, Image.Resampling.BILINEAR))
    faces, _, _ = detector.run(grey, 0, _LEAST_WORTH)
    return tuple(head for head in (_head(face, *size) for face in faces) if head.width > 0 and head.height > 0)


def _head(face: Any, width: int, height: int) -> Window:
    across, down = face.width(), face.height()
    return Window(
        max(0.0, (face.left() - _BESIDE * across) / width),
        max(0.0, (face.top() - _ABOVE * down) / height),
        min(1.0, (face.right() + 1 + _BESIDE * across) / width),
        min(1.0, (face.bottom() + 1 + _BELOW * down) / height),
    )


@cache
def _detector() -> Any:
    try:
        import dlib
    except ImportError:
        return None
    return dlib.get_frontal_face_detector()
