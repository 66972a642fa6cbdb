"""What counts how much in a shortlist: every number of the choice, in one place. Pure.

The weights are our own, set by looking at what they choose. Two of them are a promise rather than a taste: a photo adds
at most 1 by all the finer terms together, so that an occasion (2) that has none yet goes before any other gain, and a
day (4) before any occasion. That holds as long as the finer weights sum up to 1 or less, `occasion` is more than 1, and
`day` more than `occasion` + 1; tests hold it.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Weights:
    """How much each part of the score adds.

    `day`, `occasion`: for each that has a photo. `cover`: how well all photos of the week are stood for by those
    chosen, 0..1. `quality`: for each photo, times its quality. `shape`, `day_spread`, `occasion_spread`: times the
    square root of the number chosen, of each shape, day and occasion.
    """

    day: float = 4.0
    occasion: float = 2.0
    cover: float = 0.50
    quality: float = 0.10
    shape: float = 0.30
    day_spread: float = 0.03
    occasion_spread: float = 0.07

    @property
    def finer(self) -> float:
        """The most that one photo can add by all but the first two."""
        return self.cover + self.quality + self.shape + self.day_spread + self.occasion_spread


#: How alike two photos are, in parts: by look, and by time (the same occasion 1, the same day `SAME_DAY`).
LOOK_PART, TIME_PART = 0.7, 0.3
SAME_DAY = 0.4
#: The distance of two colour layouts (root mean square of the CIELAB differences of their cells) at which the likeness
#: has fallen to 1/e. Nine in ten pairs of real photos of different things are over 28 (run over 281 of them).
LAYOUT_FAR = 20.0
#: Bits at which two perceptual hashes of 64 are no more alike than those of strangers.
HASH_FAR = 32
#: At least this alike by look, a photo is no different view. Of pairs of real photos of different things fewer
#: than one in a thousand are (run over the same); frames of a film five frames apart mostly are.
SAME_VIEW = 0.4

#: What is left of a photo's quality when it is as bad as can be in one respect.
BLURRED_LEAVES, CLIPPED_LEAVES, FLAT_LEAVES, SMALL_LEAVES = 0.1, 0.5, 0.5, 0.5
#: Where nothing is known of its sharpness (no pixels of that size were decoded), exposure or contrast.
UNKNOWN_LEAVES = 0.8
#: Sharpness as a share of what its occasion shows (the upper quartile) below which a photo counts as wholly blurred.
WHOLLY_BLURRED = 1 / 8
#: Clipped shares: up to the first nothing is lost, from the second on all.
CLIPPED = (0.05, 0.5)
#: Contrast from which on nothing is lost; its range is 0..127.5.
FULL_CONTRAST = 25.0
#: Pixels of a 6x4 inch print at 300 dpi (common practice): a photo with fewer prints soft.
PRINT_PIXELS = 1800 * 1200

#: Against how many photos of the week the choice is held; of larger weeks an even selection is taken.
SEEN_AT_MOST = 2000
