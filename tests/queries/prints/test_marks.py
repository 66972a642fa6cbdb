"""Cutting marks lie on waste only, at the ends of their cuts."""

from random import Random

from queries.cutting.laying import lay_out
from queries.cutting.values import Cut, Laid, Paper, Piece, Print, Rect, Trim
from queries.lengths import in_pixels
from queries.print_settings import Lab
from queries.prints.marks import marks_of

INCH = 25_400
LAB = Lab(6 * INCH, 4 * INCH, 300)
SQUARE = Print(
    (Laid("a", Rect(0, 0, 3 * INCH, 3 * INCH), False, Trim()),),
    (
        Cut(1, "down", 3 * INCH, Rect(0, 0, 6 * INCH, 4 * INCH)),
        Cut(2, "across", 3 * INCH, Rect(0, 0, 3 * INCH, 4 * INCH)),
    ),
)


def test_a_square_on_a_6x4_is_marked_beside_it() -> None:
    """3 mm at both ends of both cuts (35 pixels at 300 dpi), in the first column and row of waste."""
    assert set(marks_of(SQUARE, LAB)) == {
        (900, 0, 900, 34), (900, 1165, 900, 1199), (0, 900, 34, 900), (865, 900, 899, 900),
    }  # fmt: skip


def test_marks_reach_beyond_what_the_lab_may_take() -> None:
    """At an edge of the paper a mark is longer by the trim there."""
    trimmed = Lab(6 * INCH, 4 * INCH, 300, (0, 2_540, 0, 0))
    assert (900, 0, 900, 64) in marks_of(SQUARE, trimmed)


def test_between_two_pieces_there_is_no_mark() -> None:
    """Two 3x4 fill the print: the cut has no waste beside it."""
    boxes = Rect(0, 0, 3 * INCH, 4 * INCH), Rect(3 * INCH, 0, 3 * INCH, 4 * INCH)
    laid = tuple(Laid(name, box, False, Trim()) for name, box in zip("ab", boxes, strict=True))
    assert marks_of(Print(laid, (Cut(1, "down", 3 * INCH, Rect(0, 0, 6 * INCH, 4 * INCH)),)), LAB) == ()


def test_waste_on_the_other_side_serves_too() -> None:
    """A piece to the right of its cut is marked in the last column of waste."""
    laid = (Laid("a", Rect(3 * INCH, 0, 3 * INCH, 4 * INCH), False, Trim()),)
    marks = marks_of(Print(laid, (Cut(1, "down", 3 * INCH, Rect(0, 0, 6 * INCH, 4 * INCH)),)), LAB)
    assert set(marks) == {(899, 0, 899, 34), (899, 1165, 899, 1199)}


def test_a_mark_ends_where_a_piece_begins_and_is_none_where_hardly_any_room_is() -> None:
    """Two millimetres of waste take a mark of two, half a millimetre takes none."""
    cut = Cut(1, "down", 3 * INCH, Rect(0, 0, 6 * INCH, 4 * INCH))
    for room, mark in ((2_000, {(900, 0, 900, 23)}), (500, set())):
        boxes = Rect(0, room, 3 * INCH, 4 * INCH - room), Rect(3 * INCH, room, 3 * INCH, 4 * INCH - room)
        laid = tuple(Laid(name, box, False, Trim()) for name, box in zip("ab", boxes, strict=True))
        assert set(marks_of(Print(laid, (cut,)), LAB)) == mark


def test_no_mark_ever_touches_a_piece() -> None:
    """Random orders, laid out and cut, on papers with and without a trim."""
    draw = Random(11)
    seen = 0
    for number in range(40):
        trim = Trim(*(draw.choice((0, 1_500)) for _ in range(4)))
        pieces = [
            Piece(f"p{place}", round(draw.uniform(2, 4) * INCH), round(draw.uniform(2, 3.5) * INCH))
            for place in range(draw.randint(1, 5))
        ]
        lab = Lab(6 * INCH, 4 * INCH, draw.choice((200, 300, 301)), (trim.left, trim.top, trim.right, trim.bottom))
        layout = lay_out(pieces, Paper(lab.width, lab.height, trim), seconds=2.0)
        for laid_out in layout.prints:
            for x0, y0, x1, y1 in marks_of(laid_out, lab):
                seen += 1
                assert x0 == x1 or y0 == y1
                assert 0 <= x0 <= x1 < lab.pixels[0]
                assert 0 <= y0 <= y1 < lab.pixels[1]
                for laid in laid_out.laid:
                    box = laid.box
                    left, top, right, bottom = (
                        in_pixels(edge, lab.dpi) for edge in (box.x, box.y, box.right, box.bottom)
                    )
                    assert x1 < left or x0 >= right or y1 < top or y0 >= bottom, number
    assert seen > 100
