"""Pictures of a screen, told by their names, or by a screen's exact size. Pure.

Both tables are common practice, from memory: what phones and computers call a picture of their screen, and how many
pixels their screens have.
"""

import re
import unicodedata
from pathlib import PurePath

#: What systems in many languages call such a file, or the folder that they put it into.
_WORDS = (
    "screenshot",
    "screen shot",
    "screencapture",
    "screen capture",
    "bildschirmfoto",
    "bildschirmaufnahme",
    "capture d'écran",
    "capture décran",
    "captura de pantalla",
    "captura de tela",
    "captura de ecrã",
    "schermata",
    "istantanea schermo",
    "schermafbeelding",
    "schermopname",
    "skärmavbild",
    "skärmbild",
    "skærmbillede",
    "skjermbilde",
    "näyttökuva",
    "kuvakaappaus",
    "zrzut ekranu",
    "snímek obrazovky",
    "snímka obrazovky",
    "képernyőkép",
    "képernyőfotó",
    "captură de ecran",
    "снимок экрана",
    "скриншот",
    "знімок екрана",
    "ekran görüntüsü",
    "ekran resmi",
    "στιγμιότυπο οθόνης",
    "スクリーンショット",
    "스크린샷",
    "截屏",
    "截图",
    "截圖",
    "屏幕快照",
    "ảnh chụp màn hình",
    "tangkapan layar",
    "צילום מסך",
    "لقطة شاشة",
)

#: Pixels of whole screens, the shorter side first. Those of a photo's own proportions, 4:3 and 3:2, are left away.
_SCREENS = {
    (640, 1136), (720, 1280), (720, 1520), (720, 1560), (720, 1600), (750, 1334), (768, 1366), (800, 1280),
    (828, 1792), (900, 1440), (900, 1600), (1050, 1680), (1080, 1920), (1080, 2160), (1080, 2220), (1080, 2280),
    (1080, 2340), (1080, 2376), (1080, 2400), (1080, 2408), (1125, 2436), (1170, 2532), (1179, 2556), (1200, 1920),
    (1206, 2622), (1242, 2208), (1242, 2688), (1284, 2778), (1290, 2796), (1320, 2868), (1440, 2560), (1440, 2960),
    (1440, 3040), (1440, 3088), (1440, 3120), (1440, 3200), (1600, 2560), (1640, 2360), (1668, 2388), (1800, 2880),
    (1964, 3024), (2160, 3840), (2234, 3456),
}  # fmt: skip


def is_screenshot(path: str, picture_format: str, camera: str | None, width: int, height: int) -> bool:
    """Whether a file shows a screen: it or its folder is called so, or it is a PNG without a camera of a screen's size.

    `picture_format` is that of the content ("PNG"); the size is in pixels as displayed.
    """
    place = PurePath(path)
    if any(word in _plain(name) for name in (place.name, place.parent.name) for word in _PLAIN_WORDS):
        return True
    sides = (min(width, height), max(width, height))
    return picture_format == "PNG" and not camera and sides in _SCREENS


def _plain(name: str) -> str:
    """A name in lower case without accents, every run of spaces and of signs between words one space."""
    bare = "".join(letter for letter in unicodedata.normalize("NFKD", name) if not unicodedata.combining(letter))
    return re.sub(r"[\s_\-\u2019'\u200e\u200f]+", " ", bare.casefold())


_PLAIN_WORDS = tuple(_plain(word) for word in _WORDS)
