"""Ctrl-C at a moment of our choosing: what must not be cut in two is finished first."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any


@contextmanager
def interrupts_held() -> Iterator[None]:
    """Inside, Ctrl-C is only noted; at the end it is raised as KeyboardInterrupt. Outside the main thread, which alone
    receives it, this does nothing.

    Without it an interrupt may fall between a commit and the line that notes that it was done.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    noted: list[int] = []

    def note(number: int, _frame: Any) -> None:
        noted.append(number)

    before = signal.signal(signal.SIGINT, note)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if noted:
            raise KeyboardInterrupt
