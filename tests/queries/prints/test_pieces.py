"""Pieces as the plan has them: sizes in micrometres, cells within their piece, windows as kept."""

from dataclasses import replace
from random import Random

import pytest

from queries.cropping.values import WHOLE, Window
from queries.cutting.values import Rect
from queries.fitting.values import Filled, Opening, Placed
from queries.prints.pieces import card_pockets, kept_share, pieces_of, resolution, with_shape
from queries.prints.values import PhotoPart, PicturePiece
from queries.sleeves.values import Box
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER, kept, pair, week, wide
from tests.queries.spread.made_spread import small_spread

WEEK = week("2026-03-30")
SIZES = dict.fromkeys((KITE, PIER, GULL, CAT, *(letter * 32 for letter in "abcd")), (1600, 1200))


def test_photos_and_collages_become_pieces_in_the_order_of_the_pockets() -> None:
    """Cards and empty pockets give none; names are the week's and the pocket's."""
    pieces = pieces_of(WEEK, small_spread(), SIZES)
    assert [(piece.name, piece.pocket, piece.holds) for piece in pieces] == [
        ("2026-W14 L1", "L1", "photo"), ("2026-W14 L4", "L4", "photo"), ("2026-W14 R1", "R1", "collage"),
    ]  # fmt: skip
    assert [(piece.width, piece.height) for piece in pieces] == [
        (152_400, 101_600),
        (127_000, 76_200),
        (152_400, 101_600),
    ]


def test_a_photo_with_paper_around_it_is_a_smaller_piece() -> None:
    """The paper around it is the pocket's own; the photo fills its piece."""
    piece = pieces_of(WEEK, small_spread(), SIZES)[1]
    assert [part.cell for part in piece.parts] == [Rect(0, 0, 127_000, 76_200)]


def test_a_collage_keeps_its_cells_corners_and_background() -> None:
    """Cells lie within the piece, the strip stays free."""
    piece = pieces_of(WEEK, small_spread(), SIZES)[2]
    assert piece.background == "#2040c0"
    assert [(part.cell, part.corner) for part in piece.parts] == [
        (Rect(5_080, 5_080, 68_580, 76_200), 12_700), (Rect(78_740, 5_080, 68_580, 76_200), 12_700),
    ]  # fmt: skip


def test_a_collage_cell_is_measured_from_its_own_pocket() -> None:
    """Cells of a plan lie on the page: the pocket's corner is taken off."""
    filled = pair("L1", KITE, PIER)
    down = tuple(replace(one, cell=replace(one.cell, y=one.cell.y + 4)) for one in filled.photos)
    opening = Opening("L1", "left", Box(0, 4, 6, 4))
    piece = pieces_of(WEEK, kept(replace(filled, opening=opening, photos=down)), SIZES)[0]
    assert [part.cell for part in piece.parts] == [Rect(0, 0, 76_200, 101_600), Rect(76_200, 0, 76_200, 101_600)]


def test_kept_windows_are_taken_and_missing_ones_made() -> None:
    """A photo without a window shows the middle, as much as its cell allows."""
    shown = Window(0.1, 0.2, 0.9, 0.9)
    pieces = pieces_of(WEEK, kept(windows={KITE: shown}), SIZES)
    windows = {part.key: part.window for piece in pieces for part in piece.parts}
    assert windows[KITE] == shown
    assert (windows[PIER].width, windows[PIER].height) == pytest.approx((1, 8 / 9))  # 4:3 on 6x4 loses 11.11 %


def test_a_crop_told_counts_for_a_window_that_has_to_be_made() -> None:
    """The word of the person stands in the plan."""
    plan = replace(kept(), crops={PIER: "top"})
    piece = next(piece for piece in pieces_of(WEEK, plan, SIZES) if piece.parts[0].key == PIER)
    assert piece.parts[0].window.top == 0


def test_card_pockets_have_their_sizes() -> None:
    """The openings that hold a card, in order."""
    pockets = card_pockets(kept(wide("L1", KITE), wide("L2", number=1), wide("R2", number=1)))
    assert [(pocket.name, pocket.width, pocket.height) for pocket in pockets] == [
        ("L2", 152_400, 101_600), ("R2", 152_400, 101_600),
    ]  # fmt: skip


