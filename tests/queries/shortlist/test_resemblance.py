"""How alike photos are."""

import numpy as np
import pytest

from queries.shortlist.occasions import occasions_of
from queries.shortlist.resemblance import looks_alike, near_in_time
from tests.queries.shortlist.made_candidates import candidate

GREY = bytes([128] * 192)


def test_a_photo_is_like_itself() -> None:
    """Equal hashes and layouts are alike wholly, those of strangers nearly not at all."""
    one, other = candidate("a"), candidate("b")
    found = looks_alike([one], [one, other])
    assert found[0, 0] == pytest.approx(1, abs=1e-4)
    assert found[0, 1] < 0.2


def test_hashes_count_by_their_bits() -> None:
    """8 of 64 bits apart leave three quarters, 32 and more nothing; the layouts make up the other half."""
    plain = candidate(phash=bytes(8), layout=GREY)
    others = [candidate(phash=bytes([255] * count + [0] * (8 - count)), layout=GREY) for count in (0, 1, 4, 8)]
    assert looks_alike([plain], others)[0] == pytest.approx([1, 0.875, 0.5, 0.5], abs=1e-4)


def test_layouts_count_by_their_distance() -> None:
    """A difference of 20 in b* all over leaves 1/e of that half; stored lightness is in steps of 1 / 2.55."""
    plain = candidate(phash=bytes(8), layout=GREY)
    bluer = candidate(phash=bytes(8), layout=bytes([128, 128, 148] * 64))
    lighter = candidate(phash=bytes(8), layout=bytes([179, 128, 128] * 64))
    assert looks_alike([plain], [bluer, lighter])[0] == pytest.approx([0.5 + np.exp(-1) / 2] * 2, abs=1e-4)


def test_what_is_not_known_is_like_nothing() -> None:
    """A photo without hash and layout resembles no other, not even one that lacks them too."""
    known, unknown = candidate(), candidate(phash=None, layout=None)
    assert looks_alike([known, unknown], [unknown]).tolist() == [[0], [0]]


def test_time_counts_by_occasion_and_day() -> None:
    """The same occasion is nearest, the same day less near, another day not at all."""
    occasions = occasions_of([candidate(), candidate(clock="10:01"), candidate(clock="19:00"), candidate(day=1)])
    assert near_in_time(occasions[:1], occasions)[0] == pytest.approx([1, 1, 0.4, 0])
