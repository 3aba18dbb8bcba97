"""What a page made of a text never shows is taken out of it, and a link is its words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.pages.findtexts import plain_words, text_with
from daterun.records.shown import without_hidden, without_targets


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Sharp. <!-- had of a widow --> Dark.", "Sharp.  Dark."),
        ("a<!-- one -->b<!--\n\ntwo\n-->c", "abc"),
        ("a <SCRIPT src=x>had of a widow</script >b", "a b"),
        ("a <style>.widow {}</style\n>b", "a b"),
        ("a <!-- that has no end", "a <!-- that has no end"),
        ("1 < 2 --> 3", "1 < 2 --> 3"),
        ("<!-- a <script>b</script> -->c", "c"),
    ],
)
def test_comments_and_programs_are_taken_out(typed, shown):
    assert without_hidden(typed) == shown


def test_very_many_comments_that_are_never_closed_are_passed_over_at_once():
    text = "<!--" * 200_000 + "<script" * 200_000
    assert without_hidden(text) == text


def test_a_link_to_a_coin_is_its_words_unless_the_coin_is_kept():
    text = "Not [[ort/sold-to-moss|the other]] nor [[ort/sold-to-moss]], see [[ort/1899 both]], [[ort 1881]]."
    assert without_targets(text, {"ort/1899"}) == (
        "Not the other nor ort sold-to-moss, see [[ort/1899 both]], [[ort 1881]]."
    )


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("Sharp. <!-- Zander had it of a widow -->", "sharp."),
        ("Better than [[ort/sold-to-zander|the *other* one]].", "better than the other one."),
        ("Like [[ort 1881]].", "like ort 1881 ."),
        ('Bold <b title="Zander">as</b> brass <zander> here', "bold as brass here"),
        (
            'Read [it][1].\n\n[1]: https://a.example "Zander"\n[^1]: A footnote.',
            "read it 1 . ^1 : a footnote.",
        ),
        ("a < b and c > d", "a < b and c d"),
    ],
)
def test_the_words_by_which_a_coin_is_found_are_those_that_are_shown(typed, words):
    assert plain_words(typed) == words


@given(st.text(alphabet="ab <>!-[]|*/#\n", max_size=30), st.text(alphabet="ab <>!-[]|*/#\n", max_size=30))
def test_other_notes_change_nothing_of_the_words_before_them(design, notes):
    head = plain_words(design)
    before = " ".join(each for each in (head, plain_words("as it was")) if each)
    after = " ".join(each for each in (head, plain_words(notes)) if each)
    assert text_with(before, "as it was", notes) == after
