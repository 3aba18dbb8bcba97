"""Slips: what pages show, one to a line, so that a later build can take one up without planning everything.

A slip is the text of a page's view, of which the page's mark holds a digest; one that is not as it was is none.
It is read as data: nothing in it is ever run.
"""

import ast
import mmap
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import fields, is_dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from types import TracebackType
from typing import Any, Self, TextIO

from daterun.pages.views import Page
from daterun.press.fingerprints import Mark, mark_shown

_KEPT = frozenset(("coin", "find"))
"""The templates of the pages of which slips are kept: those on which the notes of coins bear."""

_VIEWS = ("views", "pieces", "gridviews", "findviews", "partviews", "tagviews")
"""The modules whose views stand on those pages."""

_UNREADABLE = (OSError, ValueError, SyntaxError, TypeError, KeyError, RecursionError, MemoryError)


SLIPS = ".slips"
"""The ending of the file in which the slips of an edition are."""


class Slips:
    """The slips of the pages of one build; those of the last are gone from its beginning.

    What cannot be written is let go: without slips, everything is planned.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._new = path.with_name(f"{path.name}.new")
        self._file: TextIO | None = None

    def __enter__(self) -> Self:
        forget_slips(self._path)  # on a disk that is nearly full they stand in the way of what is needed
        with suppress(OSError):
            self._new.parent.mkdir(parents=True, exist_ok=True)
            self._file = self._new.open("w", encoding="utf-8", newline="\n")
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        self._give_up()

    def add(self, shown: str) -> None:
        """Add the text of a page's view."""
        if self._file is not None:
            try:
                self._file.write(f"\n{shown}")
            except OSError:
                self._give_up()

    def take_place(self) -> None:
        """Put these slips where the next build looks for them."""
        with suppress(OSError):
            if self._file is not None:
                self._file.close()
                self._new.replace(self._path)

    def _give_up(self) -> None:
        """Let go of what was written, and of the room it takes."""
        if self._file is not None:
            with suppress(OSError):
                self._file.close()
            self._file = None
        forget_slips(self._new)


def has_slip(page: Page) -> bool:
    """Tell whether a slip of a page is kept."""
    return page.template in _KEPT


def add_slips(path: Path, shown: Iterable[str]) -> None:
    """Add the slips of a few pages, which count in place of earlier ones; where that fails, none are left."""
    try:
        with path.open("a", encoding="utf-8", newline="\n") as file:
            file.writelines(f"\n{each}" for each in shown)
    except OSError:
        forget_slips(path)


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
    return page if isinstance(page, Page) and repr(page) == shown else None


def _value(node: ast.expr) -> Any:
    """Make a view, or what views are made of, as its text says. Raise ValueError for anything else."""
    match node:
        case ast.Constant(value):
            return value
        case ast.Tuple(elements):
            return tuple(_value(each) for each in elements)
        case ast.UnaryOp(ast.USub(), ast.Constant(int(value))):
            return -value
        case ast.Call(ast.Name(kind), [], keywords):
            return _view(_views()[kind], {str(each.arg): _value(each.value) for each in keywords})
    raise ValueError("this is no view")


def _view(kind: type, values: dict[str, Any]) -> Any:
    """Make a view of its fields. Raise ValueError where a value is not of the sort that its field asks for."""
    for name, plain in _plain_fields(kind).items():
        if type(values[name]) is not plain:
            raise ValueError(f"{name} is no {plain.__name__}")
    return kind(**values)


@cache
def _plain_fields(kind: Any) -> dict[str, type]:
    """Tell which fields of a kind of view are texts, whole numbers, truth values or tuples."""
    plain = {"str": str, "int": int, "bool": bool}
    asked = {each.name: getattr(each.type, "__name__", str(each.type)) for each in fields(kind)}
    found = {name: plain[each] for name, each in asked.items() if each in plain}
    return found | {name: tuple for name, each in asked.items() if each == "tuple"}


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
