"""The font: there, free, and the same to both libraries that draw with it."""

import pytest
from PIL import ImageFont

from indexer.errors import PrintError
from queries.cards import fonts
from queries.cards.fonts import font_file, has_letter, measure
from queries.cards.values import UM_PER_POINT


def test_its_licence_lies_beside_it() -> None:
    """The SIL Open Font License, as the package says."""
    assert "SIL OPEN FONT LICENSE" in font_file().with_name("LICENSE.txt").read_text("utf-8")


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("sign", "aWi.ıĦжλ— 10")
def test_a_second_library_measures_the_same(sign: str, bold: bool) -> None:
    """FreeType's widths at 1000 pixels are the font's own units (for quotation marks and some digits FreeType takes
    those of a part, so no line is measured by it)."""
    font = ImageFont.truetype(str(font_file(bold)), 1000, layout_engine=ImageFont.Layout.BASIC)
    assert measure(sign, 1000, bold) / UM_PER_POINT == pytest.approx(font.getlength(sign), abs=1)


def test_letters_of_europe_are_there_and_pictures_are_not() -> None:
    """Latin with the signs of its languages, Greek, Cyrillic."""
    letters = "AZazÀÿĀąĆčĎđĒěĞģĦıĪįĶķĹłŃňŌœŔřŚšŢťŪųŵŷŸźžȘșȚțẞΑωάώЀџҐґ«»„“”‘’–—…€"
    assert [sign for sign in letters if not has_letter(sign)] == []
    assert not any(map(has_letter, "🎉港ש"))


def test_a_missing_font_is_told_with_the_way_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """One line, with the command."""
    monkeypatch.setattr(fonts, "_PACKAGE", "no_such_package_of_fonts")
    with pytest.raises(PrintError, match="pip install"):
        font_file()
