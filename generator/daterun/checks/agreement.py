"""How the keeper's own grades fared against certificates: bias, spread and agreement, in steps of the scale.

A grade is an opinion, on both sides; what is measured here is agreement between two opinions, not a truth.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from daterun.checks.quantiles import Quartiles, quartiles
from daterun.trade.dates import Day
from daterun.trade.grading import Grade
from daterun.trade.scales import STEPS

_NUMBERS = tuple(step.number for step in STEPS)

WEAK_UNDER = 10
"""Under so many pairs the figures are said to be weak. A round number, without a source."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """One grade of the keeper's on one day; the day is None where it is not told."""

    grade: Grade
    on: Day | None


@dataclass(frozen=True, slots=True)
class Certified:
    """A certificate's grade, its day, and why it came back as a problem coin, where it did."""

    by: str
    grade: Grade
    on: Day | None
    problems: tuple[str, ...] = ()


class Why(StrEnum):
    """Why a certificate has no grade of the keeper's to stand beside."""

    NO_OWN = "no own grade"
    NONE_BEFORE = "none before"
    ORDER_NOT_TOLD = "order not told"


@dataclass(frozen=True, slots=True)
class Unpaired:
    """A certificate that is left out, and why."""

    coin: str
    certified: Certified
    why: Why


@dataclass(frozen=True, slots=True)
class Pair:
    """A certificate beside the keeper's last grade before it. Problems are why it came back as a problem coin."""

    coin: str
    own: Grade
    certified: Grade
    by: str
    problems: tuple[str, ...]

    @property
    def is_problem(self) -> bool:
        return bool(self.problems) or self.certified.details

    @property
    def difference(self) -> int:
        """How many steps the keeper's grade lies above the certificate's; below nought where it lies under it."""
        return step_of(self.own) - step_of(self.certified)


@dataclass(frozen=True, slots=True)
class Agreement:
    """How two columns of grades agree.

    Coins that came back as problem coins have no grade to compare, for theirs tells the wear alone, as a rule by
    a bare word; they count in the problem share, which is of all pairs, and in nothing else. Bias is the mean
    difference in steps, own less certified; spread the mean of the differences without their sign. Exact and
    within one are shares of the pairs compared. Kappa is Cohen's, weighted by the square of the distance; None
    where all grades compared are one and the same.
    """

    pairs: tuple[Pair, ...]
    bias: Fraction | None
    spread: Fraction | None
    exact: Fraction | None
    within_one: Fraction | None
    kappa: Fraction | None
    differences: Quartiles | None
    problem_share: Fraction | None
    reasons: tuple[tuple[str, int], ...]

    @property
    def compared(self) -> tuple[Pair, ...]:
        return tuple(each for each in self.pairs if not each.is_problem)

    @property
    def returned(self) -> tuple[Pair, ...]:
        """The pairs whose coin came back as a problem coin."""
        return tuple(each for each in self.pairs if each.is_problem)

    @property
    def is_weak(self) -> bool:
        return len(self.compared) < WEAK_UNDER


def step_of(grade: Grade) -> int:
    """Find a grade's place among the thirty steps, from 0: the step at or next below what it counts.

    A range counts its low end and a split grade its lower side, as everywhere.
    """
    counted = grade.counted()
    return max(bisect_right(_NUMBERS, counted.numerator // counted.denominator) - 1, 0)


def last_before(own: Sequence[Opinion], certified_on: Day | None) -> Grade | Why:
    """Find the keeper's last grade before a certificate, in grades from oldest to newest, or why there is none.

    A grade of the certificate's own day is not before it. A lone grade is taken to be the one that went with the
    coin where either day is not told; of several, what may lie on either side of the certificate is not guessed.
    """
    if not own:
        return Why.NO_OWN
    if len(own) == 1 and (own[0].on is None or certified_on is None):
        return own[0].grade
    for each in reversed(own):
        if certified_on is None or each.on is None:
            return Why.ORDER_NOT_TOLD
        if each.on.last < certified_on.first:
            return each.grade
        is_after = each.on.first > certified_on.last or each.on == certified_on
        if not is_after:
            return Why.ORDER_NOT_TOLD
    return Why.NONE_BEFORE


def pair_up(
    coin: str, own: Sequence[Opinion], certificates: Iterable[Certified]
) -> tuple[tuple[Pair, ...], tuple[Unpaired, ...]]:
    """Set each certificate of a coin beside the keeper's last grade before it; the rest are named with why."""
    pairs: list[Pair] = []
    unpaired: list[Unpaired] = []
    for each in certificates:
        found = last_before(own, each.on)
        if isinstance(found, Why):
            unpaired.append(Unpaired(coin, each, found))
        else:
            pairs.append(Pair(coin, found, each.grade, each.by, reasons_of(each)))
    return tuple(pairs), tuple(unpaired)


def reasons_of(certified: Certified) -> tuple[str, ...]:
    """List why a coin came back as a problem coin, each reason once: as told beside the grade, then in it."""
    named = certified.grade.reason.split(",") if certified.grade.details else []
    once: dict[str, str] = {}
    for each in (*certified.problems, *(each.strip() for each in named)):
        if each:
            once.setdefault(each.casefold(), each)
    return tuple(once.values())


def agree(pairs: Iterable[Pair]) -> Agreement:
    """Work out how pairs of grades agree. A figure of no pairs is None."""
    found = tuple(pairs)
    compared = [each for each in found if not each.is_problem]
    reasons: dict[str, int] = {}
    for each in found:
        for reason in each.problems:
            reasons[reason] = reasons.get(reason, 0) + 1
    differences = [each.difference for each in compared]
    return Agreement(
        found,
        _mean(differences),
        _mean([abs(each) for each in differences]),
        _mean([each == 0 for each in differences]),
        _mean([abs(each) <= 1 for each in differences]),
        quadratic_kappa(
            [step_of(each.own) for each in compared], [step_of(each.certified) for each in compared]
        ),
        quartiles(differences),
        _mean([each.is_problem for each in found]),
        tuple(sorted(reasons.items(), key=lambda each: (-each[1], each[0]))),
    )


def _mean(numbers: Sequence[int]) -> Fraction | None:
    return Fraction(sum(numbers), len(numbers)) if numbers else None


def quadratic_kappa(first: Sequence[int], second: Sequence[int]) -> Fraction | None:
    """Work out Cohen's kappa weighted by the square of the distance; None where chance expects no distance.

    One less the observed squared distance over that expected if the two columns were paired by chance
    (Cohen, Psychological Bulletin 70, 1968; from memory, not checked).
    """
    n = len(first)
    observed = sum((a - b) ** 2 for a, b in zip(first, second, strict=True))
    squares = n * (sum(a * a for a in first) + sum(b * b for b in second))
    expected = squares - 2 * sum(first) * sum(second)  # n times the sum over all pairings
    return 1 - Fraction(observed * n, expected) if expected else None
