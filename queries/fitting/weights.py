"""What counts how much in a spread: every number of the plan, in one place. Pure.

The weights are our own, set by looking at what they plan; their unit is a point. Three relations are a promise, and
tests hold them: as long as there are pockets for all, placing a photo is better than leaving it out, however it is cut,
turned, blurred or out of order; a picture that will look blurry goes after every one that will not, as far as rank
decides; and of two photos that look the same in both of two pockets, the earlier one stands first.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Weights:
    """How much each part of the value adds or takes away.

    `placed`: each photo, as long as they are no more than the pockets free for them; beyond that number a photo counts
    by the other parts only. `filled`: each pocket that holds photos; `area`: each square inch of it, so that cards go
    into small pockets where shapes leave the choice. `rank`: the first of the shortlist, less for those after it,
    nothing for the last; `lead` is the share of it that goes by the size of the cell, so that the best are shown large.

    `cut`: times the share cut off. `turned`: an upright picture in a wide cell, or the other way round, besides what is
    cut. `soft`: under 300 dpi, growing towards 200. `blurry`: under 200 dpi, growing by as much again towards 0.

    `story`: times the square of how far the photo's place in the story is from the pocket's place on the spread, both
    0..1. With the square, putting two into order always gains.

    `collage`: each collage, and `crowd` each photo in it after the first: small pictures say less, and somebody has to
    cut and glue them. `odd`: times how far the cells of a collage are from the usual shapes (1 is a ratio of e).

    `balance_spread`, `balance_page`: times the difference of the two halves' weight, as a share of a half's weight were
    all full of photos: for both pages as one frame (two axes) and for each page (two axes). `even`: times the
    difference of the shares of pockets that hold cards, left and right.

    `stay`: a photo, or a card, that stays where it was in the plan before. `empty`: each pocket left empty unasked.
    """

    placed: float = 12.0
    filled: float = 1.5
    area: float = 0.1
    rank: float = 1.5
    lead: float = 0.25
    cut: float = 6.0
    turned: float = 1.5
    soft: float = 0.3
    blurry: float = 1.6
    story: float = 2.5
    collage: float = 0.4
    crowd: float = 1.7
    odd: float = 0.5
    balance_spread: float = 3.0
    balance_page: float = 1.5
    even: float = 1.0
    stay: float = 0.8
    empty: float = 20.0


WEIGHTS = Weights()

#: The visual weight of a square inch: a photo is the measure of all; a card is mostly white paper with a few words.
PHOTO_WEIGHT, CARD_WEIGHT = 1.0, 0.4

#: Dots an inch of a print held in the hand: fine from the first on, blurry under the second (common practice).
FINE_DPI, BLURRY_DPI = 300.0, 200.0

#: Square inches of a cell from which on a photo is shown as large as can be: a 6x4 print.
LARGE_CELL = 24.0

#: Sides within this ratio count as square, as for photos everywhere in the house.
SQUARE = 1.03

#: Width to height of a panorama, or height to width: no usual pocket keeps more than three quarters of it.
PANORAMA = 2.0

#: Shares this small are no loss that a person would see.
NO_LOSS = 0.005

#: Pockets of at least this many square inches may hold a collage unasked: a 6x4 may, a 3x4 and a 4x4 may not.
COLLAGE_AREA = 20.0
#: Sides of a collage's cell are at least this long, in inches: smaller ones cannot be cut and glued by hand.
SMALLEST_CELL = 1.0
#: Aspects of a collage's cells lie between 1 : this and this : 1.
LONGEST_CELL = 2.0
#: The shapes that cells are best near to (width to height, also upright): those that cameras and phones make.
USUAL_ASPECTS = (1.0, 4 / 3, 3 / 2)
#: How many collages of one number of photos are weighed for one opening: the plainest.
COLLAGES_OF_A_COUNT = 4

#: A plan is proven when no other can be better by more than this share.
PROVEN_GAP = 1e-6
