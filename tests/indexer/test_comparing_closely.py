"""Bursts in doubt, looked at once more: pictures made so that only their colours tell them apart."""

import sqlite3
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from indexer import comparing_closely
from indexer.comparing import compare_photos
from indexer.comparing_closely import LOOKING_TWICE, without_look_alikes
from indexer.facts.close_looks import CloseLook, close_look_of
from indexer.store.alikes import renew_sets
from indexer.store.likenesses import compare_changed
from indexer.store.opening import transaction
from indexer.store.settled import is_settled
from tests.indexer.alike.painted import colours, grain, painted
from tests.indexer.seen_photos import TODAY, B, C, D, SimpleLikeness, look, put, sets, taken

#: One scene seen twice, and other surfaces of the same structure.
SCENE = close_look_of(painted(grain(1), colours(1)))
AGAIN = close_look_of(painted(grain(1), colours(1), 5, 8))
OTHER = close_look_of(painted(grain(1), colours(2), 5, 8))


class Looks:
    """Stands in for the decoding: what each file shows; `asked` holds their names, time by time."""

    def __init__(self) -> None:
        self.shown: dict[str, CloseLook | None] = {}
        self.asked: list[list[str]] = []

    def look_closely_at_all(self, paths: Sequence[str]) -> Iterator[tuple[int, CloseLook | None]]:
        self.asked.append(sorted(Path(path).stem for path in paths))
        for place in reversed(range(len(paths))):
            yield place, self.shown[Path(paths[place]).stem]


@pytest.fixture(name="looks")
def _looks(monkeypatch: pytest.MonkeyPatch, likeness: SimpleLikeness) -> Looks:
    looks = Looks()
    likeness.burst_score = 5.0
    monkeypatch.setattr("indexer.facts.close_looks.look_closely_at_all", looks.look_closely_at_all)
    monkeypatch.setattr(comparing_closely, "first_there", lambda places: places[0].path)
    return looks


def shoot(connection: sqlite3.Connection, keys: str, gap: int = 5) -> None:
    """Photos that seem to be one burst, one after the other."""
    for number, key in enumerate(keys):
        put(connection, key * 32, taken(gap * number))
        look(connection, key * 32, number + 1, scene=7)


def ignored(*_: object) -> None:
    pass


def pairs(connection: sqlite3.Connection) -> set[tuple[str, str]]:
    compared = without_look_alikes(connection, compare_changed(connection), ignored)
    assert not compared.doubts
    return {(link.one[0], link.other[0]) for link in compared.found}


def test_what_shows_other_surfaces_is_no_burst(connection: sqlite3.Connection, looks: Looks) -> None:
    """Each photo is decoded once, whatever it is compared with."""
    shoot(connection, "abcd")
    looks.shown = {"a": SCENE, "b": OTHER, "c": AGAIN, "d": OTHER}
    assert pairs(connection) == {("a", "c"), ("b", "d")}
    assert looks.asked == [["a", "b", "c", "d"]]


def test_what_cannot_be_looked_at_stays_a_burst(
    connection: sqlite3.Connection, looks: Looks, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that cannot be decoded, and files out of reach."""
    shoot(connection, "ab")
    looks.shown = {"a": SCENE, "b": None}
    assert pairs(connection) == {("a", "b")}
    monkeypatch.setattr(comparing_closely, "first_there", ignored)
    assert (pairs(connection), looks.asked) == ({("a", "b")}, [["a", "b"]])


def test_no_file_is_opened_without_a_doubt(
    connection: sqlite3.Connection, looks: Looks, likeness: SimpleLikeness
) -> None:
    """Sure bursts, and those taken at once."""
    shoot(connection, "ab", gap=1)
    assert pairs(connection) == {("a", "b")}
    likeness.burst_score = 20.0
    put(connection, B, taken(30))
    assert pairs(connection) == {("a", "b")}
    assert looks.asked == []


def test_few_photos_are_held_at_a_time(
    connection: sqlite3.Connection, looks: Looks, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the next ones are compared with stays; progress counts each photo once."""
    shoot(connection, "abcd")
    looks.shown = {"a": SCENE, "b": OTHER, "c": AGAIN, "d": OTHER}
    monkeypatch.setattr(comparing_closely, "_MOST_PHOTOS", 3)
    told: list[tuple[int, int]] = []
    without_look_alikes(connection, compare_changed(connection), lambda done, total, _: told.append((done, total)))
    assert looks.asked == [["a", "b", "c"], ["d"]]
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]


def test_an_index_run_makes_no_set_of_look_alikes(
    connection: sqlite3.Connection, looks: Looks, likeness: SimpleLikeness
) -> None:
    """And is settled; a word that brings them near again leaves the doubt to the next run."""
    shoot(connection, "ab")
    looks.shown = {"a": SCENE, "b": OTHER}
    doings: set[str] = set()
    compare_photos(connection, TODAY, lambda doing, *_: doings.add(doing))
    assert (sets(connection), is_settled(connection)) == ([], True)
    assert LOOKING_TWICE in doings
    put(connection, B, taken(20))
    with transaction(connection):
        renew_sets(connection)
    assert [sorted(members) for _, members, _ in sets(connection)] == [["a", "b"]]
    compare_photos(connection, TODAY, ignored)
    assert (sets(connection), is_settled(connection)) == ([], True)
    assert likeness.compared[-2:] == [{B}, {B}]


def test_copies_are_in_no_doubt(connection: sqlite3.Connection, looks: Looks) -> None:
    """A picture painted over is a copy, whatever its colours."""
    for number, key in enumerate((C, D)):
        put(connection, key, taken(10 * number))
        look(connection, key, 1, scene=7)
    assert pairs(connection) == {("c", "d")}
    assert looks.asked == []
