"""Grades as the trade writes them, and where each lies on the 70-point scale for comparing.

The scales themselves are in ``scales.py``, the words for problem coins in ``details.py``; both are offered
here too. A grade is an opinion, and which of a coin's grades counts is left to the records.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from daterun.problems import Misread, meant
from daterun.trade.details import NO_PROBLEMS, PROBLEM_GROUPS, PROBLEM_REASONS
from daterun.trade.scales import (
    BRITISH_NAMES,
    CORRESPONDENCE,
    STEP_BY_NUMBER,
    STEPS,
    TOP,
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

_PROOF = ("PF", "PR", "PRF", "PROOF")
_SPECIMEN = ("SP", "SPECIMEN")
_SUFFIX = re.compile(r"(?P<grade>.*[\s\d+])(?P<suffix>RD|RB|BN|CAM|DCAM|UCAM|PL)", re.IGNORECASE)
_DETAILS = re.compile(r"(?P<grade>.*?)[\s,]*\bdetails\b[\s,:;(–-]*(?P<reason>.*?)\)?", re.IGNORECASE)
_LUSTRE = re.compile(r"(?P<grade>[^,]+),\s*(?P<lustre>[^,]*\blustre\b[^,]*)", re.IGNORECASE)
_NUMBERED = re.compile(
    r"(?P<prefix>[A-Za-z]*)(?P<joint>[\s-]*)(?P<number>[0-9]+(?:\.[0-9]+)?)\s*(?P<plus>\+?)"
)
_RANGE = re.compile(r"\s*[–—]\s*|\s+to\s+|(?<=[A-Za-z0-9+\s])-")
_STRIKE_WORD = re.compile(
    rf"(?P<strike>{'|'.join((*_PROOF, *_SPECIMEN))})\s+(?P<grade>[A-Za-z].*)", re.IGNORECASE
)
_STRIKE_LAST = re.compile(r"(?P<grade>.*[A-Za-z])\s+(?P<strike>proof|specimen)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Grade:
    """A grade as it was written, with the interval it takes on the 70-point scale.

    Low and high are the same for a single step; a plus lies half a point above its step. A split grade has
    its two sides, obverse first, and spans them both. The habit is the one in which the grade was read:
    where it is British, the interval is common practice and approximate. A proof is a way of making, not a
    grade, so the strike stands apart.
    """

    text: str
    low: Fraction
    high: Fraction
    habit: Habit
    sides: "tuple[Grade, Grade] | None" = None
    strike: Literal["proof", "specimen"] | None = None
    plus: bool = False
    colour: str | None = None
    cameo: str | None = None
    prooflike: bool = False
    lustre: str = ""
    details: bool = False
    reason: str = ""

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
    return replace(
        grade,
        text=text.strip(),
        lustre=lustre["lustre"] if lustre else "",
        details=details is not None,
        reason=details["reason"].strip() if details else "",
    )


def _read(text: str, habit: Habit) -> Grade:
    halves = [half.strip() for half in text.split("/")]
    if len(halves) == 1:
        return _read_side(text, habit)
    if len(halves) > 2 or not all(halves):
        raise Misread(f'grade "{text}" is not two sides', "write obverse and reverse with one stroke: GVF/EF")
    obverse, reverse = (_read_side(half, habit) for half in halves)
    strike = obverse.strike or reverse.strike
    obverse, reverse = replace(obverse, strike=strike), replace(reverse, strike=strike)
    return Grade(
        text,
        min(obverse.low, reverse.low),
        max(obverse.high, reverse.high),
        obverse.habit if obverse.habit is reverse.habit else habit,
        sides=(obverse, reverse),
        strike=strike,
    )


def _read_side(text: str, habit: Habit) -> Grade:
    """Read the grade of a coin or side: suffixes, then a number, a word or a range of either."""
    if found := _SUFFIX.fullmatch(text):
        return _with_suffix(text, _read_side(found["grade"].strip(), habit), found["suffix"].upper())
    if found := _NUMBERED.fullmatch(text):
        return _read_number(text, found)
    if grade := _read_word(text, habit):
        return grade
    for found in _RANGE.finditer(text):
        if grade := _read_range(text, text[: found.start()].strip(), text[found.end() :].strip(), habit):
            return grade
    raise _unknown(text)


def _with_suffix(text: str, grade: Grade, suffix: str) -> Grade:
    if suffix in ("RD", "RB", "BN"):
        if grade.colour:
            raise Misread(f'grade "{text}" has two colours', f"keep {grade.colour} or {suffix}")
        return replace(grade, text=text, colour=suffix)
    if suffix == "PL":
        return replace(grade, text=text, prooflike=True)
    if grade.strike is None:
        raise Misread(f'grade "{text}" has a cameo but is no proof', f"write it as a proof: PF65 {suffix}")
    return replace(grade, text=text, cameo=suffix)


def _read_range(text: str, first: str, last: str, habit: Habit) -> Grade | None:
    if not (_reads(first, habit) and _reads(last, habit)):
        return None
    low, high = _read_side(first, habit), _read_side(last, habit)
    if high.low < low.low or high.high < low.high:
        raise Misread(f'grade "{text}" runs downward', f"write {last}–{first}")
    both = low.habit if low.habit is high.habit else Habit.BRITISH
    return Grade(text, low.low, high.high, both, strike=low.strike or high.strike)


def _reads(text: str, habit: Habit) -> bool:
    return bool(_NUMBERED.fullmatch(text) or _read_word(text, habit))


def _read_number(text: str, found: re.Match[str]) -> Grade:
    prefix, joint, written = found["prefix"].upper(), found["joint"], found["number"]
    number = Fraction(written)
    strike = _strike_of(prefix)
    if prefix and strike is None and _word_of(prefix) is None:
        raise Misread(f'grade "{text}" begins with no word of the 70-point scale', meant(prefix, _words()))
    form = (lambda step: f"{found['prefix']}{joint}{step.number}") if strike else _form(prefix, joint)
    if number > TOP:
        top = found["prefix"] if strike else "MS"
        hint = f"the scale runs from 1 to 70; write {top}{joint}70 or lower"
        raise Misread(f'grade "{text}" is above the top of the 70-point scale', hint)
    if number < 1:
        bottom = found["prefix"] if strike else "PO"
        hint = f"the scale runs from 1 to 70; write {bottom}{joint}1 or higher"
        raise Misread(f'grade "{text}" is below the bottom of the 70-point scale', hint)
    if number not in STEP_BY_NUMBER:
        below, above = (form(step) for step in neighbours(float(number)))
        raise Misread(
            f'grade "{text}" is between two steps of the 70-point scale', f"write {below} or {above}"
        )
    step = STEP_BY_NUMBER[int(number)]
    if prefix and strike is None and _word_of(prefix) != step.abbreviation:
        low, high = steps_of(_word_of(prefix) or "")
        own = f"{prefix} is {low}" if low == high else f"{prefix} runs from {low} to {high}"
        raise Misread(
            f'grade "{text}" has a word and a number that disagree', f"{own}; {step.number} is {form(step)}"
        )
    if found["plus"] and number == TOP:
        raise Misread(f'grade "{text}" is above the top of the 70-point scale', f"write {text.rstrip('+ ')}")
    at = number + Fraction(1, 2) if found["plus"] else number
    return Grade(text, at, at, Habit.SEVENTY, strike=strike, plus=bool(found["plus"]))


def _form(prefix: str, joint: str) -> Callable[[Step], str]:
    """Write a step the way the keeper writes: XF for EF, and the same joint."""
    return lambda step: (
        f"{'XF' if prefix == 'XF' and step.abbreviation == 'EF' else step.abbreviation}{joint}{step.number}"
    )


def _strike_of(prefix: str) -> Literal["proof", "specimen"] | None:
    if prefix.upper() in _PROOF:
        return "proof"
    return "specimen" if prefix.upper() in _SPECIMEN else None


def _word_of(prefix: str) -> str | None:
    """Give the 70-point scale's own abbreviation for a prefix, None where it has none."""
    own = {"XF": "EF", "UNC": "MS", "P": "PO", "FAIR": "FR", "CU": "MS"}.get(prefix, prefix)
    return own if any(step.abbreviation == own for step in STEPS) else None


