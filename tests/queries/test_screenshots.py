"""Pictures of a screen."""

import unicodedata

import pytest

from queries.screenshots import is_screenshot


@pytest.mark.parametrize(
    "name",
    [
        "Screenshot_20260104-183012.png",
        "Screenshot 2026-05-12 at 4.42.48\u202fPM.png",
        "screen-shot.jpg",
        "Bildschirmfoto 2026-01-04 um 18.30.12.png",
        "Capture d\u2019écran 2026-01-04 à 18.30.12.png",
        "Captura de Pantalla 2026-01-04.png",
        "Captura de ecrã 2026-01-04.png",
        "Schermafbeelding 2026-01-04.png",
        "Schermata 2026-01-04.png",
        "Skärmavbild 2026-01-04.png",
        "Снимок экрана 2026-01-04.png",
        "スクリーンショット 2026-01-04.png",
        "스크린샷 2026-01-04.png",
        "截屏2026-01-04.png",
    ],
)
@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_a_name_tells(name: str, form: str) -> None:
    """Names that systems give in many languages are known, however their accents are written and whatever the size."""
    folder = unicodedata.normalize(form, f"/library/{name}")  # type: ignore[arg-type]
    assert is_screenshot(folder, "JPEG", "Lanternfish P4", 4000, 3000)


def test_the_folder_tells() -> None:
    """What lies in a folder of screenshots is one; what lies deeper in some folder's folder is not."""
    assert is_screenshot("/library/Screenshots/0012.png", "PNG", None, 500, 400)
    assert not is_screenshot("/library/screenshots/ferry/0012.jpg", "JPEG", None, 500, 400)


@pytest.mark.parametrize(
    ("picture_format", "camera", "width", "height", "expected"),
    [
        ("PNG", None, 1080, 2400, True),
        ("PNG", None, 2400, 1080, True),
        ("PNG", "Lanternfish P4", 1080, 2400, False),
        ("JPEG", None, 1080, 2400, False),
        ("PNG", None, 1081, 2400, False),
        ("PNG", None, 4000, 3000, False),
    ],
)
def test_a_png_of_a_whole_screen(
    picture_format: str, camera: str | None, width: int, height: int, expected: bool
) -> None:
    """A PNG without a camera that has a screen's exact size is one, upright or turned; no other is."""
    assert is_screenshot("/library/IMG_0012.png", picture_format, camera, width, height) == expected


@pytest.mark.parametrize("name", ["ferry.png", "screen door.jpg", "capture the flag.jpg", "IMG_20260104_183012.jpg"])
def test_other_names_do_not_tell(name: str) -> None:
    """Ordinary names are no screenshots."""
    assert not is_screenshot(f"/library/{name}", "JPEG", None, 1080, 2400)
