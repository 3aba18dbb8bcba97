"""Fragments of pages: what pure macros made is kept while pages are made, for a card stands on many of them.

A fragment is the same on every page whose folder lies in the same folder, but that a link into a page's own
folder is another one there; so it is noted of each fragment into which of these folders it leads.
"""

from collections.abc import Callable
from dataclasses import dataclass, is_dataclass
from functools import cache
from types import CodeType
from typing import Any

from jinja2.nodes import EvalContext
from jinja2.runtime import Macro

MOST_KEPT = 24_000_000
"""Bytes, as near as letters tell, of all fragments and their keys; once there are more, all are let go."""

_COST = 600
"""Bytes that a fragment takes beside its letters."""

_PLAIN = frozenset((str, int, bool, type(None)))

_ROOT = "."
"""Stands for what lies above the root, where no page is."""

_Key = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class _Kept:
    """A fragment, into which folders beside the page's own it leads, and what it was made of, held by that."""

    text: Any
    leads_into: frozenset[str]
    made_of: tuple[object, ...]


class Fragments:
    """The fragments of one edition's pages. Whether a macro is pure is asked of ``is_pure`` by file and name."""

    def __init__(self, is_pure: Callable[[str, str], bool]) -> None:
        self._is_pure = is_pure
        self._pure: dict[tuple[str, CodeType], bool] = {}
        self._kept: dict[_Key, _Kept] = {}
        self._size = 0
        self._above: str | None = None
        self._own = ""
        self._leads_into: set[str] = set()

    def begin(self, folder: str | None) -> None:
        """Begin a page in a folder, "" for the root, quoted as in links; with None, nothing is kept."""
        above, slash, self._own = (folder or "").rpartition("/")
        self._above = None if folder is None else above + slash if folder else _ROOT
        self._leads_into.clear()

    def follow(self, link: str) -> None:
        """Note into which folder beside the page's own, or into that, a link leads which was worded for it."""
        if link.startswith("../"):
            folder, slash, _ = link[3:].partition("/")
            if slash and folder != "..":
                self._leads_into.add(folder)
        elif link and not link.startswith(("#", "http://", "https://", "mailto:")):
            self._leads_into.add(self._own)

    def call(self, macro: Macro, eval_ctx: EvalContext, args: tuple[Any, ...], named: dict[str, Any]) -> Any:
        """Call a macro, or give what it made of the same before."""
        code = macro._func.__code__
        asked = (code.co_filename, code)
        is_pure = self._pure.get(asked)
        if is_pure is None:
            is_pure = self._pure[asked] = self._is_pure(code.co_filename, macro.name)
        is_kept = is_pure and self._above is not None and eval_ctx.autoescape
        key = _key(asked, self._above, args, named) if is_kept else None
        if key is None:
            return macro(eval_ctx, *args, **named)
        kept = self._kept.get(key)
        if kept is not None and self._own not in kept.leads_into:
            self._leads_into |= kept.leads_into
            return kept.text
        around, self._leads_into = self._leads_into, set()
        try:
            text = macro(eval_ctx, *args, **named)
            if self._own not in self._leads_into:
                self._keep(key, _Kept(text, frozenset(self._leads_into), (*args, *named.values())))
        finally:
            around |= self._leads_into
            self._leads_into = around
        return text

    def _keep(self, key: _Key, kept: _Kept) -> None:
        cost = _COST + len(kept.text) + sum(len(each) for each in key if isinstance(each, str))
        self._size += cost
        if self._size > MOST_KEPT:
            self._kept.clear()
            self._size = cost
        self._kept[key] = kept


@cache
def _is_of_views(kind: type) -> bool:
    """Tell whether things of a kind never change, so that one is the same as long as it is there."""
    return kind is tuple or (is_dataclass(kind) and kind.__module__.startswith("daterun.pages."))


def _never_changes(things: tuple[Any, ...]) -> bool:
    """Tell whether a tuple holds nothing that a template may change, such as a namespace."""
    kinds: list[type] = [type(each) for each in things]
    return all(
        kind in _PLAIN or (_is_of_views(kind) and (kind is not tuple or _never_changes(each)))
        for kind, each in zip(kinds, things, strict=True)
    )


def _key(
    asked: tuple[str, CodeType], above: str | None, args: tuple[Any, ...], named: dict[str, Any]
) -> _Key | None:
    """Tell one call from all others: plain values by themselves, views by which they are; None for any other."""
    parts: list[object] = [*asked, above, *named]
    for each in (*args, *named.values()) if named else args:
        kind: type = type(each)
        if kind in _PLAIN:
            parts.append(kind)
            parts.append(each)
        elif _is_of_views(kind) and (kind is not tuple or _never_changes(each)):
            parts.append(id(each))
        else:
            return None
    return tuple(parts)
