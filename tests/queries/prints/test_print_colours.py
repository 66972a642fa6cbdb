"""Colours of other spaces arrive in the print as `colour-science` reckons them, another implementation."""

import io
from pathlib import Path

import colour
import numpy as np
import pytest
from PIL import Image

from queries.prints.drawing import drawn_print, print_jpeg
from queries.prints.values import DrawnPrint, PlacedPiece, PrintJob
from tests.indexer.facts.test_picture_colours import ADOBE_RGB, GAMMA_563_256, P3, SRGB_CURVE, icc_profile
from tests.queries.prints.made_jobs import photo_piece, save

SIDE, COLUMNS = 24, 27
STEPS = (0, 24, 48, 80, 112, 144, 176, 216, 255)
#: 729 colours, evenly over the whole space.
CODES = np.array([(red, green, blue) for red in STEPS for green in STEPS for blue in STEPS], np.uint8)
#: Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Research and Application 30 (2005), table 1,
#: rows 1, 7, 17 and 25 (from memory).
SHARMA = (
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
)


def printed(tmp_path: Path, profile: bytes | None) -> tuple[np.ndarray, np.ndarray]:
    """The patches as they are drawn and as they are in the file: the means of their middles, in codes 0..1 of sRGB."""
    rows = len(CODES) // COLUMNS
    tiled = np.kron(CODES.reshape(rows, COLUMNS, 3), np.ones((SIDE, SIDE, 1))).astype(np.uint8)
    path = save(Image.fromarray(tiled), tmp_path / "patches.png", **({"icc_profile": profile} if profile else {}))
    width, height = COLUMNS * SIDE, rows * SIDE
    placed = PlacedPiece((0, 0, width, height), False, photo_piece("k", width, height))
    asked = PrintJob("o01-01", width, height, 300, (placed,), (), {"k": path})
    made = print_jpeg(asked)
    assert isinstance(made, DrawnPrint)
    drawn, filed = (middles_of(image) for image in (drawn_print(asked)[0], Image.open(io.BytesIO(made.jpeg))))
    return drawn, filed


def middles_of(image: Image.Image) -> np.ndarray:
    shown = np.asarray(image).astype(float).reshape(-1, SIDE, COLUMNS, SIDE, 3)
    means: np.ndarray = shown[:, 8:-8, :, 8:-8].mean((1, 3)).reshape(-1, 3) / 255
    return means


def lab_of(codes: np.ndarray) -> np.ndarray:
    space = colour.RGB_COLOURSPACES["sRGB"]
    return np.asarray(colour.XYZ_to_Lab(colour.RGB_to_XYZ(codes, space, apply_cctf_decoding=True), space.whitepoint))


@pytest.mark.parametrize(("first", "second", "expected"), SHARMA)
def test_the_difference_is_the_published_one(
    first: tuple[float, ...], second: tuple[float, ...], expected: float
) -> None:
    """What is used to measure gives the published differences."""
    assert colour.delta_E(np.array(first), np.array(second), method="CIE 2000") == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("name", "profile"),
    [
        ("Display P3", icc_profile(P3, SRGB_CURVE)),
        ("Adobe RGB (1998)", icc_profile(ADOBE_RGB, GAMMA_563_256)),
        ("sRGB", None),
    ],
)
def test_patches_within_srgb_come_out_within_one_unit(tmp_path: Path, name: str, profile: bytes | None) -> None:
    """CIEDE2000 at most 1.0 between each patch and the colour reckoned, for all that sRGB can show.

    In the file one dark patch in 200 is off by up to 1.1: there JPEG's luma and chroma, whole numbers of 8 bits, stand
    for no nearer colour. As drawn, before that, none is off by more than 0.5.
    """
    spaces = colour.RGB_COLOURSPACES
    linear = colour.RGB_to_RGB(CODES / 255, spaces[name], spaces["sRGB"], apply_cctf_decoding=True)
    within = ((linear > -1e-6) & (linear < 1 + 1e-6)).all(1)
    expected = colour.cctf_encoding(np.clip(linear, 0, 1), function="sRGB")
    assert within.sum() >= 200
    drawn, filed = (off(found, expected)[within] for found in printed(tmp_path, profile))
    assert drawn.max() <= 0.5
    assert (filed <= 1.0).mean() >= 0.995
    assert filed.max() <= 1.1
    if profile:  # the patches do tell a converted print from one that was not
        assert off(CODES / 255, expected)[within].max() > 3


def off(found: np.ndarray, expected: np.ndarray) -> np.ndarray:
    return np.asarray(colour.delta_E(lab_of(found), lab_of(expected), method="CIE 2000"))
