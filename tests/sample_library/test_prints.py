"""Weeks of the sample library, planned and printed: the files that a lab gets, read by other programs than ours."""

import io
import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image, ImageCms, ImageOps
from pillow_heif import register_heif_opener

from queries.cli import main

LIBRARY = Path(__file__).parents[2] / "sample_library"
WEEKS = ("2025-W46", "2025-W52", "2026-W02")


def asked(index: Path, *words: str | Path) -> Any:
    call = ["--index", str(index), *map(str, words), "--json"]
    result = CliRunner().invoke(main, call, catch_exceptions=False, prog_name="weeksheaf")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def order(tmp_path_factory: pytest.TempPathFactory) -> tuple[Any, dict[str, Any]]:
    """Three weeks in one order, one of them with a collage and words; and by week and pocket what was planned."""
    index = tmp_path_factory.mktemp("prints") / "index.db"
    asked(index, "index", LIBRARY)
    asked(index, "note", WEEKS[1], "The ferry did not sail on Christmas Eve, so we all stayed at the harbour.")
    planned = {}
    for week in WEEKS:
        more = ("--collage", "R1=2", "--corners", "1/16in") if week == WEEKS[1] else ()
        for page in asked(index, "fit", week, *more)["pages"]:
            planned |= {f"{week} {pocket['pocket']}": pocket for pocket in page["pockets"]}
    return asked(index, "prints", *WEEKS, index.parent / "out", "--journal", "--yes"), planned


def test_every_photo_of_the_plans_is_on_one_print(order: tuple[Any, dict[str, Any]]) -> None:
    """In the size of its pocket, on as few prints as there can be; 6x4 and 3x4 alone: n + ceil(m/2)."""
    document, planned = order
    pieces = [piece for one in document["prints"] for piece in one["pieces"]]
    found = {f"{piece['week']} {piece['pocket']}": piece for piece in pieces}
    assert len(found) == len(pieces)
    assert {name for name, piece in found.items() if piece["codes"]} == {
        name for name, pocket in planned.items() if pocket["photos"]
    }
    tall = 0
    for name, piece in found.items():
        assert piece["codes"] == [photo["code"] for photo in planned[name]["photos"]]
        sides = sorted((piece["width_in"], piece["height_in"]))
        assert sides == sorted((planned[name]["width_in"], planned[name]["height_in"]))
        tall += sides == [3, 4]
    assert len(document["prints"]) == document["lower_bound"] == len(pieces) - tall + (tall + 1) // 2


def test_the_files_as_a_second_program_reads_them(order: tuple[Any, dict[str, Any]]) -> None:
    """exiftool: pixels, dots, profile, baseline, 4:4:4, no orientation (common practice of labs)."""
    if not shutil.which("exiftool"):
        pytest.skip("exiftool is not installed")
    document, _ = order
    files = [one["file"] for one in document["prints"]]
    said = json.loads(subprocess.run(["exiftool", "-j", "-n", *files], capture_output=True, check=True).stdout)
    assert len(said) == len(files)
    for one in said:
        assert (one["ImageWidth"], one["ImageHeight"]) == (1800, 1200)
        assert (one["XResolution"], one["YResolution"], one["ResolutionUnit"]) == (300, 300, 1)
        assert (one["EncodingProcess"], one["YCbCrSubSampling"]) == (0, "1 1")
        assert one["ProfileDescription"].startswith("sRGB")
        assert "Orientation" not in one
    assert all(re.fullmatch(r"o01-\d\d\.jpg", Path(name).name) for name in files)


def test_the_pixels_are_those_of_the_plan(order: tuple[Any, dict[str, Any]]) -> None:
    """A single photo on its print is its window of the upright original, cut and scaled here by Pillow alone."""
    document, planned = order
    compared = 0
    for one in document["prints"]:
        with Image.open(one["file"]) as opened:
            printed = opened.convert("RGB")
        for piece in one["pieces"]:
            pocket = planned[f"{piece['week']} {piece['pocket']}"]
            if pocket["holds"] != "photo":
                continue
            left, top = round(piece["x_in"] * 300), round(piece["y_in"] * 300)
            size = round(piece["width_in"] * 300), round(piece["height_in"] * 300)
            found = printed.crop((left, top, left + size[0], top + size[1]))
            if piece["turned"]:
                found = found.transpose(Image.Transpose.ROTATE_90)
            difference = np.abs(
                np.asarray(found, int) - np.asarray(_cut_by_pillow(pocket["photos"][0], found.size), int)
            )
            assert difference.mean() < 2, (one["file"], piece)
            compared += 1
    assert compared > 20


def test_the_guide_names_every_piece(order: tuple[Any, dict[str, Any]]) -> None:
    """Each print's file and each piece's pocket are words in the PDF; one page a few prints."""
    if not shutil.which("pdftotext"):
        pytest.skip("pdftotext is not installed")
    document, _ = order
    guide = Path(document["folder"]) / "cutting-guide.pdf"
    text = subprocess.run(["pdftotext", "-layout", guide, "-"], capture_output=True, check=True, text=True).stdout
    for one in document["prints"]:
        assert text.count(Path(one["file"]).name) >= 2
        for piece in one["pieces"]:
            assert re.search(rf"to {piece['pocket']}\b", text)


def _cut_by_pillow(photo: Any, size: tuple[int, int]) -> Image.Image:
    register_heif_opener()
    with Image.open(photo["path"]) as opened:
        upright = ImageOps.exif_transpose(opened)
    if profile := upright.info.get("icc_profile"):
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        upright = ImageCms.profileToProfile(upright, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
    left, top, right, bottom = photo["crop"]
    width, height = upright.size
    box = (left * width, top * height, right * width, bottom * height)
    return upright.convert("RGB").resize(size, Image.Resampling.LANCZOS, box=box)
