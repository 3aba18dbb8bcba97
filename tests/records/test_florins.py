"""A real run with gaps, years of two types and a coin of two years: the Australian florin, 1910 to 1963.

The figures and their sources are in ``tests/facts/australian_florin.yaml``.
"""

from pathlib import Path

import pytest

from daterun.records.fields import Reading
from daterun.records.located import read_located
from daterun.records.series import read_series
from daterun.trade.dates import DateKind, Span, parse_coin_date

FACTS = Path(__file__).parents[1] / "facts" / "australian_florin.yaml"


@pytest.fixture(scope="module")
def florin():
    node, problems = read_located(FACTS.read_text(encoding="utf-8"), FACTS.name)
    reading = Reading(FACTS.name, problems=problems)
    series = read_series("florin", node, reading)
    assert reading.problems == []
    return series


def test_the_run_has_forty_six_dates_of_one_year(florin):
    years = [each.date.year for each in florin.issues if each.date.kind is DateKind.YEAR]
    assert len(years) == 46
    assert years == sorted(years)
    assert florin.struck.years == Span(1910, 1963)


def test_the_gaps_are_years_in_which_none_was_struck(florin):
    struck = {each.date.year for each in florin.issues}
    gaps = [year for year in range(1910, 1964) if year not in struck]
    assert gaps == [1920, 1929, 1930, 1937, 1948, 1949, 1950, 1955]
    assert all(florin.struck.is_not_struck(year) for year in gaps)
    assert not any(florin.struck.is_not_struck(year) for year in struck)


def test_the_coin_of_two_years_is_one_date_between_them(florin):
    keys = [each.date.key for each in florin.issues]
    assert keys[keys.index("1934") :][:3] == ["1934", "1934-35", "1935"]
    issue = florin.issue(parse_coin_date("1934/35").key)
    assert (issue.figures.mintage, issue.figures.melted) == ((75_000,), 21_000)
    assert issue.figures.source == "Museums Victoria Collections, item 55697"


def test_four_dates_have_a_type_of_their_own_three_of_them_beside_the_ordinary_one(florin):
    two = [each.date.key for each in florin.issues if len(florin.types_of(each.date)) == 2]
    assert two == ["1927", "1951", "1954"]
    assert [each.id for each in florin.types_of(parse_coin_date("1927"))] == [
        "ordinary",
        "commemorative-1927",
    ]
    assert [each.id for each in florin.types_of(parse_coin_date("1934-35"))] == ["commemorative-1934-35"]
    assert [each.id for each in florin.types_of(parse_coin_date("1934"))] == ["ordinary"]


def test_a_number_that_no_source_gives_is_not_known_rather_than_nought(florin):
    assert florin.issue("1914").figures.mintage == ()
    assert florin.issue("1914").figures.ordinary == ()
