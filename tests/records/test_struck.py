"""What was struck with each date, and how it divides."""

import pytest

from daterun.records.struck import Figures
from daterun.trade.dates import Span


@pytest.fixture
def issue_of(series_of):
    """Read one issue of 1899."""
    return lambda text: series_of(f"issues: {{struck: {{1899: {text}}}}}\n").issue("1899")


@pytest.fixture
def said_of(problems_of):
    """Say what is wrong with a table of issues, each entry on a line of its own."""

    def saying(*lines):
        table = "".join(f"    {line}\n" for line in lines)
        text = f"name: Ort\nissuer: vessmark\nissues:\n  struck:\n{table}"
        return [
            each.removeprefix("series/vessmark/ort.yaml:")
            for each in problems_of({"series/vessmark/ort.yaml": text})
        ]

    return saying


@pytest.mark.parametrize(
    "typed", ["341000", "341_000", "341 000", '"341,000"', "{mintage: 341000}", "[341000]"]
)
def test_a_mintage_is_a_number_grouped_in_any_way(issue_of, typed):
    assert issue_of(typed).figures.mintage == (341_000,)


def test_a_number_that_is_not_known_is_no_nought(issue_of):
    figures = issue_of("unknown").figures
    assert (figures.mintage, figures.proofs, figures.proofs_only, figures.ordinary) == ((), None, False, ())


def test_sources_that_disagree_give_several_figures(issue_of):
    assert issue_of("{mintage: [764, 1128], proofs: 364}").figures.ordinary == (400, 764)


def test_proofs_alone_mean_that_nothing_else_was_struck(issue_of):
    figures = issue_of("{proofs: 60}").figures
    assert (figures.proofs_only, figures.ordinary) == (True, (0,))


def test_proofs_beside_an_unknown_mintage_do_not(issue_of):
    figures = issue_of("{mintage: unknown, proofs: 60}").figures
    assert (figures.proofs_only, figures.ordinary) == (False, ())


def test_a_mintage_holds_the_proofs_unless_they_are_apart(issue_of):
    assert issue_of("{mintage: 298000, proofs: 40}").figures.ordinary == (297_960,)
    assert issue_of("{mintage: 298000, proofs: 40, proofs apart: yes}").figures.ordinary == (298_000,)


def test_more_proofs_than_coins_leave_no_ordinary_strike():
    assert Figures(mintage=(10,), proofs=40).ordinary == (0,)


def test_a_figure_has_its_own_source_or_is_from_memory(issue_of):
    figures = issue_of(
        "{mintage: 98000, source: Report of 1898, checked: no, note: melted at the mint}"
    ).figures
    assert (figures.source, figures.checked, figures.note) == ("Report of 1898", False, "melted at the mint")


def test_a_range_of_years_is_an_issue_for_each(series_of):
    series = series_of("issues: {struck: {1900–1902: unknown, 1899: 100}}\n")
    assert [each.date.key for each in series.issues] == ["1899", "1900", "1901", "1902"]


def test_a_double_date_is_one_issue_after_its_first_year(series_of):
    series = series_of("issues: {struck: {1896: 1, 1895-96: 2, 1895: 3, undated: 4, 18?2: 5}}\n")
    assert [each.date.key for each in series.issues] == ["1895", "1895-96", "1896", "18?2", "undated"]
    assert series.struck.years == Span(1895, 1896)
    assert series.issue("1895-96").figures.mintage == (2,)


def test_the_years_without_a_coin_are_told_apart_from_those_of_which_nothing_is_known(series_of):
    struck = series_of(
        "issues: {struck: {1890: 1}, not struck: [1891, 1893–1895], not known: 1892, source: Reports}\n"
    ).struck
    assert [year for year in range(1890, 1897) if struck.is_not_struck(year)] == [1891, 1893, 1894, 1895]
    assert [year for year in range(1890, 1897) if struck.is_not_known(year)] == [1892]
    assert (struck.source, struck.checked) == ("Reports", True)


def test_a_run_without_a_year_has_no_span(series_of):
    assert series_of("issues: {struck: {undated: 1}}\n").struck.years is None


def test_a_division_with_one_key_says_which_the_whole_issue_was(issue_of):
    (part,) = issue_of("{by type: {torvald: 120000}}").parts
    assert (part.mint, part.variety, part.type, part.figures.mintage) == (None, None, "torvald", (120_000,))


def test_a_division_with_one_key_joins_one_that_divides(issue_of):
    parts = issue_of("{by mint: {none: 12000, K: 40000}, by type: {torvald: 52000}}").parts
    assert [(each.mint, each.type, each.figures.mintage) for each in parts] == [
        ("none", "torvald", (12_000,)),
        ("K", "torvald", (40_000,)),
    ]


