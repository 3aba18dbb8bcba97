from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pint
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.measures import (
    GRAIN_G,
    TROY_OUNCE_G,
    parse_axis,
    parse_length,
    parse_weight,
    show_grams,
    show_millimetres,
    show_troy_ounces,
)

FACTS = Path(__file__).parents[1] / "facts"
ACT = yaml.load((FACTS / "coinage_act_1870.yaml").read_text("utf-8"), yaml.BaseLoader)
SILVER = yaml.load((FACTS / "silver.yaml").read_text("utf-8"), yaml.BaseLoader)
AXES = yaml.load((FACTS / "die_axis.yaml").read_text("utf-8"), yaml.BaseLoader)
EVERY_COIN = pytest.mark.parametrize("coin", ACT["coins"], ids=lambda coin: coin["coin"])


def misread(parse, text):
    with pytest.raises(Misread) as caught:
        parse(text)
    return caught.value.sentence, caught.value.hint


# --- the law of 1870, all its rows ---------------------------------------------


def test_the_law_of_1870_has_sixteen_coins():
    assert len(ACT["coins"]) == 16


@EVERY_COIN
def test_grains_of_the_law_are_its_grams(coin):
    for grains, grams in (("grains", "grams"), ("remedy grains", "remedy grams")):
        weight = parse_weight(f"{coin[grains]} gr")
        assert abs(weight.grams - Decimal(coin[grams])) <= Decimal(ACT["tolerance grams"])
        assert abs(parse_weight(f"{coin[grams]} g").grains - Decimal(coin[grains])) <= Decimal("0.0005")


@EVERY_COIN
def test_the_remedy_of_silver_and_bronze_is_one_share_of_the_weight(coin):
    if coin["metal"] == "gold":
        # By arithmetic on the printed rows: one in 616.4 or so.
        share = parse_weight(f"{coin['grains']} gr").grams / parse_weight(f"{coin['remedy grains']} gr").grams
        assert abs(share - Decimal("616.37")) < Decimal("0.01")
    else:
        exact = Fraction(coin["grains"]) * Fraction(ACT["remedy of weight"][coin["metal"]])
        assert abs(Fraction(coin["remedy grains"]) - exact) < Fraction(1, 50_000)


def test_sixty_six_shillings_are_struck_from_a_troy_pound():
    shilling = parse_weight("87 3/11 gr")
    assert abs(shilling.grams * int(ACT["shillings to the troy pound"]) - 12 * TROY_OUNCE_G) < Decimal(
        "1e-20"
    )


def test_forty_eight_pennies_are_struck_from_a_pound_of_bronze():
    printed = next(coin for coin in ACT["coins"] if coin["coin"] == "penny")
    penny = Fraction(7000, int(ACT["pennies to the avoirdupois pound"]))
    assert abs(Fraction(printed["grains"]) - penny) < Fraction(1, 100_000)


# --- weights ---------------------------------------------------------------------


def test_the_grain_and_the_troy_ounce_are_exact():
    # QUDT units vocabulary, unit GRAIN: see the sources in facts/silver.yaml
    assert Decimal(SILVER["units"]["grain in grams"]["value"]) == GRAIN_G
    assert Decimal("31.1034768") == TROY_OUNCE_G
    assert int(SILVER["units"]["troy ounce in grains"]["value"]) * GRAIN_G == TROY_OUNCE_G


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("9.000 g", "9.000"),
        ("9g", "9"),
        ("141 mg", "0.141"),
        ("0.5 oz t", "15.5517384"),
        ("1 troy oz", "31.1034768"),
        ("1 dwt", "1.55517384"),
        ("100 grains", "6.479891"),
        ("1 oz av", "28.349523125"),
        ("1,000.5 g", "1000.5"),
        ("1/2 gr", "0.032399455"),
    ],
)
def test_a_weight_is_kept_in_grams_and_shown_as_typed(text, grams):
    weight = parse_weight(text)
    assert weight.grams == Decimal(grams)
    assert str(weight) == text


def test_grains_are_given_back_exactly():
    assert parse_weight("436.36363 gr").grains == Decimal("436.36363")
    assert parse_weight("2 oz t").troy_ounces == 2


def test_weights_compare_by_grams_alone():
    assert parse_weight("1000 mg") == parse_weight("1 g") < parse_weight("1 dwt")


@pytest.mark.parametrize(
    ("text", "step"), [("8.97 g", "0.01"), ("9 g", "1"), ("141.5 mg", "0.0001"), ("436.4 gr", "0.006479891")]
)
def test_the_last_figure_typed_says_how_finely_a_coin_was_weighed(text, step):
    assert parse_weight(text).last_figure == Decimal(step)


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("8.97", '"8.97" has no unit', "write g, mg, gr or oz t behind the number, such as 8.97 g"),
        ("1 oz", '"1 oz" does not say which ounce', "write 1 oz t for troy, 1 oz av otherwise"),
        ("9 stone", '"stone" is not a unit of weight known here', "write g, mg, gr or oz t, as in 8.97 g"),
        (
            "8,97 g",
            '"8,97" has a comma where a point is wanted',
            "decimals follow a point: write 8.97",
        ),
        ("0 g", '"0 g" is not a weight', "it is more than nothing"),
        ("heavy", '"heavy" is not a weight', "write a number and its unit, such as 8.97 g"),
        ("-1 g", '"-1 g" is not a weight', "write a number and its unit, such as 8.97 g"),
    ],
)
def test_a_weight_without_number_or_unit_is_misread(text, sentence, hint):
    assert misread(parse_weight, text) == (sentence, hint)


