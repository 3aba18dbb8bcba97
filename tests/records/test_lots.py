"""A lot with one price, shared out among its coins."""

from decimal import Decimal

import pytest

from daterun.trade.money import Money


@pytest.fixture
def lot_of(read):
    def reading(text):
        catalogue, problems = read({"lots/fair-2019.yaml": text})
        assert problems == []
        return catalogue.lots["fair-2019"]

    return reading


def test_equal_shares_add_up_to_the_price(lot_of):
    lot = lot_of("price: 100.00 VKR\nshare: equally\n")
    together = {"a": 1, "b": 1, "c": 1}
    shares = [lot.share_of(each, together) for each in together]
    assert [str(each) for each in shares] == ["33.34 VKR", "33.33 VKR", "33.33 VKR"]
    assert sum((each.amount for each in shares), Decimal(0)) == 100


def test_a_file_of_several_alike_has_a_share_for_each_piece(lot_of):
    lot = lot_of("price: 26.00 VKR\n")
    together = {"a": 12, "b": 1}
    assert [str(lot.share_of(each, together)) for each in together] == ["24.00 VKR", "2.00 VKR"]


def test_coins_share_equally_unless_it_is_said(lot_of):
    assert lot_of("price: 10 VKR\n").share_of("a", {"a": 1, "b": 1}) == Money(Decimal("5.00"), "VKR")


def test_shares_by_coin_are_those_named(lot_of):
    lot = lot_of("price: 100 VKR\nshare: {ort/1899: 60.00 VKR, ort/1900: 40.00 VKR}\n")
    together = dict.fromkeys(("ort/1899", "ort/1900", "ort/1901"), 1)
    assert [lot.share_of(each, together) for each in together] == [
        Money(Decimal("60.00"), "VKR"),
        Money(Decimal("40.00"), "VKR"),
        None,
    ]


def test_a_lot_without_a_price_has_no_shares(lot_of):
    assert lot_of("how: found\n").share_of("a", {"a": 1}) is None


def test_a_coin_of_another_lot_has_no_share(lot_of):
    assert lot_of("price: 10 VKR\n").share_of("b", {"a": 1}) is None


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("share: fairly\n", '1:8: "fairly" does not say how the price is shared [money]'),
        ("share: [1 VKR]\n", "1:8: coin ids with their part of the price is asked for here [money]"),
        ("share: {a: 1}\n", '1:12: "1" names no currency [money]'),
        ("how: swapped\n", '1:6: "swapped" is not a way of coming by a coin [choice]'),
        ("", "0:0: nothing is written in this file [empty file]"),
        ("- a\n", "1:1: keys with values are asked for here [yaml]"),
    ],
)
def test_what_is_misread_of_a_lot_is_a_problem_at_its_place(problems_of, text, problem):
    assert problems_of({"lots/fair-2019.yaml": text}) == [f"lots/fair-2019.yaml:{problem}"]
