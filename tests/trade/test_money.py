from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.money import Money, parse_currency, parse_money, totals

AMOUNTS = some.decimals(0, 10**9, places=2)


def vkr(text):
    return Money(Decimal(text), "VKR")


@pytest.mark.parametrize(
    ("text", "amount", "written"),
    [
        ("45.00 VKR", "45.00", "45.00 VKR"),
        ("45.00VKR", "45.00", "45.00 VKR"),
        ("80 VKR", "80", "80 VKR"),
        ("1,250 VKR", "1250", "1250 VKR"),
        ("1 250.50 VKR", "1250.50", "1250.50 VKR"),
        ("1_250 VKR", "1250", "1250 VKR"),
        ("0.61 VKR", "0.61", "0.61 VKR"),
        ("0 VKR", "0", "0 VKR"),
    ],
)
def test_money_is_an_amount_with_its_currency_behind_it(text, amount, written):
    assert parse_money(text) == vkr(amount)
    assert str(parse_money(text)) == written


def test_a_default_currency_stands_in_where_none_is_typed():
    assert parse_money("45", "VKR") == vkr("45")
    assert parse_money("45 XQZ", "VKR") == Money(Decimal(45), "XQZ")


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("45", '"45" names no currency', "write three capital letters behind it: 45 VKR"),
        ("£45", '"£45" has a sign for its currency', "write 45 GBP"),
        ("45.50 €", '"45.50 €" has a sign for its currency', "write 45.50 EUR"),
        ("£2 10s", '"£2 10s" has a sign for its currency', "write 45.00 GBP"),
        (
            "$45",
            '"$45" has a sign for its currency',
            "write the three letters of its currency, as in 45 USD",
        ),
        ("vkr 45", '"vkr 45" has its currency before the amount', "write 45 VKR"),
        (
            "300 VKR or less",
            '"300 VKR or less" says more than an amount and its currency',
            "write 300 VKR alone",
        ),
        ("about 45", '"about 45" names no currency', "write three capital letters behind it: 45.00 VKR"),
        ("VKR", '"VKR" is not an amount of money', "write it as 45.00 VKR"),
        ("about 45 VKR", '"about 45 VKR" is not an amount of money', "write it as 45.00 VKR"),
        ("little, or none", '"little, or none" is not an amount of money', "write it as 45.00 VKR"),
        ("45 vkr", '"vkr" is not a currency', "write VKR"),
        ("45 KRON", '"KRON" is not a currency', "write three capital letters"),
        ("45,00 VKR", '"45,00 VKR" is not an amount of money', "decimals follow a point: write 45.00"),
        ("-5 VKR", '"-5 VKR" is not an amount of money', "write it as 45.00 VKR or 1,250 VKR"),
        ("12,50,000 VKR", '"12,50,000 VKR" is not an amount of money', "write it as 45.00 VKR or 1,250 VKR"),
    ],
)
def test_what_is_not_money_is_misread_with_the_right_form(text, sentence, hint):
    with pytest.raises(Misread) as caught:
        parse_money(text)
    assert (caught.value.sentence, caught.value.hint) == (sentence, hint)


@pytest.mark.parametrize("text", ["VKR", "-5", "about 45"])
def test_hints_are_in_the_currency_that_stands_in_where_it_is_one(text):
    for currency, shown in (("XQZ", "XQZ"), ("euros", "VKR")):
        with pytest.raises(Misread) as caught:
            parse_money(text, currency)
        assert caught.value.hint.startswith(f"write it as 45.00 {shown}")


def test_any_three_capital_letters_are_a_currency():
    assert parse_currency(" XQZ ") == "XQZ"


def test_money_of_one_currency_adds_and_subtracts():
    assert vkr("45.00") + vkr("80") == vkr("125.00")
    assert str(vkr("45.00") + vkr("80")) == "125.00 VKR"
    assert vkr("80") - vkr("45.50") == vkr("34.50")


def test_money_of_two_currencies_makes_no_sum():
    other = Money(Decimal(1), "XQZ")
    with pytest.raises(ValueError, match="two currencies"):
        vkr("45") + other
    with pytest.raises(ValueError, match="two currencies"):
        vkr("45") - other


def test_totals_keep_currencies_apart():
    found = totals([vkr("45.00"), Money(Decimal(3), "AAB"), vkr("80")])
    assert found == (Money(Decimal(3), "AAB"), vkr("125.00"))
    assert totals([]) == ()


def test_a_price_is_shared_out_to_the_last_hundredth():
    assert vkr("100").share([Fraction(1)] * 3) == (vkr("33.34"), vkr("33.33"), vkr("33.33"))
    assert vkr("90.00").share([Fraction(2), Fraction(1)]) == (vkr("60.00"), vkr("30.00"))


@pytest.mark.parametrize("parts", [[], [Fraction(0)], [Fraction(2), Fraction(-1)]])
def test_a_price_is_not_shared_by_parts_that_come_to_nothing(parts):
    with pytest.raises(ValueError, match="come to nothing"):
        vkr("100").share(parts)


@given(AMOUNTS, some.lists(some.fractions(0, 1000), min_size=1, max_size=12).filter(sum))
def test_shares_always_add_up_to_the_whole_and_stay_within_a_hundredth_of_their_part(amount, parts):
    shares = Money(amount, "VKR").share(parts)
    assert sum(share.amount for share in shares) == amount
    for share, part in zip(shares, parts, strict=True):
        exact = Fraction(amount) * part / sum(parts)
        assert abs(Fraction(share.amount) - exact) < Fraction(1, 100)


@given(AMOUNTS, some.from_regex(r"[A-Z]{3}", fullmatch=True))
def test_money_is_read_back_from_its_own_text(amount, currency):
    assert parse_money(str(Money(amount, currency))) == Money(amount, currency)


def test_an_amount_of_more_than_sixteen_figures_is_refused():
    with pytest.raises(Misread, match="has more than 16 figures"):
        parse_money("1" * 400, "VKR")
