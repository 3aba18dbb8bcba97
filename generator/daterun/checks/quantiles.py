"""Medians and quantiles of exact numbers, by straight lines between the numbers in their order."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Quartiles:
    """The number that a quarter, a half and three quarters of the numbers lie at or under."""

    low: Fraction
    median: Fraction
    high: Fraction


def quantile(numbers: Iterable[Fraction | int], part: Fraction) -> Fraction | None:
    """Find the number that a part of the numbers, from 0 to 1, lies at or under; None where there are none.

    Between two numbers in their order it lies on the straight line from one to the other: of 1, 2, 3 and 4 the
    half is 2 1/2 and the quarter 1 3/4. That is the seventh of the nine rules in use (Hyndman and Fan, American
    Statistician 50, 1996; from memory, not checked).
    """
    return _of_sorted(_in_order(numbers), part)


def median(numbers: Iterable[Fraction | int]) -> Fraction | None:
    """Find the middle number, half way between the two middle ones of an even number of them."""
    return quantile(numbers, Fraction(1, 2))


def quartiles(numbers: Iterable[Fraction | int]) -> Quartiles | None:
    """Find the three quartiles; None where there are no numbers."""
    found = _in_order(numbers)
    low, middle, high = (_of_sorted(found, Fraction(nth, 4)) for nth in (1, 2, 3))
    if low is None or middle is None or high is None:
        return None
    return Quartiles(low, middle, high)


def _in_order(numbers: Iterable[Fraction | int]) -> list[Fraction]:
    """Sort exact numbers, each once and first by its part of a fine grid, for fractions are slow to compare."""
    many = Counter((each.numerator, each.denominator) for each in numbers)
    apart = [Fraction(*each) for each in many]
    apart.sort(key=lambda each: ((each.numerator << 64) // each.denominator, each))
    return [each for each in apart for _ in range(many[each.numerator, each.denominator])]


def _of_sorted(numbers: list[Fraction], part: Fraction) -> Fraction | None:
    if not numbers:
        return None
    place = part * (len(numbers) - 1)
    below = place.numerator // place.denominator
    above = min(below + 1, len(numbers) - 1)
    return numbers[below] + (place - below) * (numbers[above] - numbers[below])
