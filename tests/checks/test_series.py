"""What a series may leave open, and what reigns and sums allow."""

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.records.catalogue import read_catalogue

PATH = "content/series/vessmark/skilling.yaml"


def series(*struck: str, more: str = "", tail: str = "") -> dict[str, str]:
    table = "".join(f"    {each}\n" for each in struck)
    return {
        PATH: "name: Skilling\nissuer: vessmark\nface: 1 skilling\n"
        f"{more}issues:\n  source: Mint reports\n  struck:\n{table}{tail}"
    }


@pytest.mark.parametrize(
    ("dates", "rules"),
    [
        ("1893–1895", []),  # the dies of Ingrith, who died in 1893, for two years more
        ("1894–1895", []),
        ("1893–1896", ["reign"]),
        ("1896–1897", ["reign"]),
        ("1868–1869", ["reign"]),
    ],
)
def test_dies_may_outlive_a_reign_by_two_years(rules_of, dates, rules):
    types = f"types:\n  - {{id: old, dates: {dates}, monarch: ingrith}}\n"
    assert rules_of(series(f"{dates}: unknown", more=types)) == rules


def test_a_reign_that_goes_on_has_no_end(rules_of):
    types = "types:\n  - {id: new, dates: 1908–1960, monarch: sunniva}\n"
    assert rules_of(series("1908–1960: unknown", more=types)) == []


@pytest.mark.parametrize(
    ("issue", "rules"),
    [
        ("{mintage: 5000, by mint: {none: 4000, K: 1000}}", []),
        ("{mintage: 5000, by mint: {none: 4000, K: unknown}}", []),
        ("{mintage: [5000, 6000], by mint: {none: 4000, K: 3000}}", []),  # a disputed whole proves nothing
        ("{mintage: 5000, by mint: {none: [3000, 4000], K: 3000}}", []),  # nor does a disputed part
        ("{by mint: {none: 4000, K: 3000}}", []),
        ("{mintage: 5000, by mint: {none: 4000, K: 900}}", ["parts and whole"]),
        (
            "{mintage: 5000, issues: [{mint: none, mintage: 4000}, {mint: K, mintage: 900}]}",
            ["parts and whole"],
        ),
        ("{mintage: 5000, by mint: {none: 4000, K: nine}}", ["number"]),
        ("{mintage: 60, proofs: 60}", []),
        ("{mintage: 40, proofs: 60, proofs apart: yes}", []),
        ("{mintage: 40, proofs: 60, proofs apart: yes, melted: 100}", []),
        ("{mintage: 40, proofs: 60, proofs apart: yes, melted: 101}", ["melted"]),
        ("{proofs: 60, melted: 61}", ["melted"]),
        ("{mintage: [40, 80], proofs: 60, melted: 70}", []),
    ],
)
def test_figures_are_held_to_one_another(rules_of, issue, rules):
    assert rules_of(series(f"1891: {issue}")) == rules


def test_a_double_date_answers_for_both_its_years(rules_of):
    assert rules_of(series("1891-92: 400", "1893: 400")) == []
    assert rules_of(series("1891-92: 400", "1893: 400", tail="  not struck: [1892]\n")) == []


def test_a_type_of_either_year_of_a_double_date_is_of_it(rules_of):
    types = "types:\n  - {id: a, dates: 1895, monarch: torvald-iii}\n  - {id: b, dates: 1896}\n"
    assert rules_of(series("1895-96: {by type: {b: 400}}", "1895: 10", more=types)) == []


def test_labels_of_another_calendar_have_their_years(rules_of, coin):
    labels = "labels: {AH 1320: 1902, AH 1321: 1903}\n"
    files = series("AH 1320: 400", "AH 1321: 900", more=labels)
    one = coin("AH 1321").replace("series: ort", "series: skilling")
    assert rules_of({**files, "content/coins/one.md": one}) == []
    assert rules_of({**files, "content/coins/one.md": one.replace("1321", "1322")}) == ["date"]


def test_a_series_without_standards_or_types_is_left_alone(rules_of, coin):
    one = coin("1891", "weight: 5.00 g").replace("series: ort", "series: skilling")
    assert rules_of({**series("1891: 400"), "content/coins/one.md": one}) == []


def test_a_coin_of_the_part_that_was_proofs_only_is_told_so(rules_of, coin):
    files = series("1891: {by mint: {none: 4000, K: {proofs: 20}}}")
    one = coin("1891", "mint: K").replace("series: ort", "series: skilling")
    assert rules_of({**files, "content/coins/one.md": one}) == ["proofs only"]
    assert rules_of({**files, "content/coins/one.md": one.replace("K", "none")}) == []


def test_dates_divided_beyond_all_counting_are_told_and_not_gone_through(catalogue_folder):
    numbers = range(30)
    marks = ", ".join(f"M{each}: 1" for each in numbers)
    types = [f"  - {{id: t{each}, dates: 1700–1799, obverse: {{legend: L}}}}" for each in numbers]
    varieties = [f"  - {{id: v{each}, dates: 1700–1799, side: reverse, reading: R}}" for each in numbers]
    struck = [f"    {year}: {{by mint: {{{marks}}}}}" for year in range(1700, 1800)]
    series = ["name: Ort", "issuer: vessmark", "types:", *types, "varieties:", *varieties]
    series += ["issues:", "  source: S", "  struck:", *struck]
    aims = "aims: [{id: a, name: A, series: [ort], one per: [date, mint, variety], leave out: {ort: {1: x}}}]"
    files = {
        "content/series/vessmark/ort.yaml": "\n".join(series),
        "content/catalogue.yaml": f"title: A\n{aims}\nwants: [{{slot: ort 1701 M1}}]\n",
    }
    catalogue, _ = read_catalogue(catalogue_folder(files))
    (problem,) = [
        each
        for each in check_catalogue(catalogue, None)
        if each.rule == "division" and "slots" in each.sentence
    ]
    assert problem.sentence == (
        "mints, varieties and types divide the dates into 2,700,000 slots, too many to go through"
    )
    assert problem.place.line == 35
