"""The reading processes: real ones, so the tests are few."""

import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from indexer.errors import ReaderError
from indexer.facts import workers
from indexer.facts.records import FileReading
from indexer.facts.workers import FILES_PER_PROCESS, Lost, process_count, read_all, run_all

LATEST = 2027
Draw = Callable[..., Path]
needs_pipes = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="a named pipe stands for a file that never ends")


def pipe(path: Path) -> str:
    """A file whose opening blocks for ever."""
    os.mkfifo(path)
    return os.fspath(path)


def reasons(readings: dict[int, FileReading]) -> dict[int, str]:
    """What the reader processes themselves were blamed for, by place."""
    return {
        place: failure.reason
        for place, reading in readings.items()
        for failure in reading.failures
        if failure.step == "reader"
    }


def test_every_path_comes_back_with_its_place(library: Path, draw: Draw) -> None:
    """Photos, other files and files that are gone: one reading each, more than one handful of them."""
    (library / "notes.txt").write_text("a list")
    paths = [os.fspath(draw(library / f"{number}.jpg", number)) for number in range(40)]
    paths[7], paths[20] = os.fspath(library / "notes.txt"), os.fspath(library / "gone.jpg")
    readings = list(read_all(paths, LATEST))
    assert sorted(place for place, _ in readings) == list(range(40))
    kinds = {place: reading.kind for place, reading in readings}
    assert (kinds.pop(7), kinds.pop(20), set(kinds.values())) == ("other", "unreadable", {"photo"})
    keys = {reading.facts.key for _, reading in readings if reading.facts}
    assert len(keys) == 38


def test_no_paths_give_nothing() -> None:
    """Nothing to read is no error, and starts no process."""
    assert list(read_all([], LATEST)) == []
    assert not multiprocessing.active_children()


def test_any_plain_function_can_be_done_elsewhere() -> None:
    """A job whose function raises is lost alone; all others come back, from as many processes as are asked for."""
    jobs = ["1", "no number", *map(str, range(2, 50))]
    done = dict(run_all(int, jobs, seconds_per_job=30.0, processes=2))
    lost = done.pop(1)
    assert isinstance(lost, Lost)
    assert done == {place: int(job) for place, job in enumerate(jobs) if place != 1}


@needs_pipes
def test_no_job_waits_behind_a_long_one_where_jobs_are_handed_out_singly() -> None:
    """One process is busy all the while, the other does all the rest."""
    places = [place for place, _ in run_all(time.sleep, [3.0] + [0.0] * 40, seconds_per_job=30, processes=2, at_once=1)]
    assert places == [*range(1, 41), 0]


def test_a_file_that_hangs_is_given_up_and_the_rest_is_read(library: Path, draw: Draw) -> None:
    """It is blamed with the time it had, and those handed over behind it are read by another process."""
    paths = [os.fspath(draw(library / f"{number}.jpg", number)) for number in range(6)]
    paths[2] = pipe(library / "hangs.jpg")
    readings = dict(read_all(paths, LATEST, seconds_per_file=3.0))
    assert sorted(readings) == list(range(6))
    assert reasons(readings) == {2: "the reader was stopped after 3 seconds on this file"}
    assert {reading.kind for place, reading in readings.items() if place != 2} == {"photo"}


@needs_pipes
def test_a_reader_that_dies_takes_one_file_with_it(library: Path, draw: Draw) -> None:
    """A crash is blamed on the file in hand; the next process goes on with the others."""
    photos = [os.fspath(draw(library / f"{number}.jpg", number)) for number in range(3)]
    paths = [photos[0], pipe(library / "deadly.jpg"), *photos[1:]]
    readings = {}
    for place, reading in read_all(paths, LATEST):
        if place == 0:  # the reader is on the next file now, which never gives it anything
            os.kill(multiprocessing.active_children()[0].pid or 0, signal.SIGKILL)
        readings[place] = reading
    assert reasons(readings) == {1: "the reader crashed on this file"}
    assert [readings[place].kind for place in range(4)] == ["photo", "unreadable", "photo", "photo"]


