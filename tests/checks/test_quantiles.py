from fractions import Fraction

import numpy
from hypothesis import given
from hypothesis import strategies as some

from daterun.checks.quantiles import Quartiles, median, quantile, quartiles

WHOLE = some.lists(some.integers(-1000, 1000), min_size=1, max_size=40)


@given(WHOLE, some.fractions(0, 1, max_denominator=64))
def test_a_quantile_is_what_numpy_finds(numbers, part):
    found = quantile(numbers, part)
    assert abs(float(found) - float(numpy.quantile(numbers, float(part)))) < 1e-9


@given(some.lists(some.fractions(-50, 50, max_denominator=1000), min_size=1, max_size=30))
def test_a_median_is_what_numpy_finds(numbers):
    assert abs(float(median(numbers)) - float(numpy.median([float(each) for each in numbers]))) < 1e-9


@given(WHOLE)
def test_quartiles_are_three_quantiles(numbers):
    found = quartiles(numbers)
    expected = numpy.quantile(numbers, [0.25, 0.5, 0.75])
    assert [float(found.low), float(found.median), float(found.high)] == list(expected)


def test_numbers_are_put_in_order_first():
    assert quartiles([4, 1, 3, 2]) == Quartiles(Fraction(7, 4), Fraction(5, 2), Fraction(13, 4))
    assert median([9]) == 9
    assert quantile([1, 2], Fraction(1)) == 2


def test_no_numbers_have_no_median():
    assert median([]) is None
    assert quartiles([]) is None
    assert quantile([], Fraction(1, 2)) is None
