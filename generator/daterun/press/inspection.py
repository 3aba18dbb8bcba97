"""The inspection of an edition before it takes its place: what is new always, what is unchanged when it must be.

What was sought the last time is remembered beside what was made; losing that costs another search, nothing else.
"""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from daterun.press.output import Output
from daterun.press.plaintext import BREAK, is_text
from daterun.press.searching import Find, Search
from daterun.problems import CannotContinue


class Inspection:
    """The search of one edition during one build, and everything found in it."""

    def __init__(self, search: Search, edition: Output) -> None:
        self.search = search
        self.edition = edition
        self.finds: list[Find] = []
        self._memory = edition.memory.with_suffix(".searched")
        self._is_known = sought_last(edition.memory) == search.fingerprint

    def search_around(self, searched: Iterable[str], files: Mapping[str, bytes], kept: Iterable[str]) -> None:
        """Search the files that are to stand beside the pages, and every address.

        Searched are the addresses of the new pages, which were searched as they were made. Where other values
        are private than the last time, the unchanged texts of the edition are searched too.
        """
        if not self.search:
            return
        for address in kept:
            self.finds += self.search.in_name(address)
        for address, data in files.items():
            if not (self._is_known and self._is_as_it_was(address, data)):
                self.finds += self.search.in_file(address, data)
        if self._is_known:
            return
        done = {*searched, *files}
        for address in kept:
            if address not in done and is_text(address) and address in self.edition.on_disk:
                with suppress(OSError):
                    self.finds += self.search.in_file(address, (self.edition.root / address).read_bytes())

    def search_drawn(self, drawn: Iterable[tuple[str, tuple[str, ...]]]) -> None:
        """Search the texts that are to be drawn into pictures, given with the pictures' addresses."""
        for address, texts in drawn:
            self.finds += self.search.in_text(address, BREAK.join(texts))

    def write(self, address: str, data: bytes) -> bool:
        """Write a picture into the edition where it carries nothing beside its pixels; else note it as a find."""
        if found := self.search.in_file(address, data):
            self.finds += found
            return False
        return self.edition.write(address, data)

    def begin_writing(self) -> None:
        """Forget what was sought while files change hands, so that a build cut short is searched again."""
        if not self._is_known:
            try:
                self._memory.unlink(missing_ok=True)
            except OSError as error:
                raise CannotContinue(
                    f"{self._memory} cannot be removed: {error.strerror or error}"
                ) from error

    def end_writing(self) -> None:
        """Remember what was sought, for every file that now stands in the edition was searched for it."""
        if self._is_known:
            return
        with suppress(OSError):  # what is not remembered is searched again
            self._memory.parent.mkdir(parents=True, exist_ok=True)
            self._memory.write_text(self.search.fingerprint, encoding="ascii")

    def _is_as_it_was(self, address: str, data: bytes) -> bool:
        """Tell whether a file is as an earlier build left it, and so was searched then."""
        size = self.edition.on_disk.get(address, (-1, 0))[0]
        if size != len(data):
            return False
        try:
            return (self.edition.root / address).read_bytes() == data
        except OSError:
            return False


def sought_last(memory: Path) -> str:
    """Tell by its fingerprint what an edition was searched for the last time; "" where that is not known."""
    try:
        return memory.with_suffix(".searched").read_text(encoding="ascii")
    except (OSError, UnicodeDecodeError):
        return ""
