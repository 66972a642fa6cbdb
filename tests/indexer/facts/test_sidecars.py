"""Which XMP files belong to which photos."""

import os

import pytest

from indexer.facts.folders import FoundFile
from indexer.facts.sidecars import MOST_PER_PHOTO, find_sidecars, sidecar_texts


def at(path: str) -> bytes:
    return os.fsencode(path.replace("/", os.sep))


def beside(*paths: str) -> dict[bytes, tuple[bytes, ...]]:
    return find_sidecars({at(path): FoundFile(1, 2) for path in paths})


@pytest.mark.parametrize(
    ("photo", "sidecar"),
    [
        ("a.jpg", "a.xmp"),
        ("a.jpg", "a.jpg.xmp"),
        ("A.JPG", "a.xmp"),
        ("a.jpg", "A.JPG.XMP"),
        ("2026/a.jpg", "2026/a.Xmp"),
        ("Été.jpg", "été.xmp"),
        ("a.b.jpg", "a.b.xmp"),
        ("a", "a.xmp"),
    ],
)
def test_a_sidecar_has_the_name_of_its_photo(photo: str, sidecar: str) -> None:
    """With or without the photo's ending, in whatever case."""
    assert beside(photo, sidecar) == {at(photo): (at(sidecar),)}


@pytest.mark.parametrize(
    ("photo", "sidecar"),
    [
        ("a.jpg", "b.xmp"),
        ("2026/a.jpg", "a.xmp"),
        ("x/a.jpg", "X/a.xmp"),
        ("a.jpg", "a.jpg.xml"),
        ("ab.jpg", "a.xmp"),
        ("strasse.jpg", "straße.xmp"),
    ],
)
def test_another_file_is_no_sidecar(photo: str, sidecar: str) -> None:
    """Another name, another folder, another ending."""
    assert beside(photo, sidecar) == {}


def test_one_sidecar_may_belong_to_several_photos() -> None:
    """A raw file and its JPEG share one."""
    assert beside("a.dng", "a.jpg", "a.xmp") == {at("a.dng"): (at("a.xmp"),), at("a.jpg"): (at("a.xmp"),)}


def test_the_whole_name_comes_first() -> None:
    """Each is named once; so many that differ in case alone are not all read."""
    assert beside("a.jpg", "a.xmp", "a.jpg.xmp") == {at("a.jpg"): (at("a.jpg.xmp"), at("a.xmp"))}
    many = [f"{name}.xmp" for name in ("name", "Name", "nAme", "naMe", "namE", "NAME")]
    assert len(beside("name.jpg", *many)[b"name.jpg"]) == MOST_PER_PHOTO


def test_the_text_changes_with_name_size_and_time() -> None:
    """Any other is a reason to read the photo again."""
    texts = set()
    for name, there in (
        ("a.xmp", (1, 2)),
        ("a.xmp", (1, 3)),
        ("a.xmp", (2, 2)),
        ("A.xmp", (1, 2)),
        ("a.jpg.xmp", (1, 2)),
    ):
        found = {b"a.jpg": FoundFile(5, 5), at(name): FoundFile(*there)}
        texts.add(sidecar_texts(find_sidecars(found), found)[b"a.jpg"])
    assert len(texts) == 5


def test_a_name_that_is_no_text_has_one_all_the_same() -> None:
    """The database keeps text alone."""
    found = {b"\xff.jpg": FoundFile(5, 5), b"\xff.xmp": FoundFile(1, 2)}
    (text,) = sidecar_texts(find_sidecars(found), found).values()
    assert text.encode()
