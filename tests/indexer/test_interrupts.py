"""Ctrl-C while something must not be cut in two."""

import signal
import threading

import pytest

from indexer.interrupts import interrupts_held


def test_an_interrupt_waits_for_the_end() -> None:
    """What was begun is finished, then the interrupt is raised, and the next one is raised at once as before."""
    before, done = signal.getsignal(signal.SIGINT), []

    def work() -> None:
        with interrupts_held():
            signal.raise_signal(signal.SIGINT)
            done.append("finished")

    with pytest.raises(KeyboardInterrupt):
        work()
    assert done == ["finished"]
    assert signal.getsignal(signal.SIGINT) is before
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)


def test_an_error_goes_its_way() -> None:
    """Without an interrupt nothing is added to what is raised."""
    with pytest.raises(ValueError, match="broken"), interrupts_held():
        raise ValueError("broken")


def test_another_thread_is_left_alone() -> None:
    """Only the main thread may set how a signal is answered; elsewhere there is nothing to hold."""
    done = []

    def work() -> None:
        with interrupts_held():
            done.append("finished")

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert done == ["finished"]