def test_a_list_of_parts_says_how_two_divisions_combine(issue_of):
    parts = issue_of(
        "{issues: [{mint: K, variety: a, mintage: 1000}, {mint: K, variety: b, mintage: unknown}, {mint: none}]}"
    ).parts
    assert [(each.mint, each.variety, each.figures.mintage) for each in parts] == [
        ("K", "a", (1000,)),
        ("K", "b", ()),
        ("none", None, ()),
    ]


def test_a_part_can_have_proofs_of_its_own(issue_of):
    old, new = issue_of("{by variety: {a: {mintage: 210000, proofs: 40}, b: 88000}}").parts
    assert (old.figures.proofs, new.figures.proofs) == (40, None)


def test_the_mint_without_a_mark_is_called_none_in_any_case(issue_of):
    assert issue_of("{by mint: {None: 1, K: 2}}").values_of("mint") == ("none", "K")


def test_the_values_of_a_divider_are_each_named_once(issue_of):
    issue = issue_of("{issues: [{mint: K, variety: a}, {mint: K, variety: b}]}")
    assert (issue.values_of("mint"), issue.values_of("variety"), issue.values_of("type")) == (
        ("K",),
        ("a", "b"),
        (),
    )


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        ("1892: {mintage: 2,310}", '5:23: inside braces a comma ends a value, so of "2,310" only 2 is read'),
        (
            "1892: [764, 1,128]",
            '5:11: inside brackets a comma ends a figure, so "1,128" is two of them [number]',
        ),
        ("1892: 34,1000", '5:11: "34,1000" is not grouped by threes [number]'),
        ("1892: many", '5:11: "many" is not a whole number [number]'),
        ("1892:", '5:5: "1892" is written without a value [empty field]'),
        ("1892: {mintage: 10, prooofs: 2}", '5:25: an issue has no "prooofs" [unknown key]'),
        ("1892: {by mint: {K: 2, K/2: 1}}", '5:28: "K/2" is not a mint mark [mint mark]'),
        ("1892: {issues: [K]}", "5:20: the parts of an issue are a list of mappings [value]"),
        ("189: 10", '5:5: "189" is not a year [date]'),
        ("1899/8: 10", '5:5: "1899/8" is not a date [date]'),
        (
            "1892: {by mint: {none: 1, K: 2}, by variety: {a: 1, b: 2}}",
            "5:38: this date is divided by mint and by variety: that does not say how they combine [division]",
        ),
        (
            "1892: {by mint: {none: 1}, issues: [{mint: K}]}",
            '5:32: an issue is divided by a list of "issues" or by its mints, varieties or types, not by both',
        ),
    ],
)
def test_what_is_misread_of_an_issue_is_a_problem_at_its_place(said_of, line, problem):
    assert [each[: len(problem)] for each in said_of(line)] == [problem]


def test_figures_with_a_space_after_the_comma_are_two(issue_of):
    assert issue_of("{mintage: [1, 128]}").figures.mintage == (1, 128)


def test_a_date_inside_a_range_that_is_written_again_is_struck_twice(said_of):
    assert said_of("1899–1901: unknown", "1900: 200") == [
        "6:5: 1900 is struck twice in this table [repeated key]"
    ]


def test_a_date_written_again_another_way_is_struck_twice(said_of):
    assert said_of("1895-96: 100", "1895/96: 200") == [
        "6:5: 1895-96 is struck twice in this table [repeated key]"
    ]


def test_one_bad_date_hides_no_other_and_a_bad_number_no_date(read):
    text = "name: Ort\nissuer: vessmark\nissues: {struck: {189: 1, 1892: many, 1893: 3}}\n"
    series = read({"series/vessmark/ort.yaml": text})[0].series["vessmark/ort"]
    assert [each.date.key for each in series.issues] == ["1892", "1893"]


def test_proofs_alone_can_be_said_without_their_number(series_of):
    issue = series_of("issues: {source: a book, struck: {1899: 298000, 1900: {proofs only: yes}}}").issue(
        "1900"
    )
    assert (issue.figures.proofs_only, issue.figures.proofs, issue.figures.ordinary) == (True, None, (0,))


def test_proofs_beside_parts_with_a_mintage_are_not_all_there_is(issue_of):
    assert not issue_of("{proofs: 40, by mint: {none: 210000, K: 3000}}").figures.proofs_only
    assert issue_of("{proofs: 40, by mint: {none: {proofs: 40}}}").figures.proofs_only
