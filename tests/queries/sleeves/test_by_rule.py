"""The sleeves that come with the tool."""

from collections import Counter

import pytest

from queries.sleeves.by_rule import TICKED, is_plain, sleeves_by_rule
from queries.sleeves.notation import drawing_of, sleeve_of
from queries.sleeves.sizes import Size
from queries.sleeves.values import Box, Sleeve

ALL = {sleeve.name: sleeve for sleeve in sleeves_by_rule()}
STEPPING = """
AAAAAABBBCCC
AAAAAABBBCCC
AAAAAABBBCCC
AAAAAABBBCCC
DDDEEEEEEFFF
DDDEEEEEEFFF
DDDEEEEEEFFF
DDDEEEEEEFFF
GGGHHHIIIIII
GGGHHHIIIIII
GGGHHHIIIIII
GGGHHHIIIIII
"""


def sizes(sleeve: Sleeve) -> Counter[tuple[float, float]]:
    return Counter((box.width, box.height) for box in sleeve.pockets)


def is_rowed(sleeve: Sleeve) -> bool:
    return set(sizes(sleeve)) <= {(6, 4), (3, 4)}


def is_columned(sleeve: Sleeve) -> bool:
    return set(sizes(sleeve)) <= {(4, 6), (4, 3)}


def test_the_stepping_one_is_the_drawing_of_the_design() -> None:
    """Letter for letter."""
    by_rule = ALL["3 wide + 6 tall, stepping"]
    assert drawing_of(by_rule, (1, 1)) == STEPPING.strip()
    assert by_rule.pockets == sleeve_of("x", Size(1, 1, "in"), STEPPING).pockets


def test_names_and_drawings_are_all_different() -> None:
    """Five rows taken three at a time, rows and columns, and eight plain grids that are none of them."""
    assert len(sleeves_by_rule()) == len(ALL) == 5**3 + 5**3 + 8
    assert len({sleeve.pockets for sleeve in ALL.values()}) == len(ALL)


def test_every_page_is_filled() -> None:
    """12 x 12 inches without a hole, from pockets on whole cells of an inch."""
    for sleeve in ALL.values():
        assert (sleeve.width, sleeve.height, sleeve.made) == (12, 12, "by rule")
        assert sum(box.width * box.height for box in sleeve.pockets) == 144
        assert "." not in drawing_of(sleeve, (1, 1))


def test_names_count_what_is_held() -> None:
    """The numbers before the comma are those of the large and the small pockets: 24 a + 12 b = 144."""
    for name, sleeve in ALL.items():
        counts = [int(part.split()[0]) for part in name.partition(",")[0].split(" + ")]
        assert sum(counts) == len(sleeve.pockets)
        assert sorted(counts) == sorted(sizes(sleeve).values())
        if len(counts) == 2:
            large, small = counts
            assert 24 * large + 12 * small == 144
            wide = sizes(sleeve)[6, 4] or sizes(sleeve)[4, 6]
            assert wide == large


def test_a_name_says_where_the_large_pocket_stands() -> None:
    """Row by row from the top, column by column from the left."""
    assert ALL["4 wide + 4 tall, pair-left-middle"].pockets[2:] == (
        Box(0, 4, 6, 4), Box(6, 4, 3, 4), Box(9, 4, 3, 4), Box(0, 8, 3, 4), Box(3, 8, 6, 4), Box(9, 8, 3, 4)
    )  # fmt: skip
    columned = ALL["3 tall + 6 low, pair-top-four"]
    assert [box for box in columned.pockets if box.x == 4] == [Box(4, 0, 4, 6), Box(4, 6, 4, 3), Box(4, 9, 4, 3)]
    assert ALL["3 wide + 6 tall, all left"].back().pockets == ALL["3 wide + 6 tall, all right"].pockets
    assert ALL["3 wide + 6 tall, stepping"].back().pockets == ALL["3 wide + 6 tall, stepping back"].pockets


def test_turning_by_90_degrees_stays_in_the_set() -> None:
    """Rows become columns and columns rows."""
    rowed = [sleeve for sleeve in ALL.values() if is_rowed(sleeve)]
    columned = {frozenset(sleeve.pockets) for sleeve in ALL.values() if is_columned(sleeve)}
    turned = {
        frozenset(Box(12 - box.y - box.height, box.x, box.height, box.width) for box in sleeve.pockets)
        for sleeve in rowed
    }
    assert turned == columned
    assert len(columned) == 125


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("6 wide", (6, 4)),
        ("6 tall", (4, 6)),
        ("12 tall", (3, 4)),
        ("12 low", (4, 3)),
        ("9 square", (4, 4)),
        ("2 wide", (12, 6)),
    ],
)
def test_plain_grids_hold_one_size(name: str, size: tuple[float, float]) -> None:
    """As many as the name says."""
    assert sizes(ALL[name]) == {size: int(name.split()[0])}


def test_the_plainest_stand_first() -> None:
    """One size before two, and what looks alike in a mirror and upside down before what does not."""
    order = sleeves_by_rule()
    plain = [is_plain(sleeve) for sleeve in order]
    assert plain == sorted(plain, reverse=True)
    assert [len(sizes(sleeve)) for sleeve in order[:12]] == [1] * 12
    assert plain.count(True) == 26
    assert not is_plain(ALL["3 wide + 6 tall, stepping"])


def test_two_are_ticked_at_the_start() -> None:
    """They exist, and hold landscape and portrait pockets."""
    assert len(TICKED) == 2
    for name in TICKED:
        assert set(sizes(ALL[name])) == {(6, 4), (3, 4)}
