"""Pieces in inches on paper that is named in round millimetres."""

from random import Random

import pytest

from indexer.errors import PrintError
from queries.cutting.cuts import halves, inside, sheet_of
from queries.cutting.laying import lay_out
from queries.cutting.rounded import lay_out_by_a_hair
from queries.cutting.values import Paper, Trim
from tests.queries.cutting.made_orders import SIX_BY_FOUR, TRIMMED, pieces_of

ROUNDED = [Paper(152_000, 102_000), Paper(150_000, 100_000), Paper(152_000, 102_000, Trim(1_500, 1_000, 1_500, 1_000))]


def test_two_3x4_share_a_print_of_152x102_mm() -> None:
    """It is the metric name of 6x4 in (common practice): 0.4 mm must not cost a print each."""
    (printed,) = lay_out_by_a_hair(pieces_of((3, 4), (3, 4)), ROUNDED[0]).prints
    assert [(laid.box.width, laid.box.height) for laid in printed.laid] == [(76_000, 102_000)] * 2
    assert [(cut.way, cut.at) for cut in printed.cuts] == [("down", 76_000)]
    assert printed.scale_x == pytest.approx(152 / 152.4)


@pytest.mark.parametrize("paper", ROUNDED[:2], ids=["152x102 mm", "150x100 mm"])
def test_a_6x4_fills_it_without_a_cut(paper: Paper) -> None:
    """A piece that is larger by a hair is printed on all of the paper."""
    (printed,) = lay_out_by_a_hair(pieces_of((6, 4)), paper).prints
    assert not printed.cuts
    assert (printed.laid[0].box.width, printed.laid[0].box.height) == (paper.width, paper.height)


def test_what_fits_keeps_its_size() -> None:
    """Nothing is scaled that needs no more prints as it is, nor on paper in inches."""
    (printed,) = lay_out_by_a_hair(pieces_of((3, 3)), ROUNDED[0]).prints
    assert (printed.laid[0].box.width, printed.scale_x) == (76_200, 1.0)
    for paper in (SIX_BY_FOUR, TRIMMED):
        pieces = pieces_of((3, 4), (3, 4), (2, 2))
        assert lay_out_by_a_hair(pieces, paper) == lay_out(pieces, paper)


def test_apart_keeps_every_size() -> None:
    """Then each 3x4 has a print, and a 6x4 is refused."""
    assert len(lay_out_by_a_hair(pieces_of((3, 4), (3, 4)), ROUNDED[0], tight="apart").prints) == 2
    with pytest.raises(PrintError, match=r"settings print\.size 6x4in"):
        lay_out_by_a_hair(pieces_of((6, 4)), ROUNDED[0], tight="apart")


def test_a_piece_that_is_larger_all_the_same_is_refused_by_the_told_paper() -> None:
    """The message names the paper as it was told."""
    with pytest.raises(PrintError, match=r"paper of 5.98x4.02 in; set print.size, or plan"):
        lay_out_by_a_hair(pieces_of((8, 4)), ROUNDED[0])


def test_scaled_pieces_can_be_cut_and_stay_on_the_paper() -> None:
    """However they are laid: none overlaps or is cut through, and cutting frees each of them."""
    random = Random(6)
    for _ in range(25):
        sizes = [random.choice([(3, 4), (3, 3), (2, 2), (6, 4), (4, 4), (3, 2)]) for _ in range(random.randint(1, 7))]
        paper = random.choice(ROUNDED)
        for printed in lay_out_by_a_hair(pieces_of(*sizes), paper).prints:
            sheet = sheet_of(printed)
            parts = [sheet]
            for cut in printed.cuts:
                assert cut.part in parts
                parts.remove(cut.part)
                parts += halves(cut.part, cut.way, cut.at)
            assert (sheet.width, sheet.height) == (paper.width, paper.height)
            for laid in printed.laid:
                assert laid.box in parts
                assert inside(laid.box, sheet)
