"""The second half of an index run, over real files, with a simple rule of likeness."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from indexer import comparing
from indexer.facts.looking import look_at_all
from indexer.facts.pixels import NoPixels, PixelFacts
from indexer.scan import Progress, Summary
from indexer.store.choices import tell_choice
from indexer.store.opening import open_for_writing, transaction
from indexer.store.settled import is_settled
from tests.indexer.library_runs import counts, key_at, keys
from tests.indexer.seen_photos import SimpleLikeness, seen

Draw = Callable[..., Path]
Run = Callable[..., Summary]

pytestmark = pytest.mark.usefixtures("likeness")


class Eyes:
    """Stands in for the looking: what each file shows, by name, and which were looked at, round by round.

    A file shows its own shot unless told otherwise, by its thumbnail where that will do.
    """

    def __init__(self) -> None:
        self.shots: dict[str, int] = {}
        self.thumbnails: dict[str, int] = {}
        self.blind: dict[str, str] = {}
        self.rounds: list[tuple[bool, list[str]]] = []

    def look_at_all(
        self, paths: list[str], *, may_trust_thumbnails: bool
    ) -> Iterator[tuple[int, PixelFacts | NoPixels]]:
        names = [Path(path).name for path in paths]
        self.rounds.append((may_trust_thumbnails, names))
        for place, name in enumerate(names):
            yield place, self._look(name, may_trust_thumbnails)

    def _look(self, name: str, may_trust_thumbnail: bool) -> PixelFacts | NoPixels:
        if name in self.blind:
            return NoPixels(self.blind[name])
        own = self.shots.get(name, 50 + int(Path(name).stem, 36) % 200)
        if may_trust_thumbnail and name in self.thumbnails:
            return seen(self.thumbnails[name], made_from="thumbnail")
        return seen(own)


@pytest.fixture(name="eyes")
def _eyes(run: Run, monkeypatch: pytest.MonkeyPatch) -> Eyes:  # noqa: ARG001 - it sets the looking of its own
    eyes = Eyes()
    monkeypatch.setattr("indexer.facts.looking.look_at_all", eyes.look_at_all)
    return eyes


def names(connection: sqlite3.Connection) -> list[tuple[str, list[str]]]:
    """Kind and file names of every set, the keeper first."""
    rows = connection.execute(
        "SELECT set_id, kind, path FROM alike_set JOIN photo ON photo.key = photo_key ORDER BY set_id, place"
    )
    found: dict[int, tuple[str, list[str]]] = {}
    for row in rows:
        found.setdefault(row["set_id"], (row["kind"], []))[1].append(os.fsdecode(row["path"]))
    return list(found.values())


def problems(connection: sqlite3.Connection) -> dict[str, str]:
    rows = connection.execute("SELECT path, problem FROM look JOIN photo USING (key) WHERE made_from = 'nothing'")
    return {os.fsdecode(row["path"]): row["problem"] for row in rows}


def draw_all(draw: Draw, library: Path, letters: str) -> None:
    for number, letter in enumerate(letters):
        draw(library / f"{letter}.jpg", number)


def test_copies_are_found_by_an_index_run(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Looked at once, compared, put into sets, counted; the next run finds nothing to do."""
    draw_all(draw, library, "abc")
    eyes.shots = {"a.jpg": 1, "b.jpg": 1}
    told: list[Progress] = []
    summary = run(library, report=told.append)
    assert (summary.looked, summary.copies, summary.bursts, summary.not_looked) == (3, 1, 0, 0)
    assert names(connection) == [("copy", ["a.jpg", "b.jpg"])]
    assert eyes.rounds == [(True, ["a.jpg", "b.jpg", "c.jpg"])]
    looks = [progress for progress in told if progress.doing == "looking at pictures"]
    assert [(progress.done, progress.total, Path(progress.path).name) for progress in looks][-1] == (3, 3, "c.jpg")
    assert ("comparing", 3) in {(progress.doing, progress.total) for progress in told}
    again = run(library)
    assert (again.looked, again.copies, len(eyes.rounds)) == (0, 1, 1)


