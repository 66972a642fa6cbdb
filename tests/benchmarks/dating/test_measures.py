"""Counting what came of a library: wrong, missing, flagged, and the goals."""

from collections.abc import Callable
from datetime import date, datetime, timedelta

import pytest

from tests.benchmarks.dating.measures import Case, Measure, Verdict, by_fault, measure, missed_goals, table
from tests.benchmarks.dating.values import Photo, View

MONDAY = date(2026, 3, 30)
RIGHT, WRONG = Verdict(MONDAY), Verdict(MONDAY - timedelta(days=1))


def _case(mark: str, verdict: Verdict | None) -> Case:
    moment = datetime(2026, 3, 31, 12)  # noqa: DTZ001
    return Case(1, Photo("a.jpg", View(1), "a fault", mark, moment, moment), verdict)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("verdict", "expected"),
    [
        (RIGHT, (0, 0)),
        (WRONG, (1, 0)),
        (Verdict(WRONG.day, is_flagged=True), (0, 0)),
        (Verdict(None), (0, 1)),
        (Verdict(None, is_flagged=True), (0, 0)),
        (None, (0, 1)),
    ],
)
def test_wrong_and_missing_are_counted(verdict: Verdict | None, expected: tuple[int, int]) -> None:
    """Wrong and unflagged: in a week that is not its own, without a flag. Missing: in none, without a flag."""
    found = measure([_case("settled", verdict)])
    assert (found.wrong_unflagged, found.missing) == expected


def test_goals_are_missed_one_by_one() -> None:
    """Each goal is missed by a case of its own, and none by photos that are right or flagged as they should be."""
    good = [_case("settled", RIGHT)] * 99 + [_case("open", Verdict(MONDAY, is_flagged=True))]
    assert missed_goals(measure(good), measure(good)) == []
    bad: list[tuple[Case, Callable[[list[str]], bool]]] = [
        (_case("clock", WRONG), lambda words: "wrong" in words[0]),
        (_case("clock", None), lambda words: "missing" in words[0]),
        (_case("open", RIGHT), lambda words: "open" in words[0]),
    ]
    for case, is_named in bad:
        missed = missed_goals(measure([*good, case]), measure(good))
        assert len(missed) == 1
        assert is_named(missed)
    doubtful = [_case("settled", Verdict(MONDAY, is_flagged=True))] * 4
    assert ["doubtful" in words for words in missed_goals(measure(good + doubtful), measure(good))] == [True]
    assert [
        "clocks" in words for words in missed_goals(measure(good), measure([*good, *[_case("clock", WRONG)] * 2]))
    ] == [True]


def test_tables_show_every_way_and_every_fault() -> None:
    """One column a way of dating, one row a fault, with the right week after correction."""
    cases = [_case("settled", RIGHT), _case("clock", WRONG)]
    found: Measure = measure(cases)
    lines = table({"ours": found, "plain": found}, found).splitlines()
    assert lines[0].split() == ["ours", "plain"]
    assert "50.00 %" in lines[-2]
    assert lines[-1].split()[-2:] == ["1", "-"]
    rows = by_fault(cases, cases).splitlines()
    assert [row.split()[0] for row in rows] == ["mark", "clock", "settled"]
