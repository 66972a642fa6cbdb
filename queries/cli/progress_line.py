"""One line on the terminal that says how far an index run is."""

import shutil
import sys
from time import monotonic
from typing import Self

from indexer.scan import Progress
from queries.cli.visible import visible

SECONDS_BETWEEN = 0.1


class ProgressLine:
    """Count, rate and what is being done, rewritten in place on stderr; silent where stderr is no terminal."""

    def __init__(self) -> None:
        self._is_shown = sys.stderr.isatty()
        self._started: dict[str, float] = {}
        self._last = 0.0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._last:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()

    def show(self, progress: Progress) -> None:
        """Rewrite the line, at most ten times a second."""
        now = monotonic()
        started = self._started.setdefault(progress.doing, now)
        if not self._is_shown or now - self._last < SECONDS_BETWEEN:
            return
        self._last = now
        text = progress_words(progress, now - started)
        sys.stderr.write("\r" + text[: shutil.get_terminal_size().columns - 1] + "\x1b[K")
        sys.stderr.flush()


def progress_words(progress: Progress, seconds: float) -> str:
    """ "reading 1,204 of 50,000 files, 2,100 a second: DCIM/IMG_0012.jpg", "comparing 1,204 photos". Pure."""
    if progress.doing == "comparing":
        return f"comparing {progress.total or 0:,} photos with all others"
    of = f" of {progress.total:,}" if progress.total is not None else ""
    rate = f", {progress.done / seconds:,.0f} a second" if seconds >= 1 else ""
    what = "" if "pictures" in progress.doing else " files"
    return f"{progress.doing} {progress.done:,}{of}{what}{rate}: {visible(progress.path)}"
