"""What costs money when it is wrong."""

from dataclasses import replace
from datetime import date

from queries.cropping.values import WHOLE, Window
from queries.cutting.values import Rect
from queries.orders.values import Order
from queries.prints.risks import risks_of
from queries.prints.values import PhotoPart, PicturePiece
from queries.weeks import WeekRule

WEEK = WeekRule().week_of(date(2026, 3, 30))
NEXT = WeekRule().week_of(date(2026, 4, 6))
SIX, FOUR = 152_400, 101_600
CODES = {"kite": "k1te0", "pier": "p1er0"}
ORDER = Order("id", 11, "/out", (), 0, "sent", "2026-01-01T00:00:00.000000Z", None, None)


def piece(key: str, window: Window = WHOLE, *, pocket: str = "L1", week=WEEK) -> PicturePiece:  # type: ignore[no-untyped-def]
    part = PhotoPart(key, window, Rect(0, 0, SIX, FOUR), 0)
    return PicturePiece(f"{week.name} {pocket}", week, pocket, SIX, FOUR, (part,), "white", "photo")


def kinds(*pieces: PicturePiece, size: tuple[int, int] = (1800, 1200), before=()) -> list[tuple[str, str, str]]:  # type: ignore[no-untyped-def]
    risks = risks_of(pieces, {"kite": size, "pier": (3000, 2000)}, CODES, dict(before))
    return [(risk.kind, f"{risk.week.name} {risk.pocket}", risk.code) for risk in risks]


def test_blurry_below_200_dpi() -> None:
    """1200 x 800 pixels on 6x4 are 200 dpi; one less is blurry (common practice), and never told as 200."""
    assert kinds(piece("kite"), size=(1200, 800)) == []
    assert kinds(piece("kite"), size=(1199, 800)) == [("blurry", "2026-W14 L1", "k1te0")]
    (risk,) = risks_of([piece("kite")], {"kite": (1199, 800)}, CODES, {})
    assert risk.says == "will look blurry: 199 dpi at this size"
    assert kinds(piece("kite", Window(0.1, 0, 0.1 + 2 / 3, 2 / 3)), size=(1800, 1200))[0][0] == "cropped"
    assert kinds(piece("kite", Window(0.3, 0.3, 0.9, 0.9))) == [
        ("blurry", "2026-W14 L1", "k1te0"),
        ("cropped", "2026-W14 L1", "k1te0"),
    ]


def test_cropped_above_a_quarter() -> None:
    """A quarter cut off is as far as it goes unsaid."""
    assert kinds(piece("pier", Window(0, 0, 1, 0.75))) == []
    assert kinds(piece("pier", Window(0, 0.09, 1, 0.09 + 0.75 - 1e-16))) == []
    assert kinds(piece("pier", Window(0, 0, 1, 0.749))) == [("cropped", "2026-W14 L1", "p1er0")]


def test_a_collage_is_blurry_once_and_every_crop_of_it_is_told() -> None:
    """The blurriest photo speaks for the piece; each photo that loses much is one to look at."""
    half = Rect(0, 0, SIX // 2, FOUR)
    parts = (PhotoPart("kite", Window(0, 0, 1, 0.7), half, 0), PhotoPart("pier", Window(0, 0, 0.5, 1), half, 0))
    collage = replace(piece("kite"), parts=parts, holds="collage")
    assert kinds(collage, size=(300, 400)) == [
        ("blurry", "2026-W14 L1", "k1te0"),
        ("cropped", "2026-W14 L1", "k1te0"),
        ("cropped", "2026-W14 L1", "p1er0"),
    ]


def test_planned_in_another_order() -> None:
    """A piece that another order has, which may have gone to the lab without a word."""
    (risk,) = risks_of([piece("pier")], {"pier": (3000, 2000)}, CODES, {}, {"2026-W14 L1": ORDER})
    assert (risk.kind, risk.code, risk.says) == ("planned too", "p1er0", "is in o11 too, planned and not told as sent")


def test_printed_before_and_twice() -> None:
    """A photo of an order that was sent, and one that stands in this order on two pieces."""
    found = kinds(piece("kite"), piece("kite", pocket="R2", week=NEXT), before=[("kite", (ORDER, WEEK))])
    assert found == [
        ("printed before", "2026-W14 L1", "k1te0"),
        ("printed before", "2026-W15 R2", "k1te0"),
        ("twice", "2026-W15 R2", "k1te0"),
    ]


def test_two_photos_that_show_the_same() -> None:
    """The second of a set or scene is named beside the first, whatever the weeks; one photo on two pieces is not."""
    shows = {"kite": [("scene", 3)], "pier": [("set", 1), ("scene", 3)]}
    sizes = {"kite": (1800, 1200), "pier": (1800, 1200)}
    pieces = [piece("kite"), piece("pier", pocket="R2", week=NEXT)]
    (risk,) = risks_of(pieces, sizes, CODES, {}, {}, shows)
    assert (risk.kind, risk.code, risk.says) == ("alike", "p1er0", "shows what k1te0 shows, in 2026-W14 L1")
    assert [risk.kind for risk in risks_of([pieces[0], piece("kite", pocket="R1")], sizes, CODES, {}, {}, shows)] == [
        "twice"
    ]
