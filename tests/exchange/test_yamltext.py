import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.exchange.plain import plain, read_plain
from daterun.exchange.yamltext import flow_of, lines_of, text_of
from daterun.records.located import read_located

# What the reader itself takes for its own mark is left out; surrogates are no text.
TEXTS = st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\ue000"), max_size=40)
TRICKY = st.sampled_from(
    ["NO", "0640", "12.50", "~", "null", "yes", "- a", "a: b", "a #b", "{a}", "[a", "'a", '"a"', "*a", "&a",
     "!a", "%a", "@a", "`a", "? a", "?a", "18?2", "a, b", "a\nb", " a", "a ", "\ta", "---", "...", "é", "1,250",
     "a:b", ":", "=1+1", "|", ">", "\u2028", "\x85", "\ufeff", "😀"]
)  # fmt: skip
VALUES = st.recursive(
    TEXTS | TRICKY,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=6,
)


def reads_back(value):
    node, problems = read_located(lines_of({"key": value}), "a.md")
    assert problems == []
    return plain(node.get("key"))


@given(VALUES)
def test_whatever_is_written_reads_back_the_same(value):
    assert reads_back(value) == value


@given(st.dictionaries(TEXTS | TRICKY, TEXTS | TRICKY, max_size=5))
def test_keys_read_back_as_well_as_values(values):
    node, problems = read_located(lines_of(values), "a.md")
    assert problems == []
    assert (plain(node) if node else {}) == values


@given(st.lists(TEXTS, max_size=3) | st.dictionaries(TEXTS, TEXTS, max_size=3))
def test_a_value_in_braces_is_read_for_what_it_stands_for(value):
    assert read_plain(flow_of(value)) == value


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("VF30–EF40", "VF30–EF40"),
        ("45.00 VKR", "45.00 VKR"),
        ("hair over the ear, worn", '"hair over the ear, worn"'),
        ("seen: twice", '"seen: twice"'),
        ("", '""'),
        ('a "quote"', '"a \\"quote\\""'),
    ],
)
def test_a_text_is_quoted_only_where_it_must_be(text, written):
    assert text_of(text) == written


def test_a_text_that_only_begins_like_a_list_is_no_list():
    assert read_plain("[cleaned") is None
    assert read_plain("cleaned") is None
