"""Whether anything is left to look at, compare or group."""

import sqlite3

import pytest

from indexer.store import settled
from indexer.store.choices import tell_choice
from indexer.store.opening import transaction
from indexer.store.pictures import judge, judge_all
from indexer.store.settled import is_settled, mark_settled
from tests.indexer.seen_photos import TODAY, A, lose, put


def test_only_photos_judged_anew_unsettle(connection: sqlite3.Connection) -> None:
    """New, gone or dated otherwise; to judge none changes nothing, nor does a choice, which is applied at once."""
    assert not is_settled(connection)
    put(connection, A)
    mark_settled(connection)
    assert is_settled(connection)
    judge(connection, [], TODAY)
    with transaction(connection):
        tell_choice(connection, [A], "keep")
    assert is_settled(connection)
    lose(connection, A)
    assert not is_settled(connection)
    mark_settled(connection)
    mark_settled(connection)
    judge_all(connection, TODAY)
    assert not is_settled(connection)


def test_another_method_unsettles(connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch) -> None:
    """A newer version of the tool looks, compares or groups anew."""
    mark_settled(connection)
    monkeypatch.setattr(settled, "_METHODS", "looking 99")
    assert not is_settled(connection)
