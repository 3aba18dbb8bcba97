"""Grades as the trade writes them, and where each lies on the 70-point scale for comparing.

The scales are in ``scales.py``, their numbers and words in ``gradenumbers.py`` and ``gradewords.py``, the
words for problem coins in ``details.py``; what others need of them is offered here too. A grade is an
opinion, and which of a coin's grades counts is left to the records.
"""

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal

from daterun.problems import Misread, meant
from daterun.trade.details import NO_PROBLEMS, PROBLEM_GROUPS, PROBLEM_REASONS
from daterun.trade.gradenumbers import PROOF_PREFIXES, SPECIMEN_PREFIXES, Strike, read_number, strike_of
from daterun.trade.gradewords import is_british, known_words, read_word
from daterun.trade.scales import (
    BRITISH_NAMES,
    CORRESPONDENCE,
    STEPS,
    Habit,
    Step,
    nearest_step,
    neighbours,
    steps_of,
)

__all__ = [
    "BRITISH_NAMES",
    "CORRESPONDENCE",
    "NO_PROBLEMS",
    "PROBLEM_GROUPS",
    "PROBLEM_REASONS",
    "STEPS",
    "Grade",
    "Habit",
    "Step",
    "nearest_step",
    "neighbours",
    "parse_grade",
]

End = Literal["low", "middle", "high"]
Side = Literal["obverse", "reverse"]

