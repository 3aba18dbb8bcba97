"""What is worked out once and shown on many pages, kept by what it is and what it hangs on."""

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

T = TypeVar("T")


class Once:
    """Keeps what was made, for as long as one plan is being made.

    A key begins with the name of what is kept, for two kinds of things may hang on the same.
    """

    def __init__(self) -> None:
        self._kept: dict[Hashable, Any] = {}

    def of(self, key: Hashable, make: Callable[[], T]) -> T:
        """Give what is kept under a key, and make it where it is not there yet."""
        try:
            kept: T = self._kept[key]
        except KeyError:
            kept = self._kept[key] = make()
        return kept

    def forget(self) -> None:
        """Let go of all that was kept; it is made again where it is asked for."""
        self._kept.clear()
