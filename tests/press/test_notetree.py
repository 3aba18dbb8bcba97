"""Notes as trees: what comes through, and that nothing typed comes through as anything but text."""

import pytest

from daterun.pages.pieces import Note, NoteLink
from daterun.press.notetree import KINDS, NoteTrees

OTHERS = {"text", "heading", "link", "mention", "plate", "footnote", "typed"}


def tree(markdown, links=()):
    return NoteTrees("en-GB").make(Note(markdown, tuple(links)))


def text_of(nodes):
    return "".join(
        each.get("text", "")
        + text_of(each.get("children", ()))
        + "".join(text_of(cell["children"]) for row in each.get("rows", ()) for cell in row)
        for each in nodes
    )


def kinds_of(nodes):
    found = set()
    for each in nodes:
        found.add(each["kind"])
        found |= kinds_of(each.get("children", ()))
        for row in each.get("rows", ()):
            for cell in row:
                found |= kinds_of(cell["children"])
    return found


def test_emphasis_lists_and_quotes_are_nodes():
    nodes = tree("A *b* **c** `d`\n\n- one\n- two\n\n3. three\n\n> said\n\n---\n")
    assert [each["kind"] for each in nodes] == ["paragraph", "bullets", "numbers", "quote", "rule"]
    assert [each["kind"] for each in nodes[0]["children"]] == [
        "text", "emphasis", "text", "strong", "text", "code",
    ]  # fmt: skip
    assert [text_of([each]) for each in nodes[1]["children"]] == ["one", "two"]


@pytest.mark.parametrize(
    "typed",
    [
        "<script>alert(1)</script>",
        "<b>bold</b>",
        "#read(x) $y$ [z] @w <v>",
        "<coinlink written='x'>a</coinlink>",
    ],
)
def test_html_and_signs_of_typst_are_text_as_typed(typed):
    nodes = tree(f"Before {typed} after")
    assert text_of(nodes) == f"Before {typed} after".replace("'x'", "’x’")
    assert kinds_of(nodes) == {"paragraph", "text"}


def test_a_block_of_html_is_text_too():
    assert "<div>" in text_of(tree("<div>\nA *b*\n</div>"))


def test_code_is_kept_as_typed():
    assert tree('```\na < b & "c"\n  d\n```') == [{"kind": "typed", "text": 'a < b & "c"\n  d'}]
    assert tree("`a < \\b`")[0]["children"] == [{"kind": "code", "text": "a < \\b"}]


def test_escaped_signs_and_entities_are_the_signs_meant():
    assert text_of(tree("\\*not\\* &copy; 3 &lt; 4")) == "*not* © 3 < 4"


def test_only_links_to_the_web_and_to_mail_lead_anywhere():
    nodes = tree("[a](https://example.org/?b=1&c=2) [d](javascript:e) [f](file:///g) <h@example.org>")
    links = [each["to"] for each in nodes[0]["children"] if each["kind"] == "link"]
    assert links[0] == "https://example.org/?b=1&c=2"
    assert links[1:] == ["mailto:h@example.org"]
    assert "d f" in text_of(nodes)


def test_a_table_has_its_rows_of_equal_length():
    (table,) = tree("| A | B |\n| --- | ---: |\n| 1 | 2 |\n")
    assert (table["kind"], table["columns"], len(table["rows"])) == ("table", 2, 2)
    assert table["rows"][0][1]["align"] == "right"
    assert text_of(table["rows"][1][1]["children"]) == "2"


def test_a_footnote_stands_where_it_is_called_and_nowhere_else():
    nodes = tree("Said[^1].\n\n[^1]: At the *foot*.\n")
    assert len(nodes) == 1
    note = next(each for each in nodes[0]["children"] if each["kind"] == "footnote")
    assert text_of(note["children"]) == "At the foot."


def test_a_footnote_that_calls_itself_comes_to_an_end():
    assert "Round" in text_of(tree("Said[^1].\n\n[^1]: Round[^1].\n"))


def test_a_plate_parts_its_paragraph_and_a_mention_does_not():
    plate = NoteLink("[[ort/1 both]]", "Ort 1", "coins/ort/1/index.html", True, (), "Ort 1. Fine.")
    mention = NoteLink("[[ort/1]]", "Ort 1", "coins/ort/1/index.html", False, (), "")
    nodes = tree("See [[ort/1]] here. [[ort/1 both]] Then on.", [plate, mention])
    assert [each["kind"] for each in nodes] == ["paragraph", "plate", "paragraph"]
    assert nodes[0]["children"][1] == {
        "kind": "mention",
        "text": "Ort 1",
        "address": "coins/ort/1/index.html",
    }


def test_a_link_that_leads_nowhere_is_its_words():
    assert text_of(tree("See [[ort/9|the ninth]].")) == "See the ninth."


def test_no_kind_comes_through_that_is_not_listed():
    everything = (
        "# H\n\nA *b* **c** `d` x<sup>2</sup> [e](https://f.example)[^1]\n\n"
        "T\n:   M\n\n- l\n\n1. m\n\n> q\n\n---\n\n| a |\n| --- |\n| b |\n\n    code\n\n[^1]: n\n"
    )
    assert kinds_of(tree(everything)) <= set(KINDS.values()) | OTHERS