def test_an_unchanged_run_asks_one_question(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is looked for, compared or grouped."""
    draw_all(draw, library, "ab")
    run(library)
    assert is_settled(connection)

    def fail(*_: object) -> None:
        pytest.fail("something was done")

    for name in ("to_look_at", "to_look_at_closer", "compare_changed", "make_sets", "tidy"):
        monkeypatch.setattr(comparing, name, fail)
    assert counts(run(library)) == {"unchanged": 2}
    assert len(eyes.rounds) == 1


def test_photos_alike_by_thumbnail_are_decoded_and_compared_again(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Until no set rests on a thumbnail: a stale one brings nobody together, and what it hid is looked at too."""
    draw_all(draw, library, "abcd")
    eyes.thumbnails = {"a.jpg": 1, "b.jpg": 1, "c.jpg": 2, "d.jpg": 3}
    eyes.shots = {"a.jpg": 1, "b.jpg": 2, "c.jpg": 2, "d.jpg": 3}
    assert run(library).looked == 4 + 2 + 1
    assert names(connection) == [("copy", ["b.jpg", "c.jpg"])]
    assert [(trusts, sorted(found)) for trusts, found in eyes.rounds] == [
        (True, ["a.jpg", "b.jpg", "c.jpg", "d.jpg"]), (False, ["a.jpg", "b.jpg"]), (False, ["c.jpg"]),
    ]  # fmt: skip


def test_a_thumbnail_whose_picture_cannot_be_decoded_is_in_no_set(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """It shows nothing, and the run comes to an end."""
    draw_all(draw, library, "ab")
    eyes.thumbnails = {"a.jpg": 1, "b.jpg": 1}
    eyes.blind = {}

    def look(paths: list[str], *, may_trust_thumbnails: bool) -> Any:
        eyes.blind = {} if may_trust_thumbnails else {"a.jpg": "cut off"}
        return Eyes.look_at_all(eyes, paths, may_trust_thumbnails=may_trust_thumbnails)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("indexer.facts.looking.look_at_all", look)
        summary = run(library)
    assert (names(connection), problems(connection)) == ([], {"a.jpg": "cut off"})
    assert (summary.not_looked, is_settled(connection)) == (1, True)


def test_a_photo_that_shows_nothing_is_tried_again_when_its_file_changed(
    run: Run, eyes: Eyes, library: Path, draw: Draw, retag: Callable[[Path, str], None], connection: sqlite3.Connection
) -> None:
    """Until then it is only counted."""
    draw_all(draw, library, "ab")
    eyes.blind = {"a.jpg": "not a picture that can be opened"}
    assert run(library).not_looked == 1
    assert problems(connection) == {"a.jpg": "not a picture that can be opened"}
    eyes.blind = {}
    assert (run(library).looked, run(library).not_looked) == (0, 1)
    retag(library / "a.jpg", "2026:04:01 10:00:00")
    assert (run(library).looked, eyes.rounds[-1], problems(connection)) == (1, (True, ["a.jpg"]), {})


def test_a_damaged_photo_is_not_decoded(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Reading it has shown already that it is cut off."""
    draw_all(draw, library, "ab")
    whole = (library / "a.jpg").read_bytes()
    (library / "a.jpg").write_bytes(whole[: len(whole) * 2 // 3])
    summary = run(library)
    assert (summary.looked, summary.not_looked, eyes.rounds) == (1, 1, [(True, ["b.jpg"])])
    assert list(problems(connection)) == ["a.jpg"]


def test_a_file_that_cannot_be_opened_is_tried_at_every_run(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It leaves no row, since nothing is known of it."""
    draw_all(draw, library, "ab")
    eyes.blind = {"a.jpg": "Permission denied"}
    monkeypatch.setattr(comparing, "_can_be_opened", lambda path: not path.endswith("a.jpg"))
    assert (run(library).looked, problems(connection), is_settled(connection)) == (1, {}, False)
    eyes.blind = {}
    assert (run(library).looked, is_settled(connection)) == (1, True)


def test_a_file_that_was_saved_over_since_it_was_read_is_left_to_the_next_run(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """What it shows now must not be written down for the picture of before."""
    draw_all(draw, library, "ab")

    def save_over(progress: Progress) -> None:
        if progress.doing == "reading" and progress.done == 2:
            draw(library / "a.jpg", 9)

    assert (run(library, report=save_over).looked, is_settled(connection)) == (1, False)
    assert (run(library).looked, eyes.rounds) == (1, [(True, ["b.jpg"]), (True, ["a.jpg"])])


def test_another_file_of_the_photo_serves_when_the_first_is_out_of_reach(
    run: Run, eyes: Eyes, library: Path, draw: Draw
) -> None:
    """The picture is the same."""
    draw(library / "a.jpg", 1)
    draw(library / "b.jpg", 1)

    def unplug(progress: Progress) -> None:
        if progress.doing == "reading" and progress.done == 2:
            (library / "a.jpg").unlink()

    run(library, report=unplug)
    assert eyes.rounds == [(True, ["b.jpg"])]


def test_ctrl_c_keeps_what_was_seen_and_the_next_run_goes_on(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """While looking."""
    draw_all(draw, library, "abcd")

    def stop(progress: Progress) -> None:
        if progress.doing == "looking at pictures" and progress.done == 2:
            raise KeyboardInterrupt

    summary = run(library, report=stop)
    assert (summary.was_stopped, counts(summary)) == (True, {"new": 4})
    assert connection.execute("SELECT count(*) FROM look").fetchone()[0] == 2
    again = run(library)
    assert (again.looked, again.was_stopped, eyes.rounds[-1]) == (2, False, (True, ["c.jpg", "d.jpg"]))


def test_a_word_can_be_told_while_photos_are_compared(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection, index: Path
) -> None:
    """Which takes a while; it is applied to the sets that are then made."""
    draw_all(draw, library, "ab")
    eyes.shots = {"a.jpg": 1, "b.jpg": 1}

    def tell(progress: Progress) -> None:
        if progress.doing == "comparing":
            with closing(open_for_writing(index)) as other, transaction(other):
                tell_choice(other, [key_at(connection, library / "b.jpg")], "keep")

    run(library, report=tell)
    assert names(connection) == [("copy", ["b.jpg", "a.jpg"])]


@pytest.mark.parametrize("doing", ["comparing", "looking closer at pictures"])
def test_ctrl_c_later_on_leaves_sets_that_hold(
    run: Run, eyes: Eyes, library: Path, draw: Draw, connection: sqlite3.Connection, doing: str
) -> None:
    """Those of before without what is gone; the next run makes the rest."""
    draw_all(draw, library, "abc")
    eyes.shots = dict.fromkeys(("a.jpg", "b.jpg", "c.jpg", "d.jpg"), 1)
    run(library)
    (library / "c.jpg").unlink()
    draw(library / "d.jpg", 7)
    eyes.thumbnails = {"d.jpg": 1}

    def stop(progress: Progress) -> None:
        if progress.doing == doing:
            raise KeyboardInterrupt

    assert run(library, report=stop).was_stopped
    assert [sorted(members) for _, members in names(connection)] == [["a.jpg", "b.jpg"]]
    run(library)
    assert [sorted(members) for _, members in names(connection)] == [["a.jpg", "b.jpg", "d.jpg"]]


@pytest.mark.usefixtures("eyes")
def test_what_is_seen_is_written_while_the_looking_goes_on(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that a crash of the machine takes a second's work at most."""
    draw_all(draw, library, "abc")
    monkeypatch.setattr(comparing, "SECONDS_PER_BATCH", -1.0)
    written: list[int] = []

    def count(progress: Progress) -> None:
        if progress.doing == "looking at pictures":
            written.append(connection.execute("SELECT count(*) FROM pixel").fetchone()[0])

    run(library, report=count)
    assert written == [0, 1, 2]
    assert not connection.in_transaction
    with transaction(connection):
        pass


def test_photos_are_looked_at_in_processes_of_their_own(
    run: Run,
    library: Path,
    draw: Draw,
    connection: sqlite3.Connection,
    likeness: SimpleLikeness,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The whole way, but for the rule of likeness: the same picture saved again is its copy."""
    draw(library / "a.jpg", 1)
    draw(library / "b.jpg", 1, taken=None)
    (library / "b.jpg").write_bytes((library / "b.jpg").read_bytes()[:-2] + b"\0\xff\xd9")  # other data, same picture
    draw(library / "c.jpg", 3)
    monkeypatch.setattr("indexer.facts.looking.look_at_all", look_at_all)
    summary = run(library)
    assert (summary.looked, len(keys(connection))) == (3, 3)
    assert names(connection) == [("copy", ["a.jpg", "b.jpg"])]
    assert likeness.compared[0] == set(keys(connection))
    assert key_at(connection, library / "a.jpg") in likeness.compared[0]
