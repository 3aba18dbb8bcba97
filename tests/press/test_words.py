import pytest

from daterun.press.theme import ThemeMistake
from daterun.press.words import read_words


def test_phrases_are_read_with_their_forms_and_nesting(make_theme):
    text = "home: Home\ncoins: {one: '{n} coin', other: '{n} coins'}\nnav:\n  dates: Dates\n"
    words = read_words(make_theme({"words/en.yaml": text}), "en-GB")
    assert words.say("home") == "Home"
    assert words.count("coins", 2) == "2 coins"
    assert words.say("nav.dates") == "Dates"


def test_words_that_yaml_takes_for_truth_stay_words(make_theme):
    assert read_words(make_theme({"words/en.yaml": "no: No\n"}), "en").say("no") == "No"


def test_a_keeper_changes_one_phrase_alone(make_theme):
    theme = make_theme(
        {"words/en.yaml": "home: Home\nback: Back\n"},
        name="mine",
        own={"words/en.yaml": "home: The cabinet\n"},
    )
    words = read_words(theme, "en")
    assert (words.say("home"), words.say("back")) == ("The cabinet", "Back")


def test_a_language_stands_on_english_where_it_has_no_phrase(make_theme):
    theme = make_theme({"words/en.yaml": "home: Home\nback: Back\n", "words/sv.yaml": "home: Hem\n"})
    words = read_words(theme, "sv-FI")
    assert (words.say("home"), words.say("back")) == ("Hem", "Back")
    assert words.number(12345) == "12\u00a0345"


def test_a_language_without_words_is_written_as_english(make_theme):
    assert read_words(make_theme(), "de").number(12345) == "12,345"


def test_a_mistake_in_the_words_is_told_with_its_place(make_theme):
    with pytest.raises(ThemeMistake) as caught:
        read_words(make_theme({"words/en.yaml": "home: Home\nhome: House\n"}), "en")
    place = caught.value.problem.place
    assert (place.path, place.line) == ("themes/tray/words/en.yaml", 2)


def test_a_list_of_phrases_is_no_phrase(make_theme):
    with pytest.raises(ThemeMistake, match="phrases are written as keys with texts"):
        read_words(make_theme({"words/en.yaml": "home: [a, b]\n"}), "en")
