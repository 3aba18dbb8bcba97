"""What the state of a run or an aim amounts to: unbroken stretches, grades, and what another grade would do."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from daterun.checks.completeness import Filled, State
from daterun.trade.grading import Grade
from daterun.trade.scales import STEPS


@dataclass(frozen=True, slots=True)
class Stretch:
    """Slots that follow one another, each filled; the names are those of the first and the last."""

    length: int
    first: str
    last: str


def longest_stretch(states: Sequence[Filled]) -> Stretch | None:
    """Find the longest unbroken stretch of filled slots, the earliest among equals; None where none is filled.

    Slots left out break no stretch and count in none. Where one series follows another the stretch ends.
    """
    best: list[Filled] = []
    current: list[Filled] = []
    for each in states:
        if current and current[-1].slot.series != each.slot.series:
            current = []
        if each.state is State.LEFT_OUT:
            continue
        current = [*current, each] if each.state is State.FILLED else []
        if len(current) > len(best):
            best = current
    return Stretch(len(best), best[0].slot.name, best[-1].slot.name) if best else None


@dataclass(frozen=True, slots=True)
class Grades:
    """The grades of the coins that fill slots: their mean on the 70-point scale, and the weakest coins.

    The ungraded are ids of coins that fill a slot and have no grade; they are in neither figure.
    """

    mean: Fraction | None
    weakest: tuple[str, ...]
    ungraded: tuple[str, ...]


def grades_of(states: Sequence[Filled], grades: Mapping[str, Grade | None]) -> Grades:
    """Work out the mean grade of the coins that fill slots, and which of them is the weakest."""
    coins = [each.coin for each in states if each.state is State.FILLED and each.coin is not None]
    counted = {coin: grade.counted() for coin in coins if (grade := grades.get(coin)) is not None}
    if not counted:
        return Grades(None, (), tuple(coins))
    least = min(counted.values())
    return Grades(
        sum(counted.values(), Fraction(0)) / len(counted),
        tuple(coin for coin in coins if counted.get(coin) == least),
        tuple(coin for coin in coins if coin not in counted),
    )


def grade_curve(states: Sequence[Filled], grades: Mapping[str, Grade | None]) -> tuple[tuple[int, int], ...]:
    """Count, for each of the thirty steps, the slots whose coin is of that grade or better.

    It is the plain count by the coin that stands in each slot now, filled or below; ungraded coins count nowhere.
    """
    held = [
        grade.counted()
        for each in states
        if each.coin is not None
        and each.state in (State.FILLED, State.BELOW)
        and (grade := grades.get(each.coin)) is not None
    ]
    return tuple((step.number, sum(1 for each in held if each >= step.number)) for step in STEPS)
