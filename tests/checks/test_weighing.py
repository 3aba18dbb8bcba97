from decimal import Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path

import numpy
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.checks.weighing import (
    AgainstAlloy,
    AgainstRemedy,
    Weighing,
    has_lost_metal,
    losses_by_word,
    weigh_in_water,
    word_of,
)
from daterun.trade.grading import STEPS, Habit, parse_grade
from daterun.trade.measures import parse_weight
from daterun.trade.metals import KNOWN_METALS, alloy_of, parse_fineness

FACTS = Path(__file__).parents[1] / "facts"
ACT = yaml.load((FACTS / "coinage_act_1870.yaml").read_text("utf-8"), yaml.BaseLoader)


def grade(text):
    return parse_grade(text, Habit.SEVENTY) if text else None


def weighing(measured, standard="9.000 g", remedy="0.040 g", graded="VF30", altered=False):
    return Weighing(
        f"coin of {measured}",
        parse_weight(measured),
        parse_weight(standard),
        parse_weight(remedy) if remedy else None,
        grade(graded),
        altered,
    )


def test_a_loss_is_a_part_of_the_standard():
    assert weighing("8.82 g").loss == Fraction(2, 100)
    assert weighing("9.09 g").loss == -Fraction(1, 100)


@pytest.mark.parametrize(
    ("measured", "found"),
    [
        ("8.96 g", AgainstRemedy.WITHIN),
        ("8.95 g", AgainstRemedy.LIGHT),
        ("9.05 g", AgainstRemedy.WITHIN),
        ("9.06 g", AgainstRemedy.HEAVY),
        ("9.041 g", AgainstRemedy.WITHIN),
        ("9.042 g", AgainstRemedy.HEAVY),
    ],
)
def test_a_weight_is_heavy_only_by_more_than_its_last_figure(measured, found):
    assert weighing(measured).against_remedy is found


def test_without_a_remedy_nothing_is_said_of_it():
    assert weighing("8.50 g", remedy="").against_remedy is AgainstRemedy.NOT_LAID_DOWN


@pytest.mark.parametrize("row", ACT["coins"], ids=lambda row: row["coin"])
def test_coins_of_the_act_of_1870_are_within_its_remedy_to_its_very_edge(row):
    standard, remedy = Decimal(row["grams"]), Decimal(row["remedy grams"])
    for off, found in (
        (-remedy, AgainstRemedy.WITHIN),
        (remedy, AgainstRemedy.WITHIN),
        (-remedy - Decimal("0.00001"), AgainstRemedy.LIGHT),
        (remedy + Decimal("0.00002"), AgainstRemedy.HEAVY),
    ):
        case = weighing(f"{standard + off} g", f"{standard} g", f"{remedy} g")
        assert case.against_remedy is found
        assert case.loss == -Fraction(off) / Fraction(standard)


def test_a_weight_in_grains_lies_against_a_standard_in_grams():
    half_crown = weighing("218.18181 gr", "14.13795 g", "0.05890 g")
    assert abs(half_crown.loss) < Fraction(1, 100_000)


@pytest.mark.parametrize("step", STEPS, ids=str)
def test_each_step_of_the_scale_counts_under_its_own_word(step):
    assert word_of(grade(str(step))) == step.abbreviation


LOSSES = some.lists(some.tuples(some.sampled_from(STEPS), some.integers(8000, 9100)), min_size=1, max_size=40)


@given(LOSSES)
def test_losses_by_word_are_what_numpy_finds(coins):
    found = losses_by_word(
        weighing(f"{Decimal(milligrams) / 1000} g", graded=str(step)) for step, milligrams in coins
    )
    groups = {}
    for step, milligrams in coins:
        groups.setdefault(step.abbreviation, []).append((9000 - milligrams) / 9000)
    assert {each.word: len(each.coins) for each in found} == {word: len(own) for word, own in groups.items()}
    assert [each.lowest for each in found] == sorted(each.lowest for each in found)
    for each in found:
        shown = [float(each.quartiles.low), float(each.quartiles.median), float(each.quartiles.high)]
        assert shown == pytest.approx(list(numpy.quantile(groups[each.word], [0.25, 0.5, 0.75])), abs=1e-9)


def test_the_ungraded_and_those_that_lost_metal_otherwise_are_in_no_loss_by_grade():
    assert losses_by_word([weighing("8.80 g", graded=""), weighing("8.10 g", altered=True)]) == ()


def test_a_hole_or_a_clip_takes_metal_and_cleaning_does_not():
    assert has_lost_metal(("cleaned", "Holed"))
    assert not has_lost_metal(("cleaned", "scratched"))


SILVER_750 = alloy_of(KNOWN_METALS["silver"], parse_fineness(".750")).density
SILVER_500 = alloy_of(KNOWN_METALS["silver"], parse_fineness(".500")).density


def in_water(dry, wet, reading, expected):
    step = parse_weight(reading) if reading else None
    return weigh_in_water("a", parse_weight(dry), parse_weight(wet), step, expected)


def test_a_good_weighing_goes_with_its_alloy():
    found = in_water("8.97 g", "8.08 g", "0.01 g", SILVER_750)
    assert found.gravity.value == Decimal("10.079")
    assert found.against_alloy is AgainstAlloy.AGREES


def test_a_cast_of_tin_and_lead_does_not_go_with_silver():
    assert in_water("11.86 g", "10.45 g", "0.01 g", SILVER_750).against_alloy is AgainstAlloy.LOWER


def test_gold_does_not_go_with_silver():
    assert in_water("9.00 g", "8.50 g", "0.01 g", SILVER_500).against_alloy is AgainstAlloy.HIGHER


def test_a_coarse_balance_tells_less():
    light = Decimal("1.50"), Decimal("1.36")
    fine, coarse = (
        in_water(f"{light[0]} g", f"{light[1]} g", step, SILVER_750) for step in ("0.001 g", "0.05 g")
    )
    assert fine.against_alloy is AgainstAlloy.HIGHER
    assert coarse.against_alloy is AgainstAlloy.AGREES


def test_a_balance_too_coarse_to_tell_says_so():
    found = in_water("0.50 g", "0.45 g", "0.1 g", SILVER_750)
    assert found.against_alloy is AgainstAlloy.TOO_COARSE
    assert found.gravity is None and "too coarse" in found.fault


def test_weighings_that_cannot_be_give_no_gravity():
    assert in_water("8.08 g", "8.97 g", "0.01 g", SILVER_750).gravity is None


def test_an_alloy_of_unknown_density_is_compared_with_nothing():
    assert in_water("8.97 g", "8.08 g", "", None).against_alloy is AgainstAlloy.NOT_KNOWN


@given(some.integers(200, 3000), some.integers(5, 15), some.sampled_from(["0.01", "0.001"]))
def test_the_range_is_what_the_balances_reading_allows_at_its_worst(hundredths, part, step):
    """Each weighing may be off by half a step: the range is the least and the most of the four corners."""
    dry = Decimal(hundredths) / 100
    wet = (dry - dry * part / 100).quantize(Decimal(step))
    found = in_water(f"{dry} g", f"{wet} g", f"{step} g", None)
    if found.gravity is None:
        assert dry - wet <= Decimal(step)
        return
    half = Decimal(step) / 2
    corners = [(dry + a) / (dry + a - wet - b) for a, b in product((-half, half), repeat=2)]
    assert found.gravity.low == min(corners).quantize(Decimal("0.001"))
    assert found.gravity.high == max(corners).quantize(Decimal("0.001"))
