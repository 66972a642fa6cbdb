"""A small spread, made up: one of everything that a pocket can hold."""

from queries.cropping.values import Window
from queries.fitting.values import Asked, Collage, Filled, Opening, Placed, Plan
from queries.sleeves.values import Box
from queries.spread.values import KeptPlan, Page

PAGES = (Page("left", "4 wide", "back", 12, 8), Page("right", "4 wide", "front", 12, 8))
#: Where the pages begin on the drawing, in inches.
LEFT, RIGHT = (0.35, 0.75), (12.65, 0.75)
COLLAGE = Collage("2 side by side", (Box(0.2, 0.2, 2.7, 3.0), Box(3.1, 0.2, 2.7, 3.0)), 0.2, 0.2, 0.5, "#2040c0",
                  Box(0, 3.4, 6, 0.6))  # fmt: skip


def small_spread(windows: dict[str, Window] | None = None) -> KeptPlan:
    """L1 a photo, L2 a card, L3 nothing, L4 a photo with paper around it, R1 a collage of two."""
    left = [Opening(f"L{n}", "left", Box(x, y, 6, 4)) for n, (x, y) in enumerate([(0, 0), (6, 0), (0, 4), (6, 4)], 1)]
    first = Opening("R1", "right", Box(0, 0, 6, 4))
    filled = (
        Filled(left[0], "photo", (Placed("a" * 32, left[0].box, 1.0, 300),), None, ""),
        Filled(left[1], "card", (), None, ""),
        Filled(left[2], "empty", (), None, ""),
        Filled(left[3], "photo", (Placed("b" * 32, Box(6.5, 4.5, 5, 3), 1.0, 300),), None, ""),
        Filled(first, "collage", (Placed("c" * 32, COLLAGE.cells[0], 1.0, 300),
                                  Placed("d" * 32, COLLAGE.cells[1], 1.0, 300)), COLLAGE, ""),
    )  # fmt: skip
    return KeptPlan(PAGES, Plan(filled, True, 0.0, 1.0, 1.0, ()), Asked(), windows=windows or {})
