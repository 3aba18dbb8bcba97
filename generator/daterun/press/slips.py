"""Slips: what pages show, one to a line, so that a later build can take one up without planning everything.

A slip is the text of a page's view, of which the page's mark holds a digest; one that is not as it was is none.
It is read as data: nothing in it is ever run.
"""

import ast
import mmap
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import is_dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from daterun.pages.views import Page
from daterun.press.fingerprints import Mark, mark_shown

_KEPT = frozenset(("coin", "find"))
"""The templates of the pages of which slips are kept: those on which the notes of coins bear."""

_VIEWS = ("views", "pieces", "gridviews", "findviews", "partviews", "tagviews")
"""The modules whose views stand on those pages."""

_UNREADABLE = (OSError, ValueError, SyntaxError, TypeError, KeyError, RecursionError, MemoryError)


class Slips:
    """The slips of the pages of one build. They take the place of the last ones when told to, or never.

    What cannot be written is let go: without slips, everything is planned.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._new = path.with_name(f"{path.name}.new")
        self._is_whole = False

    def __enter__(self) -> Self:
        with suppress(OSError):
            self._new.parent.mkdir(parents=True, exist_ok=True)
            self._file = self._new.open("w", encoding="utf-8", newline="\n")
            self._is_whole = True
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        with suppress(OSError, AttributeError):
            self._file.close()
        with suppress(OSError):
            self._new.unlink(missing_ok=True)

    def add(self, shown: str) -> None:
        """Add the text of a page's view."""
        if self._is_whole:
            try:
                self._file.write(f"\n{shown}")
            except OSError:
                self._is_whole = False

    def take_place(self) -> None:
        """Put these slips in the place of the last ones."""
        with suppress(OSError, AttributeError):
            self._file.close()
            if self._is_whole:
                self._new.replace(self._path)
                return
        forget_slips(self._path)


def is_kept(page: Page) -> bool:
    """Tell whether a slip of a page is kept."""
    return page.template in _KEPT


def add_slips(path: Path, shown: Iterable[str]) -> None:
    """Add the slips of a few pages, which count in place of earlier ones. Raise OSError where that fails."""
    with path.open("a", encoding="utf-8", newline="\n") as file:
        file.writelines(f"\n{each}" for each in shown)


def forget_slips(path: Path) -> None:
    with suppress(OSError):
        path.unlink(missing_ok=True)


def read_slip(path: Path, address: str, mark: Mark, base: str) -> Page | None:
    """Read the view of the page at an address; None where there is none, or another than the mark is of."""
    begin = f"\nPage(address={address!r}, ".encode()
    try:
        with path.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as slips:
            at = slips.rfind(begin)
            if at < 0:
                return None
            end = slips.find(b"\n", at + 1)
            shown = slips[at + 1 : end if end > 0 else len(slips)].decode("utf-8")
        if mark_shown(shown, mark.theme, base).shown != mark.shown:
            return None
        page = _value(ast.parse(shown, mode="eval").body)
    except _UNREADABLE:
        return None
    return page if isinstance(page, Page) else None


def _value(node: ast.expr) -> Any:
    """Make a view, or what views are made of, as its text says. Raise ValueError for anything else."""
    match node:
        case ast.Constant(value):
            return value
        case ast.Tuple(elements):
            return tuple(_value(each) for each in elements)
        case ast.UnaryOp(ast.USub(), ast.Constant(int(value))):
            return -value
        case ast.Call(ast.Name(kind), [], fields):
            return _views()[kind](**{str(each.arg): _value(each.value) for each in fields})
    raise ValueError("this is no view")


@cache
def _views() -> dict[str, type]:
    """Give the kinds of views by their names."""
    modules = (import_module(f"daterun.pages.{each}") for each in _VIEWS)
    return {
        name: kind
        for module in modules
        for name, kind in vars(module).items()
        if isinstance(kind, type) and is_dataclass(kind)
    }
