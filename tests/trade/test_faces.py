from fractions import Fraction
from pathlib import Path

import pint
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.dates import parse_day
from daterun.trade.faces import DecimalMoney, Face, MoneySystem

FACTS = Path(__file__).parents[1] / "facts"
MONEY = yaml.load((FACTS / "money.yaml").read_text("utf-8"), yaml.BaseLoader)
ACT = yaml.load((FACTS / "coinage_act_1870.yaml").read_text("utf-8"), yaml.BaseLoader)

STERLING = MoneySystem.read([("pound", "20 shillings"), ("shilling", "12 pence")])
VESSMARK = MoneySystem.read([("daler", "4 ort"), ("ort", "24 skilling")])
DECIMAL = MoneySystem.read([("dollar", "100 cents")])


def misread(system, text):
    with pytest.raises(Misread) as caught:
        system.parse_face(text)
    return caught.value.sentence, caught.value.hint


def values(system):
    return {unit.name: unit.value for unit in system.units}


def test_the_units_of_a_money_are_worth_so_many_of_the_smallest():
    assert values(STERLING) == {"pound": 240, "shilling": 12, "penny": 1}
    assert values(VESSMARK) == {"daler": 96, "ort": 24, "skilling": 1}
    assert values(DECIMAL) == {"dollar": 100, "cent": 1}
    assert (STERLING.smallest.name, STERLING.smallest.plural) == ("penny", "pence")


def test_a_money_may_have_a_single_unit():
    alone = MoneySystem.read([("kron", "")])
    assert values(alone) == {"kron": 1}
    assert alone.parse_face("5 kron").value == 5


def test_units_may_be_counted_in_a_common_smaller_one():
    assert values(MoneySystem.read([("crown", "60 pence"), ("shilling", "12 pence")])) == {
        "crown": 60,
        "shilling": 12,
        "penny": 1,
    }


@pytest.mark.parametrize(
    ("pairs", "sentence"),
    [
        ([], "this money has no units"),
        ([("daler", "ort")], '"ort" is not a number of units'),
        ([("daler", "0 ort")], '"0 ort" is not a number of units'),
        ([("daler", "4 mark"), ("ort", "24 skilling")], '"mark" is not a unit of this money'),
        ([("ort", "24 skilling"), ("daler", "4 ort")], '"skilling" is not a unit of this money'),
        ([("ort", "24 skilling"), ("daler", "96 skilling")], '"ort" is worth no more than "daler"'),
        ([("ort", "2 ort")], '"ort" is a unit of this money twice'),
    ],
)
def test_units_that_do_not_hang_together_are_misread(pairs, sentence):
    with pytest.raises(Misread) as caught:
        MoneySystem.read(pairs)
    assert caught.value.sentence == sentence


@pytest.mark.parametrize(
    ("system", "text", "value"),
    [
        (VESSMARK, "1/2 skilling", Fraction(1, 2)),
        (VESSMARK, "1 ort", 24),
        (VESSMARK, "1 1/2 daler", 144),
        (VESSMARK, "1 daler 2 ort", 144),
        (VESSMARK, "½ Daler", 48),
        (STERLING, "1/4d", Fraction(1, 4)),
        (STERLING, "6d", 6),
        (STERLING, "1½d", Fraction(3, 2)),
        (STERLING, "2s 6d", 30),
        (STERLING, "2/6", 30),
        (STERLING, "10/6", 126),
        (STERLING, "5/-", 60),
        (STERLING, "£1", 240),
        (STERLING, "£1 10s", 360),
        (STERLING, "1/2 penny", Fraction(1, 2)),
        (DECIMAL, "25c", 25),
        (DECIMAL, "25 cents", 25),
        (DECIMAL, "$1", 100),
        (DECIMAL, "$2.50", 250),
    ],
)
def test_a_face_value_is_read_as_the_trade_writes_it(system, text, value):
    assert system.parse_face(text) == Face(text, Fraction(value))
    assert str(system.parse_face(text)) == text


@pytest.mark.parametrize("amount", MONEY["written"], ids=lambda amount: amount["pence"])
def test_all_forms_of_a_sterling_amount_are_worth_the_same_pence(amount):
    assert {STERLING.parse_face(text).value for text in amount["forms"]} == {int(amount["pence"])}


def test_the_faces_of_the_law_of_1870_fall_in_order_of_their_weight_within_each_metal():
    # The schedule's order is from large to small, and weight follows face value by section 3 of the Act.
    for metal in ("gold", "silver", "bronze"):
        coins = [coin for coin in ACT["coins"] if coin["metal"] == metal]
        faces = [STERLING.parse_face(coin["face"]).value for coin in coins]
        assert faces == sorted(faces, reverse=True)
        ratios = [Fraction(coin["grains"]) / face for coin, face in zip(coins, faces, strict=True)]
        if metal != "bronze":  # a halfpenny weighs more than half a bronze penny
            assert max(ratios) - min(ratios) < Fraction(1, 10_000)


def test_an_unknown_unit_is_misread_with_the_known_ones():
    assert misread(STERLING, "3 groats") == (
        '"groats" is not a unit of this money',
        "known here: pound, shilling, penny",
    )
    assert misread(VESSMARK, "1 skiling") == (
        '"skiling" is not a unit of this money',
        'did you mean "skilling"?',
    )


