"""What a small change makes of an edition: the files it writes anew and takes away, before any of it is done."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import Any, Generic, Protocol, TypeVar

from daterun.pages.findviews import DataFile
from daterun.pages.views import Page
from daterun.press.datafiles import write_data
from daterun.press.fingerprints import Mark, mark_bytes, mark_page
from daterun.press.output import Output
from daterun.press.plaintext import is_text
from daterun.press.searching import Search
from daterun.press.templates import Press


class Tools(Protocol):
    """What a few files of an edition are made, searched and put in place with."""

    @property
    def press(self) -> Press: ...
    @property
    def search(self) -> Search: ...
    @property
    def edition(self) -> Output: ...


T = TypeVar("T", bound=Tools)


@dataclass(slots=True)
class Revised(Generic[T]):
    """Files by address with their marks, in the order in which they are written, and the addresses of those gone.

    Searched is what of a file is to be searched, where that is not all of it. The parts are what the edition is
    made with once it is written; ``settle`` is done then.
    """

    parts: T
    gone: tuple[str, ...] = ()
    files: dict[str, bytes] = field(default_factory=dict)
    marks: dict[str, Mark] = field(default_factory=dict)
    searched: dict[str, bytes] = field(default_factory=dict)
    pages: tuple[Page, ...] = ()
    pictures: int = 0
    settle: Callable[[], None] = lambda: None

    def add(self, address: str, data: bytes, mark: Mark | None = None) -> None:
        self.files[address] = data
        self.marks[address] = mark if mark is not None else mark_bytes(data)

    def add_first(self, address: str, data: bytes, mark: Mark) -> None:
        """Add a file that is to be written before all others."""
        self.files = {address: data, **self.files}
        self.marks[address] = mark

    def print(self, pages: tuple[Page, ...], data: Iterable[DataFile], before: Iterable[DataFile]) -> None:
        """Add pages and the data for their scripts; raise ThemeMistake as the press does.

        Before are the data as they were, of which only the rows that are other ones now need be searched.
        """
        press = self.parts.press
        theme, base = press.theme.fingerprint, press.base
        known = {(each.name, each.part): each for each in before}
        for each in data:
            self.add(each.address, write_data(each))
            old = known[each.name, each.part]
            rows: Any = tuple(row for row, was in zip(each.rows, old.rows, strict=True) if row != was)
            self.searched[each.address] = write_data(replace(each, rows=rows))
        for page in pages:
            self.add(page.address, press.render(page).encode(), mark_page(page, theme, base))
        self.pages += pages

    def tells_nothing_private(self) -> bool:
        """Search all that is to be written, and the names of what is new."""
        search, edition = self.parts.search, self.parts.edition
        for address, whole in self.files.items():
            data = self.searched.get(address, whole)  # in data no run of words goes from one row into another
            if (search or not is_text(address)) and search.in_file(address, data):
                return False
            if address not in edition.made and search.in_name(address):
                return False
        return True
