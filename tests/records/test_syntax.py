"""What keeps a text from being YAML is said with what to do about it."""

import pytest
import yaml

from daterun.records.syntax import LONGEST_TO_EXPLAIN, explain, find_unfit


def error_of(text, loader=yaml.SafeLoader):
    with pytest.raises(yaml.MarkedYAMLError) as caught:
        list(yaml.parse(text, Loader=loader))
    return caught.value


def test_a_problem_has_a_hint_and_stands_on_its_line_of_the_file():
    text = "design: Weak: the date\n"
    problem = explain(error_of(text), text, "coins/a.md", 2)
    assert (problem.place.path, problem.place.line, problem.place.column) == ("coins/a.md", 2, 13)
    assert problem.rule == "yaml"
    assert (
        problem.hint
        == 'a text that holds ": " stands in quotes; keys that belong together begin in one column'
    )


def test_an_error_without_words_of_its_own_is_told_as_the_parser_tells_it():
    text = "a: |x\n b\n"
    problem = explain(error_of(text), text, "a", 1)
    assert problem.sentence == (
        "this is not YAML: expected chomping or indentation indicators, but found 'x'"
    )


def test_a_text_too_long_to_be_read_again_is_explained_by_the_error_at_hand():
    text = "# " + "x" * LONGEST_TO_EXPLAIN + "\na: }\n"
    problem = explain(
        error_of(text, yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader), text, "a", 1
    )
    assert (problem.sentence, problem.place.line) == ("a value is missing before this", 2)


@pytest.mark.parametrize("text", ["a: é 😀 “b”\n", "a:\tb\n", "\t\n", "  \n\t \n", "a: b\t\n"])
def test_letters_of_all_scripts_and_tabs_outside_an_indent_are_fit(text):
    assert find_unfit(text, "a", 1) is None


def test_an_unfit_character_is_found_at_its_line_and_column():
    problem = find_unfit("a: b\nc: d\x00\n", "a", 5)
    assert (problem.place.line, problem.place.column) == (6, 5)
