"""Frames of one scene, put together."""

import random
from collections.abc import Iterable

import pytest

from indexer.alike.bursts import WITNESS_FROM, burst_groups, resembling
from indexer.alike.values import Contender
from tests.indexer.alike.contenders import known, photo


def names(count: int) -> list[str]:
    return [f"{number:03}" for number in range(count)]


def frames(count: int) -> dict[str, Contender]:
    """A frame a second."""
    return known(photo(key, second) for second, key in enumerate(names(count)))


def pan(count: int, reach: int) -> list[tuple[str, str, float]]:
    """Each frame resembles the next few."""
    keys = names(count)
    return [(one, other, 5.0) for place, one in enumerate(keys) for other in keys[place + 1 : place + 1 + reach]]


def groups(links: Iterable[tuple[str, str, float]], photos: dict[str, Contender]) -> list[list[str]]:
    return sorted(burst_groups(resembling(links), photos))


def test_frames_that_all_resemble_each_other_are_one_set() -> None:
    """However many."""
    assert groups(pan(40, 40), frames(40)) == [names(40)]


def test_a_pan_is_cut_into_few_sets() -> None:
    """Each frame like the next five: a set reaches five frames to each side of one of them and no further."""
    found = groups(pan(22, 5), frames(22))
    assert found == [names(22)[:11], names(22)[11:]]


@pytest.mark.parametrize("reach", [1, 2, 5, 10])
def test_a_long_pan_does_not_swallow_the_afternoon(reach: int) -> None:
    """Three hundred frames, each like its next: no set is wider than what resembles one frame, and few are needed."""
    found = groups(pan(300, reach), frames(300))
    assert max(map(len, found)) == 2 * reach + 1
    assert len(found) <= 300 / (2 * reach + 1) + 2
    assert sorted(key for group in found for key in group) == names(300)


def test_a_burst_stays_whole_beside_a_stranger() -> None:
    """One that resembles a single frame of it, by chance, takes none away and does not come in."""
    photos = frames(8)
    links = [*pan(8, 8), ("005", "stranger", 3.0)]
    photos["stranger"] = photo("stranger", 0)
    assert groups(links, photos) == [names(8)]


def test_a_missed_likeness_tears_no_burst() -> None:
    """Two frames that were not found alike are still both like others."""
    links = [link for link in pan(8, 8) if link[:2] not in {("000", "007"), ("001", "006")}]
    assert groups(links, frames(8)) == [names(8)]


def test_a_frame_whose_neighbours_are_strangers_to_each_other_keeps_the_surest() -> None:
    """A likeness by chance comes alone; five of them would not make a scene."""
    keys = names(WITNESS_FROM)
    links = [("000", key, float(place)) for place, key in enumerate(keys[1:], start=1)]
    assert groups(links, frames(WITNESS_FROM)) == [[keys[0], keys[-1]]]


def test_a_blurred_middle_is_not_what_holds_a_set_together() -> None:
    """Where all but one frame resembles a sharp one, that one is the middle; the frame outside stands alone."""
    blurred = known(photo(key, int(key), sharpness=(10.0, 10.0, 10.0)) for key in ("001", "002"))
    outside = {("000", "003"), ("000", "004"), ("000", "005")}
    links = [link for link in pan(6, 6) if link[:2] not in outside]
    assert groups(links, frames(6) | blurred) == [names(6)[1:]]
    assert groups(links, frames(6)) == [names(6)]


@pytest.mark.parametrize("seed", range(40))
def test_a_large_burst_stays_whole_though_one_likeness_in_ten_is_missed(seed: int) -> None:
    """Forty frames of one kite: no frame resembles all others any more, and yet none is left outside."""
    dice = random.Random(seed)
    assert groups((link for link in pan(40, 40) if dice.random() < 0.9), frames(40)) == [names(40)]


@pytest.mark.parametrize("seed", range(300))
def test_sets_are_stars_whatever_the_likenesses(seed: int) -> None:
    """Each frame once, two at least, all of a set like one of it or like most of it; nobody that resembles another is
    left while that one is; and no order of the input matters."""
    dice = random.Random(seed)
    count = dice.randint(2, 20)
    photos = known(
        photo(key, second, sharpness=(dice.choice([1.0, 4.0, 9.0]),) * 3) for second, key in enumerate(names(count))
    )
    density = dice.random()
    links = [link for link in pan(count, dice.randint(1, count)) if dice.random() < density]
    found = groups(links, photos)
    assert found == groups([(b, a, score) for a, b, score in dice.sample(links, len(links))], photos)
    near = resembling(links)
    members = [key for group in found for key in group]
    assert len(members) == len(set(members))
    for group in found:
        inside = set(group)
        most = {key for key in group if len(inside & near[key].keys()) >= (len(group) - 1) * 2 / 3 and len(group) >= 5}
        assert len(group) > 1
        assert any(inside - (most if key in most else set()) - {key} <= near[key].keys() for key in group)
    alone = set(photos) - set(members)
    assert not [link for link in links if set(link[:2]) <= alone]


def test_a_thousand_frames_of_one_place_are_grouped_in_time() -> None:
    """A time-lapse: each frame like the next two hundred."""
    found = groups(pan(1000, 200), frames(1000))
    assert [len(group) for group in found] == [401, 401, 198]
