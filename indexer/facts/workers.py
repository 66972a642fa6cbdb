"""The pool of working processes: jobs out, results back, and no file can stop the run.

A process of its own is what fences in the libraries that read foreign bytes: one that hangs is ended after a time
limit, one that crashes takes only the file with it that it was reading. Processes are spawned everywhere, so that no
open connection is carried into them.
"""

import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from time import monotonic
from typing import Any, Generic, TypeVar

from indexer.errors import ReaderError
from indexer.facts.reading import read_file
from indexer.facts.records import Failure, FileReading, FileToRead

#: A file that takes longer to read is given up. The slowest real file seen took well under a second.
SECONDS_PER_FILE = 20.0
#: Below this many files a further process costs more to start than it saves.
FILES_PER_PROCESS = 200
#: Jobs handed to a process at a time, at most.
_MOST_AT_ONCE = 32
#: How often a process may die before it has read anything.
_MOST_FAILED_STARTS = 3
#: How long is waited at a time, and how long at the least before a file is given up.
_SECONDS_BETWEEN_LOOKS, _LEAST_SECONDS = 1.0, 0.5
#: How long a process is given to end before it is killed.
_SECONDS_TO_END = 0.5
#: `wait` takes at most 63 handles on Windows.
_MOST_PROCESSES = 32

_context = get_context("spawn")

_J = TypeVar("_J")
_R = TypeVar("_R")


@dataclass(frozen=True, slots=True)
class Lost:
    """A job whose process hung or died; the reason in words."""

    reason: str


class _Started:
    """What a process says first."""


