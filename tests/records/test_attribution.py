"""Where a coin belongs follows from its series and date, unless the coin says it."""

import pytest

from daterun.records.attribution import attribute

SERIES = """
name: Ort
issuer: vessmark
standards:
  - {dates: 1899–1902, metal: silver}
  - {dates: 1902–1903, id: base, metal: bronze}
types:
  - {id: a, dates: 1899–1901, monarch: ingrith}
  - {id: b, dates: 1901–1903, monarch: nobody}
varieties:
  - {id: wide, dates: 1900}
  - {id: near, dates: 1899}
  - {id: far, dates: 1899}
issues:
  struck:
    1899: 1
    1900: {by mint: {K: 5}}
    1901: {by mint: {none: 1, K: 2}}
    1902–1903: unknown
"""
ISSUER = "name: A\nmonarchs: {ingrith: {name: Ingrith, reign: {from: 1869}}}\n"


@pytest.fixture
def attributed(read):
    def attributing(date, matter=""):
        files = {
            "series/vessmark/ort.yaml": SERIES,
            "issuers/vessmark.yaml": ISSUER,
            "coins/a.md": f"---\nseries: ort\ndate: {date}\n{matter}\n---\n",
        }
        catalogue, problems = read(files)
        assert problems == []
        series = catalogue.series["vessmark/ort"]
        return attribute(catalogue.coins[0], series, catalogue.issuers["vessmark"])

    return attributing


def test_a_date_with_one_of_each_settles_all(attributed):
    found = attributed("1900")
    assert found.issue.date.key == "1900"
    assert (found.type.id, found.standard.name, found.monarch.name) == ("a", "1899–1902", "Ingrith")
    assert (found.mint, [each.id for each in found.varieties]) == ("K", ["wide"])


def test_a_date_with_several_settles_nothing_until_the_coin_says_which(attributed):
    found = attributed("1901")
    assert (found.type, found.monarch, found.mint) == (None, None, None)
    assert attributed("1902").standard is None
    assert attributed("1899").varieties == ()


def test_the_coins_own_word_comes_first(attributed):
    found = attributed("1901", "type: a\nmint: none\nvariety: [near, far]")
    assert (found.type.id, found.monarch.id, found.mint) == ("a", "ingrith", "none")
    assert [each.id for each in found.varieties] == ["near", "far"]


@pytest.mark.parametrize(
    ("said", "metal"), [("base", "bronze"), ("1899–1902", "silver"), ("1899-1902", "silver")]
)
def test_a_coin_calls_its_standard_by_name_or_by_years(attributed, said, metal):
    assert attributed("1902", f"standard: {said}").standard.metal.name == metal


@pytest.mark.parametrize("date", ["undated", "19?3", "1950"])
def test_a_coin_whose_date_is_not_in_the_run_belongs_nowhere_by_itself(attributed, date):
    found = attributed(date)
    assert (found.issue, found.type, found.standard, found.monarch, found.mint) == (None,) * 5


def test_a_worn_coin_can_say_its_type(attributed):
    assert attributed("19?3", "type: b").type.id == "b"


def test_a_type_or_standard_that_is_not_there_is_none(attributed):
    found = attributed("1900", "type: z\nstandard: z")
    assert (found.type, found.standard, found.monarch) == (None, None, None)


def test_a_monarch_that_the_issuer_does_not_have_is_none(attributed):
    assert attributed("1903").monarch is None
