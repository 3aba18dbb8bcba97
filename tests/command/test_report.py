"""How problems look to a person and to a program."""

import json

import pytest

from daterun.command.report import LONGEST, WIDEST, report_json, report_text, summary
from daterun.problems import Place, Problem, Severity

GRADE = Problem(
    "grade",
    'grade "MS-72" is above the top of the 70-point scale',
    Place("content/coins/ort/1899.md", 7, 8, 5),
    "the scale runs from 1 to 70; write MS-70 or lower",
)


def lines_of(source: str):
    return lambda path, line: source


def marked(source: str, column: int, length: int) -> tuple[str, str]:
    """Give the source line of a report and the carets under it, both without their gutters."""
    problem = Problem("rule", "said", Place("a.md", 1, column, length))
    _, shown, carets = report_text([problem], lines_of(source)).splitlines()
    return shown.removeprefix("  1 | "), carets.removeprefix("    | ")


def test_a_problem_shows_its_place_sentence_rule_line_and_hint():
    assert report_text([GRADE], lines_of("grade: MS-72")) == (
        'content/coins/ort/1899.md:7:8: error: grade "MS-72" is above the top of the 70-point scale [grade]\n'
        "  7 | grade: MS-72\n"
        "    |        ^^^^^\n"
        "  hint: the scale runs from 1 to 70; write MS-70 or lower\n"
    )


def test_advice_is_called_advice_and_other_places_are_shown_under_it():
    problem = Problem(
        "rule",
        "said",
        Place("a.md", 12, 3, 2),
        "",
        Severity.ADVICE,
        (Place("b.yaml", 1, 1, 1), Place("c.jpg")),
    )
    assert report_text([problem], lines_of("abcdef")) == (
        "a.md:12:3: advice: said [rule]\n"
        "  12 | abcdef\n"
        "     |   ^^\n"
        "  other place: b.yaml:1:1\n"
        "  1 | abcdef\n"
        "    | ^\n"
        "  other place: c.jpg\n"
    )


def test_problems_stand_apart_by_an_empty_line():
    whole = Problem("file", "this file cannot be read", Place("a.md"))
    assert report_text([whole, whole], lines_of("x")) == (
        "a.md: error: this file cannot be read [file]\n\na.md: error: this file cannot be read [file]\n"
    )
    assert report_text([], lines_of("x")) == ""


def test_a_line_that_is_not_there_is_left_out():
    text = report_text([GRADE], lambda path, line: None)
    assert text.splitlines()[1:] == ["  hint: the scale runs from 1 to 70; write MS-70 or lower"]


def test_a_mark_never_reaches_past_the_end_of_its_line():
    assert marked("abc", 2, 40) == ("abc", " ^^")
    assert marked("abc", 9, 4) == ("abc", "   ^")


def test_wide_signs_take_two_columns_and_marks_on_others_none():
    assert marked("日本: x", 5, 1) == ("日本: x", "      ^")
    assert marked("e\u0301: x", 5, 1) == ("e\u0301: x", "   ^")
    assert marked("日本", 1, 2) == ("日本", "^^^^")


@pytest.mark.parametrize(
    ("source", "shown"),
    [
        ("a\tb", "a→b"),
        ("a\x1b[31mb", "a␛[31mb"),
        ("a\x00b\x7fc", "a␀b␡c"),
        ("a\u202eb\u2066c\u200fd", "a\ufffdb\ufffdc\ufffdd"),
        ("a\u0085b\u2028c", "a\ufffdb\ufffdc"),
        ("a\ud800b", "a\ufffdb"),
        ("a\u00a0b", "a b"),
    ],
)
def test_signs_that_a_terminal_obeys_are_shown_in_their_place(source, shown):
    assert marked(source, len(source), 1) == (shown, " " * (len(shown) - 1) + "^")
    text = report_text([Problem("rule", source, Place(source), source)], lines_of(""))
    assert text == f"{shown}: error: {shown} [rule]\n  hint: {shown}\n"


@pytest.mark.parametrize("column", [1, 50, 65, 120, 500, 990, 998])
def test_a_long_line_is_trimmed_about_its_mark(column):
    source = "".join(chr(ord("a") + nth % 26) for nth in range(1000))
    shown, carets = marked(source, column, 3)
    assert len(shown) <= WIDEST
    assert shown[len(carets) - 3 : len(carets)] == source[column - 1 : column + 2]
    assert shown.startswith("…") == (column > WIDEST)
    assert shown.endswith("…") == (column < 990)


def test_a_long_mark_and_a_long_sentence_are_cut():
    shown, carets = marked("x" * 5000, 1, 5000)
    assert len(shown) <= WIDEST
    assert len(carets) <= WIDEST
    (first, *_) = report_text([Problem("rule", "y" * 5000, Place("a.md"))], lines_of("")).splitlines()
    assert first == f"a.md: error: {'y' * (LONGEST - 1)}… [rule]"


def test_json_tells_every_fact_in_ascii():
    advice = Problem("rule", "é\u202e", Place("b.md"), "", Severity.ADVICE, (Place("c.md", 1, 2, 3),))
    text = report_json([GRADE, advice])
    assert text.isascii()
    whole = json.loads(text)
    assert (whole["errors"], whole["advice"]) == (1, 1)
    assert whole["problems"][0] == {
        "rule": "grade",
        "severity": "error",
        "sentence": 'grade "MS-72" is above the top of the 70-point scale',
        "hint": "the scale runs from 1 to 70; write MS-70 or lower",
        "path": "content/coins/ort/1899.md",
        "line": 7,
        "column": 8,
        "length": 5,
        "others": [],
    }
    assert whole["problems"][1]["sentence"] == "é\u202e"
    assert whole["problems"][1]["severity"] == "advice"
    assert whole["problems"][1]["others"] == [{"path": "c.md", "line": 1, "column": 2, "length": 3}]


@pytest.mark.parametrize(
    ("errors", "advice", "coins", "sentence"),
    [
        (0, 0, 175, "No problems in 175 coins."),
        (0, 0, 1, "No problems in 1 coin."),
        (0, 0, 0, "No problems, and no coins yet."),
        (1, 0, 175, "1 error in 1 file."),
        (2, 1, 1500, "2 errors and 1 piece of advice in 3 files."),
        (1, 2, 175, "1 error and 2 pieces of advice in 3 files."),
        (0, 1, 1500, "No errors in 1,500 coins; 1 piece of advice in 1 file."),
        (0, 3, 0, "No errors, and no coins yet; 3 pieces of advice in 3 files."),
    ],
)
def test_a_summary_counts_in_the_right_number(errors, advice, coins, sentence):
    kinds = [Severity.ERROR] * errors + [Severity.ADVICE] * advice
    problems = [Problem("rule", "said", Place(f"{nth}.md"), "", each) for nth, each in enumerate(kinds)]
    assert summary(problems, coins) == sentence
