"""One look at a picture file for its crop."""

from pathlib import Path

import pytest
from PIL import Image

from queries.cropping import faces
from queries.cropping.looking import NOTHING, look_at, looks_at


def test_a_picture_is_seen_upright(tmp_path: Path) -> None:
    """A picture stored lying down has its map as it is displayed."""
    turned = Image.Exif()
    turned[0x0112] = 6
    Image.new("RGB", (400, 200), "teal").save(tmp_path / "lying.jpg", exif=turned)
    seen = look_at(str(tmp_path / "lying.jpg"))
    assert seen.detail is not None
    assert seen.detail.shape == (48, 24)


def test_what_cannot_be_opened_shows_nothing(tmp_path: Path) -> None:
    """A broken file, a missing one: nothing seen, nothing raised."""
    (tmp_path / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0 cut off")
    assert look_at(str(tmp_path / "broken.jpg")) == NOTHING
    assert look_at(str(tmp_path / "gone.jpg")) == NOTHING


def test_many_are_looked_at_by_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a process of its own: each path with what it shows."""
    monkeypatch.setattr(faces, "_detector", lambda: None)
    Image.new("RGB", (60, 40), "red").save(tmp_path / "one.png")
    (tmp_path / "two.png").write_bytes(b"no picture")
    looks = looks_at([str(tmp_path / "one.png"), str(tmp_path / "two.png")])
    assert looks[str(tmp_path / "one.png")].detail is not None
    assert looks[str(tmp_path / "two.png")] == NOTHING
    assert looks_at([]) == {}
