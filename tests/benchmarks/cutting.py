"""Orders laid on the fewest prints: proven or not, beside a plain filler, and how long it takes.

    python -m tests.benchmarks.cutting [--short]

The orders are invented: up to 60 pieces of up to 8 sizes with sides of at least 2 inches, in quarter inches or
millimetres, on paper of 6x4 inches; half of them with a trim, either way. The plain filler takes the largest piece
first (first-fit decreasing) and puts it into the first free rectangle of any print that holds it, which it parts by two
cuts. Fails (exit status 1) when the number of prints is not proven to be the least for any order.
"""

import argparse
import sys
from collections.abc import Sequence
from random import Random
from time import perf_counter

from queries.cutting.laying import lay_out
from queries.cutting.values import Paper, Piece, Rect, Tight
from tests.queries.cutting.made_orders import SIX_BY_FOUR, TRIMMED, random_order

ORDERS, SHORT = 500, 50
CASES: tuple[tuple[str, Paper, Tight], ...] = (
    ("no trim", SIX_BY_FOUR, "shrink"),
    ("trim, shrink", TRIMMED, "shrink"),
    ("trim, apart", TRIMMED, "apart"),
)


def order_of(seed: int, paper: Paper) -> list[Piece]:
    draw = Random(seed)
    return random_order(seed, paper, most=draw.choice((10, 30, 60)), kinds=draw.randint(1, 8))


def first_fit(pieces: Sequence[Piece], paper: Paper) -> int:
    """The number of prints by the largest first, without a trim."""
    free: list[list[Rect]] = []
    for piece in sorted(pieces, key=lambda piece: piece.width * piece.height, reverse=True):
        if not any(_put(rects, piece) for rects in free):
            free.append([Rect(0, 0, paper.width, paper.height)])
            assert _put(free[-1], piece)
    return len(free)


def _put(rects: list[Rect], piece: Piece) -> bool:
    for at, rect in enumerate(rects):
        for width, height in ((piece.width, piece.height), (piece.height, piece.width)):
            if width <= rect.width and height <= rect.height:
                rects[at : at + 1] = [
                    Rect(rect.x + width, rect.y, rect.width - width, height),
                    Rect(rect.x, rect.y + height, rect.width, rect.height - height),
                ]
                return True
    return False


def measure(name: str, paper: Paper, tight: Tight, seeds: range) -> bool:
    """One line of the table; whether all were proven."""
    prints = plain = proven = saved = 0
    times = []
    for seed in seeds:
        pieces = order_of(seed, paper)
        start = perf_counter()
        layout = lay_out(pieces, paper, tight=tight)
        times.append(perf_counter() - start)
        greedy = first_fit(pieces, paper)
        prints, plain = prints + len(layout.prints), plain + greedy
        proven, saved = proven + layout.proven, saved + (len(layout.prints) < greedy)
    times.sort()
    beside = f"{plain:>9,}  {saved:>6}" if paper.trim == SIX_BY_FOUR.trim else f"{'-':>9}  {'-':>6}"
    print(
        f"{name:<14}{len(seeds):>6}  {proven:>6}  {prints:>7,}  {beside}  {1000 * times[len(times) // 2]:>9.0f}"
        f"  {1000 * times[int(len(times) * 0.99)]:>8.0f}  {1000 * times[-1]:>8.0f}",
        flush=True,
    )
    return proven == len(seeds)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--short", action="store_true", help=f"{SHORT} orders instead of {ORDERS}")
    count = SHORT if parser.parse_args().short else ORDERS
    print("case          orders  proven   prints  first-fit   saved  median ms    99% ms    max ms")
    parts = (range(count), range(count // 2), range(count // 2))
    done = [measure(*case, seeds) for case, seeds in zip(CASES, parts, strict=True)]
    sys.exit(0 if all(done) else 1)


if __name__ == "__main__":
    main()
