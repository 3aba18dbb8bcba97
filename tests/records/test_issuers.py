"""An issuer with its money, mints and monarchs."""

import pytest


def test_an_issuer_needs_no_more_than_a_name(read):
    catalogue, problems = read({"issuers/vessmark.yaml": "name: Kingdom of Vessmark\n"})
    issuer = catalogue.issuers["vessmark"]
    assert problems == []
    assert (issuer.id, issuer.money, issuer.decimal, issuer.mints, issuer.monarchs) == (
        "vessmark",
        None,
        None,
        {},
        (),
    )
    assert issuer.monarch("ingrith") is None


def test_pounds_shillings_and_pence_are_written_largest_first(read):
    text = "name: A\nmoney: {pound: 20 shillings, shilling: 12 pence}\n"
    catalogue, problems = read({"issuers/vessmark.yaml": text})
    money = catalogue.issuers["vessmark"].money
    assert problems == []
    assert [(each.name, each.value) for each in money.units] == [
        ("pound", 240),
        ("shilling", 12),
        ("penny", 1),
    ]


def test_the_money_may_stand_below_the_decimal_money(read):
    text = "name: A\ndecimal: {on: 1919-01-01, daler: 4 kron}\nmoney: {daler: 4 ort}\n"
    catalogue, problems = read({"issuers/vessmark.yaml": text})
    assert problems == []
    assert catalogue.issuers["vessmark"].decimal.units[0].new == "kron"


def test_a_reign_covers_its_years_and_a_lag_after_them(read):
    text = "name: A\nmonarchs: {ingrith: {name: Ingrith, reign: {from: 1869-05-02, to: 1893-11-20}}}\n"
    reign = read({"issuers/vessmark.yaml": text})[0].issuers["vessmark"].monarch("ingrith").reign
    assert [reign.covers_year(year) for year in (1868, 1869, 1893, 1894)] == [False, True, True, False]
    assert [reign.covers_year(year, lag=2) for year in (1895, 1896)] == [True, False]


def test_a_reign_that_goes_on_covers_every_later_year(read):
    text = "name: A\nmonarchs: {sunniva: {name: Sunniva, reign: {from: 1908-02-03}}}\n"
    reign = read({"issuers/vessmark.yaml": text})[0].issuers["vessmark"].monarch("sunniva").reign
    assert (reign.covers_year(1907), reign.covers_year(2100), reign.years) == (False, True, "1908–")


def test_the_mint_without_a_mark_is_called_none_in_any_case(read):
    text = "name: A\nmints: {None: Vessborg, NO: Norvik}\n"
    assert read({"issuers/vessmark.yaml": text})[0].issuers["vessmark"].mints == {
        "none": "Vessborg",
        "NO": "Norvik",
    }


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("money: 4 ort", "2:8: money is written from the largest unit down [money]"),
        ("money: {daler: [4]}", '2:8: "daler" needs the number of the next smaller unit [money]'),
        (
            "decimal: {daler: 4 kron}",
            "2:10: the day from which decimal money counted is missing [money]",
        ),
        (
            "decimal: {on: 1919-01-01, daler: 4 kron}",
            "2:10: decimal money needs the money that it followed [money]",
        ),
        ("decimal: {on: soon, daler: 4 kron}", '2:15: "soon" is not a day [day]'),
        ("mints: {K: Kaldhamn, K-1: Old mint}", '2:22: "K-1" is not a mint mark [mint mark]'),
        (
            "monarchs: [Ingrith]",
            "2:11: monarchs are written as short names with what belongs to each [value]",
        ),
        ("monarchs: {ingrith: Ingrith}", '2:12: "ingrith" needs a name and a reign [value]'),
        ("monarchs: {a: {name: A}}", '2:16: a monarch needs "reign": the reign [missing field]'),
        (
            "monarchs: {a: {name: A, reign: 1869}}",
            "2:32: a reign is written as keys with values here [value]",
        ),
    ],
)
def test_what_is_misread_of_an_issuer_is_a_problem_at_its_place(problems_of, text, problem):
    assert problems_of({"issuers/vessmark.yaml": f"name: A\n{text}\n"}) == [
        f"issuers/vessmark.yaml:{problem}"
    ]


def test_a_decimal_rate_that_is_no_text_is_not_passed_over(problems_of):
    text = "name: A\nmoney: {daler: 4 ort}\ndecimal: {on: 1919-01-01, daler: [4 kron]}\n"
    assert problems_of({"issuers/vessmark.yaml": text}) == [
        "issuers/vessmark.yaml:3:10: a list stands here where what a daler became is asked for [money]"
    ]


def test_one_bad_monarch_hides_no_other(read):
    text = "name: A\nmonarchs: {a: {name: A}, b: {name: B, reign: {from: 1900}}}\n"
    assert [each.id for each in read({"issuers/vessmark.yaml": text})[0].issuers["vessmark"].monarchs] == [
        "b"
    ]
