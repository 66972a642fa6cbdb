"""What the alike engine makes of real photographs. Measured in full by `tests/benchmarks/alike`."""

from pathlib import Path

import pillow_heif
from PIL import Image

from indexer.alike.likeness import likenesses
from indexer.alike.values import Looked
from indexer.facts.pixels import PixelFacts, look_at
from tests.benchmarks.alike.look_alikes import sets_of_pairs
from tests.indexer.alike.looks import looked
from tests.real_photos import pool
from tests.real_photos.conftest import FolderOf

#: Seconds between two shots, and the cameras' own times of them.
GAP = 2
TIMES = ("2026-03-30T09:15:20", "2026-03-30T09:15:22", "2026-03-30T09:15:24", "2026-03-30T09:15:26")
#: How many strangers are compared with each other.
SAMPLE = 40


def shots(*images: Image.Image) -> list[Looked]:
    return [
        looked(f"{number}", image, float(GAP * number), own_time=TIMES[number]) for number, image in enumerate(images)
    ]


def kinds(photos: list[Looked]) -> list[str]:
    return [found.kind for found in likenesses(photos, {photo.key for photo in photos})]


def test_two_shots_of_one_scene_are_a_burst(folder_of: FolderOf) -> None:
    """The pairs that moved a little, two seconds apart by the camera's clock."""
    assert folder_of("opencv-doc")
    assert folder_of("scikit-image")
    near = [(one, other) for one, other, kind in pool.pair_files() if kind == "near"]
    assert len(near) == 3
    for one, other in near:
        assert kinds(shots(pool.small(one), pool.small(other))) == ["burst"], one.name


def test_pictures_that_look_much_alike_are_no_copies(folder_of: FolderOf) -> None:
    """Cabinets made as a pair, two sets of toy blocks, one castle in two seasons."""
    assert folder_of("blockhash")
    assert folder_of("gcompris-qt-data")
    for name, (one, other) in pool.hard_negatives().items():
        assert kinds([looked("one", one), looked("other", other)]) == [], name


def test_pictures_that_look_much_alike_make_no_set(folder_of: FolderOf) -> None:
    """The same, indexed as files dated half a minute apart; the pairs that moved a little are bursts all the same."""
    assert folder_of("blockhash")
    assert folder_of("gcompris-qt-data")
    assert sets_of_pairs(pool.hard_negatives().values(), 30) == 0
    near = [(pool.small(one), pool.small(other)) for one, other, kind in pool.pair_files() if kind == "near"]
    assert sets_of_pairs(near, 30) == len(near) == 3


def test_a_marked_or_barred_picture_is_a_copy(folder_of: FolderOf) -> None:
    """A portrait with a large sign or with words across it, and set on a square; not one blurred away."""
    found = {path.name: path for path in folder_of("thumbor").rglob("fixtures/filters/*.jpg")}
    source = looked("source", pool.small(found["source.jpg"]))
    for name, expected in {
        "watermarkResize50pWidth.jpg": ["copy"], "watermarkResize60p80p.jpg": ["copy"],
        "watermarkResize70pHeight.jpg": ["copy"], "watermarkSimpleBig.jpg": ["copy"],
        "fill.jpg": ["copy"], "fill2.jpg": ["copy"], "blur3.jpg": [],
    }.items():  # fmt: skip
        assert kinds([source, looked(name, pool.small(found[name]))]) == expected, name


def test_two_shots_are_no_copies_by_the_parts_that_stood_still(folder_of: FolderOf) -> None:
    """Two seconds apart by the camera's clock, or in one second with one size: a burst."""
    assert folder_of("opencv-doc")
    one, other = (pool.small(next(folder_of("opencv-doc").rglob(f"basketball{n}.png"))) for n in (1, 2))
    assert kinds(shots(one, other)) == ["burst"]
    known = {"own_time": TIMES[0], "camera": "Harbour|One"}
    assert kinds([looked("one", one, 0.0, **known), looked("other", other, 0.0, **known)]) == ["burst"]


def test_strangers_are_no_copies(folder_of: FolderOf) -> None:
    """Of the museum's photographs and the others none is a copy of another, whatever their dates."""
    assert all(map(folder_of, ("blockhash", "foolbox", "opencv-doc", "scikit-image")))
    files = sample(pool.stranger_files())
    assert len(files) == SAMPLE
    assert kinds([looked(str(path), pool.small(path)) for path in files]) == []


def sample(files: list[Path]) -> list[Path]:
    """Some from every package."""
    return files[:: len(files) // SAMPLE][:SAMPLE]


def test_a_burst_in_one_file_counts_once(folder_of: FolderOf) -> None:
    """The file is one photo and alike to nothing; the shots inside, as files of their own, would be one burst."""
    (path,) = folder_of("pillow-heif").rglob("bird_burst.heic")
    facts = look_at(str(path), may_trust_thumbnail=False)
    assert isinstance(facts, PixelFacts)
    frames = [frame.to_pillow().convert("RGB") for frame in pillow_heif.open_heif(str(path))]
    assert kinds([looked("bird_burst.heic", frames[0], 0)]) == []
    assert kinds(shots(*frames)) == ["burst"] * 6