def process_count(jobs: int, jobs_per_process: int = FILES_PER_PROCESS) -> int:
    """How many processes are worth starting for so many jobs on this machine."""
    affinity = getattr(os, "sched_getaffinity", None)
    processors = len(affinity(0)) if affinity else os.cpu_count() or 1
    return max(1, min(processors, _MOST_PROCESSES, jobs // jobs_per_process + 1))


def read_all(
    files: Sequence[str | FileToRead], latest_year: int, *, seconds_per_file: float = SECONDS_PER_FILE
) -> Generator[tuple[int, FileReading]]:
    """Read every file; yields (its place in `files`, its reading) as they come, in no set order.

    Closing the iterator, or an exception in the loop over it, ends the processes at once.
    """
    task = partial(read_file, latest_year=latest_year)
    for place, result in run_all(task, files, seconds_per_job=seconds_per_file, processes=process_count(len(files))):
        if isinstance(result, Lost):
            yield place, FileReading("unreadable", failures=(Failure("reader", result.reason),))
        else:
            yield place, result


def run_all(
    task: Callable[[_J], _R],
    jobs: Sequence[_J],
    *,
    seconds_per_job: float,
    processes: int,
    at_once: int = _MOST_AT_ONCE,
) -> Generator[tuple[int, _R | Lost]]:
    """Do `task` (a plain function, or a partial of one) on every job in `processes` processes, each of which is handed
    at most `at_once` jobs at a time: few where a job takes long.

    Yields (the job's place, its result, or Lost) as they come, in no set order; ends the processes when closed.
    """
    left = deque(range(len(jobs)))
    handful = min(at_once, len(jobs) // (4 * processes) + 1)  # small enough that no process is left idle early
    workers: list[_Worker[_J, _R]] = [_Worker(task) for _ in range(min(processes, len(jobs)))]
    try:
        while left or any(worker.pending for worker in workers):
            for worker in workers:
                worker.feed(left, jobs, handful)
            yield from _collect(workers, seconds_per_job, left)
    finally:
        for worker in workers:  # all are told first, so that they end side by side
            worker.process.terminate()
        for worker in workers:
            worker.end()


def _collect(workers: Sequence["_Worker[_J, _R]"], limit: float, left: deque[int]) -> Iterator[tuple[int, _R | Lost]]:
    """What has come back by now; waits for the first to answer or to run out of time."""
    busy = [worker for worker in workers if worker.pending]
    left_over = min(worker.since + limit for worker in busy) - monotonic()
    patience = max(_LEAST_SECONDS, min(_SECONDS_BETWEEN_LOOKS, left_over))
    before = monotonic()
    ready = set(map(id, wait([worker.connection for worker in busy], patience)))
    if monotonic() - before > patience + _SECONDS_BETWEEN_LOOKS:
        # All of us were stopped, as by Ctrl-Z or a closed lid, which is no file's fault: their time begins anew.
        for worker in busy:
            worker.since = monotonic()
    for worker in busy:
        if id(worker.connection) in ready:
            yield from worker.receive(left)
        elif monotonic() - worker.since >= limit:
            yield worker.give_up(f"the reader was stopped after {limit:g} seconds on this file", left)


@dataclass(slots=True)
class _Worker(Generic[_J, _R]):
    """One process and what it has been given. `since` is when it began on the first of `pending`."""

    task: Callable[[_J], _R]
    pending: deque[int] = field(default_factory=deque)
    since: float = 0.0
    has_started: bool = False
    failed_starts: int = 0
    process: BaseProcess = field(init=False)
    connection: "Connection[Any, Any]" = field(init=False)

    def __post_init__(self) -> None:
        self._start()

    def _start(self) -> None:
        self.has_started = False
        self.connection, theirs = _context.Pipe()
        self.process = _context.Process(target=_serve, args=(theirs, self.task), daemon=True)
        with _interrupts_held():
            self.process.start()
        theirs.close()

    def feed(self, left: deque[int], jobs: Sequence[_J], handful: int) -> None:
        if self.pending or not left:
            return
        self.pending.extend(left.popleft() for _ in range(min(handful, len(left))))
        self.since = monotonic()
        try:
            self.connection.send([jobs[place] for place in self.pending])
        except OSError:
            pass  # it has died: receiving will say so

    def receive(self, left: deque[int]) -> Iterator[tuple[int, _R | Lost]]:
        """The next result; none where the process only says that it has started. Raises ReaderError if it cannot."""
        try:
            result = self.connection.recv()
        except (EOFError, OSError):
            if not self.has_started and self._starts_again(left):
                return
            if not self.has_started:
                raise ReaderError(
                    "the processes that read photos cannot be started, so nothing more was read; free some memory, or"
                    " install weeksheaf anew"
                ) from None
            yield self.give_up("the reader crashed on this file", left)
            return
        self.since = monotonic()
        if isinstance(result, _Started):
            self.has_started = True
        else:
            yield self.pending.popleft(), result

    def _starts_again(self, left: deque[int]) -> bool:
        """Try another process in place of one that died before it read anything, a few times at most."""
        self.failed_starts += 1
        if self.failed_starts >= _MOST_FAILED_STARTS:
            return False
        self._hand_back(left)
        self.end()
        self._start()
        return True

    def _hand_back(self, left: deque[int]) -> None:
        left.extendleft(reversed(self.pending))
        self.pending.clear()

    def give_up(self, reason: str, left: deque[int]) -> tuple[int, Lost]:
        """Blame the job in hand, hand the others back, and go on with a new process."""
        culprit = self.pending.popleft()
        self._hand_back(left)
        self.end()
        self._start()
        return culprit, Lost(reason)

    def end(self) -> None:
        self.process.terminate()
        self.process.join(_SECONDS_TO_END)
        if self.process.is_alive():
            self.process.kill()
            self.process.join(_SECONDS_TO_END)  # one that waits for a dead disk cannot be ended; it is left behind
        self.connection.close()


@contextmanager
def _interrupts_held() -> Iterator[None]:
    """Ctrl-C is sent to every process of a terminal, and one that is still starting would answer it with a traceback: a
    process takes over from its parent what is held back. Windows knows no such thing."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # it lets interrupts through again when it starts, so not in between
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _serve(connection: "Connection[Any, Any]", task: Callable[[Any], Any]) -> None:
    """The life of a process: jobs in, one result a job out, until the pipe is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the parent's to handle
    os.dup2(os.open(os.devnull, os.O_WRONLY), 2)  # decoders in C write their complaints straight to stderr
    connection.send(_Started())
    while True:
        try:
            jobs = connection.recv()
        except EOFError:
            return
        for job in jobs:
            connection.send(task(job))
