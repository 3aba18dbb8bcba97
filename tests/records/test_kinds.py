"""The kinds of value that fields can hold."""

from decimal import Decimal
from enum import StrEnum

import pytest

from daterun.problems import Misread
from daterun.records import kinds
from daterun.records.fields import Field, Form, Reading, read_form, read_value
from daterun.records.located import read_located
from daterun.trade.scales import Habit


class Metal(StrEnum):
    """Two words, for a choice."""

    SILVER = "silver"
    OFF_METAL = "off metal"


def read(kind, typed, **known):
    node, problems = read_located(f"key: {typed}", "a.md")
    assert problems == []
    reading = Reading("a.md", **known)
    value = kind.read(node.get("key"), reading)
    return value, [each.sentence for each in reading.problems]


def sentence(kind, typed):
    with pytest.raises(Misread) as caught:
        read(kind, typed)
    return caught.value.sentence


EVERY_KIND = [each for each in vars(kinds).values() if isinstance(each, kinds.Kind)]


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda each: each.name)
def test_the_example_of_a_kind_is_read_by_it(kind):
    assert read(kind, f'"{kind.example}"')[1] == []


def test_a_text_is_one_line():
    assert read(kinds.text_kind, "'  two   words\n\n  more '")[0] == "two words more"


@pytest.mark.parametrize(("typed", "value"), [("yes", True), ("No", False), ("true", True), ("FALSE", False)])
def test_yes_and_no_are_read_in_any_case(typed, value):
    assert read(kinds.yes_no, typed)[0] is value


def test_other_words_are_neither_yes_nor_no():
    assert sentence(kinds.yes_no, "on") == '"on" is neither yes nor no'


@pytest.mark.parametrize("typed", ["-3", "3.0", "1e3", "٣", "1234567890", "three"])
def test_a_whole_number_is_written_in_figures(typed):
    assert sentence(kinds.whole_number, typed) == f'"{typed}" is not a whole number'


def test_a_number_keeps_its_decimals():
    assert read(kinds.decimal_number, "812.50")[0] == Decimal("812.50")
    assert read(kinds.decimal_number, ".5")[0] == Decimal("0.5")


@pytest.mark.parametrize("typed", ["-1", "1,5", "1.2.3", "NaN", "inf", "1" * 20, "."])
def test_what_is_no_number_is_a_problem(typed):
    assert sentence(kinds.decimal_number, f"'{typed}'") == f'"{typed}" is not a number'


@pytest.mark.parametrize("typed", ["old spelling", "a/b", "a.b", "a:b", "x" * 101])
def test_a_short_name_has_letters_figures_and_hyphens(typed):
    assert sentence(kinds.identifier, typed) == f'"{typed}" is not a short name'


@pytest.mark.parametrize("typed", ["NO", "0640", "é-1", "nine_over_eight"])
def test_a_short_name_is_kept_as_it_is_typed(typed):
    assert read(kinds.identifier, typed)[0] == typed


def test_a_photo_may_lie_in_a_folder_and_be_named_with_the_strokes_of_any_system():
    assert read(kinds.file_name, "ort\\1899.obverse.jpg")[0] == "ort/1899.obverse.jpg"


@pytest.mark.parametrize(
    "typed",
    ["../a.jpg", "/a.jpg", "~/a.jpg", "C:/a.jpg", "a//b.jpg", "a/../../b.jpg", "./a.jpg", "a\\..\\b.jpg"],
)
def test_a_photo_is_never_outside_the_folder_of_photos(typed):
    assert sentence(kinds.file_name, typed) == f'"{typed}" leads out of the folder of photos'


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("1.250 VKR", "if thousands are meant, write 1250 VKR"),
        ("125.000 VKR", "if thousands are meant, write 125000 VKR"),
        *((each, None) for each in ("1.25 VKR", "1.2500 VKR", "0.125 VKR", ".125 VKR", "1,250.125 VKR")),
    ],
)
def test_three_decimals_of_an_amount_are_asked_about_where_they_may_be_thousands(typed, hint):
    node, _ = read_located(f"key: {typed}", "a.md")
    reading = Reading("a.md")
    assert read_value(kinds.money, node.get("key"), reading).currency == "VKR"
    assert [(each.hint, each.is_error) for each in reading.problems] == ([(hint, False)] if hint else [])


def test_an_amount_without_a_currency_takes_the_catalogues():
    assert str(read(kinds.money, "45.00", currency="VKR")[0]) == "45.00 VKR"
    assert sentence(kinds.money, "45.00") == '"45.00" names no currency'


def test_a_bare_word_of_grading_is_meant_by_the_habit_of_the_catalogue():
    seventy = read(kinds.grade, "EF")[0]
    british = read(kinds.grade, "EF", habit=Habit.BRITISH)[0]
    assert (seventy.low, british.low) == (40, 50)


def test_a_field_with_an_example_of_its_own_shows_it_where_it_is_missing():
    form = Form("a thing", (Field("name", kinds.like(kinds.text_kind, "Ort"), "its name", required=True),))
    node, _ = read_located("key: {}", "a.md")
    reading = Reading("a.md")
    assert read_form(form, node.get("key"), reading) is None
    assert [each.hint for each in reading.problems] == ["for example name: Ort"]


def test_a_choice_is_one_of_few_words_in_any_case():
    kind = kinds.choice(Metal, "a metal", "silver")
    assert read(kind, "Off Metal")[0] is Metal.OFF_METAL
    assert sentence(kind, "sliver") == '"sliver" is not a metal'


def test_one_value_standing_alone_is_a_list_of_one():
    kind = kinds.list_of(kinds.day)
    assert [str(each) for each in read(kind, "2024")[0]] == ["2024"]
    assert read(kind, "[]")[0] == ()


def test_an_item_misread_is_left_out_and_told():
    value, problems = read(kinds.list_of(kinds.day), "[2024, soon]")
    assert [str(each) for each in value] == ["2024"]
    assert problems == ['"soon" is not a day']


def test_a_list_can_ask_for_a_number_of_items():
    assert sentence(kinds.list_of(kinds.day, at_least=2), "2024") == "at least 2 of these must be given"


def test_a_list_that_is_too_short_is_shown_in_brackets():
    with pytest.raises(Misread) as caught:
        read(kinds.list_of(kinds.whole_number, at_least=2, example="[1600, 640]"), "100")
    assert caught.value.hint == "write them in brackets: [1600, 640]"
    with pytest.raises(Misread) as caught:
        read(kinds.list_of(kinds.day, at_least=2), "2024")
    assert caught.value.hint == "write them in brackets: [2024-02-11, 2024-02-11]"


def test_a_mapping_has_free_keys_and_an_entry_misread_is_left_out():
    kind = kinds.mapping_of(kinds.day, "days", "{a: 2024}")
    value, problems = read(kind, "{a: 2024, b: soon}")
    assert list(value) == ["a"]
    assert problems == ['"soon" is not a day']
    assert sentence(kind, "2024") == "days is asked for here"
