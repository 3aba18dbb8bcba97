"""What a build came to, and how its progress is told meanwhile."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from daterun.problems import Problem

Progress = Callable[[str, int, int], None]
"""Is told the stage of a build, and how much of it is done of how much in all; 0 of 0 where that is not known."""


def silent(stage: str, done: int, total: int) -> None:
    """Tell nobody of the progress."""


@dataclass(frozen=True, slots=True)
class BuildResult:
    """What a build came to. With errors among the problems, the edition is as it was.

    Pages written are those whose bytes changed. Strangers are the files found in the folder that no build
    made; they were left alone.
    """

    problems: tuple[Problem, ...]
    coins: int
    output: Path
    pages_total: int = 0
    pages_written: int = 0
    pictures_made: int = 0
    removed: tuple[str, ...] = ()
    strangers: tuple[str, ...] = ()

    @property
    def has_errors(self) -> bool:
        return any(each.is_error for each in self.problems)
