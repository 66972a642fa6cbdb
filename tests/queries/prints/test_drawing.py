"""Prints as the lab gets them: read back by a second program, exact to the pixel, the same every time."""

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from queries.cards.values import Card, CardRule
from queries.cropping.values import Window
from queries.prints.drawing import MARK_GREY, drawn_print, print_jpeg, print_jpegs
from queries.prints.values import CardPiece, DrawnPrint, PlacedPiece, PrintJob
from tests.orientation_table import DISPLAYED
from tests.queries.prints.made_jobs import SIX_BY_FOUR, WEEK, collage, job, part, photo_piece, save, um

Reader = Callable[[Path], dict[str, Any]]


@pytest.fixture(scope="module")
def red(tmp_path_factory: pytest.TempPathFactory) -> str:
    return save(Image.new("RGB", (300, 200), (200, 30, 40)), tmp_path_factory.mktemp("photos") / "red.png")


@pytest.fixture(scope="module")
def noise(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A JPEG with all that an original brings along: Exif, a turn, a comment, a resolution."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010F], exif[0x8825] = 6, "Quay", {1: "N", 2: (59.0, 0.0, 0.0)}
    image = Image.effect_noise((600, 900), 60).convert("RGB")
    path = tmp_path_factory.mktemp("photos") / "noise.jpg"
    return save(image, path, exif=exif, comment=b"a remark", dpi=(72, 72))


def jpeg_of(asked: PrintJob) -> bytes:
    drawn = print_jpeg(asked)
    assert isinstance(drawn, DrawnPrint), drawn
    return drawn.jpeg


def pixels_of(asked: PrintJob) -> np.ndarray:
    return np.asarray(drawn_print(asked)[0]).astype(int)


def test_a_second_program_reads_what_the_lab_asks_for(noise: str, tmp_path: Path, second_reader: Reader) -> None:
    """1800 x 1200 pixels for 6x4 at 300 dpi, sRGB, baseline, 4:4:4, no orientation, nothing of the original's."""
    asked = job(PlacedPiece(SIX_BY_FOUR, False, photo_piece("k", 1800, 1200)), k=noise)
    path = tmp_path / "o01-01.jpg"
    path.write_bytes(jpeg_of(asked))
    tags = second_reader(path)
    names = ("ImageWidth", "ImageHeight", "EncodingProcess", "YCbCrSubSampling", "BitsPerSample", "ColorComponents")
    assert [tags[f"File:{name}"] for name in names] == [
        1800, 1200, "Baseline DCT, Huffman coding", "YCbCr4:4:4 (1 1)", 8, 3,
    ]  # fmt: skip
    assert [tags[f"JFIF:{name}"] for name in ("XResolution", "YResolution", "ResolutionUnit")] == [300, 300, "inches"]
    assert "sRGB" in tags["ICC_Profile:ProfileDescription"]
    assert tags["ICC_Profile:ColorSpaceData"].strip() == "RGB"
    assert {name.split(":")[0] for name in tags} <= {
        "SourceFile",
        "ExifTool",
        "File",
        "JFIF",
        "ICC_Profile",
        "Composite",
    }
    assert "File:Comment" not in tags


def test_the_quality_is_95(noise: str) -> None:
    """The tables are those that the encoder has for 95."""
    reference = io.BytesIO()
    Image.new("RGB", (8, 8)).save(reference, "JPEG", quality=95)
    asked = job(PlacedPiece(SIX_BY_FOUR, False, photo_piece("k", 1800, 1200)), k=noise)
    ours, theirs = (Image.open(io.BytesIO(data)) for data in (jpeg_of(asked), reference.getvalue()))
    assert ours.quantization == theirs.quantization  # type: ignore[attr-defined]


@pytest.mark.parametrize("dpi", [200, 300, 301])
def test_other_sizes_and_resolutions_are_met(red: str, dpi: int, tmp_path: Path, second_reader: Reader) -> None:
    """The file has the pixels and the resolution that the job says."""
    placed = PlacedPiece((0, 0, 90, 61), False, photo_piece("k", 90, 61))
    path = tmp_path / "print.jpg"
    path.write_bytes(jpeg_of(PrintJob("o01-01", 123, 457, dpi, (placed,), (), {"k": red})))
    tags = second_reader(path)
    assert (tags["File:ImageWidth"], tags["File:ImageHeight"], tags["JFIF:XResolution"]) == (123, 457, dpi)


def test_the_same_job_gives_the_same_bytes(noise: str) -> None:
    """Nothing of the clock or of chance is in a print."""
    asked = job(PlacedPiece((10, 20, 910, 1100), True, photo_piece("k", 1080, 900)), marks=((0, 0, 0, 9),), k=noise)
    assert jpeg_of(asked) == jpeg_of(asked)


@pytest.mark.parametrize("box", [(0, 0, 900, 1200), (900, 0, 1800, 1200), (0, 0, 900, 900), (450, 150, 1350, 1050)])
def test_a_piece_stands_exact_to_the_pixel(red: str, box: tuple[int, int, int, int]) -> None:
    """3x4 are 900 x 1200 pixels and 3x3 are 900 x 900 at their place; everything else is white."""
    left, top, right, bottom = box
    shown = pixels_of(job(PlacedPiece(box, False, photo_piece("k", right - left, bottom - top)), k=red))
    inside = np.zeros(shown.shape[:2], bool)
    inside[top:bottom, left:right] = True
    assert (shown[inside] == (200, 30, 40)).all()
    assert (shown[~inside] == 255).all()


def test_marks_are_drawn_and_pieces_lie_over_them(red: str) -> None:
    """Lines of one pixel, both ends included; where a piece lies there is none."""
    marks = ((900, 0, 900, 34), (0, 950, 34, 950), (5, 5, 5, 100))
    shown = pixels_of(job(PlacedPiece((0, 0, 900, 900), False, photo_piece("k", 900, 900)), marks=marks, k=red))
    expected = np.full((1200, 1800, 3), 255)
    expected[0:35, 900] = expected[950, 0:35] = MARK_GREY
    expected[:900, :900] = (200, 30, 40)
    assert np.array_equal(shown, expected)


def test_white_stays_white_in_the_file(noise: str) -> None:
    """Around a piece the encoder leaves nothing to see."""
    asked = job(PlacedPiece((0, 0, 900, 900), False, photo_piece("k", 900, 900)), k=noise)
    shown = np.asarray(Image.open(io.BytesIO(jpeg_of(asked)))).astype(int)
    assert (shown[904:] == 255).all()
    assert shown[900:, :900].min() > 235  # within the block of 8 x 8 that the piece ends in


def patches(tmp_path: Path, orientation: int) -> str:
    values = np.kron(np.array([[1, 2, 3], [4, 5, 6]]) * 40, np.ones((100, 100))).astype(np.uint8)
    exif = Image.Exif()
    exif[0x0112] = orientation
    return save(Image.fromarray(values).convert("RGB"), tmp_path / "patches.png", exif=exif)


def numbers(shown: np.ndarray, box: tuple[int, int, int, int], rows: int, columns: int) -> list[list[int]]:
    left, top, right, bottom = box
    across, down = (right - left) / columns, (bottom - top) / rows
    return [
        [round(shown[int(top + (r + 0.5) * down), int(left + (c + 0.5) * across), 0] / 40) for c in range(columns)]
        for r in range(rows)
    ]


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_is_printed_upright_or_turned(tmp_path: Path, orientation: int, turned: bool) -> None:
    """As the Exif table displays it; a turned piece by 90 degrees clockwise: its left column is the print's top row."""
    upright = np.array(DISPLAYED[orientation])
    rows, columns = upright.shape
    width, height = 300 * columns, 300 * rows
    box = (60, 30, 60 + (height if turned else width), 30 + (width if turned else height))
    piece = PlacedPiece(box, turned, photo_piece("k", width, height))
    shown = pixels_of(job(piece, k=patches(tmp_path, orientation)))
    expected = np.rot90(upright, -1) if turned else upright
    assert numbers(shown, box, *expected.shape) == expected.tolist()


def test_a_collage_lies_on_its_background(red: str, tmp_path: Path) -> None:
    """Cells at their pixels, gaps and the free strip in the background's colour, corners round over it."""
    blue = save(Image.new("RGB", (40, 40), (20, 40, 220)), tmp_path / "blue.png")
    cells = (40, 50, 840, 950), (900, 50, 1750, 950)
    piece = collage("#f4efe6", 1800, 1200, part("r", cells[0], corner=60), part("b", cells[1]))
    shown = pixels_of(job(PlacedPiece(SIX_BY_FOUR, False, piece), r=red, b=blue))
    paper = (0xF4, 0xEF, 0xE6)
    assert (shown[50:950, 900:1750] == (20, 40, 220)).all()
    assert (shown[110:890, 40:840] == (200, 30, 40)).all()
    assert (shown[50:950, 100:780] == (200, 30, 40)).all()
    around = np.ones((1200, 1800), bool)
    around[50:950, 40:840] = around[50:950, 900:1750] = False
    assert (shown[around] == paper).all()
    for row, column in ((50, 40), (50, 839), (949, 40), (949, 839)):
        assert tuple(shown[row, column]) == paper
    corner = shown[50:110, 40:100]
    mixed = ((corner != paper).any(2) & (corner != (200, 30, 40)).any(2)).sum()
    assert 40 < mixed < 160  # a quarter of the edge of a circle of 60 pixels is 94 long
    assert (corner >= np.minimum(paper, (200, 30, 40))).all()


def test_a_collage_of_one_shows_its_paper(red: str) -> None:
    """A panorama across the middle of its pocket leaves the background above and below."""
    piece = collage("white", 1800, 1200, part("k", (40, 300, 1760, 900)))
    shown = pixels_of(job(PlacedPiece(SIX_BY_FOUR, False, piece), k=red))
    assert (shown[300:900, 40:1760] == (200, 30, 40)).all()
    assert (shown[:300] == 255).all()


def test_a_window_is_what_is_printed(tmp_path: Path) -> None:
    """The second of three columns alone, from a window that covers it."""
    path = patches(tmp_path, 1)
    piece = photo_piece("k", 400, 800, Window(1 / 3, 0, 2 / 3, 1))
    box = (0, 0, 400, 800)
    shown = pixels_of(job(PlacedPiece(box, False, piece), k=path))
    assert numbers(shown, box, 2, 1) == [[2], [5]]


def test_a_card_is_drawn_at_its_box() -> None:
    """A rule across a card stands where the card has it, turned with its piece."""
    card = Card(um(900), um(1200), 0, rules=(CardRule(um(100), um(300), um(700), um(30)),))
    piece = CardPiece("2026-W14 R2", WEEK, "R2", um(900), um(1200), card)
    upright = pixels_of(job(PlacedPiece((900, 0, 1800, 1200), False, piece)))
    assert (upright[300:330, 1000:1700] < 250).all()
    assert (upright[:300] == 255).all()
    turned = pixels_of(job(PlacedPiece((0, 0, 1200, 900), True, piece)))
    assert (turned[100:800, 870:900] < 250).all()
    assert (turned[:, :870] == 255).all()


def test_what_is_wrong_with_a_photo_is_said_with_its_path(tmp_path: Path) -> None:
    """Gone, damaged and no picture at all: one line each, that names the file."""
    text, half = tmp_path / "text.jpg", tmp_path / "half.jpg"
    text.write_text("hello")
    whole = save(Image.effect_noise((200, 200), 50), tmp_path / "whole.jpg")
    half.write_bytes(Path(whole).read_bytes()[:5000])
    for path, reason in ((text, "it holds"), (half, ""), (tmp_path / "gone.jpg", "cannot be read: no such file")):
        said = print_jpeg(job(PlacedPiece(SIX_BY_FOUR, False, photo_piece("k", 1800, 1200)), k=str(path)))
        assert isinstance(said, str)
        assert said.startswith(f"{path}: {reason}")
        assert "\n" not in said


def test_what_was_guessed_is_noted_once(tmp_path: Path) -> None:
    """A profile that cannot be used is told with the file, once for a print."""
    path = save(Image.new("RGB", (90, 60)), tmp_path / "photo.png", icc_profile=b"no profile at all")
    piece = collage("white", 1800, 1200, part("k", (0, 0, 900, 1200)), part("k", (900, 0, 1800, 1200)))
    drawn = print_jpeg(job(PlacedPiece(SIX_BY_FOUR, False, piece), k=path))
    assert isinstance(drawn, DrawnPrint)
    assert drawn.notes == (f"{path}: its colour profile cannot be used; taken as sRGB",)


def test_prints_are_drawn_in_processes_of_their_own(red: str, tmp_path: Path) -> None:
    """Each comes back once with its place: the same bytes as drawn here, or the reason."""
    good = job(PlacedPiece(SIX_BY_FOUR, False, photo_piece("k", 1800, 1200)), k=red)
    bad = replace(good, sources={"k": str(tmp_path / "gone.jpg")})
    drawn = dict(print_jpegs([good, bad, replace(good, dpi=200)]))
    assert sorted(drawn) == [0, 1, 2]
    assert drawn[0] == print_jpeg(good)
    assert drawn[1] == print_jpeg(bad)
    assert isinstance(drawn[2], DrawnPrint)


def test_no_prints_need_no_process() -> None:
    """An empty order is drawn at once."""
    assert list(print_jpegs([])) == []