_SUFFIX = re.compile(r"(?P<grade>.*[\s\d+])(?P<suffix>RD|RB|BN|CAM|DCAM|UCAM|PL)", re.IGNORECASE)
_DETAILS = re.compile(r"(?P<grade>.*?)[\s,]*\bdetails\b[\s,:;(–-]*(?P<reason>.*?)\)?", re.IGNORECASE)
_LUSTRE = re.compile(r"(?P<grade>[^,]+),\s*(?P<lustre>[^,]*\blustre\b[^,]*)", re.IGNORECASE)
_RANGE = re.compile(r"\s*[–—]\s*|\s+to\s+|(?<=[A-Za-z0-9+\s])-")
_STRIKE_FIRST = re.compile(
    rf"(?P<strike>{'|'.join((*PROOF_PREFIXES, *SPECIMEN_PREFIXES))})\s+(?P<grade>[A-Za-z].*)", re.IGNORECASE
)
_STRIKE_LAST = re.compile(r"(?P<grade>.*[A-Za-z])\s+(?P<strike>proof|specimen)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade as it was written, with the interval it takes on the 70-point scale.

    Low and high are the same for a single step; a plus lies half a point above its step. A split grade has
    its two sides, obverse first, and spans them both. The habit is the one in which the grade was read:
    where it is British, the interval is common practice and approximate. A proof is a way of making, not a
    grade, so the strike stands apart. A telling grade has a word of the British habit alone, such as GVF, and
    so says how the words beside it are meant.
    """

    text: str
    low: Fraction
    high: Fraction
    habit: Habit
    sides: "tuple[Grade, Grade] | None" = None
    strike: Strike | None = None
    plus: bool = False
    colour: str | None = None
    cameo: str | None = None
    prooflike: bool = False
    lustre: str = ""
    details: bool = False
    reason: str = ""
    telling: bool = field(default=False, repr=False, compare=False)

    def __str__(self) -> str:
        return self.text

    @property
    def approximate(self) -> bool:
        """Whether its place on the 70-point scale rests on the correspondence of the British ladder."""
        if self.sides is not None:
            return any(side.approximate for side in self.sides)
        return self.habit is Habit.BRITISH

    def counted(self, end: End = "low") -> Fraction:
        """Say what the grade counts: an end or the middle of its interval; the lower side of a split."""
        if self.sides is not None:
            return min(side.counted(end) for side in self.sides)
        match end:
            case "low":
                return self.low
            case "high":
                return self.high
            case "middle":
                return (self.low + self.high) / 2

    def on(self, side: Side) -> "Grade":
        """Give the grade of one side: that of a split grade, else the grade itself."""
        if self.sides is None:
            return self
        return self.sides[0] if side == "obverse" else self.sides[1]


def parse_grade(text: str, habit: Habit) -> Grade:
    """Read a grade of either habit; the habit given says how a bare word such as EF is meant.

    VF30, VF-30, XF 45, MS-64+, PF66 DCAM, MS64 RB, EF, GVF, "about EF", "Good Very Fine", a range
    (VF30–EF40), a split (GVF/EF), a problem coin (EF45 details, cleaned) or remaining colour (UNC, 50%
    lustre). Words that only the British ladder has are British in either habit. Case does not count.
    Raise Misread for what no scale has.
    """
    typed = " ".join(text.split())
    if not typed:
        raise Misread("the grade is empty", "write a grade such as VF30 or GVF")
    details = _DETAILS.fullmatch(typed)
    if details and not details["grade"]:
        raise Misread(f'grade "{text}" does not say how worn the coin is', "write EF details, cleaned")
    worn = details["grade"] if details else typed
    lustre = _LUSTRE.fullmatch(worn)
    grade = _read(lustre["grade"] if lustre else worn, habit)
    if lustre:
        grade = replace(grade, lustre=lustre["lustre"])
    if details:
        grade = _with_details(grade, details["reason"].strip())
    return replace(grade, text=text.strip())


def _with_details(grade: Grade, reason: str) -> Grade:
    sides = grade.sides and (_with_details(grade.sides[0], reason), _with_details(grade.sides[1], reason))
    return replace(grade, sides=sides, details=True, reason=reason)


def _read(text: str, habit: Habit) -> Grade:
    halves = [half.strip() for half in text.split("/")]
    if len(halves) == 1:
        return _read_side(text, habit)
    if len(halves) > 2 or not all(halves):
        raise Misread(f'grade "{text}" is not two sides', "write obverse and reverse with one stroke: GVF/EF")
    obverse, reverse = (_read_side(half, habit) for half in halves)
    if habit is Habit.SEVENTY and (obverse.telling or reverse.telling):
        return _read(text, Habit.BRITISH)
    strike = obverse.strike or reverse.strike
    obverse, reverse = replace(obverse, strike=strike), replace(reverse, strike=strike)
    return Grade(
        text,
        min(obverse.low, reverse.low),
        max(obverse.high, reverse.high),
        _habit_of(obverse, reverse),
        sides=(obverse, reverse),
        strike=strike,
    )


def _habit_of(first: Grade, second: Grade) -> Habit:
    return first.habit if first.habit is second.habit else Habit.BRITISH


def _read_side(text: str, habit: Habit) -> Grade:
    """Read the grade of a coin or side: suffixes, then a number, a word or a range of either."""
    if grade := _read_end(text, habit):
        return grade
    for found in _RANGE.finditer(text):
        if grade := _read_range(text, text[: found.start()].strip(), text[found.end() :].strip(), habit):
            return grade
    if (ending := _SUFFIX.fullmatch(text)) and _RANGE.search(ending["grade"]):
        return _with_suffix(text, _read_side(ending["grade"].strip(), habit), ending["suffix"].upper())
    raise _unknown(text)


def _read_end(text: str, habit: Habit) -> Grade | None:
    """Read a grade that is no range; None where it is not one."""
    if found := _SUFFIX.fullmatch(text):
        grade = _read_end(found["grade"].strip(), habit)
        return grade and _with_suffix(text, grade, found["suffix"].upper())
    if number := read_number(text):
        return Grade(text, number.at, number.at, Habit.SEVENTY, strike=number.strike, plus=number.plus)
    if strike := strike_of(text):
        low, high = steps_of("MS")
        return Grade(text, Fraction(low), Fraction(high), Habit.SEVENTY, strike=strike)
    struck = _STRIKE_FIRST.fullmatch(text) or _STRIKE_LAST.fullmatch(text)
    word = read_word(struck["grade"] if struck else text, habit)
    if word is None:
        return None
    return Grade(
        text,
        Fraction(word.low),
        Fraction(word.high),
        word.habit,
        strike=strike_of(struck["strike"]) if struck else None,
        plus=word.plus,
        telling=word.telling,
    )


def _with_suffix(text: str, grade: Grade, suffix: str) -> Grade:
    if suffix in ("RD", "RB", "BN"):
        if grade.colour not in (None, suffix):
            raise Misread(f'grade "{text}" has two colours', f"keep {grade.colour} or {suffix}")
        return replace(grade, text=text, colour=suffix)
    if suffix == "PL":
        return replace(grade, text=text, prooflike=True)
    if grade.strike is None:
        raise Misread(f'grade "{text}" has a cameo but is no proof', f"write it as a proof: PF65 {suffix}")
    return replace(grade, text=text, cameo=suffix)


def _read_range(text: str, first: str, last: str, habit: Habit) -> Grade | None:
    low, high = _read_end(first, habit), _read_end(last, habit)
    if low is None or high is None:
        return None
    if habit is Habit.SEVENTY and (low.telling or high.telling):
        return _read_range(text, first, last, Habit.BRITISH)
    if high.low < low.low or high.high < low.high:
        raise Misread(f'grade "{text}" runs downward', f"write {last}–{first}")
    if low.colour and high.colour and low.colour != high.colour:
        raise Misread(f'grade "{text}" has two colours', f"keep {low.colour} or {high.colour}")
    return Grade(
        text,
        low.low,
        high.high,
        _habit_of(low, high),
        strike=low.strike or high.strike,
        colour=low.colour or high.colour,
        cameo=low.cameo or high.cameo,
        prooflike=low.prooflike or high.prooflike,
        telling=low.telling or high.telling,
    )


def _unknown(text: str) -> Misread:
    if text.endswith("-") and is_british(word := text[:-1].strip()):
        return Misread(f'grade "{text}" ends in a dash', f"write about {word}, or both ends of a range")
    if "," in text:
        grade, _, rest = text.partition(",")
        return Misread(
            f'grade "{text}" has more in it than a grade',
            f"for a problem coin write {grade.strip()} details, {rest.strip()}; put the rest under reasons",
        )
    hint = meant(text, known_words()) or "write a grade such as VF30, EF, GVF or MS-64"
    return Misread(f'grade "{text}" is on no scale', hint)
