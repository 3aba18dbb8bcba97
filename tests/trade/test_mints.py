import pytest

from daterun.problems import Misread
from daterun.trade.mints import NONE, MintMark, parse_mint_mark


@pytest.mark.parametrize("text", ["K", "k", "NO", "SA2", "Å", "0640", "H"])
def test_a_mint_mark_keeps_its_letters_and_their_case(text):
    assert parse_mint_mark(f" {text} ") == MintMark(text)
    assert str(parse_mint_mark(text)) == text


def test_capital_and_small_letters_are_two_mint_marks():
    assert parse_mint_mark("k") != parse_mint_mark("K")


@pytest.mark.parametrize("text", ["none", "None"])
def test_none_is_the_mint_without_a_mark(text):
    assert parse_mint_mark(text) is NONE
    assert parse_mint_mark("NO") != NONE


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "the mint mark is empty"),
        ("*", '"*" is not a mint mark'),
        ("K M", '"K M" is not a mint mark'),
        ("K_", '"K_" is not a mint mark'),
        ("KALDHAMNSMARK", '"KALDHAMNSMARK" is too long for a mint mark'),
    ],
)
def test_signs_spaces_and_long_words_are_no_mint_mark(text, sentence):
    with pytest.raises(Misread) as caught:
        parse_mint_mark(text)
    assert caught.value.sentence == sentence
    assert caught.value.hint
