"""What is added to a camera's times, typed and read."""

from random import Random

import pytest

from indexer.errors import WordError
from queries.shifts import parse_shift, shift_text, shift_words

HOUR, DAY = 3600, 86_400


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("+1h", HOUR),
        ("-6h30m", -6 * HOUR - 30 * 60),
        ("\u22126h30m", -6 * HOUR - 30 * 60),
        ("+3d7h12m", 3 * DAY + 7 * HOUR + 12 * 60),
        ("+90s", 90),
        ("+90m", 90 * 60),
        ("+0s", 0),
        (" + 3 days 7 Hours 1 min ", 3 * DAY + 7 * HOUR + 60),
        ("2015-01-01 00:00 is 2026-03-02 18:20", 352_405_200),
        ("2026-03-02T18:20:30 IS 2026-03-02 9:05", -(9 * HOUR + 15 * 60 + 30)),
        ("2026-03-02 is 2026-03-03", DAY),
    ],
)
def test_a_shift_as_a_person_types_it(text: str, seconds: int) -> None:
    """Signed parts from days to seconds, or the camera's time and what it really was."""
    assert parse_shift(text) == seconds


@pytest.mark.parametrize("text", ["", "1h", "+", "h", "+1x", "+1h1d", "+1.5h", "+1h+1h", "+9999999d", "one hour", "is"])
def test_what_is_no_shift_is_named_with_the_forms_there_are(text: str) -> None:
    """A shift without a sign might be meant either way, so it is refused too."""
    with pytest.raises(WordError, match=r"is no shift; write it like \+1h, -6h30m") as refused:
        parse_shift(text)
    assert repr(text.strip()) in str(refused.value)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("2015-13-01 00:00 is 2026-03-02 18:20", "there is no time 2015-13-01 00:00"),
        ("2015-01-01 00:00 is 2026-03-02 24:00", "there is no time 2026-03-02 24:00"),
        ("2015-01-01 00:00 is Monday", "'Monday' is no time of a clock"),
        ("2015 is 2026", "'2015' is no time of a clock"),
    ],
)
def test_a_time_that_does_not_exist_is_named(text: str, names: str) -> None:
    """Of the two sides, the one that is wrong."""
    with pytest.raises(WordError, match=names):
        parse_shift(text)


def test_a_shift_in_words() -> None:
    """Parts that are nothing are left away."""
    shifts = (3 * DAY + 7 * HOUR + 12 * 60, -HOUR, 45, 0)
    assert [shift_words(seconds) for seconds in shifts] == ["+3 d 7 h 12 min", "-1 h", "+45 s", "none"]
    assert [shift_text(seconds) for seconds in shifts] == ["+3d7h12m", "-1h", "+45s", "+0s"]


def test_any_shift_reads_back() -> None:
    """Both texts of 2,000 shifts give the same seconds again."""
    random = Random(4)
    for _ in range(2000):
        seconds = random.randrange(-4 * 10**9, 4 * 10**9) // random.choice((1, 60, HOUR, DAY))
        assert parse_shift(shift_text(seconds)) == seconds
        assert seconds == 0 or parse_shift(shift_words(seconds)) == seconds


def answer(text: str) -> int | str:
    """The seconds, or the line that refuses it."""
    try:
        return parse_shift(text)
    except WordError as refused:
        return str(refused)


def test_any_text_is_a_shift_or_refused() -> None:
    """5,000 texts of the letters that shifts are made of give a number or one line."""
    random = Random(5)
    for _ in range(5000):
        found = answer("".join(random.choices("+-\u2212 0123456789dhmsi:T", k=random.randrange(24))))
        assert isinstance(found, int) or "\n" not in found