def test_readers_that_cannot_start_blame_no_file(library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a few tries the run ends with one line, and no photo is called unreadable."""
    monkeypatch.setattr(workers, "_serve", os.abort)  # takes no arguments, so that the process ends at once
    with pytest.raises(ReaderError, match="cannot be started"):
        list(read_all([os.fspath(draw(library / "a.jpg"))], LATEST))


@needs_pipes
def test_stopping_ends_the_processes_at_once(library: Path, draw: Draw) -> None:
    """Ctrl-C within the loop closes the iterator: no process is left, even one that hangs on its next file."""
    paths = [os.fspath(draw(library / "a.jpg")), pipe(library / "hangs.jpg")]
    started = 0.0

    def stop_after_the_first() -> None:
        nonlocal started
        with closing(read_all(paths, LATEST)) as readings:
            for _ in readings:
                started = time.monotonic()
                raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        stop_after_the_first()
    assert time.monotonic() - started < 2
    assert not multiprocessing.active_children()


@pytest.mark.skipif(os.name == "nt", reason="Windows cannot send Ctrl-C to one process")
def test_ctrl_c_is_not_for_the_readers(library: Path, draw: Draw, capfd: pytest.CaptureFixture[str]) -> None:
    """The terminal sends it to all processes; one that is still starting goes on too, without a word."""
    paths = [os.fspath(draw(library / f"{number}.jpg", number)) for number in range(3)]

    def interrupt_readers() -> None:
        while not (children := multiprocessing.active_children()):
            time.sleep(0.001)
        while not has_begun.wait(0.005):
            os.kill(children[0].pid or 0, signal.SIGINT)

    has_begun = threading.Event()
    interrupter = threading.Thread(target=interrupt_readers)
    interrupter.start()
    readings = {}
    for place, reading in read_all(paths, LATEST):
        has_begun.set()
        interrupter.join()  # while the reader still waits to be ended
        readings[place] = reading
    assert {reading.kind for reading in readings.values()} == {"photo"}
    assert capfd.readouterr().err == ""


@pytest.mark.parametrize(
    ("files", "processors", "processes"),
    [(0, 8, 1), (1, 8, 1), (FILES_PER_PROCESS - 1, 8, 1), (FILES_PER_PROCESS, 8, 2), (10**6, 8, 8), (10**6, 1, 1),
     (10**6, 512, 32)],
)  # fmt: skip
def test_processes_are_as_many_as_pay(
    files: int, processors: int, processes: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One for a few files, then one a processor, and never more than Windows can wait for."""
    monkeypatch.setattr(workers.os, "sched_getaffinity", lambda _: set(range(processors)), raising=False)
    assert process_count(files) == processes


def test_the_processors_are_counted_where_no_affinity_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """macOS and Windows have no affinity to ask for."""
    monkeypatch.delattr(workers.os, "sched_getaffinity", raising=False)
    monkeypatch.setattr(workers.os, "cpu_count", lambda: None)
    assert process_count(10**6) == 1


_NAPS = """
import time
from indexer.facts.workers import Lost, run_all

if __name__ == "__main__":
    print("begun", flush=True)
    done = list(run_all(time.sleep, [0.2] * 8, seconds_per_job=1.0, processes=2))
    print(len(done), [result for _, result in done if isinstance(result, Lost)])
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows cannot stop a group of processes and let it go on")
def test_a_pause_is_no_files_fault(tmp_path: Path) -> None:
    """Stopped and let go on, as by Ctrl-Z and `fg`, longer than the limit: every job is done and none is given up."""
    script = tmp_path / "naps.py"
    script.write_text(_NAPS, "utf-8")
    here = {**os.environ, "PYTHONPATH": os.fspath(Path(__file__).parents[3])}
    with subprocess.Popen(
        [sys.executable, script], stdout=subprocess.PIPE, text=True, env=here, start_new_session=True
    ) as run:
        assert run.stdout
        assert run.stdout.readline() == "begun\n"
        time.sleep(0.6)
        os.killpg(run.pid, signal.SIGSTOP)
        time.sleep(2.5)
        os.killpg(run.pid, signal.SIGCONT)
        assert run.stdout.read() == "8 []\n"
