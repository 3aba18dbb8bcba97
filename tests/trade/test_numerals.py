from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.numerals import as_decimal, parse_count, parse_decimal, parse_ratio


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("341,000", 341_000),
        ("341 000", 341_000),
        ("341_000", 341_000),
        ("2310", 2310),
        ("39,484,800", 39_484_800),
        ("12\N{NO-BREAK SPACE}000", 12_000),
        ("12\N{THIN SPACE}000", 12_000),
        ("0", 0),
    ],
)
def test_a_count_may_be_grouped_by_comma_space_or_underscore(text, count):
    assert parse_count(text) == count


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("34,10", '"34,10" is not grouped by threes'),
        ("3410,000", '"3410,000" is not grouped by threes'),
        ("1,000 000", '"1,000 000" is not grouped by threes'),
        ("2.310", '"2.310" is not a whole number'),
        ("some", '"some" is not a whole number'),
        ("-5", '"-5" is not a whole number'),
        ("1e3", '"1e3" is not a whole number'),
        ("٢", '"٢" is not a whole number'),
        ("", '"" is not a whole number'),
    ],
)
def test_a_count_is_a_whole_number_grouped_by_threes(text, sentence):
    with pytest.raises(Misread) as caught:
        parse_count(text)
    assert caught.value.sentence == sentence
    assert "341,000" in caught.value.hint


@given(some.integers(0, 10**15), some.sampled_from(",_ "))
def test_any_count_is_read_back_from_its_grouped_form(count, mark):
    assert parse_count(f"{count:,}".replace(",", mark)) == count == parse_count(str(count))


@pytest.mark.parametrize(
    ("text", "number"), [("9.000", "9.000"), (".750", "0.750"), ("1,250.5", "1250.5"), ("12 000", "12000")]
)
def test_decimals_keep_the_figures_that_were_typed(text, number):
    assert str(parse_decimal(text)) == number


def test_a_comma_before_decimals_is_met_with_the_right_form():
    with pytest.raises(Misread) as caught:
        parse_decimal("8,97")
    assert caught.value.sentence == '"8,97" has a comma where a point is wanted'
    assert caught.value.hint == "decimals follow a point: write 8.97"


@pytest.mark.parametrize("text", ["", ".", "1.", "1.2.3", "-1", "+1", "1e3", "NaN", "Infinity", "1.5,0"])
def test_what_is_not_plain_figures_is_no_decimal(text):
    with pytest.raises(Misread):
        parse_decimal(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1/4", Fraction(1, 4)),
        ("1 1/2", Fraction(3, 2)),
        ("1-1/2", Fraction(3, 2)),
        ("1½", Fraction(3, 2)),
        ("¼", Fraction(1, 4)),
        ("2.5", Fraction(5, 2)),
        ("218 2/11", Fraction(2400, 11)),
    ],
)
def test_a_ratio_is_written_as_the_trade_writes_fractions(text, value):
    assert parse_ratio(text) == value


def test_a_fraction_of_nothing_is_misread():
    with pytest.raises(Misread, match="divides by nothing"):
        parse_ratio("1/0")


def test_a_fraction_that_ends_is_an_exact_decimal():
    assert as_decimal(Fraction(37, 40)) == Decimal("0.925")


@pytest.mark.parametrize("parse", [parse_count, parse_decimal, parse_ratio])
@pytest.mark.parametrize("figures", [17, 400, 5_000])
def test_a_number_of_more_than_sixteen_figures_is_refused(parse, figures):
    assert parse("9" * 16) == 10**16 - 1
    with pytest.raises(Misread, match=r'"9{17,30}…?" has more than 16 figures'):
        parse("9" * figures)
