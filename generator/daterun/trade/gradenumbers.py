"""Grades written as a number of the 70-point scale, with or without a word before it.

Grades in words alone are left to ``gradewords.py``, all that stands around a grade to ``grading.py``.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from daterun.problems import Misread, meant
from daterun.trade.gradewords import known_words, seventy_word
from daterun.trade.scales import STEP_BY_NUMBER, STEPS, TOP, Step, neighbours, steps_of

Strike = Literal["proof", "specimen"]

PROOF_PREFIXES = ("PF", "PR", "PRF", "PROOF")
SPECIMEN_PREFIXES = ("SP", "SPECIMEN")
_NUMBERED = re.compile(
    r"(?P<prefix>[A-Za-z]*)(?P<joint>[\s-]*)(?P<number>[0-9]+(?:\.[0-9]+)?)\s*(?P<plus>\+?)"
)


@dataclass(frozen=True, slots=True)
class Numbered:
    """A place on the 70-point scale, half a point above its step with a plus, and how the coin was struck."""

    at: Fraction
    strike: Strike | None
    plus: bool


def read_number(text: str) -> Numbered | None:
    """Read a step such as VF30, XF-45, MS 64+, PF65 or 64 alone; None where there is no number in it.

    Raise Misread for numbers that the scale does not have and for words that disagree with their number.
    """
    if (found := _NUMBERED.fullmatch(text)) is None:
        return None
    prefix, joint, number = found["prefix"].upper(), found["joint"], Fraction(found["number"])
    strike, word = strike_of(prefix), seventy_word(prefix)
    if prefix and strike is None and word is None:
        raise Misread(
            f'grade "{text}" begins with no word of the 70-point scale',
            meant(prefix, known_words()) or "write a number with its word, such as VF30 or MS-64",
        )

    def form(step: Step) -> str:
        """Write a step the keeper's way, with the same joint, and XF for EF where that is typed."""
        kept = found["prefix"] if strike or seventy_word(prefix) == step.abbreviation else step.abbreviation
        return f"{kept.upper()}{joint}{step.number}"

    if number > TOP or (found["plus"] and number == TOP):
        hint = f"the scale runs from 1 to 70; write {form(STEPS[-1])} or lower"
        raise Misread(f'grade "{text}" is above the top of the 70-point scale', hint)
    if number < 1:
        hint = f"the scale runs from 1 to 70; write {form(STEPS[0])} or higher"
        raise Misread(f'grade "{text}" is below the bottom of the 70-point scale', hint)
    if number not in STEP_BY_NUMBER:
        below, above = (form(step) for step in neighbours(float(number)))
        raise Misread(
            f'grade "{text}" is between two steps of the 70-point scale', f"write {below} or {above}"
        )
    step = STEP_BY_NUMBER[int(number)]
    if word is not None and strike is None and word != step.abbreviation:
        low, high = steps_of(word)
        own = f"{prefix} is {low}" if low == high else f"{prefix} runs from {low} to {high}"
        raise Misread(
            f'grade "{text}" has a word and a number that disagree', f"{own}; {step.number} is {step}"
        )
    at = number + Fraction(1, 2) if found["plus"] else number
    return Numbered(at, strike, bool(found["plus"]))


def strike_of(prefix: str) -> Strike | None:
    """Say which strike a prefix stands for; None where it stands for none."""
    if prefix.upper() in PROOF_PREFIXES:
        return "proof"
    return "specimen" if prefix.upper() in SPECIMEN_PREFIXES else None
