"""Grades written in words alone, in either habit: EF, gVF, "about EF", "Choice Very Fine".

Numbers, ranges, split grades and what is said of colour or damage are left to ``grading.py``.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from daterun.trade.scales import CORRESPONDENCE, STEPS, Habit

_NAMES = {
    "poor": "P",
    "fair": "FAIR",
    "good": "G",
    "very good": "VG",
    "fine": "F",
    "very fine": "VF",
    "extremely fine": "EF",
    "extra fine": "EF",
    "uncirculated": "UNC",
    "brilliant uncirculated": "BU",
    "brilliant unc": "BU",
    "fleur de coin": "FDC",
    "mint state": "MS",
    "about good": "AG",
    "almost good": "AG",
    "almost uncirculated": "AU",
}
_BRITISH: Mapping[str, str] = MappingProxyType({word.upper(): word for word in CORRESPONDENCE})
_STEP_WORDS = tuple(dict.fromkeys(step.abbreviation for step in STEPS))
# "G" alone is Good, never "better than"; the ladder itself has no word for that much wear.
_ONLY_SEVENTY = frozenset({"PO", "FR", "AG", "G", "XF", "AU", "MS"})
_IN_SEVENTY = {"P": "PO", "FAIR": "FR", "XF": "EF", "UNC": "MS", "CU": "MS"}
_BEFORE = {"about": "A", "almost": "A", "nearly": "N", "near": "N", "good": "G", "a": "A", "n": "N", "g": "G"}
_PREFIXED = re.compile(rf"(?P<before>{'|'.join(_BEFORE)})[ .-]+(?P<grade>.+)", re.IGNORECASE)
_LOOSE = frozenset({"UNC", "BU"})  # used in either habit, so they do not tell which one is meant


@dataclass(frozen=True, slots=True)
class Worded:
    """What a word says: its interval on the 70-point scale and the habit in which it was read."""

    low: int
    high: int
    habit: Habit
    plus: bool = False
    telling: bool = False  # only the British habit has this word


def seventy_word(prefix: str) -> str | None:
    """Give the 70-point scale's own abbreviation for what stands before a number; None where none does."""
    own = _IN_SEVENTY.get(prefix.upper(), prefix.upper())
    return own if own in _STEP_WORDS else None


def known_words() -> tuple[str, ...]:
    """List the words of both scales, for hints."""
    return tuple(dict.fromkeys((*_STEP_WORDS, "XF", "PF", "SP", *CORRESPONDENCE)))


def is_british(word: str) -> bool:
    return word.upper() in _BRITISH


def read_word(text: str, habit: Habit) -> Worded | None:
    """Read a grade without a number, the habit deciding for words that both scales have.

    A plus behind a word of the 70-point scale means the upper half of its steps; behind one of the British
    ladder it is used like Good before it (from memory, not checked). None where it is no such grade.
    """
    plain, plus = text.removesuffix("+").strip(), text.endswith("+")
    if interval := _STEP_NAMES.get(plain.casefold()):
        return None if plus else Worded(*interval, Habit.SEVENTY)
    word = _NAMES.get(plain.casefold(), plain).upper()
    if word == "ABOUT UNCIRCULATED":
        word = "AUNC" if habit is Habit.BRITISH else "AU"
    shared = word in _BRITISH and word != "UNC" and seventy_word(word) is not None
    if word in _ONLY_SEVENTY or (shared and habit is Habit.SEVENTY):
        return _of_steps(seventy_word(word) or word, plus)
    if plus:
        return _of_ladder("G" + word, plus=True)
    return _of_ladder(word) or _of_prefixed(plain)


def _of_steps(word: str, plus: bool) -> Worded:
    numbers = [step.number for step in STEPS if step.abbreviation == word]
    if plus:
        numbers = numbers[len(numbers) // 2 :]
    return Worded(numbers[0], numbers[-1], Habit.SEVENTY, plus=plus)


def _of_ladder(word: str, plus: bool = False) -> Worded | None:
    if word not in _BRITISH:
        return None
    low, high = CORRESPONDENCE[_BRITISH[word]]
    telling = word not in _LOOSE and seventy_word(word) is None
    return Worded(low, high, Habit.BRITISH, plus=plus, telling=telling)


def _of_prefixed(plain: str) -> Worded | None:
    """Read "about EF", "nearly EF" and "good VF", which only the British ladder has."""
    if (found := _PREFIXED.fullmatch(plain)) is None:
        return None
    base = _NAMES.get(found["grade"].casefold(), found["grade"]).upper()
    return _of_ladder(_BEFORE[found["before"].casefold()] + base)


def _step_names() -> dict[str, tuple[int, int]]:
    """Collect the long names that only the 70-point scale has, such as Choice Fine and Gem Mint State."""
    own = re.compile(r"(very choice|choice|gem|superb|nearly|perfect) .*", re.IGNORECASE)
    named: dict[str, tuple[int, int]] = {}
    for step in STEPS:
        if own.fullmatch(step.name):
            low, _ = named.get(step.name.casefold(), (step.number, step.number))
            named[step.name.casefold()] = (low, step.number)
    return named


_STEP_NAMES: Mapping[str, tuple[int, int]] = MappingProxyType(_step_names())
