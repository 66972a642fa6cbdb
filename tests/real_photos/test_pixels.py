"""What the pixels of real files show: thumbnails that are trusted show what the picture shows, and no file raises."""

from pathlib import Path

import imagehash
import pytest
from PIL import Image

from indexer.facts.bars import without_bars
from indexer.facts.fingerprint import fingerprint_of
from indexer.facts.pixels import NoPixels, PixelFacts, look_at
from tests.indexer.facts.scenes import bits_apart
from tests.real_photos import pool
from tests.real_photos.conftest import FolderOf
from tests.real_photos.fetch import PICTURES, named_like

PACKAGES = ("pillow-heif", "golang-github-rwcarlsen-goexif-dev", "pillow", "piexif", "opencv-doc", "mate-backgrounds")


def files(folder_of: FolderOf) -> list[Path]:
    # The thousands of little figures in a manual are left out.
    return [p for name in PACKAGES for p in named_like(PICTURES, folder_of(name)) if "html" not in p.parts]


def test_trusted_thumbnails_show_what_the_picture_shows(folder_of: FolderOf) -> None:
    """Nine in ten are within 4 bits of the decoded picture; whatever is in a file, it gives facts or a reason."""
    apart = []
    for path in files(folder_of):
        guess = look_at(str(path), may_trust_thumbnail=True)
        assert isinstance(guess, NoPixels) or len(guess.fingerprint.phash) == 8
        if isinstance(guess, PixelFacts) and guess.made_from == "thumbnail":
            sure = look_at(str(path), may_trust_thumbnail=False)
            assert isinstance(sure, PixelFacts), path
            apart.append(bits_apart(guess.fingerprint.phash, sure.fingerprint.phash))
    assert len(apart) >= 10
    assert sum(bits <= 4 for bits in apart) >= 0.9 * len(apart)


def test_a_burst_file_says_how_many_it_holds(folder_of: FolderOf) -> None:
    """It counts once, and says that there are four shots in it."""
    (burst,) = folder_of("pillow-heif").rglob("bird_burst.heic")
    facts = look_at(str(burst), may_trust_thumbnail=False)
    assert isinstance(facts, PixelFacts)
    assert facts.pictures == 4


@pytest.mark.parametrize("kind", ["jpg", "webp"])
def test_real_turned_files_have_one_fingerprint(folder_of: FolderOf, kind: str) -> None:
    """The picture of Pillow's tests in orientations 2 to 8 is within 4 bits of the upright one."""
    found = sorted(folder_of("pillow").rglob(f"hopper_orientation_[2-8].{kind}"))
    assert len(found) == 7
    prints = [look_at(str(path), may_trust_thumbnail=False) for path in found]
    hashes = [facts.fingerprint.phash for facts in prints if isinstance(facts, PixelFacts)]
    assert len(hashes) == 7
    assert all(bits_apart(hashes[0], other) <= 4 for other in hashes)


def test_the_hashes_of_the_librarys_own_picture(folder_of: FolderOf) -> None:
    """Its tests give them: phash ba8c84536bd3c366, dhash 0026273b2b19550e (ImageHash 4.3.2, tests/data)."""
    (path,) = folder_of("ImageHash").rglob("tests/data/imagehash.png")
    with Image.open(path) as picture:
        print_ = fingerprint_of(picture.convert("RGB"))
        assert print_.phash.hex() == str(imagehash.phash(picture)) == "ba8c84536bd3c366"
        assert print_.dhash.hex() == str(imagehash.dhash(picture)) == "0026273b2b19550e"


def test_bars_around_a_picture_do_not_count(folder_of: FolderOf) -> None:
    """A portrait set on a square of blue or green is within 4 bits of the portrait; bars of blurred picture stay."""
    found = {path.name: path for path in folder_of("thumbor").rglob("fixtures/filters/*.jpg")}
    prints = {}
    for name in ("source.jpg", "fill.jpg", "fill2.jpg", "fill4.jpg"):
        facts = look_at(str(found[name]), may_trust_thumbnail=False)
        assert isinstance(facts, PixelFacts), name
        prints[name] = facts.fingerprint.phash
    assert bits_apart(prints["source.jpg"], prints["fill.jpg"]) <= 4
    assert bits_apart(prints["source.jpg"], prints["fill2.jpg"]) <= 4
    assert bits_apart(prints["source.jpg"], prints["fill4.jpg"]) > 10


def test_what_is_cut_off_real_photographs_is_bars(folder_of: FolderOf) -> None:
    """Of the strangers two have some, a window and a painting, on white and on black; no other one is cut."""
    assert all(map(folder_of, ("blockhash", "foolbox", "opencv-doc", "scikit-image", "mate-backgrounds")))
    cut = []
    for path in pool.stranger_files():
        picture = pool.small(path)
        reduced = picture.reduce(max(1, max(picture.size) // 320))
        if without_bars(reduced) is not reduced:
            cut.append(path.name)
    assert cut == ["24442301.jpg", "starry_night.jpg"]
