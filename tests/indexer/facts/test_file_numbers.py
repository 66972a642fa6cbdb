"""Counters in file names."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.file_numbers import file_number


@pytest.mark.parametrize(
    ("name", "prefix", "number"),
    [
        ("DSC_0451.JPG", "DSC_", 451),
        ("dsc_0451.jpg", "DSC_", 451),
        ("_DSC0451.NEF", "_DSC", 451),
        ("IMG_0452.jpg", "IMG_", 452),
        ("HRBR0001.JPG", "HRBR", 1),
        ("P1010023.JPG", "P101", 23),
        ("100_0451.JPG", "100_", 451),
        ("DSC00451.JPG", "DSC0", 451),
        ("IMG_10452.HEIC", "IMG_", 10452),
        ("IMG_123456.jpg", "IMG_", 123456),
        ("harbour 0012.tif", "HARBOUR ", 12),
        ("HRBR9999", "HRBR", 9999),
        ("PICT2026.JPG", "PICT", 2026),
    ],
)
def test_a_counter_is_what_the_name_ends_in(name: str, prefix: str, number: int) -> None:
    """DCF (CIPA DC-009): four characters and 0001 to 9999; others up to six digits."""
    assert file_number(name) == (prefix, number)


@pytest.mark.parametrize(
    "name",
    [
        "IMG_0452 (1).jpg", "IMG_0452_edit.jpg", "IMG_0452-2.jpg", "IMG_0452~2.jpg", "IMG_0452_1024.jpg",  # copies
        "20260330.jpg", "IMG_20260330.jpg", "IMG_20260330_091520.jpg", "IMG-20260330-WA0012.jpg", "2026-03-30_0012.jpg",
        "IMG_20261330_091520.jpg", "harbour 1987-08.tif", "summer 1987.jpg", "PXL_20260330_091520123.jpg",  # dates
        "IMG_1920x1080.jpg", "1774863320123.jpg", "IMG_1234567.jpg",  # sizes and long numbers
        "HRBR0000.JPG", "0451.jpg", "IMG_451.jpg", "harbour.jpg", "", ".jpg", "２０２６.jpg",
    ],
)  # fmt: skip
def test_other_names_have_none(name: str) -> None:
    """Edits and copies, dates, sizes, and what is too short or too long."""
    assert file_number(name) is None


@given(st.text(max_size=40) | st.from_regex(r"[A-Z_]{0,4}\d{0,8}.{0,3}\.jpg"))
def test_any_name_gives_a_counter_or_none(name: str) -> None:
    """Prefix and digits stand in the name."""
    found = file_number(name)
    if found:
        assert 1 <= found[1] <= 999_999
        assert name.upper().startswith(found[0])
