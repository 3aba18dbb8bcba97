"""A bound on what is held in memory while photos are worked on, however many threads there are."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager

MOST_HELD = 120_000_000
"""Pixels. Pillow takes four bytes for each, so that decoded photos take half a gigabyte at most."""


class HeldTooMuch(Exception):
    """A photo of more pixels than may be held where it was opened."""


class Bound:
    """Lets threads hold so many pixels in all; what is larger than that waits until it is alone.

    One that does not wait refuses it: a process among several, of which each has its part of what all may hold,
    does not know when it is alone.
    """

    def __init__(self, most: int = MOST_HELD, waits: bool = True) -> None:
        self._most = most
        self._waits = waits
        self._held = 0
        self._freed = threading.Condition()

    @contextmanager
    def holding(self, pixels: int) -> Iterator[None]:
        """Wait until there is room for so many pixels, and keep it while the work within goes on.

        Raise HeldTooMuch where there never would be and it is not to wait.
        """
        if not self._waits and pixels > self._most:
            raise HeldTooMuch
        with self._freed:
            self._freed.wait_for(lambda: not self._held or self._held + pixels <= self._most)
            self._held += pixels
        try:
            yield
        finally:
            with self._freed:
                self._held -= pixels
                self._freed.notify_all()
