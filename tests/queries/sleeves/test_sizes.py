"""Lengths and sizes as they are written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.errors import WordError
from queries.sleeves.sizes import Size, parse_length, parse_size, size_words


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1in", 1), ("1", 1), ('6"', 6), ("1/8in", 0.125), ("1/8", 0.125), (" 0.5 in ", 0.5), (".5in", 0.5),
        ("2,5cm", 25 / 25.4), ("25.4mm", 1), ("3 MM", 3 / 25.4), ("2 inches", 2),
    ],
)  # fmt: skip
def test_a_length_is_read_in_inches(text: str, inches: float) -> None:
    """Inches, millimetres, centimetres, fractions; a bare number is inches."""
    assert parse_length(text) == pytest.approx(inches, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("1in", Size(1, 1, "in")),
        ("10mm", Size(10, 10, "mm")),
        ("6x4in", Size(6, 4, "in")),
        ("1in x 0.5in", Size(1, 0.5, "in")),
        ("1in x 0.5", Size(1, 0.5, "in")),
        ("102x152mm", Size(102, 152, "mm")),
        ("10.2cm \u00d7 15.2cm", Size(102, 152, "mm")),
        ("10x15cm", Size(100, 150, "mm")),
        ("10,2 x 15,2 cm", Size(102, 152, "mm")),
        ("6x4", Size(6, 4, "in")),
        ("1in x 25.4mm", Size(1, 1, "in")),
        ("50.8mm x 1in", Size(2, 1, "in")),
    ],
)
def test_a_size_is_width_and_height_in_one_unit(text: str, size: Size) -> None:
    """The unit in which it was told; one length is a square; mixed ones become inches."""
    read = parse_size(text)
    assert (read.unit, read.width, read.height) == (size.unit, pytest.approx(size.width), pytest.approx(size.height))


@pytest.mark.parametrize(
    "text",
    ["", "in", "x", "6x", "x4in", "6x4x2in", "six", "-1in", "1/0in", "1e3", "nan", "inf", "6ft", "1in 2in", "9" * 400],
)
def test_what_is_no_size_is_refused(text: str) -> None:
    """In one line that quotes it and shows how sizes are written."""
    with pytest.raises(WordError, match="6x4in") as caught:
        parse_size(text)
    assert "\n" not in str(caught.value)


@given(
    st.integers(1, 13_000).map(lambda number: number / 1000),
    st.integers(1, 13_000).map(lambda number: number / 1000),
    st.sampled_from(["in", "mm"]),
)
def test_a_kept_size_is_read_as_it_was(width: float, height: float, unit: str) -> None:
    """What `str` writes is the same size again."""
    size = Size(width, height, unit)  # type: ignore[arg-type]
    assert parse_size(str(size)) == size


def test_sizes_are_shown_short() -> None:
    """Inches to a hundredth, millimetres to a tenth, no noughts behind."""
    assert size_words(6, 4) == "6x4in"
    assert size_words(10, 0.125) == "10x0.12in"
    assert size_words(102 / 25.4, 152.5 / 25.4, "mm") == "102x152.5mm"
    assert size_words(100 / 25.4, 10, "mm") == "100x254mm"
