"""A note into words: nothing lost but what is no word, and that is told."""

import pytest

from indexer.errors import PrintError
from queries.cards.fonts import has_letter
from queries.cards.words import pictures_in, words_of


def lines_of(text: str) -> list[list[str]]:
    return [[" ".join(word.text for word in line) for line in paragraph] for paragraph in words_of(text, has_letter)]


def test_empty_lines_part_paragraphs_and_line_ends_part_lines() -> None:
    """Whatever the line ends are, and however many empty lines there are."""
    assert lines_of("one\r\ntwo\n \n\n\nthree\r") == [["one", "two"], ["three"]]


def test_white_space_is_one_space() -> None:
    """Tabs, runs of spaces and thin spaces only part words."""
    assert lines_of("  a\t\tb   c\u2009d ") == [["a b c d"]]


def test_a_no_break_space_holds_words_together() -> None:
    """As UAX #14 asks; the narrow one is set as the usual one, which the font has."""
    assert lines_of("5\u00a0km 3\u202fh") == [["5\u00a0km 3\u00a0h"]]


def test_the_persons_signs_are_kept() -> None:
    """Quotation marks, dashes and letters of Europe stay as they are."""
    text = "“Ĝis” – ‘ja’ — Łódź, Ħaż-Żebbuġ, Καλημέρα, Доброе утро, Îţi mulţumesc… ½ 20 °C № 3 → €5"
    assert lines_of(text) == [[text]]


def test_an_accent_apart_is_joined() -> None:
    """A text from a system that parts letters and accents is set with whole letters."""
    assert lines_of("cafe\u0301") == [["café"]]


@pytest.mark.parametrize("sign", ["🎉", "👩\u200d👧", "👍🏽", "🇳🇴", "☕\ufe0f", "❤\ufe0f"])
def test_a_picture_is_left_out_and_told(sign: str) -> None:
    """No word goes with it."""
    assert lines_of(f"hurra {sign} now{sign}") == [["hurra now"]]
    assert pictures_in([f"hurra {sign}", sign], has_letter)
    assert set("".join(pictures_in([sign], has_letter))) <= set(sign)


def test_a_keycap_keeps_its_digit() -> None:
    """Only the box around it goes."""
    assert lines_of("1\ufe0f\u20e3 first") == [["1 first"]]


def test_nothing_but_a_picture_is_no_paragraph() -> None:
    """It leaves no gap."""
    assert lines_of("🎉\n\nb") == [["b"]]


def test_what_cannot_be_seen_is_taken_out() -> None:
    """Soft hyphens, marks of direction, byte order marks, control characters."""
    assert lines_of("\ufeffhar\u00adbour\u200b\u200e\x07") == [["harbour"]]


@pytest.mark.parametrize(("text", "word"), [("to 港 we", "港"), ("say שלום", "שלום"), ("①st", "①st")])
def test_a_word_that_the_font_cannot_write_is_refused_by_name(text: str, word: str) -> None:
    """Never a silent box."""
    with pytest.raises(PrintError, match=f"{word!r}.*--handwritten"):
        words_of(text, has_letter)
