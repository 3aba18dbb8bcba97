from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.measures import TROY_OUNCE_G, parse_weight
from daterun.trade.metals import (
    ELEMENT_DENSITIES,
    KNOWN_METALS,
    Alloy,
    alloy_of,
    density,
    fine_weight,
    parse_fineness,
    parse_metal,
    specific_gravity,
)

FACTS = Path(__file__).parents[1] / "facts"
ACT = yaml.load((FACTS / "coinage_act_1870.yaml").read_text("utf-8"), yaml.BaseLoader)
SILVER = yaml.load((FACTS / "silver.yaml").read_text("utf-8"), yaml.BaseLoader)


def parts_of(mixture):
    return {name: Fraction(part) for name, part in mixture["parts"].items()}


def silver_copper(fineness):
    """Reckon the density of silver of a fineness whose rest is copper."""
    return alloy_of(KNOWN_METALS["silver"], fineness).density


def misread(parse, *texts):
    with pytest.raises(Misread) as caught:
        parse(*texts)
    return caught.value.sentence, caught.value.hint


# --- names -----------------------------------------------------------------------


@pytest.mark.parametrize("name", KNOWN_METALS)
def test_every_known_metal_is_read_by_its_name_in_any_case(name):
    assert parse_metal(name.upper()) is KNOWN_METALS[name]
    assert str(parse_metal(name)) == name


def test_other_spellings_of_a_metal_are_understood():
    assert parse_metal("cupronickel") is parse_metal("copper-nickel") is KNOWN_METALS["cupro-nickel"]
    assert parse_metal("aluminum bronze") is KNOWN_METALS["aluminium-bronze"]
    assert parse_metal("nickel brass") is KNOWN_METALS["nickel-brass"]


def test_fineness_counts_the_precious_metal():
    assert [metal.name for metal in KNOWN_METALS.values() if metal.precious] == [
        "gold",
        "silver",
        "platinum",
        "billon",
    ]
    assert parse_metal("billon").fine == "silver"
    assert parse_metal("bronze").fine is None


def test_a_misspelt_metal_is_met_with_the_nearest_one():
    assert misread(parse_metal, "sliver") == ('"sliver" is not a metal known here', 'did you mean "silver"?')
    assert misread(parse_metal, "unobtainable")[1].startswith("known here: gold, silver")


# --- fineness ----------------------------------------------------------------------


@pytest.mark.parametrize("text", [".925", "0.925", "925", "925/1000", "37/40"])
def test_sterling_fineness_is_the_same_however_it_is_written(text):
    # 37/40: House of Commons written answer, 23 February 1937, vol. 320 cc. 1846-7W
    fineness = parse_fineness(text)
    assert fineness.value == Fraction(37, 40)
    assert fineness == parse_fineness(".925")
    assert str(fineness) == ".925"


@pytest.mark.parametrize(
    ("text", "shown"),
    [(".5", ".500"), ("11/12", ".9167"), ("916.66", ".9167"), ("1", "1.000"), ("999", ".999")],
)
def test_fineness_is_shown_as_thousandths_after_a_point(text, shown):
    assert str(parse_fineness(text)) == shown


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("sterling", "write .925, 925 or 37/40"),
        ("0", "fineness is more than 0 and at most 1, such as .925"),
        ("41/40", "fineness is more than 0 and at most 1, such as .925"),
        ("92.5", "fineness is more than 0 and at most 1, such as .925"),
        ("1925", "fineness is more than 0 and at most 1, such as .925"),
        ("-.5", "write .925, 925 or 37/40"),
    ],
)
def test_what_is_no_part_of_a_whole_is_no_fineness(text, hint):
    assert misread(parse_fineness, text) == (f'"{text}" is not a fineness', hint)


@given(some.integers(1, 1000))
def test_every_fineness_in_thousandths_is_read_back_from_its_text(thousandths):
    fineness = parse_fineness(f"{thousandths}/1000")
    assert parse_fineness(str(fineness)) == fineness


# --- density -----------------------------------------------------------------------


@pytest.mark.parametrize("metal", SILVER["elements"])
def test_densities_of_the_elements_are_the_published_ones(metal):
    assert ELEMENT_DENSITIES[metal] == Decimal(SILVER["elements"][metal]["value"])
    assert density({metal: Fraction(1)}) == Decimal(SILVER["elements"][metal]["value"])


@pytest.mark.parametrize("mixture", SILVER["mixtures"], ids=lambda mixture: mixture["alloy"])
def test_the_density_of_a_mixture_goes_by_reciprocals(mixture):
    assert density(parts_of(mixture)) == Decimal(mixture["density"])


def test_the_density_of_sterling_is_the_published_one_to_the_second_decimal():
    # Sterling silver 92.5/7.5, metal supplier's data sheet: see the sources in facts/silver.yaml
    published = Decimal(SILVER["published"]["sterling silver"]["density"])
    assert abs(silver_copper(parse_fineness(".925")) - published) <= Decimal("0.005")


def test_parts_by_weight_are_not_mixed_as_if_by_volume():
    wrong = Decimal(SILVER["wrong by volume"]["silver .500"])
    assert (ELEMENT_DENSITIES["silver"] + ELEMENT_DENSITIES["copper"]) / 2 == wrong
    assert silver_copper(parse_fineness(".500")) == Decimal("9.665") != wrong


