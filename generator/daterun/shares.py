"""Long work shared out among processes, where the machine has the cores and a process can be copied.

A copy has all that this process knows, so nothing is handed to it; what it makes comes back in a file without a
name. Whatever a copy did not come to make, this process makes itself, so that its mistakes are met here.
"""

import ctypes
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import cache
from io import BytesIO
from tempfile import TemporaryFile
from typing import IO, Generic, TypeVar

Thing = TypeVar("Thing")
Made = TypeVar("Made")

WORTH_A_COPY = 150
"""Pieces of work below which copying the process, some hundredths of a second, would not pay."""

MOST = 8
"""Processes; each may come to hold what this one holds, so more would ask too much of a machine's memory."""

AT_ONCE = 3000
"""Pages that one process makes before the copies are made anew: what a copy touches it comes to hold twice.

So many of any other things are less to touch.
"""

_PR_SET_PDEATHSIG = 1  # linux/prctl.h

Progress = Callable[[int], None]


def share_out(
    things: Sequence[Thing],
    make: Callable[[Thing], Made],
    progress: Progress,
    worth: int = WORTH_A_COPY,
    together: int = 1,
) -> Iterator[tuple[int, Made]]:
    """Make each thing, here and in copies of this process; give its number with what was made, in any order.

    What is made is pickled in a copy and read here. So many as go together are made one after another by one
    process, where neighbours have much in common. The progress is told how many are made, as near as this process
    can know. Raise what the making of a thing raises.
    """
    many = processes(len(things), worth)
    for begin in range(0, len(things), AT_ONCE * many):
        numbers = range(begin, min(begin + AT_ONCE * many, len(things)))
        own, *others = ([nth for nth in numbers if nth // together % many == turn] for turn in range(many))
        shares = [share for share in others if share]
        copies = [_Copy([things[nth] for nth in share], make) for share in shares]
        try:
            for done, nth in enumerate(own, start=1):
                yield nth, make(things[nth])
                progress(min(begin + done * many, numbers.stop))
            for share, copy in zip(shares, copies, strict=True):
                left = iter(share)
                for made in copy.made():
                    yield next(left), made
                for missed in left:
                    yield missed, make(things[missed])
        finally:
            for copy in copies:
                copy.end()


@contextmanager
def meanwhile(make: Callable[[], Made], pieces: int) -> Iterator[Callable[[], Made]]:
    """Have one thing made in a copy of this process while others are made here, and be given it when called.

    Where so few pieces go into it that a copy would not pay, where none can be made, or where it fails, it is
    made when it is called for, and raises what its making raises.
    """
    if _shares(pieces) == 1:
        yield cache(make)
        return
    copy = _Copy([make], lambda each: each())
    kept: list[Made] = []

    def given() -> Made:
        if not kept:
            kept.extend(copy.made())
        if not kept:
            kept.append(make())
        return kept[0]

    try:
        yield given
    finally:
        copy.end()


def processes(things: int, worth: int = WORTH_A_COPY) -> int:
    """Tell among how many processes things are shared out of which so many are worth a copy."""
    return min(_shares(things * WORTH_A_COPY // worth), max(things, 1))


def _shares(things: int) -> int:
    """Tell among how many processes to share: a process with threads cannot safely be copied."""
    can_copy = hasattr(os, "fork") and sys.platform != "darwin" and threading.active_count() == 1
    if not can_copy or things < WORTH_A_COPY:
        return 1
    return min(len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1, MOST)


class _Copy(Generic[Thing, Made]):
    """A copy of this process that makes its share and ends."""

    def __init__(self, share: Sequence[Thing], make: Callable[[Thing], Made]) -> None:
        self._file: IO[bytes] = BytesIO()
        self._is_over = True  # until there is a copy; what none makes is made by this process
        first = os.getpid()
        # Ctrl-C reaches a copy too, which must not go on as if it were the first: that ends it.
        held = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGINT,))
        try:
            with suppress(OSError):  # as on a full disk, or where no more processes are to be had
                self._file = TemporaryFile()  # noqa: SIM115 - closed in end()
                self._id = os.fork()
                if self._id == 0:
                    self._work(share, make, first)
                self._is_over = False
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, held)

    def _work(self, share: Sequence[Thing], make: Callable[[Thing], Made], first: int) -> None:
        """Make the share, in the copy, which never comes back from here, and ends when the first one is gone."""
        try:
            _end_with_parent()
            for each in share:
                if os.getppid() != first:
                    break
                pickle.dump(make(each), self._file, pickle.HIGHEST_PROTOCOL)
            self._file.flush()
        finally:
            os._exit(0)

    def made(self) -> Iterator[Made]:
        """Wait for the copy's end; give what it made, in the order of its share."""
        if not self._is_over:
            with suppress(ChildProcessError):  # where the system gathers ended copies by itself
                os.waitpid(self._id, 0)
            self._is_over = True
        self._file.seek(0)
        with suppress(EOFError, pickle.UnpicklingError):
            while True:
                yield pickle.load(self._file)

    def end(self) -> None:
        """End the copy, if it is not over, and forget what it made."""
        if not self._is_over:
            with suppress(OSError):
                os.kill(self._id, 9)
                os.waitpid(self._id, 0)
            self._is_over = True
        self._file.close()


def _end_with_parent() -> None:
    """Have the system kill this copy once its parent is gone, where it can: on Linux (prctl(2))."""
    if sys.platform == "linux":
        with suppress(OSError, AttributeError):
            ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
