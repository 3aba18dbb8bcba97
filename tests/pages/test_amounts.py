from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from daterun.pages.amounts import (
    say_amount,
    say_face,
    say_grams,
    say_money,
    say_number,
    say_ounces,
    say_percent,
    say_share,
    say_steps,
    say_sum,
    thousandths,
)
from daterun.trade.faces import MoneySystem
from daterun.trade.money import Money

VESSMARK = MoneySystem.read([("daler", "4 ort"), ("ort", "24 skilling")])
STERLING = MoneySystem.read([("pound", "20 shillings"), ("shilling", "12 pence")])


def vkr(amount):
    return Money(Decimal(amount), "VKR")


def test_an_amount_has_its_thousands_grouped_and_its_currency(words):
    assert say_money(vkr("1250.00"), words) == "1,250.00 VKR"
    assert say_money(vkr("0.615"), words) == "0.615 VKR"
    assert say_money(vkr("-1250.5"), words) == "\u22121,250.5 VKR"


def test_a_reckoned_amount_is_told_to_the_hundredth(words):
    assert say_amount(vkr("4.1175"), words) == "4.12 VKR"
    assert say_amount(vkr("310"), words) == "310.00 VKR"
    assert say_amount(None, words) == ""


def test_a_sum_names_each_of_its_currencies(words):
    assert say_sum([Money(Decimal(10), "ABC"), vkr("45.50")], words) == "10.00 ABC and 45.50 VKR"
    assert say_sum([], words) == ""


def test_metal_is_told_to_the_hundredth_of_a_gram_and_the_thousandth_of_an_ounce(words):
    assert say_grams(Decimal("12345.678"), words) == "12,345.68 g"
    assert say_ounces(Decimal("0.8409"), words) == "0.841 oz t"


def test_a_share_is_told_in_hundredths(words):
    assert say_share(Fraction(2, 3), words) == "67 %"
    assert say_share(None, words) == "not known"


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        (Fraction(1, 2), "+0.50"),
        (Fraction(-4, 3), "\u22121.33"),
        (Fraction(0), "0.00"),
        (Fraction(-1, 999), "0.00"),
    ],
)
def test_a_difference_has_its_sign_and_nought_has_none(words, steps, said):
    assert say_steps(steps, words) == said


def test_what_cannot_be_reckoned_is_not_known_and_never_nought(words):
    assert say_steps(None, words) == say_number(None, words) == "not known"


def test_a_small_part_has_two_decimals():
    assert say_percent(Fraction(1, 300)) == "0.33 %"
    assert say_percent(Fraction(-1, 1000)) == "\u22120.10 %"
    assert say_percent(Fraction(0)) == "0.00 %"


@pytest.mark.parametrize(
    ("value", "system", "said"),
    [
        (96 + 24 * 3 + 5, VESSMARK, "1 daler 3 ort 5 skilling"),
        (Fraction(97, 2), VESSMARK, "2 ort 1/2 skilling"),
        (192, VESSMARK, "2 daler"),
        (30, STERLING, "2 shillings 6 pence"),
        (241, STERLING, "1 pound 1 penny"),
        (Fraction(1, 4), STERLING, "1/4 pence"),
    ],
)
def test_old_money_is_told_from_its_largest_unit_down(value, system, said):
    assert say_face(Fraction(value), system) == said


@given(some.integers(1, 10**6))
def test_no_old_money_is_lost_in_telling(quarters):
    value = Fraction(quarters, 4)
    total, number = Fraction(0), Fraction(0)
    for word in say_face(value, VESSMARK).split():
        if word[0].isdigit():
            number += Fraction(word)
        else:
            total += number * {"daler": 96, "ort": 24, "skilling": 1}[word]
            number = Fraction(0)
    assert total == value


def test_bars_are_as_long_as_their_part_of_the_longest():
    assert thousandths([10, 5, 0, Decimal("2.5")]) == (1000, 500, 0, 250)
    assert thousandths([100_000, 1]) == (1000, 1)
    assert thousandths([0, 0]) == (0, 0)
    assert thousandths([]) == ()
