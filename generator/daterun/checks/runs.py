"""What the state of a run or an aim amounts to: unbroken stretches, grades, and what another grade would do."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from daterun.checks.completeness import Filled, State
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
        if current and current[-1].slot.all_series != each.slot.all_series and not each.slot.members:
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
    least = min(counted.values())
    return Grades(
        sum(counted.values(), Fraction(0)) / len(counted),
        tuple(coin for coin in coins if counted.get(coin) == least),
        tuple(coin for coin in coins if coin not in counted),
    )
