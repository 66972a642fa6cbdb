"""Pictures looked at in processes of their own."""

from collections.abc import Callable
from pathlib import Path

import pytest

from indexer.facts import looking
from indexer.facts.looking import look_at_all
from indexer.facts.pixels import NoPixels, PixelFacts, look_at
from indexer.facts.workers import Lost


def test_every_path_is_looked_at(tmp_path: Path, draw: Callable[..., Path]) -> None:
    """As `look_at` would here; a file that shows nothing has a reason."""
    paths = [str(draw(tmp_path / "a.jpg")), str(tmp_path / "gone.jpg"), str(draw(tmp_path / "b.jpg", 2))]
    found = dict(look_at_all(paths, may_trust_thumbnails=True))
    assert found == {place: look_at(path, may_trust_thumbnail=True) for place, path in enumerate(paths)}
    assert [type(found[place]) for place in range(3)] == [PixelFacts, NoPixels, PixelFacts]


def test_a_picture_that_crashed_its_process_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """The reason is the process's."""
    monkeypatch.setattr(looking, "run_all", lambda *_, **__: iter([(0, Lost("the reader crashed on this file"))]))
    assert list(look_at_all(["a.jpg"], may_trust_thumbnails=False)) == [
        (0, NoPixels("the reader crashed on this file"))
    ]
