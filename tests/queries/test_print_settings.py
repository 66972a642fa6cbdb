"""The lab's size, dots and trim, and the paper at home, as they are told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.errors import WordError
from queries.print_settings import Lab, check_dpi, check_home_paper, check_size, check_trim, lab_of, paper_of


def test_a_6x4_print_at_300_dots_is_1800_by_1200_pixels() -> None:
    """Common practice: the files that labs ask for."""
    lab = lab_of("6x4in", "300", "0in")
    assert lab == Lab(152_400, 101_600, 300)
    assert lab.pixels == (1800, 1200)


@pytest.mark.parametrize(
    ("told", "kept", "trim"),
    [
        ("0", "0in", (0, 0, 0, 0)),
        ("1/16in", "0.0625in", (1588, 1588, 1588, 1588)),
        ("2mm", "2mm", (2000, 2000, 2000, 2000)),
        ("1,5mm", "1.5mm", (1500, 1500, 1500, 1500)),
        ("2mm,1mm,2mm,1mm", "2mm 1mm 2mm 1mm", (2000, 1000, 2000, 1000)),
        ("2, 1, 0, 1 mm", "2mm 1mm 0mm 1mm", (2000, 1000, 0, 1000)),
        ("2mm,1,0,1", "2mm 1mm 0mm 1mm", (2000, 1000, 0, 1000)),
        ("1/16 1/8 0 1/16", "0.0625in 0.125in 0in 0.0625in", (1588, 3175, 0, 1588)),
        ("1/8in;0;0;0", "0.125in 0in 0in 0in", (3175, 0, 0, 0)),
    ],
)
def test_a_trim_is_one_length_or_four(told: str, kept: str, trim: tuple[int, ...]) -> None:
    """What was told is kept in one form, which means the same."""
    assert check_trim(told) == kept
    assert lab_of("6x4in", "300", kept).trim == trim


@pytest.mark.parametrize("told", ["", "1in", "-1mm", "2mm,1mm", "2,1,2,1,2", "a b c d", "1/0", "1/16in,1,1,2mm"])
def test_no_trim_is_said_so_with_examples(told: str) -> None:
    """What cannot be meant is refused with what would be right."""
    with pytest.raises(WordError, match=r"print\.lab_trim is"):
        check_trim(told)


@pytest.mark.parametrize(
    ("told", "kept"), [("6x4", "6x4in"), ("152x102mm", "152x102mm"), ("4 x 6 in", "4x6in"), ("10x15cm", "100x150mm")]
)
def test_a_labs_size(told: str, kept: str) -> None:
    """A size with its unit, inches where none is said."""
    assert check_size(told) == kept


@pytest.mark.parametrize("told", ["", "1x1in", "60x40in", "6", "large", "0x4", "6x4x2"])
def test_no_labs_size(told: str) -> None:
    """One side alone is a square; what no lab prints is refused."""
    if told == "6":
        assert check_size(told) == "6x6in"
        return
    with pytest.raises(WordError, match=r"print\.size"):
        check_size(told)


@pytest.mark.parametrize(
    ("told", "kept", "micrometres"),
    [
        ("A4", "210x297mm", (210_000, 297_000)),
        ("letter", "8.5x11in", (215_900, 279_400)),
        ("8x10", "8x10in", (203_200, 254_000)),
    ],
)
def test_the_paper_at_home_has_a_name_or_a_size(told: str, kept: str, micrometres: tuple[int, int]) -> None:
    """ISO 216 gives A4 210 x 297 mm; letter is 8.5 x 11 in (ANSI Y14.1); both from memory."""
    assert check_home_paper(told) == kept
    assert paper_of(kept) == micrometres


@pytest.mark.parametrize("told", ["", "71", "1201", "3e2", "300 dpi", "-300", "99999999999999999999"])
def test_dots_are_a_sensible_number(told: str) -> None:
    """Anything else is refused with the span."""
    with pytest.raises(WordError, match=r"print\.dpi is a number from 72 to 1200"):
        check_dpi(told)


@given(st.text() | st.from_regex(r"[0-9.,/ inmx]{1,20}"))
def test_checks_give_a_stable_form_or_say_what_is_right(text: str) -> None:
    """Whatever is typed comes to a form that the check leaves alone, or to a known error."""
    for check in (check_size, check_dpi, check_trim, check_home_paper):
        try:
            kept = check(text)
        except WordError:
            continue
        assert check(kept) == kept
