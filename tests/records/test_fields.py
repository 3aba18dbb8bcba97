"""A mapping is read by its form: every key known, every required field there, every problem told."""

import pytest

from daterun.problems import Place
from daterun.records.fields import MISREAD, Field, Form, Reading, read_form, read_value
from daterun.records.kinds import day, list_of, text_kind, weight
from daterun.records.located import Items, Text, read_located

FORM = Form(
    "a trial piece",
    (
        Field("series", text_kind, "the short id of its series", required=True),
        Field("struck on", day, "the day"),
        Field("from", text_kind, "the giver", attribute="source", default=""),
        Field("weights", list_of(weight), "its weights", short="weight", default=()),
    ),
)


def read(text):
    node, problems = read_located(text, "a.md")
    assert problems == []
    reading = Reading("a.md")
    values = read_form(FORM, node, reading)
    return values, [(each.rule, each.sentence, each.hint) for each in reading.problems]


def test_values_go_by_attribute_and_the_node_is_kept():
    values, problems = read("series: ort\nstruck on: 1899-05-02\nfrom: R. Tarn\nweights: [9.0 g, 8.9 g]\n")
    assert problems == []
    assert (values["series"], str(values["struck_on"]), values["source"]) == ("ort", "1899-05-02", "R. Tarn")
    assert [str(each) for each in values["weights"]] == ["9.0 g", "8.9 g"]
    assert values["at"].place_of("series") == Place("a.md", 1, 9, 3)


def test_what_is_not_written_has_its_default():
    assert {**read("series: ort")[0], "at": None} == {
        "series": "ort",
        "struck_on": None,
        "source": "",
        "weights": (),
        "at": None,
    }


def test_an_unknown_key_is_a_problem_with_the_nearest_known_one_as_hint():
    values, problems = read("series: ort\nwieght: 9.0 g\n")
    assert problems == [("unknown key", 'a trial piece has no "wieght"', 'did you mean "weight"?')]
    assert values["weights"] == ()


def test_an_unknown_key_like_none_is_answered_with_those_that_there_are():
    _, problems = read("series: ort\nzzz: a\n")
    assert problems[0][2] == "known here: series, struck on, from, weights, weight"


def test_a_required_field_that_is_missing_is_asked_for_by_the_words_of_the_form():
    values, problems = read("from: R. Tarn\n")
    assert values is None
    assert problems == [
        (
            "missing field",
            'a trial piece needs "series": the short id of its series',
            "for example series: hair over the ear is flat",
        )
    ]


@pytest.mark.parametrize("empty", ["", '""', "'  '"])
def test_a_required_field_that_is_empty_is_a_problem_in_quotes_too(empty):
    values, ((rule, sentence, _),) = read(f"series: {empty}\n")
    assert values is None
    assert (rule, sentence) == ("empty field", '"series" is written without a value')


def test_a_field_without_a_value_is_a_problem_unless_quotes_say_that_it_is_meant():
    values, ((rule, sentence, hint),) = read("series: ort\nstruck on:\n")
    assert (rule, sentence) == ("empty field", '"struck on" is written without a value')
    assert hint == "take the key out, or write a day, month or year, for example 2024-02-11"
    assert values["struck_on"] is None
    assert read("series: ort\nweight:\n")[1][0][1] == '"weight" is written without a value'
    assert read('series: ort\nfrom: ""\n')[1] == []


def test_a_short_form_stands_for_the_long_one_but_not_beside_it():
    assert [str(each) for each in read("series: ort\nweight: 9.0 g\n")[0]["weights"]] == ["9.0 g"]
    _, problems = read("series: ort\nweight: 9.0 g\nweights: [9.0 g]\n")
    assert problems == [
        ("repeated key", '"weight" is the short form of "weights"; only one of them can stand', "")
    ]


def test_one_bad_value_hides_no_other():
    values, problems = read("series: ort\nstruck on: soon\nweights: [heavy, 9.0 g, light]\n")
    assert [each[0] for each in problems] == ["day", "measure", "measure"]
    assert values["series"] == "ort"
    assert [str(each) for each in values["weights"]] == ["9.0 g"]


def test_a_list_where_a_text_is_asked_for_is_a_problem():
    _, problems = read("series: [ort]\n")
    assert problems[0][:2] == ("value", "a list stands here where a text is asked for")
    _, problems = read("series: {a: b}\n")
    assert problems[0][:2] == ("value", "a mapping stands here where a text is asked for")


def test_a_value_misread_is_marked_so_that_none_can_be_a_value():
    reading = Reading("a.md")
    assert read_value(day, Text("soon", Place("a.md", 3, 5, 4)), reading) is MISREAD
    assert reading.problems[0].place == Place("a.md", 3, 5, 4)
    assert read_value(list_of(day), Items((), Place("a.md", 1, 1)), reading) == ()


def test_a_form_knows_its_fields_by_both_their_keys():
    assert FORM.field("weight") is FORM.field("weights")
    assert FORM.keys == ("series", "struck on", "from", "weights", "weight")
