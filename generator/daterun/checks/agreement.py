"""How the keeper's own grades fared against certificates: bias, spread and agreement, in steps of the scale.

A grade is an opinion, on both sides; what is measured here is agreement between two opinions, not a truth.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from daterun.trade.dates import Day
from daterun.trade.grading import Grade
from daterun.trade.scales import STEPS

WEAK_UNDER = 10
"""Under so many pairs the figures are said to be weak. A round number, without a source."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """One grade of one day; the day is None where it is not told."""

    grade: Grade
    on: Day | None


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
    """How two columns of grades agree, over the pairs that have a number to compare.

    Bias is the mean difference in steps, own less certified; spread the mean of the differences without
    their sign. Exact and within one are shares of the pairs. Kappa is Cohen's, weighted by the square of the
    distance; None where all grades of one column are one and the same. Problem shares are of all pairs.
    """

    pairs: tuple[Pair, ...]
    bias: Fraction | None
    spread: Fraction | None
    exact: Fraction | None
    within_one: Fraction | None
    kappa: Fraction | None
    problem_share: Fraction | None
    reasons: tuple[tuple[str, int], ...]

    @property
    def is_weak(self) -> bool:
        return len(self.pairs) < WEAK_UNDER


def step_of(grade: Grade) -> int:
    """Find a grade's place among the thirty steps, from 0: the step at or next below what it counts.

    A range counts its low end and a split grade its lower side, as everywhere.
    """
    counted = grade.counted()
    return max((nth for nth, step in enumerate(STEPS) if step.number <= counted), default=0)


def last_before(own: Sequence[Opinion], certified_on: Day | None) -> Grade | None:
    """Find the keeper's last grade before a certificate, in grades from oldest to newest; None without one.

    A grade of the certificate's own day, or without a day, counts as before it only where the certificate
    has no day either; a lone grade without a day is taken to be the one that went with the coin.
    """
    if certified_on is None:
        return own[-1].grade if own else None
    before = [each for each in own if each.on is not None and each.on.first < certified_on.first]
    if before:
        return before[-1].grade
    return own[0].grade if len(own) == 1 and own[0].on is None else None


def agree(pairs: Iterable[Pair]) -> Agreement:
    """Work out how pairs of grades agree. No pairs give None for every figure."""
    found = tuple(pairs)
    n = len(found)
    if n == 0:
        return Agreement((), None, None, None, None, None, None, ())
    differences = [each.difference for each in found]
    reasons: dict[str, int] = {}
    for each in found:
        for reason in each.problems:
            reasons[reason] = reasons.get(reason, 0) + 1
    return Agreement(
        found,
        Fraction(sum(differences), n),
        Fraction(sum(abs(each) for each in differences), n),
        Fraction(sum(1 for each in differences if each == 0), n),
        Fraction(sum(1 for each in differences if abs(each) <= 1), n),
        quadratic_kappa([step_of(each.own) for each in found], [step_of(each.certified) for each in found]),
        Fraction(sum(1 for each in found if each.is_problem), n),
        tuple(sorted(reasons.items(), key=lambda each: (-each[1], each[0]))),
    )


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
