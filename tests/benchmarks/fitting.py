"""Spreads planned: how long it takes to prove the best, and how good they are beside a greedy filler.

    python -m tests.benchmarks.fitting [--short]

The weeks are invented: photos of usual shapes, of which some are upright, a few small and one in thirty a panorama. The
greedy filler takes the best of the shortlist, as many as there are pockets, in the order lived, and gives each the free
pocket that keeps most of it; it knows no collages. Nothing here passes or fails: the table is for people.
"""

import argparse
from collections.abc import Iterator, Sequence
from random import Random
from statistics import mean
from time import perf_counter

from queries.fitting import Asked, Filled, Opening, Picture, Plan, openings_of, plan_over_sleeves, plan_spread
from queries.fitting.assigning import placed_in
from queries.fitting.balance import spread_balance
from queries.fitting.kept import is_turned, kept_share
from queries.fitting.worth import Case, value_of
from queries.sleeves.by_rule import TICKED, sleeves_by_rule
from tests.benchmarks.measuring import Row, table

WEEKS = 30
SHAPES = ((4032, 3024),) * 5 + ((6000, 4000),) * 2 + ((4608, 2592), (3024, 3024), (1280, 960))
PANORAMA = (9000, 3000)
MORE = "more is better"


def week(count: int, seed: int) -> list[Picture]:
    draw = Random(seed)
    ranks, upright = draw.sample(range(count), count), draw.uniform(0.1, 0.7)
    made = []
    for number in range(count):
        sides = PANORAMA if draw.random() < 1 / 30 else draw.choice(SHAPES)
        width, height = sides[::-1] if draw.random() < upright else sides
        made.append(Picture(f"key{number:03}", f"c{number:03}", width, height, ranks[number], number))
    return made


def greedy(pictures: Sequence[Picture], openings: Sequence[Opening]) -> list[Filled]:
    best = sorted(pictures, key=lambda picture: picture.rank)[: len(openings)]
    held: dict[str, Picture] = {}
    for picture in sorted(best, key=lambda picture: picture.order):
        free = [opening for opening in openings if opening.name not in held]
        held[max(free, key=lambda opening: kept_share(picture, opening.box)).name] = picture
    return [
        Filled(opening, "photo", (placed_in(held[opening.name], opening.box),), None, "")
        if opening.name in held
        else Filled(opening, "card", (), None, "")
        for opening in openings
    ]


def compared(weeks: int) -> Iterator[Row]:
    """Both fillers on the same weeks: pages of two sleeves that are at home at the start, 8 to 30 photos."""
    left, right = (sleeve for sleeve in sleeves_by_rule() if sleeve.name in TICKED)
    openings = openings_of(left.back(), right)
    figures: dict[str, list[tuple[float, float]]] = {}
    for seed in range(weeks):
        pictures = week(Random(seed).randint(8, 30), seed)
        case = Case(pictures, openings, Asked(), None)
        both = [
            measures(case, filled)
            for filled in (plan_spread(pictures, openings, Asked()).filled, greedy(pictures, openings))
        ]
        for name in both[0]:
            figures.setdefault(name, []).append((both[0][name], both[1][name]))
    for name, pairs in figures.items():
        ours, theirs = (mean(pair[side] for pair in pairs) for side in (0, 1))
        yield Row(name, ours, theirs, MORE, f"{weeks} weeks")


def measures(case: Case, filled: Sequence[Filled]) -> dict[str, float]:
    pictures = {picture.key: picture for picture in case.pictures}
    placed = [one for each in filled for one in each.photos]
    story = [pictures[one.key].order for one in placed]
    pairs = [(a, b) for at, a in enumerate(story) for b in story[at + 1 :]]
    area = sum(one.cell.width * one.cell.height for one in placed)
    return {
        "kept of each photo, %": 100 * mean(one.kept for one in placed),
        "kept by the inch, %": 100 * sum(one.kept * one.cell.width * one.cell.height for one in placed) / area,
        "orientation met, %": 100 * mean(not is_turned(pictures[one.key], one.cell) for one in placed),
        "balance, %": 100 * spread_balance(filled),
        "pairs in the story's order, %": 100 * mean(a < b for a, b in pairs),
        "photos placed": float(len(placed)),
        "value, points": value_of(case, filled),
    }


def timed(name: str, plan: Plan, started: float, limit: str) -> str:
    seconds = perf_counter() - started
    return f"{name}: {seconds:.2f} s ({limit}), gap {plan.gap:.1e}, {'proven' if plan.optimal else 'not proven'}"


def times(rounds: int) -> Iterator[str]:
    left, right = (sleeve for sleeve in sleeves_by_rule() if sleeve.name in TICKED)
    openings = openings_of(left.back(), right)
    for seed in range(rounds):
        for asked, what in (
            (Asked(), ""),
            (Asked(photo_count=30), ", 30 of them placed"),
            (Asked(card_count=4), ", 4 cards"),
        ):
            started = perf_counter()
            plan = plan_spread(week(60, seed), openings, asked)
            yield timed(f"60 photos, two sleeves{what}", plan, started, "at most 5")
        home = Random(seed).sample(sleeves_by_rule(), 12)
        pairs = [(one.back(), other) for one in home for other in home]
        for count in (16, 60):
            started = perf_counter()
            plan, _ = plan_over_sleeves(week(count, seed), pairs, Asked())
            yield timed(f"{count} photos, none of 12 sleeves named", plan, started, "at most 60")


def main() -> None:
    parser = argparse.ArgumentParser(description="Print how spreads are planned, beside a greedy filler.")
    parser.add_argument("--short", action="store_true", help="fewer rounds, as CI does")
    for line in times(1 if parser.parse_args().short else 5):
        print(line, flush=True)
    print()
    print(table(list(compared(WEEKS))))


if __name__ == "__main__":
    main()
