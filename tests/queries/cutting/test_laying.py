"""Whole orders laid out: what must hold of every one, the values of the facts page, and a plain search beside."""

from random import Random

import pytest

from indexer.errors import PrintError
from queries.cutting.laying import lay_out
from queries.cutting.spaces import usable
from queries.cutting.values import Layout, Paper, Piece, Rect, Tight, Trim
from queries.lengths import UM_PER_MM
from tests.queries.cutting.made_orders import (
    INCH,
    SIX_BY_FOUR,
    TRIMMED,
    apart,
    fewest_plainly,
    parts_cut,
    pieces_of,
    random_order,
)

PAPERS = (SIX_BY_FOUR, TRIMMED, Paper(152 * UM_PER_MM, 102 * UM_PER_MM, Trim(1500, 0, 1000, 2000)))


def sizes_of(layout: Layout) -> list[set[str]]:
    return [{laid.piece for laid in printed.laid} for printed in layout.prints]


def check_layout(layout: Layout, pieces: list[Piece], paper: Paper, tight: Tight) -> None:
    """Every piece once, apart, inside, of its size, and freed by cuts from edge to edge."""
    assert sorted(laid.piece for printed in layout.prints for laid in printed.laid) == sorted(p.name for p in pieces)
    assert 1 <= layout.lower_bound <= len(layout.prints)
    by_name, sheet, free = {piece.name: piece for piece in pieces}, Rect(0, 0, paper.width, paper.height), usable(paper)
    for printed in layout.prints:
        shrunk = (printed.scale_x, printed.scale_y) != (1.0, 1.0)
        assert not shrunk or (tight == "shrink" and len(printed.laid) > 1)
        for laid in printed.laid:
            piece, box = by_name[laid.piece], laid.box
            sides = (piece.height, piece.width) if laid.turned else (piece.width, piece.height)
            assert abs(box.width - sides[0] * printed.scale_x) <= 1
            assert abs(box.height - sides[1] * printed.scale_y) <= 1
            assert shrunk or (box.width, box.height) == sides
            assert box.x >= 0
            assert box.y >= 0
            assert box.right <= paper.width
            assert box.bottom <= paper.height
            risk = laid.at_risk
            assert (box.x + risk.left, box.y + risk.top) >= (free.x, free.y)
            assert (risk.left or risk.right) == 0 or box.width > free.width
            assert (risk.top or risk.bottom) == 0 or box.height > free.height
            assert risk.left == max(0, free.x - box.x)
            assert risk.bottom == max(0, box.bottom - free.bottom)
            assert not (shrunk and risk != Trim())
        boxes = [laid.box for laid in printed.laid]
        assert all(apart(one, other) for one in printed.laid for other in printed.laid if one is not other)
        parts = parts_cut(printed, sheet)
        assert set(boxes) <= set(parts)
        assert len(parts) == len(printed.cuts) + 1


@pytest.mark.parametrize("tight", ["shrink", "apart"])
@pytest.mark.parametrize("paper", PAPERS, ids=["6x4", "6x4 trimmed", "152x102 mm trimmed"])
def test_every_order_is_whole_and_proven(paper: Paper, tight: Tight) -> None:
    """Random orders: nothing overlaps, leaves the paper or changes its size, all can be cut out, and none is fewer."""
    for seed in range(40):
        pieces = random_order(seed, paper)
        layout = lay_out(pieces, paper, tight=tight)
        check_layout(layout, pieces, paper, tight)
        assert layout.proven


@pytest.mark.parametrize(
    "paper", [Paper(8 * INCH, 10 * INCH), Paper(12 * INCH, 12 * INCH, Trim(3000, 3000, 3000, 3000))]
)
def test_orders_on_large_paper_are_whole(paper: Paper) -> None:
    """The same on paper that holds too many pieces for all patterns to be listed; and here too no fewer would do."""
    for seed in range(4):
        pieces = random_order(seed, paper, most=40, kinds=5)
        layout = lay_out(pieces, paper)
        check_layout(layout, pieces, paper, "shrink")
        assert layout.proven


def test_small_pieces_of_odd_sizes_are_whole() -> None:
    """Sides under two inches of a prime number of µm: whole, and the bound is told as far as it is known."""
    draw = Random(4)
    sizes = [(draw.randrange(20_011, 60_000, 13), draw.randrange(20_011, 90_000, 17)) for _ in range(8)]
    pieces = [Piece(f"p{at}", *draw.choice(sizes)) for at in range(40)]
    check_layout(lay_out(pieces, SIX_BY_FOUR, seconds=3), pieces, SIX_BY_FOUR, "shrink")


