"""A workshop: one edition built again and again by one running program, which remembers what it can.

Where only the notes of one coin have changed, what they change is made from the build before, and the catalogue
is not read again; in every other case the edition is built as ever.
"""

import gc
from collections.abc import Collection
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from daterun.checks.links import check_text
from daterun.pages.revision import revise_notes
from daterun.press.datafiles import write_data
from daterun.press.fingerprints import mark_bytes, mark_page
from daterun.press.folders import choose_output
from daterun.press.theme import ThemeMistake
from daterun.press.turns import taking_turns
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_again
from daterun.records.coins import Coin
from daterun.records.remembered import RecordMemory
from daterun.result import BuildResult, Progress, silent
from daterun.site import Built, Parts, build_with


class Workshop:
    """Builds the edition of one reader, in its usual folder."""

    def __init__(self, folder: Path, reader: Reader, progress: Progress = silent) -> None:
        self.folder = folder
        self.reader = reader
        self.progress = progress
        self.root = choose_output(folder, reader.value, None)
        self._records = RecordMemory()
        self._last: Built | None = None
        self._coins: dict[str, Coin] = {}
        self._left = (0, 0)
        self._is_ready = True

    def make_ready(self) -> None:
        """Make ready for the next change, between two: compile the templates, and let go of what is no more."""
        if self._is_ready or self._last is None or self._last.parts is None:
            return
        self._is_ready = True
        parts = self._last.parts
        for template in ("coin", "find"):
            page = next((each for each in parts.plan.pages if each.template == template), None)
            if page is not None:
                with suppress(ThemeMistake):
                    parts.press.render(page)
        # What stays until the next build need not be gone through again and again meanwhile.
        gc.unfreeze()
        gc.collect()
        gc.freeze()

    def build(self) -> BuildResult:
        """Build the edition; raise CannotContinue as ``site.build`` does."""
        self._last = None
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
            self._left = self._memory_as_it_is(built.parts)
            self._is_ready = False
        return built.result

    def follow(self, touched: Collection[str]) -> BuildResult:
        """Bring the edition up to date after a change of some files, their paths relative to the catalogue's."""
        result = self._revise(next(iter(touched))) if len(touched) == 1 else None
        return result if result is not None else self.build()

    def _revise(self, path: str) -> BuildResult | None:
        """Revise the edition for a changed file; None where more may have changed than the notes of a coin."""
        last = self._last
        before = self._coins.get(path)
        if last is None or last.parts is None or before is None:
            return None
        if self._memory_as_it_is(last.parts) != self._left:
            return None  # another process has built meanwhile
        after = self._read(path, before, last.parts)
        if after is None:
            return None
        parts = last.parts
        revision = revise_notes(parts.plan, after.id, after.notes)
        if revision is None:
            return None
        try:
            files = {each.address: parts.press.render(each).encode() for each in revision.pages}
        except ThemeMistake:
            return None
        theme, base = parts.press.theme.fingerprint, parts.press.base
        marks = {each.address: mark_page(each, theme, base) for each in revision.pages}
        for each in revision.data:
            files[each.address] = write_data(each)
            marks[each.address] = mark_bytes(files[each.address])
        if parts.search and any(parts.search.in_file(*each) for each in files.items()):
            return None
        with taking_turns(self.folder, self.reader.value, self.root):
            if self._memory_as_it_is(parts) != self._left:
                return None
            written = parts.edition.revise(marks, files, revision.gone)
        pages = sum(each.address in written for each in revision.pages)
        result = replace(last.result, pages_written=pages, pictures_made=0, removed=revision.gone)
        self._last = Built(result, replace(parts, plan=revision.plan))
        self._coins[path] = after
        return result

    def _memory_as_it_is(self, parts: Parts) -> tuple[int, int]:
        try:
            status = parts.edition.memory.stat()
        except OSError:
            return (0, 0)
        return (status.st_size, status.st_mtime_ns)

    def _read(self, path: str, before: Coin, parts: Parts) -> Coin | None:
        """Read a coin's file again; None where more than its notes has changed, or there is a problem in it."""
        catalogue = parts.checked.catalogue
        around = [place for each in parts.checked.problems for place in (each.place, *each.others)]
        if any(each.path == path for each in around):
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
