"""What a file's name promises."""

import pytest

from indexer.facts.picture_files import promises_picture


@pytest.mark.parametrize("name", ["a.jpg", "A.JPEG", "b.HEIC", "c.png", "d.webp", "e.Tif", "f.nef", "g.dng", "h.x.jpg"])
def test_names_that_promise_a_picture(name: str) -> None:
    """The ending says so, in either case."""
    assert promises_picture(name)


@pytest.mark.parametrize("name", ["a.txt", "jpg", ".jpg", "a.jpg.part", "a.mov", "a.jpg ", "", "a.json"])
def test_names_that_promise_none(name: str) -> None:
    """Other endings, none, and a hidden name that is all ending."""
    assert not promises_picture(name)
