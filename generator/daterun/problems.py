"""Places in the keeper's files and the problems found there.

A problem carries facts; how it is laid out for a person or a program is left to ``command/report.py``.

Misread          a text that is not what it should be, raised by ``trade`` in the collector's words
CannotContinue   a mistake that makes going on senseless, caught once, in the command line
"""

import difflib
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A stretch of one line in a file of the catalogue.

    The path is relative to the catalogue folder, with forward slashes. Line and column count from 1;
    a line of 0 means the file as a whole. The length is that of the marked text, 0 where nothing is marked.
    """

    path: str
    line: int = 0
    column: int = 0
    length: int = 0


class Severity(StrEnum):
    """How grave a problem is: an error stops a build, advice never does."""

    ERROR = "error"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong, or worth a look, in the keeper's files.

    The rule is its short name as the README lists it. The hint says what to do, or is empty. The other
    places are those that the problem is in conflict with, each shown under the first.
    """

    rule: str
    sentence: str
    place: Place
    hint: str = ""
    severity: Severity = Severity.ERROR
    others: tuple[Place, ...] = ()

    @property
    def is_error(self) -> bool:
        return self.severity is Severity.ERROR


class Misread(ValueError):
    """A text that cannot be read as what it should be; the sentence is in the collector's words.

    The hint, where there is one, says how it is written instead.
    """

    def __init__(self, sentence: str, hint: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.hint = hint


class CannotContinue(Exception):
    """A mistake that makes going on senseless, such as a folder that is not there."""


def sort_problems(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sort problems by place, then rule and sentence; the same problem found twice is kept once."""
    unique = {(p.place, p.rule, p.sentence): p for p in problems}
    return tuple(unique[key] for key in sorted(unique))


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Find the known word that a misspelt one most likely meant; None where none is close."""
    by_fold = {each.casefold(): each for each in known}
    found = difflib.get_close_matches(word.casefold(), by_fold, n=1, cutoff=0.6)
    return by_fold[found[0]] if found else None


def meant(word: str, known: Iterable[str]) -> str:
    """Word the hint for a misspelt word: the nearest known one, else the known ones where they are few."""
    words = list(known)
    if (close := nearest(word, words)) is not None:
        return f'did you mean "{close}"?'
    if 0 < len(words) <= 12:
        return "known here: " + ", ".join(words)
    return ""


def tells_of(paths: Collection[str], problems: Iterable[Problem]) -> bool:
    """Tell whether any problem has to do with one of these files."""
    return any(place.path in paths for each in problems for place in (each.place, *each.others))
