import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.naming import listed, slug


@pytest.mark.parametrize(
    ("name", "address"),
    [
        ("Half skilling", "half-skilling"),
        ("½ skilling", "half-skilling"),
        ("¼d", "quarter-d"),
        ("1½ d.", "1-half-d"),
        ("¾ oz", "three-quarters-oz"),
        ("£1", "pound-1"),
        ("2s 6d", "2s-6d"),
        ("  Øre / Öre ", "ore-ore"),
        ("Złoty", "zloty"),
        ("Großer Kurfürst", "grosser-kurfurst"),
        ("Æthelred II", "aethelred-ii"),
        ("Ǽ ǿ Đ", "ae-o-d"),
        ("25 ¢™", "25-tm"),
        ("№ Ⅷ", "no-viii"),
    ],
)
def test_a_name_becomes_small_letters_and_figures_joined_by_hyphens(name, address):
    assert slug(name) == address


@pytest.mark.parametrize("name", ["रुपया", "рубль", "円", "원", "ริยาล"])
def test_letters_of_other_scripts_are_kept_with_the_marks_they_need(name):
    assert slug(name) == unicodedata.normalize("NFC", name)


def test_a_name_of_signs_alone_has_an_address_all_the_same():
    assert slug("!?") == "x"
    assert slug("") == "x"


@given(st.text(max_size=12))
def test_an_address_has_nothing_that_parts_or_ends_one(name):
    found = slug(name)
    assert found
    assert not set(found) & set(" /\\?#%:*\"<>|.&'")
    assert not found.startswith("-")
    assert not found.endswith("-")
    assert "--" not in found
    assert slug(found) == found


@pytest.mark.parametrize(
    ("words", "text"),
    [
        ((), ""),
        (("cleaned",), "cleaned"),
        (("cleaned", "pierced"), "cleaned and pierced"),
        (("1884", "1886", "1891–1893"), "1884, 1886 and 1891–1893"),
    ],
)
def test_words_are_joined_with_one_and_before_the_last(words, text):
    assert listed(words) == text


def test_the_joint_is_of_the_language():
    assert listed(("764", "1,128"), "or") == "764 or 1,128"
    assert listed(("a", "b", "c"), "och") == "a, b och c"
