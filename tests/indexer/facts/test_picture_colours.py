"""Pictures with a colour profile of their own."""

import io
import struct

import numpy as np
import pytest
from PIL import Image

from indexer.facts.pictures import open_picture

# Primaries and white as x, y: IEC 61966-2-1 (sRGB), SMPTE RP 431-2 with the D65 white (Display P3), and the Adobe RGB
# (1998) encoding with its gamma of 563/256. All from memory.
WHITE = (0.3127, 0.3290)
SRGB = ((0.640, 0.330), (0.300, 0.600), (0.150, 0.060))
P3 = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))
ADOBE_RGB = ((0.640, 0.330), (0.210, 0.710), (0.150, 0.060))
BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])
D50 = np.array([0.9642, 1.0, 0.8249])


def xyz(place: tuple[float, float]) -> np.ndarray:
    return np.array([place[0] / place[1], 1.0, (1 - place[0] - place[1]) / place[1]])


def to_xyz(primaries: tuple[tuple[float, float], ...]) -> np.ndarray:
    """The matrix from linear RGB to XYZ under D65, by the usual reckoning from the chromaticities."""
    columns = np.stack([xyz(primary) for primary in primaries], axis=1)
    return columns * np.linalg.solve(columns, xyz(WHITE))


def srgb_decoded(value: np.ndarray) -> np.ndarray:
    """IEC 61966-2-1."""
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def srgb_encoded(value: np.ndarray) -> np.ndarray:
    return np.where(value <= 0.0031308, value * 12.92, 1.055 * value ** (1 / 2.4) - 0.055)


def icc_profile(primaries: tuple[tuple[float, float], ...] | None, curve: bytes) -> bytes:
    """A version 2 display profile (ICC.1:2001-04): primaries adapted to D50, one tone curve; without any, for grey."""
    name = b"test\0"
    description = b"desc\0\0\0\0" + struct.pack(">I", len(name)) + name + bytes(78)
    tags = {b"desc": description, b"cprt": b"text\0\0\0\0none\0", b"wtpt": xyz_tag(D50)}
    if primaries is None:
        tags[b"kTRC"] = curve
    else:
        cones = np.diag(BRADFORD @ D50 / (BRADFORD @ xyz(WHITE)))
        adapted = np.linalg.inv(BRADFORD) @ cones @ BRADFORD @ to_xyz(primaries)
        for place, sign in enumerate((b"r", b"g", b"b")):
            tags |= {sign + b"XYZ": xyz_tag(adapted[:, place]), sign + b"TRC": curve}
    table, data, start = b"", b"", 128 + 4 + 12 * len(tags)
    for signature, content in tags.items():
        table += signature + struct.pack(">2I", start + len(data), len(content))
        data += content + bytes(-len(content) % 4)
    header = struct.pack(
        ">I4sI4s4s4s12x4s28x3i48x",
        start + len(data),
        b"none",
        0x02400000,
        b"mntr",
        b"GRAY" if primaries is None else b"RGB ",
        b"XYZ ",
        b"acsp",
        63190,
        65536,
        54061,
    )
    return header + struct.pack(">I", len(tags)) + table + data


def xyz_tag(values: np.ndarray) -> bytes:
    return b"XYZ \0\0\0\0" + struct.pack(">3i", *(round(float(value) * 65536) for value in values))


GAMMA_563_256 = b"curv\0\0\0\0" + struct.pack(">IH", 1, 563)
SRGB_CURVE = b"curv\0\0\0\0" + struct.pack(
    ">I1024H", 1024, *(round(float(value) * 65535) for value in srgb_decoded(np.linspace(0, 1, 1024)))
)


def saved(image: Image.Image, file_format: str, **options: object) -> io.BytesIO:
    file = io.BytesIO()
    image.save(file, file_format, **options)
    file.seek(0)
    return file


@pytest.mark.parametrize(
    ("primaries", "curve", "decoded"),
    [
        (ADOBE_RGB, GAMMA_563_256, lambda value: value ** (563 / 256)),
        (P3, SRGB_CURVE, srgb_decoded),
        (SRGB, SRGB_CURVE, srgb_decoded),
    ],
    ids=["Adobe RGB", "Display P3", "sRGB"],
)
@pytest.mark.parametrize("colour", [(200, 120, 90), (90, 140, 100), (60, 70, 160), (128, 128, 128), (255, 255, 255)])
@pytest.mark.parametrize("within", [None, 4])
def test_the_own_profile_is_followed(
    primaries: tuple[tuple[float, float], ...],
    curve: bytes,
    decoded: object,
    colour: tuple[int, int, int],
    within: int | None,
) -> None:
    """A tagged colour becomes the sRGB colour that a reckoning from the published chromaticities gives."""
    assert callable(decoded)
    linear = np.linalg.inv(to_xyz(SRGB)) @ to_xyz(primaries) @ decoded(np.array(colour) / 255)
    expected = 255 * srgb_encoded(np.clip(linear, 0, 1))
    file = saved(Image.new("RGB", (8, 8), colour), "PNG", icc_profile=icc_profile(primaries, curve))
    picture = open_picture(file, within)
    assert picture.note == ""
    assert picture.image.getpixel((2, 2)) == pytest.approx(tuple(expected), abs=1.5)


@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_a_broken_or_unfitting_profile_is_said(mode: str) -> None:
    """What cannot be used is taken as sRGB, and the guess is noted."""
    for profile in (b"no profile at all", icc_profile(P3, SRGB_CURVE)[:200]):
        picture = open_picture(
            saved(Image.new(mode, (8, 8), 90 if mode == "L" else (90, 90, 90)), "PNG", icc_profile=profile)
        )
        assert picture.note == "its colour profile cannot be used; taken as sRGB"
        assert picture.image.getpixel((4, 4)) == (90, 90, 90)


@pytest.mark.parametrize("mode", ["L", "LA"])
def test_a_profile_for_grey_is_followed(mode: str) -> None:
    """Grey pixels of another gamma become the sRGB grey of the same lightness, see-through ones as well."""
    image = Image.new(mode, (8, 8), 100 if mode == "L" else (100, 255))
    picture = open_picture(saved(image, "PNG", icc_profile=icc_profile(None, GAMMA_563_256)))
    expected = float(255 * srgb_encoded(np.array((100 / 255) ** (563 / 256))))
    assert picture.note == ""
    assert picture.image.getpixel((4, 4)) == pytest.approx((expected,) * 3, abs=1)


def test_a_profile_for_other_pixels_does_not_take_the_colour_away() -> None:
    """A profile for grey on a picture in colour is said and not followed."""
    file = saved(Image.new("RGB", (8, 8), (200, 40, 30)), "TIFF", icc_profile=icc_profile(None, GAMMA_563_256))
    picture = open_picture(file)
    assert picture.note == "its colour profile cannot be used; taken as sRGB"
    assert picture.image.getpixel((4, 4)) == (200, 40, 30)
