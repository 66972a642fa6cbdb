"""The pool of reading processes: paths out, readings back, and no file can stop the run.

A process of its own is what fences in the libraries that read foreign bytes: one that hangs is ended after a time
limit, one that crashes takes only the file with it that it was reading. Processes are spawned everywhere, so that no
open connection is carried into them.
"""

import os
import signal
from collections import deque
from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from time import monotonic

from indexer.facts.reading import read_file
from indexer.facts.records import Failure, FileReading

#: A file that takes longer is given up. The slowest real file seen took well under a second.
SECONDS_PER_FILE = 20.0
#: Below this many files a further process costs more to start than it saves.
FILES_PER_PROCESS = 200
#: Files handed to a process at a time.
_HANDFUL = 32
#: `wait` takes at most 63 handles on Windows.
_MOST_PROCESSES = 32

_context = get_context("spawn")


def process_count(files: int) -> int:
    """How many processes are worth starting for so many files on this machine."""
    affinity = getattr(os, "sched_getaffinity", None)
    processors = len(affinity(0)) if affinity else os.cpu_count() or 1
    return max(1, min(processors, _MOST_PROCESSES, files // FILES_PER_PROCESS + 1))


def read_all(
    paths: Sequence[str], latest_year: int, *, seconds_per_file: float = SECONDS_PER_FILE
) -> Generator[tuple[int, FileReading]]:
    """Read every path; yields (its place in `paths`, its reading) as they come, in no set order.

    Closing the iterator, or an exception in the loop over it, ends the processes at once.
    """
    left = deque(range(len(paths)))
    workers = [_Worker(latest_year) for _ in range(process_count(len(paths)))]
    try:
        while left or any(worker.pending for worker in workers):
            for worker in workers:
                worker.feed(left, paths)
            yield from _collect(workers, seconds_per_file, left)
    finally:
        for worker in workers:
            worker.end()


def _collect(workers: Sequence["_Worker"], limit: float, left: deque[int]) -> Iterator[tuple[int, FileReading]]:
    """What has come back by now; waits for the first to answer or to run out of time."""
    busy = [worker for worker in workers if worker.pending]
    patience = min(worker.since + limit for worker in busy) - monotonic()
    ready = set(map(id, wait([worker.connection for worker in busy], max(0.0, patience))))
    for worker in busy:
        if id(worker.connection) in ready:
            yield from worker.receive(left)
        elif monotonic() - worker.since >= limit:
            yield worker.give_up(f"the reader was stopped after {limit:g} seconds on this file", left)


@dataclass(slots=True)
class _Worker:
    """One process and what it has been given. `since` is when it began on the first of `pending`."""

    latest_year: int
    pending: deque[int] = field(default_factory=deque)
    since: float = 0.0
    process: BaseProcess = field(init=False)
    connection: "Connection[object, object]" = field(init=False)

    def __post_init__(self) -> None:
        self._start()

    def _start(self) -> None:
        self.connection, theirs = _context.Pipe()
        self.process = _context.Process(target=_serve, args=(theirs, self.latest_year), daemon=True)
        self.process.start()
        theirs.close()

    def feed(self, left: deque[int], paths: Sequence[str]) -> None:
        if self.pending or not left:
            return
        self.pending.extend(left.popleft() for _ in range(min(_HANDFUL, len(left))))
        self.since = monotonic()
        try:
            self.connection.send([paths[place] for place in self.pending])
        except OSError:
            pass  # it has died: receiving will say so

    def receive(self, left: deque[int]) -> Iterator[tuple[int, FileReading]]:
        try:
            reading = self.connection.recv()
        except (EOFError, OSError):
            yield self.give_up("the reader crashed on this file", left)
            return
        self.since = monotonic()
        yield self.pending.popleft(), reading  # type: ignore[misc]

    def give_up(self, reason: str, left: deque[int]) -> tuple[int, FileReading]:
        """Blame the file in hand, hand the others back, and go on with a new process."""
        culprit = self.pending.popleft()
        left.extendleft(reversed(self.pending))
        self.pending.clear()
        self.end()
        self._start()
        return culprit, FileReading("unreadable", failures=(Failure("reader", reason),))

    def end(self) -> None:
        self.process.terminate()
        self.process.join()
        self.connection.close()


def _serve(connection: "Connection[object, object]", latest_year: int) -> None:
    """The life of a reading process: paths in, one reading a path out, until the pipe is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the parent's to handle
    while True:
        try:
            paths: list[str] = connection.recv()  # type: ignore[assignment]
        except EOFError:
            return
        for path in paths:
            connection.send(read_file(path, latest_year))