_NAMES = {
    "poor": "P",
    "fair": "Fair",
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
_SEVENTY_WORDS = {"P": "PO", "FAIR": "FR", "XF": "EF"}
_BRITISH = {abbreviation.upper(): abbreviation for abbreviation in CORRESPONDENCE}
_BEFORE = {"about": "A", "almost": "A", "nearly": "N", "near": "N", "good": "G", "a": "A", "n": "N", "g": "G"}
_PREFIXED = re.compile(rf"(?P<before>{'|'.join(_BEFORE)})[ .-]+(?P<grade>.+)", re.IGNORECASE)


def _read_word(text: str, habit: Habit) -> Grade | None:
    """Read a grade without a number; None where it is not one."""
    if _strike_of(text):
        low, high = steps_of("MS")
        return Grade(text, Fraction(low), Fraction(high), Habit.SEVENTY, strike=_strike_of(text))
    if found := (_STRIKE_WORD.fullmatch(text) or _STRIKE_LAST.fullmatch(text)):
        grade = _read_word(found["grade"], habit)
        return grade and replace(grade, text=text, strike=_strike_of(found["strike"]))
    plain, plus = text.removesuffix("+").strip(), text.endswith("+")
    if interval := _step_names().get(plain.casefold()):
        return None if plus else Grade(text, *interval, Habit.SEVENTY)
    word = _NAMES.get(plain.casefold(), plain).upper()
    if word == "ABOUT UNCIRCULATED":
        word = "AUNC" if habit is Habit.BRITISH else "AU"
    own = _SEVENTY_WORDS.get(word, word)
    only_seventy = word in ("PO", "FR", "AG", "G", "XF", "AU", "MS")
    shared = word in _BRITISH and any(step.abbreviation == own for step in STEPS)
    if only_seventy or (shared and habit is Habit.SEVENTY):
        return _of_steps(text, own, plus)
    if plus:
        return _of_ladder(text, "G" + word, plus)
    return _of_ladder(text, word, plus) or _of_prefixed(text, plain)


def _of_steps(text: str, word: str, plus: bool) -> Grade:
    """Take all steps of a word, or with a plus those of its upper half."""
    numbers = [step.number for step in STEPS if step.abbreviation == word]
    if plus:
        numbers = numbers[len(numbers) // 2 :]
    return Grade(text, Fraction(numbers[0]), Fraction(numbers[-1]), Habit.SEVENTY, plus=plus)


def _of_ladder(text: str, word: str, plus: bool) -> Grade | None:
    if word not in _BRITISH:
        return None
    low, high = CORRESPONDENCE[_BRITISH[word]]
    return Grade(text, Fraction(low), Fraction(high), Habit.BRITISH, plus=plus)


def _of_prefixed(text: str, plain: str) -> Grade | None:
    """Read "about EF", "nearly EF" and "good VF", which only the British ladder has."""
    if (found := _PREFIXED.fullmatch(plain)) is None:
        return None
    base = _NAMES.get(found["grade"].casefold(), found["grade"]).upper()
    return _of_ladder(text, _BEFORE[found["before"].casefold()] + base, plus=False)


def _step_names() -> dict[str, tuple[Fraction, Fraction]]:
    """Collect the long names that only the 70-point scale has, such as Choice Fine and Gem Mint State."""
    named: dict[str, tuple[Fraction, Fraction]] = {}
    for step in STEPS:
        name = step.name.casefold()
        if name.split()[0] in ("choice", "gem", "superb", "nearly", "perfect") or name.startswith(
            "very choice"
        ):
            low = named.get(name, (Fraction(step.number),))[0]
            named[name] = (low, Fraction(step.number))
    return named


def _words() -> list[str]:
    seventy = dict.fromkeys(step.abbreviation for step in STEPS)
    return list(dict.fromkeys([*seventy, "XF", "PF", "SP", *CORRESPONDENCE]))


def _unknown(text: str) -> Misread:
    if text.endswith("-") and text[:-1].strip().upper() in _BRITISH:
        return Misread(
            f'grade "{text}" ends in a dash', f"write about {text[:-1].strip()}, or both ends of a range"
        )
    if "," in text:
        grade, _, rest = text.partition(",")
        return Misread(
            f'grade "{text}" has more in it than a grade',
            f"for a problem coin write {grade.strip()} details, {rest.strip()}; put the rest under reasons",
        )
    hint = meant(text, _words()) or "write a grade such as VF30, EF, GVF or MS-64"
    return Misread(f'grade "{text}" is on no scale', hint)