@given(
    some.decimals("0.001", 5000, places=3),
    some.sampled_from(
        [
            ("g", "gram"),
            ("mg", "milligram"),
            ("gr", "grain"),
            ("dwt", "pennyweight"),
            ("oz t", "troy_ounce"),
            ("oz av", "ounce"),
        ]
    ),
)
def test_weights_agree_with_another_reckoner_of_units(number, unit):
    ours, theirs = unit
    other = REGISTRY.Quantity(number, theirs).to("gram").magnitude
    assert abs(parse_weight(f"{number} {ours}").grams - other) <= number * Decimal("1e-20")


REGISTRY = pint.UnitRegistry(non_int_type=Decimal)


# --- lengths ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "mm"),
    [("26.5 mm", "26.5"), ("2.65 cm", "26.5"), ("1.25 in", "31.75"), ("1 1/4 in", "31.75"), ('1"', "25.4")],
)
def test_a_length_is_kept_in_millimetres(text, mm):
    length = parse_length(text)
    assert length.mm == Decimal(mm)
    assert str(length) == text
    inches = REGISTRY.Quantity(length.mm, "millimeter").to("inch").magnitude
    assert abs(inches * Decimal("25.4") - length.mm) < Decimal("1e-20")


def test_a_length_without_unit_is_misread():
    assert misread(parse_length, "26.5") == (
        '"26.5" has no unit',
        "write mm, cm or in behind the number, such as 26.5 mm",
    )
    assert misread(parse_length, "26.5 g")[0] == '"g" is not a unit of length known here'


# --- die axis ----------------------------------------------------------------------


@pytest.mark.parametrize(("hours", "degrees"), AXES["degrees of hours"].items())
def test_hours_and_degrees_are_the_same_axis(hours, degrees):
    by_hours, by_degrees = parse_axis(f"{hours}h"), parse_axis(f"{degrees}°")
    assert by_hours == by_degrees
    assert by_hours.degrees == int(degrees)
    assert by_degrees.hours == int(hours)
    assert str(by_degrees) == f"{hours}h"


@pytest.mark.parametrize("alignment", AXES["arrows"].values(), ids=AXES["arrows"])
def test_arrows_show_medal_and_coin_alignment(alignment):
    assert parse_axis(alignment["arrows"]).hours == int(alignment["hours"])


def test_an_axis_between_two_hours_stays_in_degrees():
    axis = parse_axis("15 degrees")
    assert (axis.degrees, axis.hours, str(axis)) == (15, None, "15°")


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("13h", '"13h" is not a die axis', "hours run from 1 to 12"),
        ("0h", '"0h" is not a die axis', "hours run from 1 to 12"),
        ("360°", '"360°" is not a die axis', "degrees run from 0 to 359"),
        ("6", '"6" does not say whether it is hours or degrees', "write 6h or 6°"),
        (
            "↓↓",
            '"↓↓" is not a die axis',
            "write it in hours, such as 12h, or in degrees, such as 180°",
        ),
        (
            "-90°",
            '"-90°" is not a die axis',
            "write it in hours, such as 12h, or in degrees, such as 180°",
        ),
    ],
)
def test_what_is_no_axis_is_misread(text, sentence, hint):
    assert misread(parse_axis, text) == (sentence, hint)


@given(some.integers(0, 359))
def test_every_axis_is_read_back_from_its_own_text(degrees):
    axis = parse_axis(f"{degrees}°")
    assert parse_axis(str(axis)) == axis
    assert axis.degrees == degrees


# --- wording -----------------------------------------------------------------------


def test_measures_are_worded_as_finely_as_they_are_worth():
    assert show_grams(Decimal("8.97")) == "8.97 g"
    assert show_grams(Decimal("9.000")) == "9.000 g"
    assert show_grams(Decimal("9")) == "9.00 g"
    assert show_grams(Decimal("28.2758879")) == "28.276 g"
    assert show_grams(Decimal("8.9645")) == "8.965 g"
    assert show_millimetres(Decimal("26")) == "26.0 mm"
    assert show_millimetres(Decimal("32.305")) == "32.31 mm"
    assert show_troy_ounces(Decimal(4) / Decimal(11)) == "0.364 oz t"


@pytest.mark.parametrize("text", ["1000001 g", "9999999999 oz t", "1001 kg"])
def test_a_weight_of_more_than_a_ton_is_that_of_no_coin(text):
    with pytest.raises(Misread, match="is not the weight of a coin"):
        parse_weight(text)
    assert parse_weight("1000 kg").grams == 1_000_000
