"""How many copies are found again, by what was done to them, and whether anything else is called a copy.

    python -m tests.benchmarks.alike.copies

Photographs that took no part in choosing the border. Each is changed, all originals and all changed ones of one kind
are compared; no time is known of any. Mirrors and crops of a quarter are there to say plainly that they are not found.
Of the thumbor package every edit of its portrait counts, the heavy ones too; what is missed is named.
"""

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PIL import ExifTags, Image, ImageDraw, ImageEnhance, ImageFont, ImageOps
from pillow_heif import register_heif_opener

from indexer.alike.likeness import likenesses
from indexer.alike.values import Looked
from indexer.facts.fingerprint import fingerprint_of
from indexer.facts.pictures import open_picture
from tests.real_photos import pool
from tests.real_photos.fetch import package_folder

Change = Callable[[Image.Image], Image.Image]


def _saved(form: str, **options: object) -> Change:
    def save(picture: Image.Image) -> Image.Image:
        file = io.BytesIO()
        picture.save(file, form, **options)
        return Image.open(io.BytesIO(file.getvalue())).convert("RGB")

    return save


def _turned_by_metadata(picture: Image.Image) -> Image.Image:
    """Stored lying on its side, with the word that turns it upright again: read as the indexer reads it."""
    exif, file = Image.Exif(), io.BytesIO()
    exif[ExifTags.Base.Orientation] = 6  # to be turned clockwise by 90 degrees (Exif 2.32)
    picture.transpose(Image.Transpose.ROTATE_90).save(file, "JPEG", quality=90, exif=exif)
    return open_picture(io.BytesIO(file.getvalue())).image


def _within(side: int) -> Change:
    def reduce(picture: Image.Image) -> Image.Image:
        return ImageOps.contain(picture, (side, side)) if max(picture.size) > side else picture.copy()

    return reduce


def _cut(left: float, top: float, right: float, bottom: float) -> Change:
    def cut(picture: Image.Image) -> Image.Image:
        w, h = picture.size
        return picture.crop((round(left * w), round(top * h), round((1 - right) * w), round((1 - bottom) * h)))

    return cut


def _on_a_square(picture: Image.Image) -> Image.Image:
    return ImageOps.pad(picture, (max(picture.size),) * 2, color="black")


def _written_across(picture: Image.Image) -> Image.Image:
    """White letters over the whole width, half seen through."""
    layer = Image.new("RGBA", picture.size)
    font = ImageFont.load_default(picture.width / 5)
    middle = (picture.width / 2, picture.height / 2)
    ImageDraw.Draw(layer).text(middle, "HARBOUR", (255, 255, 255, 128), font, anchor="mm")
    return Image.alpha_composite(picture.convert("RGBA"), layer).convert("RGB")


def _with_a_sticker(picture: Image.Image) -> Image.Image:
    """A yellow disc a quarter as wide as the shorter side, low and to the right."""
    stuck, reach = picture.copy(), min(picture.size) / 8
    x, y = 0.7 * picture.width, 0.65 * picture.height
    ImageDraw.Draw(stuck).ellipse((x - reach, y - reach, x + reach, y + reach), (255, 210, 0))
    return stuck


CHANGES: dict[str, Change] = {
    **{f"re-saved as JPEG, quality {quality}": _saved("JPEG", quality=quality) for quality in (30, 50, 70, 85, 95)},
    "halved": lambda picture: ImageOps.scale(picture, 0.5),
    "reduced to 640 pixels": _within(640),
    "converted to WebP": _saved("WEBP", quality=80),
    "converted to HEIC": _saved("HEIF", quality=60),
    "converted to PNG": _saved("PNG", compress_level=1),
    "brightened by 10 %": lambda picture: ImageEnhance.Brightness(picture).enhance(1.1),
    "framed by 2 %": lambda picture: ImageOps.expand(picture, round(0.02 * max(picture.size)), "white"),
    "cropped by 5 %, all round": _cut(0.025, 0.025, 0.025, 0.025),
    "cropped by 5 %, at one side": _cut(0, 0, 0.05, 0),
    "turned by metadata": _turned_by_metadata,
    "turned by 90 degrees": lambda picture: picture.transpose(Image.Transpose.ROTATE_90),
    "turned by 180 degrees": lambda picture: picture.transpose(Image.Transpose.ROTATE_180),
    "turned by 270 degrees": lambda picture: picture.transpose(Image.Transpose.ROTATE_270),
    "set on a square, with black bars (beyond the goal)": _on_a_square,
    "written across, large (beyond the goal)": _written_across,
    "with a sticker (beyond the goal)": _with_a_sticker,
    "cropped by 10 %, all round (beyond the goal)": _cut(0.05, 0.05, 0.05, 0.05),
    "cropped to half its sides (not sought)": _cut(0.25, 0.25, 0.25, 0.25),
    "mirrored (not sought)": ImageOps.mirror,
}


