"""The order in which a camera's photos were taken."""

import random

import pytest

from indexer.dating.clock.lived import Number, lived_order
from indexer.dating.clock.seconds import DAY, HOUR

YEAR = 365 * DAY


def numbered(*numbers: int, folder: str = "100HARBR") -> list[Number | None]:
    return [(folder, "HRBR", number) for number in numbers]


def test_times_rule_where_numbers_agree() -> None:
    """Photos with and without numbers stand in the order of their times while the clock never falls back."""
    assert lived_order([30, 10, 20], [*numbered(3, 1), None]).all == (1, 2, 0)


def test_numbers_rule_where_the_clock_fell_back() -> None:
    """After a fall of years the photos stay behind those with smaller numbers."""
    own = [5 * YEAR, 5 * YEAR + DAY, 100, 200, 5 * YEAR + 5 * DAY]
    order = lived_order(own, numbered(1, 2, 3, 4, 5))
    assert order.all == (0, 1, 2, 3, 4)
    assert order.chains == ((0, 1, 2, 3, 4),)


def test_a_photo_without_a_number_stands_by_its_time() -> None:
    """A photo without a number follows the numbered one that is the last before it by the clock."""
    own = [5 * YEAR, 5 * YEAR + DAY, 100, 200, 5 * YEAR + 5 * DAY, 150]
    assert lived_order(own, [*numbered(1, 2, 3, 4, 5), None]).all == (0, 1, 2, 5, 3, 4)


def test_numbers_that_begin_again() -> None:
    """After 9999 comes 0001 (DCF, CIPA DC-009): no fall, but a new beginning."""
    own = [1 * DAY, 2 * DAY, 3 * DAY, 4 * DAY]
    order = lived_order(own, numbered(9_998, 9_999, 1, 2))
    assert order.all == (0, 1, 2, 3)
    assert order.chains == ((0, 1, 2, 3),)


def test_numbers_in_two_folders_are_two_counts() -> None:
    """Where a number stands in two folders, each folder has its own chain."""
    numbers = [*numbered(1, 2), *numbered(1, 2, folder="101HARBR")]
    assert lived_order([1, 2, 3, 4], numbers).chains == ((0, 1), (2, 3))


def test_numbers_run_on_through_folders() -> None:
    """Where no number stands twice, the count runs on from folder to folder."""
    numbers = [*numbered(1, 2), *numbered(3, 4, folder="101HARBR")]
    assert lived_order([1, 2, 3, 4], numbers).chains == ((0, 1, 2, 3),)


def test_two_cameras_in_one_count_make_no_chain() -> None:
    """Numbers along which the time jumps to and fro prove nothing."""
    own = [number * DAY + (YEAR if number % 2 else 0) for number in range(1, 41)]
    order = lived_order(own, numbered(*range(1, 41)))
    assert order.chains == ()
    assert [own[i] for i in order.all] == sorted(own)


@pytest.mark.parametrize("seed", range(200))
def test_every_photo_stands_once(seed: int) -> None:
    """Whatever times and numbers, the order holds every photo once."""
    random_ = random.Random(seed)
    count = random_.randint(0, 40)
    own = [random_.randrange(-HOUR, 20 * YEAR) for _ in range(count)]
    numbers: list[Number | None] = [
        random_.choice([None, (random_.choice("ab"), random_.choice(["P", "p", "Q"]), random_.randint(1, 9_999))])
        for _ in range(count)
    ]
    order = lived_order(own, numbers)
    assert sorted(order.all) == list(range(count))
    in_chains = [i for chain in order.chains for i in chain]
    assert len(in_chains) == len(set(in_chains))