def test_pairs_of_halves_make_n_and_half_of_m() -> None:
    """n pieces of 6x4 and m of 3x4 need n + ceil(m/2) prints of 6x4 (facts page)."""
    for wide in range(8):
        for tall in range(0, 20, 3):
            pieces = pieces_of(*[(6, 4)] * wide, *[(3, 4)] * tall)
            layout = lay_out(pieces, SIX_BY_FOUR)
            assert len(layout.prints) == layout.lower_bound == wide + -(-tall // 2)


def test_strips_are_packed_better_than_first_fit() -> None:
    """Strips of 4, 3, 5, 2, 3, 3 on papers of 10: two, where the largest first takes three (facts page)."""
    strips = [Piece(f"p{at}", length * INCH, INCH) for at, length in enumerate((4, 3, 5, 2, 3, 3))]
    layout = lay_out(strips, Paper(10 * INCH, INCH))
    assert len(layout.prints) == layout.lower_bound == 2


def test_sevens_hold_three() -> None:
    """Four 3x4 pieces fit 7x7 only as a pinwheel, which no trimmer can cut: three do, so four take two prints."""
    paper = Paper(7 * INCH, 7 * INCH)
    assert len(lay_out(pieces_of(*[(3, 4)] * 3), paper).prints) == 1
    assert len(lay_out(pieces_of(*[(3, 4)] * 4), paper).prints) == 2


@pytest.mark.parametrize("seed", range(30))
def test_number_is_that_of_a_plain_search(seed: int) -> None:
    """Small orders: no fewer and no more prints than by trying every grouping and every cut."""
    draw = Random(seed)
    paper = Paper(6, 4) if seed % 2 else Paper(7, 5)
    sides = [(draw.randint(1, 6), draw.randint(1, 4)) for _ in range(5)]
    layout = lay_out([Piece(f"p{at}", *pair) for at, pair in enumerate(sides)], paper)
    assert len(layout.prints) == layout.lower_bound == fewest_plainly(sides, paper, apart=False)


@pytest.mark.parametrize("seed", range(16))
def test_number_with_a_trim_is_that_of_a_plain_search(seed: int) -> None:
    """The same where the lab trims: pieces kept apart, or laid as if there were no trim and shrunk."""
    draw = Random(seed)
    paper = Paper(9, 7, Trim(*(draw.randint(0, 1) for _ in range(4))))
    sides = [(draw.choice((3, 4, 5, 9)), draw.choice((2, 3, 4, 6, 7))) for _ in range(4)]
    pieces = [Piece(f"p{at}", *pair) for at, pair in enumerate(sides)]
    for tight in ("shrink", "apart"):
        layout = lay_out(pieces, paper, tight=tight)  # type: ignore[arg-type]
        assert len(layout.prints) == layout.lower_bound == fewest_plainly(sides, paper, apart=tight == "apart")


def test_halves_shrink_by_a_hair() -> None:
    """Two 3x4 on 6x4 of which the lab trims: shrunk on both axes until they lie in what it leaves."""
    layout = lay_out(pieces_of((3, 4), (3, 4)), TRIMMED)
    (printed,) = layout.prints
    free = usable(TRIMMED)
    assert printed.scale_x == pytest.approx(free.width / TRIMMED.width)
    assert printed.scale_y == pytest.approx(free.height / TRIMMED.height)
    assert min(laid.box.x for laid in printed.laid) == free.x
    assert max(laid.box.right for laid in printed.laid) == free.right
    assert all(laid.at_risk == Trim() for laid in printed.laid)


def test_halves_go_on_prints_apart() -> None:
    """The same two as the person chose them whole: two prints, each wholly where the lab takes nothing."""
    layout = lay_out(pieces_of((3, 4), (3, 4)), TRIMMED, tight="apart")
    assert len(layout.prints) == layout.lower_bound == 2
    assert all(laid.at_risk == Trim() for printed in layout.prints for laid in printed.laid)


def test_a_piece_as_large_as_the_print_is_told_what_it_may_lose() -> None:
    """A 6x4 fills its print and keeps its size; all that the lab trims is at risk."""
    (printed,) = lay_out(pieces_of((4, 6)), TRIMMED).prints
    (laid,) = printed.laid
    assert (laid.box, laid.turned, laid.at_risk) == (Rect(0, 0, 6 * INCH, 4 * INCH), True, TRIMMED.trim)
    assert not printed.cuts


def test_what_hardly_fits_loses_by_each_edge_its_share() -> None:
    """A piece longer than what the lab leaves, and shorter than the print, lies nearer to the edge that loses less."""
    (printed,) = lay_out(pieces_of((5.9, 3)), TRIMMED).prints
    (laid,) = printed.laid
    assert (laid.box.x, laid.box.width) == ((6 * INCH - laid.box.width) // 3, round(5.9 * INCH))
    assert (laid.at_risk.left, laid.at_risk.right) == (
        TRIMMED.trim.left - 846,
        846 + 149_860 - 6 * INCH + TRIMMED.trim.right,
    )


def test_a_piece_as_tall_as_the_print_may_stand_beside_another() -> None:
    """A 3x4 reaches both long edges beside a 2x2, which keeps off them; nothing shrinks."""
    (printed,) = lay_out(pieces_of((3, 4), (2, 2)), TRIMMED).prints
    tall, small = printed.laid
    assert (tall.box.y, tall.box.height) == (0, 4 * INCH)
    assert tall.at_risk == Trim(0, TRIMMED.trim.top, 0, TRIMMED.trim.bottom)
    assert small.at_risk == Trim()
    assert (printed.scale_x, printed.scale_y) == (1.0, 1.0)


def test_what_can_be_shrunk_by_one_axis_is() -> None:
    """Three 2x2 side by side are too long for what the lab leaves, not too tall."""
    (printed,) = lay_out(
        pieces_of((2, 2), (2, 2), (2, 2)), Paper(6 * INCH, 3 * INCH, Trim(1000, 1000, 1000, 1000))
    ).prints
    assert printed.scale_x < 1
    assert printed.scale_y == 1


def test_weeks_stay_together() -> None:
    """Pieces that come first stand on the first prints, as far as their number allows."""
    layout = lay_out(pieces_of(*[(3, 4)] * 7, (6, 4)), SIX_BY_FOUR)
    assert sizes_of(layout) == [{"p0", "p1"}, {"p2", "p3"}, {"p4", "p5"}, {"p6"}, {"p7"}]


def test_millimetres_stay_exact() -> None:
    """Two of 76 mm are 152 mm, and one µm more is too much."""
    paper = Paper(152 * UM_PER_MM, 102 * UM_PER_MM)
    pair = [Piece("a", 76_000, 102_000), Piece("b", 76_000, 102_000)]
    assert len(lay_out(pair, paper).prints) == 1
    assert len(lay_out([pair[0], Piece("b", 76_001, 102_000)], paper).prints) == 2


def test_same_order_gives_the_same_prints() -> None:
    """Nothing is left to chance."""
    pieces = random_order(7)
    assert lay_out(pieces, TRIMMED) == lay_out(pieces, TRIMMED)


def test_nothing_needs_no_print() -> None:
    """No pieces, no prints."""
    assert lay_out([], SIX_BY_FOUR) == Layout((), 0)


def test_a_piece_larger_than_the_paper_is_named() -> None:
    """One line with the piece, its size and the way out."""
    with pytest.raises(PrintError, match=r"p1 is 4.5x5 in, larger than the lab's paper of 6x4 in; set print.size"):
        lay_out(pieces_of((3, 4), (5, 4.5)), SIX_BY_FOUR)


@pytest.mark.parametrize(
    ("paper", "way_out"),
    [
        (Paper(152_000, 102_000), "settings print.size 6x4in"),
        (Paper(100_000, 150_000), "settings print.size 4x6in"),
        (Paper(140_000, 100_000), "set print.size, or plan"),
        (Paper(5 * INCH, 4 * INCH), "set print.size, or plan"),
    ],
)
def test_a_piece_larger_by_a_hair_is_told_the_labs_size_in_inches(paper: Paper, way_out: str) -> None:
    """A lab's 10x15 cm and 152x102 mm are mostly 6x4 inches (common practice)."""
    with pytest.raises(PrintError, match=way_out):
        lay_out(pieces_of((6, 4)), paper)


def test_a_trim_that_leaves_nothing_is_refused() -> None:
    """The setting is named."""
    with pytest.raises(PrintError, match=r"settings print\.lab_trim"):
        lay_out(pieces_of((3, 4)), Paper(6 * INCH, 4 * INCH, Trim(3 * INCH, 0, 3 * INCH, 0)))
