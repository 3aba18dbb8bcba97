"""Records remembered from one reading of the catalogue to the next, while the program runs.

A record is the same as long as its file is, and what else its reading went by. Nothing of it is ever on disk, and
forgetting it costs time, nothing else.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from daterun.problems import Problem
from daterun.records.stamps import Stamp, has_settled, stamp_of

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class _Known:
    """What came of a file by its stamp, and by what else it was read; what is unsettled is not to be trusted."""

    stamp: Stamp
    context: object
    record: object
    problems: tuple[Problem, ...]


@dataclass(slots=True)
class RecordMemory:
    """What came of each file, by its path relative to the catalogue folder."""

    _known: dict[str, _Known] = field(default_factory=dict)
    _met: set[str] = field(default_factory=set)
    _contexts: dict[str, object] = field(default_factory=dict)

    def record(
        self, root: Path, path: str, context: object, read: Callable[[], tuple[R | None, tuple[Problem, ...]]]
    ) -> tuple[R | None, tuple[Problem, ...]]:
        """Give the record of a file with the problems in it: as remembered, else as it is read now.

        The context is what the reading goes by beside the file's own text, as ``context`` gave it.
        """
        self._met.add(path)
        stamp = stamp_of(root / path)
        known = self._known.get(path)
        if known is not None and known.stamp == stamp and known.context is context:
            return known.record, known.problems  # type: ignore[return-value]
        now = time.time_ns()
        record, problems = read()
        if stamp is not None and has_settled(max(stamp[1], stamp[2]), now):
            self._known[path] = _Known(stamp, context, record, problems)
        else:
            self._known.pop(path, None)
        return record, problems

    def context(self, name: str, now: object) -> object:
        """Give the context of the last reading where it is equal, so that telling them apart costs nothing."""
        if name not in self._contexts or self._contexts[name] != now:
            self._contexts[name] = now
        return self._contexts[name]

    def end_reading(self) -> None:
        """Forget the files that were not asked for since the last time, for they are gone."""
        for path in self._known.keys() - self._met:
            del self._known[path]
        self._met.clear()
