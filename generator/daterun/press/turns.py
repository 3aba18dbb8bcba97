"""One at a time: who is at work on an edition holds its lock, and who comes meanwhile is told who that is.

The lock is the system's own, let go when the process ends however it ends, so that none is ever left behind; the
file stays, and means nothing by itself.
"""

import errno
import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from io import FileIO
from pathlib import Path

from daterun.press.folders import memory_of
from daterun.problems import CannotContinue

_NO_LOCKS_HERE = (errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL)
"""What a system says that knows no locks on its files, such as some shares of a network."""

_BEYOND = 1 << 30
"""Windows keeps others from reading what is locked; so the byte locked there is one that is never written."""

_mine = threading.local()
"""The locks that this thread holds: work within work on the same edition goes on."""


_open: set[FileIO] = set()
"""The files of the locks that this process holds."""


def _let_go_in_copy() -> None:
    """Close what a copy of this process has of the locks, so that they end with this process alone."""
    for file in _open:
        with suppress(OSError):
            file.close()
    _open.clear()


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_let_go_in_copy)


class AnotherAtWork(CannotContinue):
    """Another process, or another thread of this one, is at work on the edition."""


@contextmanager
def taking_turns(folder: Path, reader: str, root: Path) -> Iterator[None]:
    """Hold the lock of an edition of a catalogue folder while the work within goes on.

    Raise AnotherAtWork, naming the process, where it is held; CannotContinue where no lock can be written. In
    what is no catalogue folder nothing is written, and so nothing is held.
    """
    lock = memory_of(folder, reader, root).with_suffix(".lock")
    held: set[Path] = _mine.__dict__.setdefault("held", set())
    if lock in held or not (folder / "content" / "catalogue.yaml").is_file():
        yield
        return
    try:
        lock.parent.mkdir(parents=True, exist_ok=True)
        file = lock.open("a+b", buffering=0)
    except OSError as error:
        raise CannotContinue(f"{lock} cannot be written: {error.strerror or error}") from error
    with file:
        if not _take(file):
            raise AnotherAtWork(
                f"another daterun{_said(file)} is at work on {root}; let it end, then try again"
            )
        held.add(lock)
        _open.add(file)
        try:
            _say(file, f"{os.getpid()}\n".encode())
            yield
        finally:
            held.discard(lock)
            _open.discard(file)
            if not file.closed:
                _say(file, b"")


def _take(file: FileIO) -> bool:
    """Take the system's lock on a file; False where it is held. Where there are no locks, nobody is kept out."""
    try:
        if sys.platform == "win32":
            import msvcrt

            file.seek(_BEYOND)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return error.errno in _NO_LOCKS_HERE
    return True


def _say(file: FileIO, text: bytes) -> None:
    """Write who holds the lock into its file; on a full disk it is held all the same."""
    with suppress(OSError):
        file.truncate(0)
        file.write(text)


def _said(file: FileIO) -> str:
    with suppress(OSError):
        file.seek(0)
        number = (file.read(20) or b"").strip()
        if number.isdigit():
            return f" (process {number.decode()})"
    return ""
