"""A Markdown file is parted into its front matter and its text."""

import pytest

from daterun.problems import Place
from daterun.records.frontmatter import PartedText, part_front_matter


def test_front_matter_and_text_know_the_lines_on_which_they_begin():
    parted = part_front_matter("---\nseries: ort\ndate: 1899\n---\nSharp.\n", "a.md")
    assert parted == PartedText("series: ort\ndate: 1899\n", 2, "Sharp.\n", 5)


def test_rows_of_hyphens_in_the_text_are_the_texts_own():
    assert part_front_matter("---\na: b\n---\nOne\n---\nTwo", "a.md").text == "One\n---\nTwo"


@pytest.mark.parametrize("whole", ["---\n---\n", "---\n...\n", "--- \n---  \n"])
def test_front_matter_may_be_empty_and_end_in_dots(whole):
    assert part_front_matter(whole, "a.md") == PartedText("\n", 2, "", 3)


@pytest.mark.parametrize(
    "whole", ["", "Sharp.\n", "\n---\na: b\n---\n", "----\na: b\n----\n", " ---\na: b\n"]
)
def test_a_file_that_does_not_begin_with_front_matter_is_a_problem(whole):
    problem = part_front_matter(whole, "a.md")
    assert problem.sentence == "the file does not begin with front matter"
    assert (problem.rule, problem.place) == ("front matter", Place("a.md", 1, 1, 1))
    assert problem.hint.startswith("begin with a row of three hyphens")


def test_front_matter_without_an_end_is_a_problem():
    problem = part_front_matter("---\nseries: ort\n\nSharp.\n", "a.md")
    assert problem.sentence == "the front matter has no end"
    assert problem.hint == "close it with a row of three hyphens before the notes"
    assert problem.place == Place("a.md", 1, 1, 3)
