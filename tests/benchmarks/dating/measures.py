"""What came of a library beside what is true: counts, the table, and the goals. Pure."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from tests.benchmarks.dating.household import monday_of
from tests.benchmarks.dating.values import Photo


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where somebody puts a photo: the day it counts by (None: into no week), whether it is flagged, and why."""

    day: date | None
    is_flagged: bool = False
    reason: str = ""

    @property
    def week(self) -> date | None:
        return monday_of(self.day) if self.day else None


#: By path of the photo. A photo that is not in it was lost.
Verdicts = Mapping[str, Verdict]


@dataclass(frozen=True, slots=True)
class Case:
    """One photo with a verdict on it, None where there is none."""

    seed: int
    photo: Photo
    verdict: Verdict | None

    @property
    def is_right(self) -> bool:
        return self.verdict is not None and self.verdict.week == self.photo.week

    @property
    def is_missing(self) -> bool:
        """In no week, and nobody is told."""
        return self.verdict is None or (self.verdict.week is None and not self.verdict.is_flagged)

    @property
    def is_flagged(self) -> bool:
        return self.verdict is not None and self.verdict.is_flagged

    @property
    def is_wrong_unflagged(self) -> bool:
        return self.verdict is not None and self.verdict.week is not None and not (self.is_right or self.is_flagged)


@dataclass(frozen=True, slots=True)
class Measure:
    """The measures of one way of dating, over all seeds; shares are of 1."""

    photos: int
    wrong_unflagged: int
    missing: int
    open_photos: int
    open_flagged: int
    settled: int
    settled_doubtful: int
    decidable: int
    decidable_right: int

    @property
    def wrong_per_thousand(self) -> float:
        return 1000 * self.wrong_unflagged / max(1, self.photos)

    @property
    def doubtful_share(self) -> float:
        return self.settled_doubtful / max(1, self.settled)

    @property
    def right_share(self) -> float:
        return self.decidable_right / max(1, self.decidable)


def measure(cases: Sequence[Case]) -> Measure:
    """Count; "decidable" are the settled ones and those that are once clocks are right."""
    open_ones = [case for case in cases if case.photo.mark == "open"]
    settled = [case for case in cases if case.photo.mark == "settled"]
    decidable = [case for case in cases if case.photo.mark != "open"]
    return Measure(
        photos=len(cases),
        wrong_unflagged=_count(cases, lambda case: case.is_wrong_unflagged),
        missing=_count(cases, lambda case: case.is_missing),
        open_photos=len(open_ones),
        open_flagged=_count(open_ones, lambda case: case.is_flagged),
        settled=len(settled),
        settled_doubtful=_count(settled, lambda case: case.is_flagged),
        decidable=len(decidable),
        decidable_right=_count(decidable, lambda case: case.is_right),
    )


def missed_goals(before: Measure, after: Measure) -> list[str]:
    """The goals that are not met, in words: `before` any correction of a clock, and `after` all that are proposed."""
    goals = (
        (before.wrong_per_thousand <= 1, "wrong and unflagged is over 1 in 1,000"),
        (before.missing == 0, "photos are missing"),
        (before.open_flagged == before.open_photos, "not every open photo is flagged"),
        (before.doubtful_share <= 0.03, "over 3 in 100 of the settled are doubtful"),
        (after.right_share >= 0.99, "fewer than 99 in 100 are in the right week once clocks are right"),
    )
    return [words for is_met, words in goals if not is_met]


def table(columns: Mapping[str, Measure], after: Measure) -> str:
    """One column for each way of dating; the last rows are of ours alone, once all clocks proposed are set."""
    shown: list[tuple[str, Callable[[Measure], str]]] = [
        ("photos", lambda one: f"{one.photos:,}"),
        ("wrong and unflagged", lambda one: f"{one.wrong_unflagged:,}"),
        ("  in 1,000 (goal: at most 1)", lambda one: f"{one.wrong_per_thousand:.2f}"),
        ("missing (goal: none)", lambda one: f"{one.missing:,}"),
        ("open and flagged (goal: all)", lambda one: f"{one.open_flagged} of {one.open_photos}"),
        ("settled, yet doubtful (goal: at most 3 %)", lambda one: f"{100 * one.doubtful_share:.2f} %"),
        ("in the right week, of settled and clock", lambda one: f"{100 * one.right_share:.2f} %"),
    ]
    rows = [["", *columns]] + [[name, *map(of, columns.values())] for name, of in shown]
    others = ["-"] * (len(columns) - 1)
    rows.append(["  with the clocks proposed (goal: at least 99 %)", f"{100 * after.right_share:.2f} %", *others])
    rows.append(["  wrong and unflagged then", f"{after.wrong_unflagged:,}", *others])
    return _aligned(rows)


def by_fault(before: Iterable[Case], after: Iterable[Case]) -> str:
    """What became of the photos of each fault, those that went worst first."""
    counts: dict[tuple[str, str], Counter[str]] = {}
    for case in before:
        row = counts.setdefault((case.photo.mark, case.photo.fault), Counter())
        is_seen = not case.is_right and case.is_flagged
        row.update(photos=1, right=int(case.is_right), flagged=int(case.is_flagged), bad=int(case.is_wrong_unflagged),
                   missing=int(case.is_missing), seen=int(is_seen))  # fmt: skip
    for case in after:
        counts[case.photo.mark, case.photo.fault].update(corrected=int(case.is_right))
    rows = [["mark", "fault", "photos", "right", "wrong, flagged", "wrong, unflagged", "missing", "doubtful",
             "right with clocks proposed"]]  # fmt: skip
    for (mark, fault), row in sorted(counts.items(), key=lambda item: (-item[1]["bad"], item[0])):
        names = ("photos", "right", "seen", "bad", "missing", "flagged", "corrected")
        rows.append([mark, fault, *(f"{row[name]}" for name in names)])
    return _aligned(rows, words=2)


def _count(cases: Iterable[Case], holds: Callable[[Case], bool]) -> int:
    return sum(map(holds, cases))


def _aligned(rows: Sequence[Sequence[str]], words: int = 1) -> str:
    """Words to the left, numbers to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = (
        [cell.ljust(width) if place < words else cell.rjust(width)
         for place, (cell, width) in enumerate(zip(row, widths, strict=True))]
        for row in rows
    )  # fmt: skip
    return "\n".join("  ".join(line).rstrip() for line in lines)
