"""The terms of a week's score."""

import pytest

from queries.shortlist import weights
from queries.shortlist.occasions import occasions_of
from queries.shortlist.terms import score_of, shape_shares
from queries.shortlist.values import Candidate
from queries.shortlist.weights import Weights
from tests.queries.shortlist.made_candidates import candidate


def worth(photos: list[Candidate], *chosen: int, wanted: float | None = None, **of: float) -> float:
    """What a choice is worth by some weights alone."""
    by = Weights(**{name: of.get(name, 0.0) for name in Weights.__dataclass_fields__})
    return score_of(photos, occasions_of(photos), by, wanted).value(chosen)


def test_days_and_occasions_count_once() -> None:
    """Three photos of two days and three occasions."""
    photos = [candidate(), candidate(clock="10:01"), candidate(clock="16:00"), candidate(day=1)]
    assert worth(photos, 0, 1, 3, day=4) == pytest.approx(8)
    assert worth(photos, 0, 1, 3, occasion=2) == pytest.approx(4)
    assert worth(photos, 0, 2, 3, occasion=2) == pytest.approx(6)


def test_a_photo_stands_for_those_like_it() -> None:
    """The likes of two pictures are covered by one of each better than by two of one."""
    photos = [candidate(f"{number}", phash=bytes([byte] * 8)) for number, byte in enumerate((0, 0, 0, 255, 255))]
    assert worth(photos, 0, 3, cover=1) > worth(photos, 0, 1, cover=1)
    assert worth(photos, 0, cover=1) > worth(photos, 3, cover=1)


def test_all_photos_together_cover_the_week() -> None:
    """With full quality the cover reaches 1, also where no pixels are known."""
    photos = [candidate("a"), candidate("b", day=1), candidate("c", day=2, phash=None, layout=None)]
    assert worth(photos, 0, 1, 2, cover=1) == pytest.approx(1, abs=1e-4)


def test_a_poor_photo_stands_for_little() -> None:
    """What a photo covers is as good as it is itself."""
    fair, flat = candidate(), candidate(contrast=0.0)
    assert worth([fair], 0, cover=1) == pytest.approx(2 * worth([flat], 0, cover=1))


def test_each_photo_counts_by_its_quality() -> None:
    """Whatever else is chosen."""
    week = [candidate(), candidate("b", contrast=0.0)]
    assert [worth(week, *chosen, quality=1) for chosen in ([0], [1], [0, 1])] == pytest.approx([1, 0.5, 1.5])


def test_a_large_week_is_seen_in_part(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where there are too many to hold each against each, an even part of them is taken."""
    monkeypatch.setattr(weights, "SEEN_AT_MOST", 5)
    photos = [candidate(f"{number}") for number in range(21)]
    score = score_of(photos, occasions_of(photos), Weights())
    assert score.cover.shape == (21, 5)
    assert [int(score.cover[:, seen].argmax()) for seen in range(5)] == [0, 5, 10, 15, 20]


def test_shapes_are_worth_most_in_the_weeks_proportion() -> None:
    """Of eight landscapes and two portraits, four and one are worth more than any other five."""
    photos = [candidate(f"{number}", shape="landscape" if number < 8 else "portrait") for number in range(10)]
    split = {tall: worth(photos, *range(5 - tall), *range(8, 8 + tall), shape=1) for tall in range(3)}
    assert max(split, key=lambda tall: split[tall]) == 1


def test_the_shares_of_shapes() -> None:
    """As they are, or with the wanted share of portraits and the others in proportion."""
    shapes = ["portrait"] * 2 + ["landscape"] * 6 + ["square"] * 2
    assert shape_shares(shapes, None) == pytest.approx({"portrait": 0.2, "landscape": 0.6, "square": 0.2})
    assert shape_shares(shapes, 0.5) == pytest.approx({"portrait": 0.5, "landscape": 0.375, "square": 0.125})
    assert shape_shares(["portrait"], 0.5) == {"portrait": 0.5}
    assert shape_shares(["landscape"], 1) == {"landscape": 0, "portrait": 1}


@pytest.mark.parametrize("share", [-0.1, 1.1])
def test_a_share_is_a_share(share: float) -> None:
    """Below 0 or above 1 is refused."""
    with pytest.raises(ValueError, match="from 0 to 1"):
        shape_shares(["portrait"], share)


def test_larger_occasions_get_more() -> None:
    """The spread over occasions is worth more where there is more."""
    photos = [candidate(f"{number}") for number in range(4)] + [candidate("e", clock="20:00")]
    assert worth(photos, 0, occasion_spread=1) == pytest.approx(2 * worth(photos, 4, occasion_spread=1))
    assert worth(photos, 0, day_spread=1) == worth(photos, 4, day_spread=1)