def test_a_mixture_with_a_part_of_unknown_density_has_none():
    assert density({"copper": Fraction(1, 2), "manganese": Fraction(1, 2)}) is None
    assert density({}) is None


@given(some.fractions(Fraction(1, 1000), 1, max_denominator=1000))
def test_a_mixture_of_silver_and_copper_lies_between_the_two(fineness):
    found = silver_copper(parse_fineness(f"{fineness.numerator}/{fineness.denominator}"))
    assert ELEMENT_DENSITIES["copper"] <= found <= ELEMENT_DENSITIES["silver"]


def test_precious_metal_of_a_fineness_is_taken_to_be_filled_up_with_copper():
    alloy = alloy_of(parse_metal("silver"), parse_fineness(".750"))
    assert alloy == Alloy("silver .750", (("silver", Fraction(3, 4)), ("copper", Fraction(1, 4))))
    assert alloy.density == Decimal("10.061")
    assert alloy_of(parse_metal("gold"), parse_fineness("1")).parts == (("gold", Fraction(1)),)


def test_an_alloy_whose_parts_are_not_known_says_so_by_having_none():
    assert alloy_of(parse_metal("bronze")) == Alloy("bronze")
    assert alloy_of(parse_metal("silver")).parts == ()
    assert alloy_of(parse_metal("bronze")).density is None
    assert alloy_of(parse_metal("nickel")).density == Decimal("8.908")


# --- fine metal --------------------------------------------------------------------


@pytest.mark.parametrize("coin", SILVER["fine silver"], ids=lambda coin: f"{coin['coin']} {coin['fineness']}")
def test_silver_at_standard_weight_is_an_exact_part_of_a_troy_ounce(coin):
    standard = Fraction(SILVER["standard weight"][coin["coin"]])
    fineness = parse_fineness(coin["fineness"])
    assert standard * fineness.value == Fraction(coin["ounces"])
    fine = fine_weight(parse_weight(f"{standard} oz t"), fineness)
    assert fine.quantize(Decimal("0.0001")) == Decimal(coin["grams"])
    assert abs(Fraction(fine / TROY_OUNCE_G) - Fraction(coin["ounces"])) < Fraction(1, 10**20)


@pytest.mark.parametrize("name", SILVER["standard weight"])
def test_the_printed_weight_of_a_silver_coin_is_its_part_of_a_troy_ounce(name):
    printed = next(coin for coin in ACT["coins"] if coin["coin"] == name)
    exact = Fraction(SILVER["standard weight"][name]) * 480
    assert 0 <= exact - Fraction(printed["grains"]) < Fraction(1, 100_000)


@pytest.mark.parametrize("metal", ["gold", "silver"])
def test_the_fineness_of_the_law_of_1870_is_read_as_printed(metal):
    # Sterling is 37/40; gold is 11/12, printed as 916.66 and cut off.
    exact = {"gold": Fraction(11, 12), "silver": Fraction(37, 40)}[metal]
    for coin in ACT["coins"]:
        if coin["metal"] == metal:
            assert 0 <= exact - parse_fineness(coin["fineness"]).value < Fraction(1, 100_000)


def test_a_weighed_coin_counts_by_its_own_weight():
    # Half-crown of 1902 as weighed, 14.104 g: Museums Victoria Collections, item 82733,
    # https://collections.museumsvictoria.com.au/items/82733
    assert fine_weight(parse_weight("14.104 g"), parse_fineness(".925")) == Decimal("13.0462")


# --- weighing in water ---------------------------------------------------------------


def test_specific_gravity_comes_with_what_the_reading_allows():
    gravity = specific_gravity(parse_weight("8.97 g"), parse_weight("8.08 g"), parse_weight("0.01 g"))
    value, low, high = gravity
    assert (value, low, high) == (Decimal("10.079"), Decimal("9.972"), Decimal("10.188"))
    assert gravity.low < silver_copper(parse_fineness(".750")) < gravity.high


def test_without_a_stated_reading_the_coarser_last_figure_counts():
    dry, wet = parse_weight("8.970 g"), parse_weight("8.08 g")
    assert specific_gravity(dry, wet) == specific_gravity(dry, wet, parse_weight("10 mg"))


def test_a_coin_that_weighs_no_less_in_water_is_misread():
    assert misread(specific_gravity, parse_weight("8 g"), parse_weight("8.1 g")) == (
        '"8.1 g" in water is not less than "8 g" in air',
        "the weight in water is the smaller",
    )


def test_a_balance_too_coarse_to_tell_is_said_so():
    sentence, _ = misread(specific_gravity, parse_weight("9 g"), parse_weight("8 g"))
    assert sentence == "a reading of 1 g is too coarse for a loss of 1 g in water"


@given(some.decimals("2", "40", places=2), some.decimals("7.1", "19.3", places=1))
def test_the_true_gravity_lies_within_what_rounded_readings_allow(dry, true_gravity):
    wet = (dry - dry / true_gravity).quantize(Decimal("0.01"))
    gravity = specific_gravity(parse_weight(f"{dry} g"), parse_weight(f"{wet} g"))
    rounding = Decimal("0.001")
    assert gravity.low - rounding <= true_gravity <= gravity.high + rounding
