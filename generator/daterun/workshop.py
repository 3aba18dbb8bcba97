"""A workshop: one edition built again and again by one running program, which remembers what it can.

Where only the notes of one coin have changed, or one photo was replaced, what that changes is made from the build
before, and the catalogue is not read again; in every other case the edition is built as ever.
"""

import gc
import os
from collections.abc import Collection
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from daterun.checks.links import check_text
from daterun.pages.revision import revise_notes
from daterun.press.darkroom import Darkroom
from daterun.press.faces import FaceStore
from daterun.press.folders import MEMORY, choose_output
from daterun.press.theme import ThemeMistake
from daterun.press.turns import taking_turns
from daterun.problems import tells_of
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_again
from daterun.records.coins import Coin
from daterun.records.remembered import RecordMemory
from daterun.replacing import Replacing
from daterun.result import BuildResult, Progress, silent
from daterun.revising import Revised
from daterun.site import Built, Parts, build_with


class Workshop:
    """Builds the edition of one reader, in its usual folder."""

    def __init__(self, folder: Path, reader: Reader, progress: Progress = silent) -> None:
        self.folder = folder
        self.reader = reader
        self.progress = progress
        self.root = choose_output(folder, reader.value, None)
        self._records = RecordMemory()
        self._darkroom = Darkroom(FaceStore(folder / MEMORY / "faces"))
        self._last: Built | None = None
        self._coins: dict[str, Coin] = {}
        self._replacing: Replacing | None = None
        self._left = (0, 0)
        self._is_ready = True

    def make_ready(self) -> None:
        """Make ready for the next change, between two: compile the templates, and let go of what is no more."""
        if self._last is None or self._last.parts is None or self._replacing is None:
            return
        parts = self._last.parts
        self._replacing.make_ready(parts)
        if self._is_ready:
            return
        self._is_ready = True
        for page in {each.template: each for each in parts.plan.pages}.values():
            with suppress(ThemeMistake):
                parts.press.render(page)
        # What stays until the next build need not be gone through again and again meanwhile.
        gc.unfreeze()
        gc.collect()
        gc.freeze()

    def build(self) -> BuildResult:
        """Build the edition; raise CannotContinue as ``site.build`` does."""
        self._last = self._replacing = None
        was_on = gc.isenabled()
        gc.disable()  # hunting for circles takes a quarter of the time; it is done between two changes
        try:
            built = build_with(self.folder, self.reader, self.root, self.progress, "", self._records)
        finally:
            if was_on:
                gc.enable()
        if built.parts is not None:
            self._last = built
            self._coins = {each.path: each for each in built.parts.checked.catalogue.coins}
            self._replacing = Replacing(self.folder, built.parts, self._darkroom)
            self._left = self._memory_as_it_is(built.parts)
            self._is_ready = False
        return built.result

    def follow(self, touched: Collection[str]) -> BuildResult:
        """Bring the edition up to date after a change of some files, their paths relative to the catalogue's."""
        path = self._alone(touched)
        result = self._revise(path) if path is not None else None
        return result if result is not None else self.build()

    def _alone(self, touched: Collection[str]) -> str | None:
        """Tell the one file that was touched, but for what a program laid beside it and took away again."""
        path = min(touched, key=len, default="")
        beside = {each for each in touched if each != path}
        if any(not each.startswith(path) or os.path.lexists(self.folder / each) for each in beside):
            return None
        last = self._last.parts if self._last is not None else None
        if last is not None and tells_of(beside, last.checked.problems):
            return None
        return path

    def _revise(self, path: str) -> BuildResult | None:
        """Revise the edition for a changed file; None where more may have changed than notes or one photo."""
        last = self._last
        if last is None or last.parts is None or self._memory_as_it_is(last.parts) != self._left:
            return None  # in the last case, another process has built meanwhile
        try:
            revised = self._revised(path, last.parts)
        except ThemeMistake:
            return None
        if revised is None or not revised.tells_nothing_private():
            return None
        written = self._put_in_place(revised)
        if written is None:
            return None
        pages = sum(each.address in written for each in revised.pages)
        result = replace(
            last.result, pages_written=pages, pictures_made=revised.pictures, removed=revised.gone
        )
        self._last = Built(result, revised.parts)
        revised.settle()
        return result

    def _revised(self, path: str, parts: Parts) -> Revised[Parts] | None:
        """Tell what a changed file makes of the edition."""
        if (before := self._coins.get(path)) is not None:
            return self._with_notes(path, before, parts)
        if self._replacing is not None and self._replacing.is_of(path):
            return self._replacing.replaced(path, parts)
        return None

    def _with_notes(self, path: str, before: Coin, parts: Parts) -> Revised[Parts] | None:
        """Tell what other notes of a coin make of the edition."""
        after = self._read(path, before, parts)
        if after is None:
            return None
        revision = revise_notes(parts.plan, after.id, after.notes)
        if revision is None:
            return None
        revised = Revised(replace(parts, plan=revision.plan), revision.gone)
        revised.print(revision.pages, revision.data, parts.plan.data)

        def settle() -> None:
            self._coins[path] = after
            if self._replacing is not None:
                self._replacing.note(revision.pages)

        revised.settle = settle
        return revised

    def _put_in_place(self, revised: Revised[Parts]) -> list[str] | None:
        """Write what a change makes of the edition; None where another has built or written there meanwhile.

        Where that fails half way, the next change is built as ever.
        """
        if not revised.files:
            return []
        edition = revised.parts.edition
        with taking_turns(self.folder, self.reader.value, self.root):
            if self._memory_as_it_is(revised.parts) != self._left:
                return None
            new = (each for each in revised.files if each not in edition.made)
            if any(os.path.lexists(self.root / each) for each in new):
                return None
            self._last = None
            return edition.revise(revised.marks, revised.files, revised.gone)

    def _memory_as_it_is(self, parts: Parts) -> tuple[int, int]:
        try:
            status = parts.edition.memory.stat()
        except OSError:
            return (0, 0)
        return (status.st_size, status.st_mtime_ns)

    def _read(self, path: str, before: Coin, parts: Parts) -> Coin | None:
        """Read a coin's file again; None where more than its notes has changed, or there is a problem in it."""
        catalogue = parts.checked.catalogue
        if tells_of((path,), parts.checked.problems) or parts.search.spares(before.notes):
            return None
        after, problems = read_again(self.folder, path, catalogue)
        if after is None or problems or after.at != before.at:
            return None
        if after != replace(before, notes=after.notes):
            return None
        ids = {each.id for each in catalogue.coins}
        if any(check_text(catalogue, ids, after.notes, path, after.notes_line)):
            return None
        return after
