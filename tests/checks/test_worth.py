import datetime
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.checks.worth import (
    Content,
    Price,
    content_of,
    is_old,
    premium,
    sum_content,
    sum_money,
)
from daterun.trade.dates import parse_day
from daterun.trade.measures import parse_weight
from daterun.trade.metals import parse_fineness
from daterun.trade.money import Money, parse_money

FACTS = Path(__file__).parents[1] / "facts"
ACT = yaml.load((FACTS / "coinage_act_1870.yaml").read_text("utf-8"), yaml.BaseLoader)
SILVER = yaml.load((FACTS / "silver.yaml").read_text("utf-8"), yaml.BaseLoader)
OUNCE_G = Fraction("0.06479891") * 480


def content(weight, fineness, standard="", metal="silver", pieces=1):
    return content_of(
        "a",
        metal,
        parse_fineness(fineness),
        parse_weight(weight) if weight else None,
        parse_weight(standard) if standard else None,
        pieces,
    )


def price(text, per="g", on="2026-10-02"):
    return Price(parse_money(text), per, parse_day(on))


@pytest.mark.parametrize("row", SILVER["fine silver"], ids=lambda row: f"{row['coin']} {row['fineness']}")
def test_a_coin_at_standard_weight_holds_what_its_law_gives_exactly(row):
    ounces = Fraction(SILVER["standard weight"][row["coin"]])
    grams = ounces * OUNCE_G
    found = content("", row["fineness"], f"{Decimal(grams.numerator) / Decimal(grams.denominator)} g")
    assert abs(Fraction(found.troy_ounces) - Fraction(row["ounces"])) < Fraction(1, 10**9)
    assert abs(found.fine_g - Decimal(row["grams"])) < Decimal("0.0001")
    assert not found.is_measured


@pytest.mark.parametrize(
    "row", [each for each in ACT["coins"] if "fineness" in each], ids=lambda row: row["coin"]
)
def test_a_coin_of_the_act_of_1870_holds_its_fineness_of_its_printed_weight(row):
    found = content("", row["fineness"], f"{row['grams']} g", metal=row["metal"])
    expected = Fraction(row["grams"]) * Fraction(row["fineness"]) / 1000
    assert abs(Fraction(found.fine_g) - expected) < Fraction(1, 10**12)


@pytest.mark.parametrize("row", SILVER["examples"], ids=lambda row: row["coin"])
def test_a_coin_holds_what_its_weight_and_fineness_give(row):
    found = content(row["weight"], row["fineness"], row.get("standard", ""))
    assert abs(found.fine_g - Decimal(row["grams"])) < Decimal("0.0005")
    assert abs(found.troy_ounces - Decimal(row["ounces"])) < Decimal("0.0001")
    if "stated ounces" in row:
        assert abs(found.troy_ounces - Decimal(row["stated ounces"])) < Decimal("0.005")


def test_the_weight_measured_goes_before_the_standard():
    found = content("8.80 g", ".750", "9.000 g")
    assert (found.fine_g, found.is_measured) == (Decimal("6.60"), True)
    assert content("", ".750", "9.000 g").fine_g == Decimal("6.75")


def test_without_any_weight_there_is_no_content():
    assert content("", ".750") is None


def test_a_record_of_several_pieces_holds_so_many_times_as_much():
    assert content("", ".750", "9.000 g", pieces=3).fine_g == Decimal("20.25")


def test_contents_add_up_by_metal_and_fineness_the_finest_first():
    found = sum_content(
        [
            content("9.00 g", ".500"),
            content("9.00 g", ".750"),
            content("", "500", "9.000 g", pieces=2),
            content("7.98805 g", "11/12", metal="gold"),
        ]
    )
    assert [(each.metal, str(each.fineness)) for each in found] == [
        ("gold", ".9167"),
        ("silver", ".750"),
        ("silver", ".500"),
    ]
    assert [each.fine_g for each in found[1:]] == [Decimal("6.75"), Decimal("13.5")]
    assert [each.measured_g for each in found[1:]] == [Decimal("6.75"), Decimal("4.5")]
    assert [each.pieces for each in found] == [1, 1, 3]


@given(
    some.lists(some.tuples(some.integers(1, 40000), some.sampled_from([".925", ".750", ".500"])), max_size=30)
)
def test_no_metal_is_lost_or_made_in_adding_up(coins):
    contents = [content(f"{Decimal(number) / 1000} g", fineness) for number, fineness in coins]
    whole = sum(Fraction(number, 1000) * Fraction(fineness) for number, fineness in coins)
    assert sum(Fraction(each.fine_g) for each in sum_content(contents)) == whole


def test_a_price_by_the_gram_and_one_by_the_ounce_come_to_the_same():
    ounce = Decimal("31.1034768")
    assert price("31.1034768 VKR", "oz t").worth(ounce) == Money(Decimal("31.1034768"), "VKR")
    assert price("1 VKR", "g").worth(ounce) == Money(Decimal("31.1034768"), "VKR")
    assert price("100 VKR", "oz t").worth(ounce * 3) == Money(Decimal("300.00"), "VKR")


def test_a_worth_is_not_rounded_before_it_is_added():
    assert price("0.61 VKR").worth(Decimal("6.75")) == Money(Decimal("4.1175"), "VKR")


@pytest.mark.parametrize(
    ("on", "as_of", "old"),
    [
        ("2025-11-01", "2026-11-01", False),
        ("2025-10-31", "2026-11-01", True),
        ("2026-10-02", "2026-11-01", False),
        ("2024-02-29", "2025-02-28", False),
        ("2024-02-29", "2025-03-01", True),
        ("2025", "2026-06-01", True),
        ("2025-10", "2026-09-30", False),
    ],
)
def test_a_price_is_old_when_it_may_be_older_than_a_year(on, as_of, old):
    assert price("1 VKR", on=on).is_old(parse_day(as_of)) is old


def test_nothing_is_old_where_no_day_is_reckoned_to():
    assert not is_old(parse_day("1900"), None)


@given(some.dates(datetime.date(1900, 3, 1), datetime.date(2100, 1, 1)), some.integers(0, 800))
def test_a_year_is_a_year_of_the_calendar(first, days):
    later = first + datetime.timedelta(days=days)
    try:
        year_on = first.replace(year=first.year + 1)
    except ValueError:
        year_on = datetime.date(first.year + 1, 2, 28)
    assert is_old(parse_day(first.isoformat()), parse_day(later.isoformat())) is (later > year_on)


def test_sums_never_mix_currencies_and_name_what_has_no_figure():
    found = sum_money(
        [
            ("a", parse_money("45.00 VKR")),
            ("b", None),
            ("c", parse_money("10 ABC")),
            ("d", parse_money("0.50 VKR")),
        ]
    )
    assert found.totals == (Money(Decimal(10), "ABC"), Money(Decimal("45.50"), "VKR"))
    assert found.counted == ("a", "c", "d")
    assert found.lacking == ("b",)


def test_a_sum_of_nothing_is_no_nought():
    assert sum_money([("a", None)]).totals == ()


def test_a_premium_is_what_a_value_exceeds_the_metal_by():
    assert premium(parse_money("80 VKR"), parse_money("4.12 VKR")) == Money(Decimal("75.88"), "VKR")
    assert premium(parse_money("80 VKR"), parse_money("4.12 ABC")) is None
    assert premium(None, parse_money("4.12 VKR")) is None
    assert premium(parse_money("80 VKR"), None) is None


def test_a_content_tells_its_ounces():
    assert Content("a", "silver", parse_fineness("1.000"), Decimal("31.1034768"), True).troy_ounces == 1
