"""Rectangles with text in them"""

from queries.spread.canvas import Canvas


def test_neighbours_share_their_edges() -> None:
    """Where edges meet there is a corner."""
    canvas = Canvas(9, 3)
    canvas.frame(0, 0, 4, 2)
    canvas.frame(4, 0, 8, 2)
    canvas.write(0, 0, 4, 2, ["L1"])
    assert canvas.lines() == ["+---+---+", "|L1 |   |", "+---+---+"]


def test_a_tee_is_a_corner_whichever_was_drawn_first() -> None:
    """An edge that ends on another one's middle makes a corner there, drawn before it or after."""
    for order in ((0, 1, 2), (2, 1, 0)):
        canvas = Canvas(7, 5)
        frames = [(0, 0, 6, 2), (0, 2, 3, 4), (3, 2, 6, 4)]
        for number in order:
            canvas.frame(*frames[number])
        assert canvas.lines()[2] == "+--+--+"


def test_what_does_not_fit_is_left_away() -> None:
    """Lines are cut at the edges of their rectangle, above all the last ones."""
    canvas = Canvas(5, 4)
    canvas.frame(0, 0, 4, 3)
    canvas.write(0, 0, 4, 3, ["L1", "a1b2c", "-11 %"])
    assert canvas.lines() == ["+---+", "|L1 |", "|a1b|", "+---+"]


def test_rectangles_too_small_for_text() -> None:
    """Pockets of a few millimetres, at the page's right and bottom edge, have no room for a letter."""
    for right, bottom in ((4, 3), (3, 4), (4, 4), (3, 3)):
        canvas = Canvas(5, 5)
        canvas.frame(0, 0, 4, 4)
        canvas.write(3, 3, right, bottom, ["R100", "a1b2c"])
        assert canvas.lines() == ["+---+", "|   |", "|   |", "|   |", "+---+"]
