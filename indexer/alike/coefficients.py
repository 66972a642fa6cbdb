"""The numbers by which photos count as alike, in one place, with where they come from.

The burst coefficients are fitted by `python -m tests.benchmarks.alike.fit_bursts`, which prints this table anew: a
logistic regression with signs held (more distance never speaks for a burst) and a weak pull towards zero, on frames of
the clips and on halves of the photographs that `tests/real_photos/pool.py` marks for fitting, and on second tries cut
from those photographs. Clips and photographs for measuring take no part.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BurstCoefficients:
    """Log odds of one scene: per bit of phash and dhash, per unit of CIELAB difference of layout and of colours, per
    unit of the two correlations."""

    intercept: float
    phash: float
    dhash: float
    layout: float
    colour: float
    shifted: float
    moved: float


BURST = BurstCoefficients(
    intercept=-2.78,
    phash=-0.105,
    dhash=-0.089,
    layout=-0.105,
    colour=-0.154,
    shifted=7.342,
    moved=9.695,
)

#: Time speaks too: log odds fall by this for every doubling of the gap. It is a judgement and not fitted, since clips
#: do not tell how people take photos: with 0.4 the odds of a frame of the same second are 20 times those of one three
#: minutes off.
LOG_ODDS_PER_DOUBLING = 0.4
#: Seconds: the gap that speaks neither for nor against, and the one that even the same second does not fall below.
NEUTRAL_GAP, LEAST_GAP = 30.0, 1.0
#: Seconds: photos further apart are no burst and no second try, however alike: minutes later it is another moment of
#: the same scene (a judgement; common practice is to shoot again at once).
LONGEST_GAP = 180.0
#: A photo is compared with so many that follow it in time: a time-lapse must not cost the square of its frames.
MOST_FOLLOWING = 40

#: Copies are looked for among hashes that differ in so few bits. Of the photographs for fitting re-saved, resized,
#: framed by 2 % or cut by 5 %, all but a few cut at a corner lie within 6, strangers further than 10 apart.
COPY_RADIUS = 10
#: Correlation of the fine structure from which two pictures are one shot. Of the same copies 99 in 100 lie above 0.9,
#: strangers below 0.6; two cabinets made as a pair reach 0.87.
COPY_BORDER = 0.90
#: The same for two files of one camera, size and second: a burst writes such, and so does an editor that changes
#: little.
SAME_SECOND_BORDER = 0.98
#: One shot with something laid on it, a mark or letters: the whole correlates as much, and the finest structure of the
#: best parts so much more. Of the latter strangers reach 0.13, two cabinets made as a pair 0.60, marked pictures 0.94.
#: So does a scene that stands still but for something small, seen twice by a camera that stands still: only the
#: cameras' times tell those apart, which is why such copies stay below the border for one second.
MARKED_WHOLE, MARKED_PARTS, MARKED_SCORE = 0.75, 0.93, 0.92
#: A photo is compared closely with so many of the nearest hashes.
MOST_NEAREST = 64

#: Scenes that two cameras saw are looked for among hashes that differ in so few bits: of 44,375 pairs of strangers one
#: lies within 14, of second tries cut from one photograph three in ten ...
SCENE_RADIUS = 14
#: ... and take so many log odds by the pictures alone: of strangers within even 24 bits none reaches 0, and hardly a
#: second try is lost, so that of 50,000 photographs few pairs if any are strangers.
SCENE_BORDER = 3.0
#: A photo is compared so with so many of other cameras, the nearest: enough to vote, and time-lapses must not cost
#: their square.
MOST_SCENES = 4

#: Grey levels of standard deviation: flatter pictures are not compared, since they would be alike because they are
#: flat.
FLAT = 4.0

#: Two photos of a burst that are uncertain are laid over each other part by part (`surfaces`), and are none when what
#: matches in structure differs so much in colour (CIELAB). Frames of the clips for fitting, ten apart, do not, but for
#: one in 60 of a drawn film, and of second tries cut from the photographs for fitting one in 200 does. Toy blocks, a
#: castle in two seasons and two cabinets made as a pair, by which the border was set too, lie at 1.35, 1.45 and 1.50.
OTHER_SURFACES = 1.25
#: Correlation from which a part counts as found again, the share of it that may be clipped in either picture, and how
#: many such parts are needed to say anything. Without the second two exposures of one scene differ as look-alikes do:
#: of those second tries one in 25.
SAME_PART, MOST_CLIPPED, FEWEST_PARTS = 0.9, 0.1, 6
#: Log odds: a pair above is certain; those look-alikes reach 2.9 to 9.9.
CERTAIN_SCORE = 12.0
#: Seconds: nobody photographs two things that look alike so soon after each other, and a burst is quicker (a
#: judgement).
AT_ONCE = 1.5
#: A photo is laid so over so many earlier ones at the most, and over so many that prove the same: a time-lapse must not
#: cost more.
MOST_DOUBTS, ENOUGH_SAME = 8, 2
