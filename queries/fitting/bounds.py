"""What a spread can be worth at most, quickly. Pure.

Lagrange: let a photo be used more than once, but pay its price each time, and give all prices back once. For any prices
of 0 and more this is no less than the best plan's value; with those of the relaxed programme it is close. The openings
are then independent but for the counts of photos and cards, which a table of both goes through exactly. Balance and
even cards only take away, so that leaving them out keeps it a bound.
"""

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import vstack

from queries.fitting.programme import programme_of
from queries.fitting.table import Floats, Row, Table
from queries.fitting.worth import wanted_photos


def prices_of(table: Table) -> Floats:
    """What the relaxed programme (ways and photos in parts) pays for one more of each photo; 0 where it has none."""
    made, photos = programme_of(table), len(table.case.pictures)
    rows = made.constraints()
    low, high = np.asarray(rows.lb), np.asarray(rows.ub)
    above, below = np.isfinite(high), np.isfinite(low)
    matrix = vstack([rows.A[above], -rows.A[below]])
    limits = np.concatenate([high[above], -low[below]])
    found = linprog(-np.array(made.worth), matrix, limits, bounds=[(0, high) for high in made.upper])
    if found.x is None:
        return np.zeros(photos)
    marginals = np.zeros(len(high))
    marginals[np.flatnonzero(above)] = -found.ineqlin.marginals[: above.sum()]
    first = made.photo_rows
    return np.maximum(marginals[first : first + photos], 0.0)


def upper_bound(table: Table, prices: Floats) -> float:
    """No plan of this table is worth more; minus infinity where the counts asked for cannot be met."""
    asked, photos = table.case.asked, len(table.case.pictures)
    cards = asked.card_count or 0
    best = np.full((cards + 1, photos + 1), -np.inf)
    best[0, 0] = 0.0
    paid = table.worths - prices
    tops = [np.concatenate([[0.0], np.cumsum(-np.sort(-row)[:4])]) for row in paid]
    for row in table.rows:
        best = _and_one_more(best, row, tops, counted=asked.card_count is not None)
    reached = best[cards] + table.case.by.placed * np.minimum(np.arange(photos + 1), wanted_photos(table.case))
    if asked.photo_count is not None:
        reached = reached[asked.photo_count : asked.photo_count + 1]
    return float(reached.max() + prices.sum())


def _and_one_more(best: Floats, row: Row, tops: list[Floats], *, counted: bool) -> Floats:
    """The best worth by counts of cards and photos, once another opening is filled."""
    after = np.full_like(best, -np.inf)
    by_count: dict[int, float] = {}
    for way in row.ways:
        if all(need < len(tops[kind]) for kind, need in way.needs.items()):
            photos = sum(way.needs.values())
            worth = way.worth + sum(float(tops[kind][need]) for kind, need in way.needs.items())
            by_count[photos] = max(worth, by_count.get(photos, -np.inf))
    if row.empty is not None:
        by_count[0] = row.empty
    for photos, worth in by_count.items():
        if photos < best.shape[1]:
            np.maximum(after[:, photos:], best[:, : best.shape[1] - photos] + worth, out=after[:, photos:])
    if row.card is not None:
        step = int(counted)
        np.maximum(after[step:], best[: best.shape[0] - step] + row.card, out=after[step:])
    return after
