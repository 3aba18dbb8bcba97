import pytest

from daterun.problems import Misread
from daterun.records.web import parse_web


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("https://example.org", "https://example.org/"),
        ("https://example.org/coins", "https://example.org/coins/"),
        ("https://example.org/coins//", "https://example.org/coins/"),
        ("http://localhost:8000/a/b/", "http://localhost:8000/a/b/"),
        ("https://example.org/~me/münzen", "https://example.org/~me/m%C3%BCnzen/"),
        ("https://example.org/m%C3%BCnzen/", "https://example.org/m%C3%BCnzen/"),
    ],
)
def test_an_address_is_that_of_a_folder(text, read):
    assert parse_web(text) == read
    assert parse_web(read) == read


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        (
            "example.org/coins",
            '"example.org/coins" is not a web address',
            "it begins with https:// or http://",
        ),
        (
            "ftp://example.org/",
            '"ftp://example.org/" is not a web address',
            "it begins with https:// or http://",
        ),
        ("", '"" is not a web address', "it begins with https:// or http://"),
        ("https://", '"https://" names no host', "write it as in https://example.org/coins/"),
        ("https:///coins/", '"https:///coins/" names no host', "write it as in https://example.org/coins/"),
        ("https://a:b@example.org/", '"https://a:b@example.org/" names no host', "write it as in https://"),
        (
            "https://example.org:x/",
            '"https://example.org:x/" is not a web address',
            "write it as in https://",
        ),
        ("https://[1/", '"https://[1/" is not a web address', "write it as in https://"),
        ("https://example.org/my coins/", '"https://example.org/my coins/" is not a web', "it has no spaces"),
        (
            "https://example.org/?a",
            '"https://example.org/?a" is not the address of a folder',
            "leave out what",
        ),
        (
            "https://example.org/#a",
            '"https://example.org/#a" is not the address of a folder',
            "leave out what",
        ),
        (
            "https://example.org/coins/index.html",
            '"https://example.org/coins/index.html" is the address of a page, not of a folder',
            "write https://example.org/coins/",
        ),
    ],
)
def test_what_is_no_address_of_a_folder_is_told_with_what_to_write(text, sentence, hint):
    with pytest.raises(Misread) as caught:
        parse_web(text)
    assert caught.value.sentence.startswith(sentence)
    assert caught.value.hint.startswith(hint)
