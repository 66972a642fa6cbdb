"""Breaking lines: as few as can be, as even as can be, no word lost, nothing added."""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from random import Random

import pytest

from queries.cards.breaking import Word, break_lines, is_broken, line_cost, line_text


def by_letter(text: str) -> float:
    return float(len(text))


def words(text: str) -> list[Word]:
    return [Word(word) for word in text.split()]


def told(text: str, width: float) -> list[str]:
    return [line_text(line) for line in break_lines(words(text), width, by_letter)]


def every_breaking(parts: Sequence[str], width: float) -> Iterator[tuple[int, float]]:
    """Number of lines and unevenness of each way to break the words, tried one by one: squares of the room left, and
    a last line below a sixth of the width costs as one that leaves two fifths."""
    for count in range(len(parts)):
        for breaks in combinations(range(1, len(parts)), count):
            ends = (0, *breaks, len(parts))
            lines = [" ".join(parts[a:b]) for a, b in pairwise(ends)]
            if all(len(line) <= width for line in lines):
                short = 0.16 if len(lines[-1]) < width / 6 else 0.0
                yield len(lines), sum((1 - len(line) / width) ** 2 for line in lines[:-1]) + short


def test_the_textbook_example() -> None:
    """The usual example of least raggedness (from memory: lecture notes on dynamic programming): first fit is worse."""
    assert told("aaa bb cc ddddd", 6) == ["aaa", "bb cc", "ddddd"]
    assert told("aa b ccc ddd", 7) == ["aa b", "ccc ddd"]


def test_no_other_breaking_is_better() -> None:
    """Against every way to break 400 short texts: the fewest lines, and of these the least uneven."""
    random = Random(6)
    for _ in range(400):
        parts = ["x" * random.randint(1, 8) for _ in range(random.randint(1, 10))]
        width = random.randint(8, 24)
        lines = told(" ".join(parts), width)
        cost = sum(line_cost(len(line), width, is_last=number == len(lines)) for number, line in enumerate(lines, 1))
        fewest, least = min(every_breaking(parts, width))
        assert len(lines) == fewest
        assert cost == pytest.approx(least)


def test_never_more_lines_than_first_fit() -> None:
    """A line is not spent on evenness."""
    random = Random(7)
    for _ in range(200):
        parts = ["x" * random.randint(1, 12) for _ in range(random.randint(1, 80))]
        first_fit, used = 1, -1
        for part in parts:
            if used + 1 + len(part) > 30:
                first_fit, used = first_fit + 1, -1
            used += 1 + len(part)
        assert len(told(" ".join(parts), 30)) == first_fit


def test_a_word_wider_than_the_line_is_broken_between_letters() -> None:
    """Nothing is added where it breaks, and it goes on without a space."""
    lines = told("see abcdefghijklmnop there", 6)
    assert "".join(lines).replace(" ", "") == "seeabcdefghijklmnopthere"
    assert max(map(len, lines)) <= 6
    assert is_broken(words("abcdefg"), 6, by_letter)
    assert not is_broken(words("abcdef"), 6, by_letter)


def test_a_broken_word_that_is_broken_anew_has_no_space_in_it() -> None:
    """The end of a paragraph that goes on on a wider card is put together again."""
    lines = break_lines(words("abcdefghij kl"), 4, by_letter)
    again = break_lines([word for line in lines for word in line], 20, by_letter)
    assert [line_text(line) for line in again] == ["abcdefghij kl"]


def test_an_accent_stays_with_its_letter() -> None:
    """A mark that joins no letter in Unicode is not put on the next line alone."""
    lines = told("m\u0304" * 5, 3)
    assert not [line for line in lines if line[0] == "\u0304"]


def test_no_words_are_no_lines() -> None:
    """Nothing in, nothing out."""
    assert break_lines([], 10, by_letter) == []
