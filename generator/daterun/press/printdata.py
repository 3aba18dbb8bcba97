"""Views made into the data that the templates for print are given: plain values, and texts that can be set.

A text is made fit for paper here: signs that steer are taken out, long runs may be broken, and a letter that the
fonts lack is noted with the coin in whose entry it stands.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, fields, is_dataclass
from typing import Any

from daterun.pages.pieces import Note, Picture
from daterun.press.glyphs import LACKING, STAND_INS
from daterun.press.notetree import Tree

LONGEST_RUN = 24
"""Letters without a space after which a line may be broken; Typst lets a longer one run off the page."""

BREAK = "\u200b"
"""The sign at which a long run may be broken; it has no width and is no letter of the text."""

_UNIT = re.compile(r"(?<=[0-9]) (?=(?:g|mm|%)(?![^\W_]))")
"""The space between a number and its unit, at which no line is broken."""

_RUN = re.compile(rf"[^\s\u200b]{{{LONGEST_RUN + 1},}}")
_STEERING = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ue000-\uf8ff\ufff9-\ufffc]")
_AS_THEY_ARE = frozenset(("picture", "address", "to", "kind", "code", "language", "side", "tone", "state"))
"""Keys whose texts are never set: they name files, pages and kinds."""


@dataclass(slots=True)
class Gathered:
    """What was met on the way: letters that the fonts lack by the name of the entry, and pictures used."""

    lacking: dict[str, set[str]] = field(default_factory=dict)
    pictures: set[str] = field(default_factory=set)


class PrintData:
    """Makes data of views. The letters are those that the fonts have."""

    def __init__(self, letters: frozenset[int], note_tree: Callable[[Note], Tree]) -> None:
        self.letters = letters
        self.note_tree = note_tree
        self.gathered = Gathered()
        self._owner = ""

    def make(self, value: Any, key: str = "") -> Any:
        """Make the data of a view, and of all that is in it."""
        if isinstance(value, Note):
            return self.make(self.note_tree(value))
        if isinstance(value, Picture):
            self.gathered.pictures.add(value.largest.address)
            text = self.make(value.text)
            return {"picture": value.largest.address, "text": text, "is_round": value.is_round}
        if is_dataclass(value) and not isinstance(value, type):
            return self._record({each.name: getattr(value, each.name) for each in fields(value)})
        if isinstance(value, dict):
            return self._record(value)
        if isinstance(value, list | tuple):
            return [self.make(each, key) for each in value]
        if isinstance(value, str):
            if key == "picture" and value:
                self.gathered.pictures.add(value)
            return value if key in _AS_THEY_ARE else self.text(value)
        return value

    def _record(self, entries: dict[str, Any]) -> dict[str, Any]:
        outer = self._owner
        if isinstance(entries.get("name"), str) and (
            "address" in entries or "lines" in entries or "basis" in entries
        ):
            self._owner = entries["name"]
        made = {name: self.make(each, name) for name, each in entries.items()}
        self._owner = outer
        return made

    def text(self, typed: str) -> str:
        """Make a text fit for paper."""
        typed = _UNIT.sub("\u00a0", typed)
        if typed.isascii() and typed.isprintable() and len(typed) <= LONGEST_RUN:
            return typed
        composed = unicodedata.normalize("NFC", _STEERING.sub("", typed))
        return break_runs("".join(self._letter(each) for each in composed))

    def _letter(self, letter: str) -> str:
        if letter in "\n\t" or ord(letter) in self.letters:
            return letter
        if letter in STAND_INS:
            return STAND_INS[letter]
        kind = unicodedata.category(letter)
        if kind in ("Cc", "Cf", "Cs", "Mn"):
            return "" if kind != "Mn" else self._lack(letter, "")
        if kind == "Zs":
            return " "
        return self._lack(letter, LACKING)

    def _lack(self, letter: str, printed: str) -> str:
        self.gathered.lacking.setdefault(self._owner, set()).add(letter)
        return printed


def break_runs(text: str) -> str:
    """Let a long run of letters be broken, for none may leave the page."""

    def broken(run: re.Match[str]) -> str:
        letters = run.group()
        return BREAK.join(letters[nth : nth + 12] for nth in range(0, len(letters), 12))

    return _RUN.sub(broken, text)


def say_lacking(lacking: dict[str, set[str]]) -> Iterable[tuple[str, str]]:
    """Word the letters that the fonts lack: the entry's name, and the letters with their numbers."""
    for owner, letters in sorted(lacking.items()):
        shown = [f"{each} (U+{ord(each):04X})" for each in sorted(letters)]
        more = f" and {len(shown) - 8} more" if len(shown) > 8 else ""
        yield owner, ", ".join(shown[:8]) + more