#: The portrait in the thumbor package of which the edits there were made, and how the names of those begin: the other
#: files beside them are drawings, other portraits and marks to be laid on a picture.
_SOURCE = "source.jpg"
_EDITS = (
    "blur.", "blur2", "blur3", "brightness", "colorize", "contrast", "convolution", "fill.", "fill2", "fill3", "fill4",
    "focal", "noise", "proportion", "quality", "rgb", "rotate", "round_corner", "saturation", "stretch", "upscale",
    "watermarkCenter", "watermarkRe", "watermarkSimple",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Edits:
    """How many edits of one portrait there are, and the names of those not found to be copies of it."""

    count: int
    missed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Result:
    """`found`: share of each kind found again; `edits` are those of one portrait; `right` of `called` pairs
    called copies are of one original; `photographs` were changed."""

    found: dict[str, float]
    edits: Edits | None
    right: int
    called: int
    photographs: int


def measure(photographs: Sequence[Image.Image]) -> Result:
    """Change every photograph in every way."""
    register_heif_opener()
    originals = [_looked(picture, f"{number:04} original") for number, picture in enumerate(photographs)]
    found, right, called = {}, 0, 0
    for name, change in CHANGES.items():
        changed = [_looked(change(picture), f"{number:04} changed") for number, picture in enumerate(photographs)]
        pairs = _copies([*originals, *changed])
        again = sum(one[:4] == other[:4] for one, other in pairs)
        found[name], right, called = again / len(photographs), right + again, called + len(pairs)
    return Result(found, _edits_found(), right, called, len(photographs))


def _edits_found() -> Edits | None:
    """One portrait and all that the thumbor package made of it."""
    folder = package_folder("thumbor")
    if folder is None:
        return None
    files = {path.name: path for path in folder.rglob("fixtures/filters/*") if path.suffix in (".jpg", ".png", ".webp")}
    edits = [name for name in files if name.startswith(_EDITS)]
    looked = [_looked(open_picture(str(files[name])).image, name) for name in (_SOURCE, *edits)]
    again = {name for pair in _copies(looked) if _SOURCE in pair for name in pair}
    return Edits(len(edits), tuple(sorted(set(edits) - again)))


def _copies(looked: Sequence[Looked]) -> list[tuple[str, str]]:
    keys = {photo.key for photo in looked}
    return [(pair.one, pair.other) for pair in likenesses(looked, keys) if pair.kind == "copy"]


def _looked(picture: Image.Image, key: str) -> Looked:
    made = fingerprint_of(picture)
    return Looked(
        key, None, False, None, "", *picture.size, "decode",
        made.phash, made.dhash, made.grey, made.layout, made.contrast,
    )  # fmt: skip


def lines(result: Result) -> list[str]:
    """The table, ready to print."""
    told = [f"{'found again, of ' + str(result.photographs) + ' photographs':52}"]
    told += [f"{name:52}{share:7.1%}" for name, share in result.found.items()]
    if result.edits:
        count, missed = result.edits.count, result.edits.missed
        share = 1 - len(missed) / count
        told.append(f"{'edits of one portrait':52}{share:7.1%} ({count - len(missed)} of {count})")
        told.append(f"  not found: {', '.join(missed)}")
    else:
        told.append("edits of one portrait are not here: python tests/real_photos/fetch.py --only thumbor")
    share = result.right / result.called if result.called else 1.0
    told.append(f"{'of pairs called copies, of one original':52}{share:7.2%} ({result.right:,} of {result.called:,})")
    return told


if __name__ == "__main__":
    print("\n".join(lines(measure(pool.strangers()[1::2]))))