def test_no_cell_leaves_its_piece_and_none_overlap() -> None:
    """Whatever lengths a page has, in inches or millimetres, rounding moves no edge over another."""
    draw = Random(3)
    for _ in range(500):
        x, y, width, height = (draw.uniform(0.5, 8) for _ in range(4))
        middle = draw.uniform(0.1, 0.9) * width
        cells = Box(x, y, middle, height), Box(x + middle, y, width - middle, height)
        placed = tuple(Placed(key, cell, 1.0, 300) for key, cell in zip((KITE, PIER), cells, strict=True))
        filled = Filled(Opening("L1", "left", Box(x, y, width, height)), "collage", placed, None, "")
        piece = pieces_of(WEEK, kept(filled), SIZES)[0]
        first, second = (part.cell for part in piece.parts)
        assert first.right <= second.x + 1
        assert max(first.right, second.right) <= piece.width
        assert max(first.bottom, second.bottom) <= piece.height
        assert min(first.x, first.y, second.x, second.y) >= 0


def photo_piece(window: Window = WHOLE, width: int = 152_400, height: int = 101_600) -> PicturePiece:
    part = PhotoPart(KITE, window, Rect(0, 0, width, height), 0)
    return PicturePiece("2026-W14 L1", WEEK, "L1", width, height, (part,), "white", "photo")


def test_resolution_is_of_the_part_shown() -> None:
    """1800 x 1200 pixels on 6x4 inches are 300 dpi; half of the width and height are 150."""
    assert resolution(photo_piece().parts[0], (1800, 1200)) == pytest.approx(300)
    assert resolution(photo_piece(Window(0.25, 0.25, 0.75, 0.75)).parts[0], (1800, 1200)) == pytest.approx(150)


@pytest.mark.parametrize(
    ("aspect", "cell", "lost"),
    [((4, 3), (6, 4), 0.1111), ((4, 3), (4, 3), 0), ((3, 2), (6, 4), 0), ((3, 2), (4, 3), 0.1111),
     ((16, 9), (6, 4), 0.15625), ((16, 9), (4, 3), 0.25)],
)  # fmt: skip
def test_what_a_photo_loses(aspect: tuple[int, int], cell: tuple[int, int], lost: float) -> None:
    """Arithmetic: 1 less the smaller ratio of the two aspects."""
    filled = Filled(
        Opening("L1", "left", Box(0, 0, *cell)), "photo", (Placed(KITE, Box(0, 0, *cell), 1, 300),), None, ""
    )
    piece = pieces_of(WEEK, kept(filled), {KITE: (aspect[0] * 400, aspect[1] * 400)})[0]
    assert 1 - kept_share(piece.parts[0]) == pytest.approx(lost, abs=1e-4)


def test_a_shrunk_piece_shows_no_stretched_photo() -> None:
    """Its window is cut to the new shape about its middle, and its cells fill it as before."""
    shrunk = with_shape(photo_piece(), 148_000, 101_600)
    part = shrunk.parts[0]
    assert part.cell == Rect(0, 0, 148_000, 101_600)
    assert (part.window.height, part.window.left + part.window.right) == pytest.approx((1, 1))
    assert 1800 * part.window.width / (1200 * part.window.height) == pytest.approx(148_000 / 101_600, rel=1e-5)


def test_the_cells_of_a_shrunk_collage_still_meet() -> None:
    """Edges that were one stay one, at every scale."""
    whole = pieces_of(WEEK, kept(pair("L1", KITE, PIER)), SIZES)[0]
    for width in range(140_000, 152_400, 371):
        first, second = (part.cell for part in with_shape(whole, width, 99_999).parts)
        assert first.right == second.x
        assert (second.right, second.bottom) == (width, 99_999)


def test_the_mark_tells_what_is_printed_and_not_where() -> None:
    """Another week or pocket has the same mark; another photo, window, size, cell or corner has not."""
    piece = photo_piece()
    part = piece.parts[0]
    assert replace(piece, name="2026-W15 R2", week=week("2026-04-06"), pocket="R2").mark == piece.mark
    assert photo_piece(Window(0, 0, 1, 0.99999)).mark == piece.mark  # less than a pixel
    others = [
        photo_piece(Window(0, 0, 1, 0.999)),
        photo_piece(width=152_401),
        replace(piece, parts=(replace(part, key=PIER),)),
        replace(piece, parts=(replace(part, corner=1),)),
        replace(piece, parts=(replace(part, cell=Rect(1, 0, 152_399, 101_600)),)),
        replace(piece, background="black", holds="collage"),
    ]
    marks = {other.mark for other in others}
    assert len(marks) == len(others)
    assert piece.mark not in marks
    assert len(piece.mark) == 12