@pytest.mark.parametrize(
    ("system", "text", "sentence", "hint"),
    [
        (STERLING, "6", '"6" names no unit', "the units are pound, shilling and penny"),
        (VESSMARK, "2/6", '"2/6" names no unit', "the units are daler, ort and skilling"),
        (STERLING, "6d 2s", '"6d 2s" does not go from large units to small', "write 2s 6d, not 6d 2s"),
        (STERLING, "0d", '"0d" is no face value', "a face value is more than nothing"),
        (
            STERLING,
            "2/13",
            '"2/13" has more pence than a shilling',
            "a stroke parts shillings from pence, as in 2/6; write a fraction with its unit, as in 1/4d",
        ),
        (
            STERLING,
            "2/6d",
            '"2/6d" can be read in two ways',
            "write 1/3 penny for the fraction, 2/6 or 2s 6d for shillings and pence",
        ),
        (
            STERLING,
            "half a crown",
            '"half a crown" is not a face value',
            "write a number and a unit; the units are pound, shilling and penny",
        ),
        (STERLING, "$1", '"$" is not a unit of this money', "known here: pound, shilling, penny"),
    ],
)
def test_what_is_no_face_value_is_misread_with_the_right_form(system, text, sentence, hint):
    assert misread(system, text) == (sentence, hint)


def test_an_empty_face_value_is_misread():
    assert misread(STERLING, " ")[0] == '" " is no face value'


@given(some.integers(0, 500), some.integers(0, 19), some.integers(0, 11))
def test_pounds_shillings_and_pence_agree_with_another_reckoner_of_units(pounds, shillings, pence):
    if pounds + shillings + pence == 0:
        return
    units = pint.UnitRegistry(None, non_int_type=Fraction)
    for line in ("penny = [money]", "shilling = 12 * penny", "pound = 20 * shilling"):
        units.define(line)
    parts = ((pounds, "pound"), (shillings, "shilling"), (pence, "penny"))
    other = sum(
        (units.Quantity(Fraction(number), name) for number, name in parts), units.Quantity(0, "penny")
    )
    typed = f"£{pounds} {shillings}s {pence}d"
    assert STERLING.parse_face(typed).value == other.to("penny").magnitude
    assert STERLING.parse_face(f"£{pounds}.{shillings}.{pence}").value == other.to("penny").magnitude


@given(
    some.fractions(Fraction(1, 960), 100, max_denominator=960),
    some.sampled_from(["daler", "ort", "skilling"]),
)
def test_any_fraction_of_a_unit_is_read_in_full(number, unit):
    whole, part = divmod(number, 1)
    typed = " ".join(str(each) for each in (whole, part) if each)
    assert VESSMARK.parse_face(f"{typed} {unit}").value == number * VESSMARK.unit(unit).value


# --- decimal money -------------------------------------------------------------


@pytest.mark.parametrize("coin", MONEY["equivalents"], ids=lambda coin: coin["coin"])
def test_old_coins_became_exact_parts_of_decimal_units(coin):
    face = STERLING.parse_face(coin["face"])
    half_pound = DecimalMoney.read(parse_day("1966-02-14"), [("pound", "200 cents")], STERLING)
    pound = DecimalMoney.read(parse_day("1971-02-15"), [("pound", "100 new pence")], STERLING)
    assert half_pound.equivalent(face, STERLING) == (Fraction(coin["cents"]), "cent")
    assert pound.equivalent(face, STERLING) == (Fraction(coin["new pence"]), "new pence")


@pytest.mark.parametrize("said", MONEY["stated"], ids=lambda said: said["source"])
def test_published_equivalents_are_the_exact_ones_cut_short(said):
    per_pound, stated = ("200 cents", said["cents"]) if "cents" in said else ("100 pence", said["new pence"])
    rule = DecimalMoney.read(parse_day("1971-02-15"), [("pound", per_pound)], STERLING)
    value, _ = rule.equivalent(STERLING.parse_face(said["face"]), STERLING)
    step = Fraction(1, 10 ** len(stated.partition(".")[2]))
    assert Fraction(stated) <= value < Fraction(stated) + step


@pytest.mark.parametrize("day", MONEY["decimal days"], ids=lambda day: day["issuer"])
def test_a_pound_became_what_the_law_of_each_country_said(day):
    rule = DecimalMoney.read(parse_day(day["on"]), [("pound", day["pound"])], STERLING)
    value, unit = rule.equivalent(STERLING.parse_face("£1"), STERLING)
    number, word = day["pound"].split()
    assert value == int(number)
    assert unit == {"rand": "rand", "dollars": "dollar", "pence": "penny"}[word]
    assert str(rule.on) == day["on"]


def test_with_several_rates_a_face_uses_the_largest_unit_it_reaches():
    rule = DecimalMoney.read(
        parse_day("1961-02-14"), [("pound", "2 rand"), ("shilling", "10 cents")], STERLING
    )
    assert rule.equivalent(STERLING.parse_face("£2"), STERLING) == (4, "rand")
    assert rule.equivalent(STERLING.parse_face("2s 6d"), STERLING) == (25, "cent")
    assert rule.equivalent(STERLING.parse_face("3d"), STERLING) == (Fraction(5, 2), "cent")


def test_a_rate_for_a_unit_that_the_money_has_not_is_misread():
    with pytest.raises(Misread, match='"daller" is not a unit'):
        DecimalMoney.read(parse_day("1919"), [("daller", "4 kron")], VESSMARK)
    with pytest.raises(Misread, match="has no rate"):
        DecimalMoney.read(parse_day("1919"), [], VESSMARK)
