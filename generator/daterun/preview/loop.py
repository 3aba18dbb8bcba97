"""The preview told as a story: build, show, wait for a change, build again, tell the browsers."""

import os
import time
from collections.abc import Callable, Collection, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from daterun.press.turns import AnotherAtWork
from daterun.preview.server import Showing, serve
from daterun.preview.watch import watching
from daterun.problems import CannotContinue, Place, Problem
from daterun.readers.reader import Reader
from daterun.result import BuildResult, Progress, silent
from daterun.standing import look
from daterun.workshop import Workshop

PAUSE = 0.2
"""Seconds between two looks at whether another process is still at work on the edition."""

Word = Callable[[tuple[Problem, ...]], str]
"""Words problems as a report, which pages then show."""


class Preview:
    """The preview of one reader's edition of a catalogue folder."""

    def __init__(self, folder: Path, reader: Reader, word: Word, progress: Progress = silent) -> None:
        self.folder = folder
        self.reader = reader
        self.word = word
        self.workshop = Workshop(folder, reader, progress)
        self.root = self.workshop.root
        self.showing = Showing(self.root)

    @contextmanager
    def serving(self, port: int) -> Iterator[str]:
        """Serve while the work within goes on; yield the address."""
        with serve(self.showing, port) as address:
            yield address

    def builds(self) -> Iterator[BuildResult]:
        """Build, and again at every change, without end; give what each build came to.

        The watch begins before the first build, so that no change made meanwhile is lost. Raise
        CannotContinue where the first build cannot even begin.
        """
        with watching(self.folder) as watch:
            standing = look(self.folder, self.reader)
            stood = standing.last_result()
            if stood is not None:
                yield self.show(stood)  # at once; what the first change needs is made ready meanwhile
            result = self._in_turn(self.workshop.build)
            standing.remember(result)
            if result != stood:
                yield self.show(result)
            self.workshop.make_ready()
            yield from self.follow(watch.changes())

    def follow(self, changes: Iterable[Collection[str]]) -> Iterator[BuildResult]:
        """Build at every change of some files; a catalogue that is no longer one is a problem like others."""
        for change in changes:
            touched = {Path(os.path.relpath(each, self.folder)).as_posix() for each in change}
            try:
                result = self._in_turn(partial(self.workshop.follow, touched))
            except CannotContinue as reason:
                problem = Problem("catalogue", str(reason), Place("content/catalogue.yaml"))
                result = BuildResult((problem,), 0, self.root)
            yield self.show(result)
            self.workshop.make_ready()

    def _in_turn(self, build: Callable[[], BuildResult]) -> BuildResult:
        """Build, as soon as no other process is at work on the edition."""
        while True:
            try:
                return build()
            except AnotherAtWork:
                time.sleep(PAUSE)

    def show(self, result: BuildResult) -> BuildResult:
        """Show what a build came to: its pages, or the errors over the last good ones."""
        problems = self.word(tuple(each for each in result.problems if each.is_error))
        changed = result.pages_written or result.pictures_made or result.removed
        if changed or problems != self.showing.problems:
            self.showing.change(problems)
        return result
