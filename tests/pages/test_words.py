import pytest

from daterun.pages.words import MissingWord, Words

WORDS = Words(
    "en-GB",
    {
        "home": "Home",
        "struck": "{n} struck in {year}",
        "coins": {"one": "{n} coin", "other": "{n} coins"},
        "gaps": {"zero": "no gap", "one": "one gap", "other": "{n} gaps"},
        "odd": "a {thing}",
    },
)


def test_a_phrase_is_said_as_it_stands():
    assert WORDS.say("home") == "Home"


def test_a_count_chooses_the_form_and_is_grouped():
    assert WORDS.count("coins", 1) == "1 coin"
    assert WORDS.count("coins", 0) == "0 coins"
    assert WORDS.count("coins", 12345) == "12,345 coins"
    assert WORDS.count("gaps", 0) == "no gap"


def test_a_year_is_never_grouped():
    assert WORDS.say("struck", n=98000, year=1897) == "98,000 struck in 1897"


def test_a_phrase_may_have_a_gap_named_key_or_self():
    words = Words("en", {"both": "{key} and {self}"})
    assert words.say("both", key="a", self="b") == "a and b"


def test_a_missing_phrase_is_named():
    with pytest.raises(MissingWord, match='the theme has no phrase "haus"'):
        WORDS.say("haus")


def test_a_gap_that_nothing_fills_is_named():
    with pytest.raises(MissingWord, match=r'"odd" has a gap "\{thing\}"'):
        WORDS.say("odd")


@pytest.mark.parametrize(
    ("language", "number"),
    [("en-GB", "12,345"), ("de", "12.345"), ("fr-FR", "12\u202f345"), ("sv", "12\u00a0345")],
)
def test_thousands_are_grouped_as_the_language_does(language, number):
    assert Words(language, {}).number(12345) == number


def test_a_space_groups_only_from_five_figures():
    assert Words("sv", {}).number(1234) == "1234"
    assert Words("en", {}).number(1234) == "1,234"


def test_nought_is_single_in_french():
    assert Words("fr", {"coins": {"one": "{n} pièce", "other": "{n} pièces"}}).count("coins", 0) == "0 pièce"
