"""Heads from the faces that the detector finds, and none where it is not installed."""

from dataclasses import dataclass

import numpy as np
import pytest
from PIL import Image

from queries.cropping import faces
from queries.cropping.values import Window


@dataclass(frozen=True)
class Face:
    """A rectangle as the detector gives it: the last pixel included."""

    box: tuple[int, int, int, int]

    def left(self) -> int:
        return self.box[0]

    def top(self) -> int:
        return self.box[1]

    def right(self) -> int:
        return self.box[2]

    def bottom(self) -> int:
        return self.box[3]

    def width(self) -> int:
        return self.box[2] - self.box[0] + 1

    def height(self) -> int:
        return self.box[3] - self.box[1] + 1


class Detector:
    """Finds what it was told to, and keeps what it was shown."""

    def __init__(self, *found: Face) -> None:
        self.found, self.shown = found, np.zeros((0, 0))

    def run(self, grey: np.ndarray, _upsampled: int, _least: float) -> tuple[tuple[Face, ...], list[float], list[int]]:
        self.shown = grey
        return self.found, [1.0] * len(self.found), [0] * len(self.found)


def test_without_the_detector_no_heads(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is an extra: nothing is found, nothing fails."""
    monkeypatch.setattr(faces, "_detector", lambda: None)
    assert not faces.can_find()
    assert faces.heads_in(Image.new("RGB", (40, 30))) == ()


def test_a_face_grows_to_a_head_inside_the_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    """More above than below, some at both sides, never beyond the edges."""
    inner, edge = Face((600, 300, 699, 399)), Face((-20, -10, 79, 89))
    detector = Detector(inner, edge)
    monkeypatch.setattr(faces, "_detector", lambda: detector)
    head, at_edge = faces.heads_in(Image.new("RGB", (400, 300)))
    assert detector.shown.shape == (960, 1280)
    assert head == Window(pytest.approx(565 / 1280), 240 / 960, pytest.approx(735 / 1280), 420 / 960)
    assert (at_edge.left, at_edge.top) == (0, 0)


def test_a_face_beyond_the_picture_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """A find that lies outside altogether, as padding makes them, is left out."""
    monkeypatch.setattr(faces, "_detector", lambda: Detector(Face((-300, 10, -201, 109))))
    assert faces.heads_in(Image.new("RGB", (40, 30))) == ()
