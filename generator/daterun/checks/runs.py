"""What the state of a run or an aim amounts to: unbroken stretches, grades, and what another grade would do."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from daterun.checks.completeness import Filled, State
from daterun.checks.slots import Slot
from daterun.records.aims import End
from daterun.trade.grading import Grade


@dataclass(frozen=True, slots=True)
class Stretch:
    """Slots that follow one another, each filled; the names are those of the first and the last.

    The series is that of the first.
    """

    length: int
    first: str
    last: str
    series: str


def longest_stretch(states: Sequence[Filled]) -> Stretch | None:
    """Find the longest unbroken stretch of filled slots, the earliest among equals; None where none is filled.

    Slots left out break no stretch and count in none. Where one series follows another the stretch ends.
    Slots without a date follow nothing, and are in no stretch.
    """
    best: list[Filled] = []
    current: list[Filled] = []
    for each in states:
        if not each.slot.is_dated:
            continue
        if current and not each.slot.members and _of_others(current[-1].slot, each.slot.series):
            current = []
        if each.state is State.LEFT_OUT:
            continue
        if each.state is State.FILLED:
            current.append(each)
        else:
            current = []
        if len(current) > len(best):
            best = current
    if not best:
        return None
    return Stretch(len(best), best[0].slot.name, best[-1].slot.name, best[0].slot.series)


def _of_others(slot: Slot, series: str) -> bool:
    """Tell whether a slot is of other series than of one alone."""
    return slot.all_series != (series,) if slot.members else slot.series != series


@dataclass(frozen=True, slots=True)
class Grades:
    """The grades of the coins that fill slots: their mean on the 70-point scale, and the weakest coins.

    The ungraded are ids of coins that fill a slot and have no grade; they are in neither figure.
    """

    mean: Fraction | None
    weakest: tuple[str, ...]
    ungraded: tuple[str, ...]


def grades_of(states: Sequence[Filled], grades: Mapping[str, Grade | None], counts: End = End.LOW) -> Grades:
    """Work out the mean grade of the coins that fill slots, and which of them is the weakest.

    The end of a range that counts is that of the aim.
    """
    coins = [each.coin for each in states if each.state is State.FILLED and each.coin is not None]
    counted = {coin: grade.counted(counts.value) for coin in coins if (grade := grades.get(coin)) is not None}
    if not counted:
        return Grades(None, (), tuple(coins))
    whole = lcm(
        *{each.denominator for each in counted.values()}
    )  # whole numbers are added in a fifth of the time
    steps = {coin: each.numerator * (whole // each.denominator) for coin, each in counted.items()}
    least = min(steps.values())
    return Grades(
        Fraction(sum(steps.values()), whole * len(steps)),
        tuple(coin for coin in coins if steps.get(coin) == least),
        tuple(coin for coin in coins if coin not in counted),
    )
