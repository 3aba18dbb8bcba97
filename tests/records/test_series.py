"""The schema of a series."""

from fractions import Fraction

import pytest

from daterun.records.series import Side
from daterun.trade.dates import Span, parse_coin_date

STRUCK = "issues: {struck: {1899: 100, 1900: 200, 1902: 300}}\n"


def test_a_series_goes_by_its_issuer_and_its_file(series_of):
    series = series_of(STRUCK)
    assert (series.key, series.id, series.issuer, series.face, series.denomination) == (
        "vessmark/ort",
        "ort",
        "vessmark",
        "",
        "",
    )
    assert [each.date.key for each in series.issues] == ["1899", "1900", "1902"]


def test_the_face_is_kept_as_it_is_written(series_of):
    assert series_of(STRUCK + "face: 1/2 skilling\n").face == "1/2 skilling"


def test_the_parts_of_an_alloy_are_written_to_one_a_hundred_or_a_thousand(series_of):
    text = STRUCK + "standards: [{dates: 1899, metal: bronze, alloy: {copper: 950, tin: 40, zinc: 10}}]\n"
    assert series_of(text).standards[0].alloy == {
        "copper": Fraction(19, 20),
        "tin": Fraction(1, 25),
        "zinc": Fraction(1, 100),
    }


def test_a_standard_is_called_by_its_short_name_or_by_its_years_with_any_dash(series_of):
    text = (
        STRUCK
        + "standards: [{dates: 1899–1900, metal: silver}, {dates: 1900–1902, id: new, metal: silver}]\n"
    )
    series = series_of(text)
    assert [each.name for each in series.standards] == ["1899–1900", "new"]
    assert series.standard("1899-1900") is series.standards[0]
    assert series.standard("new") is series.standards[1]
    assert series.standard("1901") is None


def test_a_date_has_the_standards_and_types_whose_years_hold_it(series_of):
    text = (
        STRUCK
        + "standards: [{dates: 1899–1900, metal: silver}, {dates: 1900–1902, id: new, metal: silver}]\n"
        "types: [{id: a, dates: 1899–1900}, {id: b, dates: 1900–1902}]\n"
    )
    series = series_of(text)
    dates = [parse_coin_date(each) for each in ("1899", "1900", "1902", "undated")]
    assert [[each.name for each in series.standards_of(date)] for date in dates] == [
        ["1899–1900"],
        ["1899–1900", "new"],
        ["new"],
        [],
    ]
    assert [[each.id for each in series.types_of(date)] for date in dates] == [["a"], ["a", "b"], ["b"], []]


def test_the_types_that_an_issue_names_come_before_their_years(series_of):
    text = (
        "types: [{id: a, dates: 1899–1902}, {id: b, dates: 1899}]\n"
        "issues: {struck: {1900: {by type: {b: 200}}}}\n"
    )
    assert [each.id for each in series_of(text).types_of(parse_coin_date("1900"))] == ["b"]


def test_a_variety_can_be_of_years_far_apart(series_of):
    text = STRUCK + "varieties: [{id: a, dates: [1899, 1901–1902], side: edge}, {id: b, dates: 1900}]\n"
    series = series_of(text)
    assert series.variety("a").spans == (Span(1899, 1899), Span(1901, 1902))
    assert series.variety("a").side is Side.EDGE
    found = {
        key: [each.id for each in series.varieties_of(parse_coin_date(key))]
        for key in ("1899", "1900", "1902")
    }
    assert found == {"1899": ["a"], "1900": ["b"], "1902": ["a"]}
    assert series.varieties_of(parse_coin_date("18?9")) == ()


def test_dates_of_another_calendar_are_labels_with_a_sorting_year(read):
    text = (
        "name: Ort\nissuer: vessmark\nlabels: {AH 1320: 1902, AH 1318: 1900}\n"
        "issues: {struck: {AH 1320: 100, AH 1318: 200}}\n"
    )
    coin = "---\nseries: ort\ndate: ah 1320\n---\n"
    catalogue, problems = read({"series/vessmark/ort.yaml": text, "coins/a.md": coin})
    assert problems == []
    series = catalogue.series["vessmark/ort"]
    assert [(each.date.key, each.date.year) for each in series.issues] == [
        ("AH 1318", 1900),
        ("AH 1320", 1902),
    ]
    assert series.issue(catalogue.coins[0].date.key).figures.mintage == (100,)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "standards: [{dates: 1899, metal: unobtainium}]",
            '3:34: "unobtainium" is not a metal known here [metal]',
        ),
        (
            "standards: [{dates: 1899, metal: bronze, alloy: {copper: 90, tin: 4}}]",
            "3:49: the parts of the alloy add up to 94 [metal]",
        ),
        (
            "standards: [{metal: silver}]",
            '3:14: a standard needs "dates": the years for which it was laid down',
        ),
        ("types: [{id: a, dates: 1902–1899}]", '3:24: "1902–1899" runs backward [date]'),
        ("types: [{id: two words, dates: 1899}]", '3:14: "two words" is not a short name [short name]'),
        ("varieties: [{id: a, dates: 1899, side: rim}]", '3:40: "rim" is not a side of a coin [choice]'),
        ("varieties: [{id: a, dates: 1895-96}]", '3:28: "1895-96" is not a range of years [date]'),
        ("labels: {AH 1320: soon}", '3:19: "soon" is not a whole number [number]'),
    ],
)
def test_what_is_misread_of_a_series_is_a_problem_at_its_place(problems_of, text, problem):
    (said,) = problems_of({"series/vessmark/ort.yaml": f"name: Ort\nissuer: vessmark\n{text}\n{STRUCK}"})
    assert said.startswith(f"series/vessmark/ort.yaml:{problem}")


def test_a_series_without_its_issues_gives_no_record(read):
    catalogue, problems = read({"series/vessmark/ort.yaml": "name: Ort\nissuer: vessmark\n"})
    assert catalogue.series == {}
    assert "content/series/vessmark/ort.yaml" in catalogue.broken
    assert [each.sentence for each in problems] == ['a series needs "issues": what was struck with each date']


@pytest.mark.parametrize("year", ["²", "١٨٩٩", "9" * 5_000, "-1", "[1]"])
def test_a_label_whose_year_is_no_number_is_a_problem(problems_of, year):
    series = f"name: Ort\nissuer: vessmark\nlabels: {{AH 1320: '{year}'}}\n{STRUCK}"
    assert problems_of({"series/vessmark/ort.yaml": series})


def test_a_label_of_a_year_beyond_all_dates_gives_no_date(problems_of):
    struck = "issues: {struck: {1899: 100, AH 1320: 300}}\n"
    series = f"name: Ort\nissuer: vessmark\nlabels: {{AH 1320: 999999999}}\n{struck}"
    (problem,) = problems_of({"series/vessmark/ort.yaml": series})
    assert "AH 1320" in problem
