"""Which photo goes into which pocket of a spread: the best plan, proven, by a mixed-integer programme."""

from queries.fitting.planning import plan_spread
from queries.fitting.sleeves_choice import plan_over_sleeves
from queries.fitting.values import (
    Asked,
    Collage,
    Filled,
    Opening,
    Picture,
    Placed,
    Plan,
    Style,
    openings_of,
)

__all__ = [
    "Asked",
    "Collage",
    "Filled",
    "Opening",
    "Picture",
    "Placed",
    "Plan",
    "Style",
    "openings_of",
    "plan_over_sleeves",
    "plan_spread",
]
