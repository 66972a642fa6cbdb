"""Words about what lies in a folder."""

import pytest

from queries.made_files.values import bytes_words


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (0, "0 bytes"),
        (999, "999 bytes"),
        (1000, "1.0 kB"),
        (999_499, "999 kB"),
        (999_500, "1.0 MB"),
        (31_200_000_000, "31 GB"),
    ],
)
def test_sizes_in_words(size: int, words: str) -> None:
    """Sizes are told in powers of a thousand (SI prefixes)."""
    assert bytes_words(size) == words
