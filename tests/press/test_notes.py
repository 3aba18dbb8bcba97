import re
from html import escape
from html.parser import HTMLParser

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from daterun.pages.pieces import Note, NoteLink, SideView
from daterun.press import notes
from daterun.press.notes import NotePress


def plate(link):
    return f'<figure class="plate">{len(link.sides)} of {link.text}</figure>'


def mention(link):
    return (
        f'<a class="mention" href="../{link.address}">{link.text}</a>' if link.address else escape(link.text)
    )


PRESS = NotePress("en-GB", plate, mention)

SIDE = SideView("reverse", None, None, "A spruce")
INLINE = NoteLink("[[ort/1897]]", "the ort of 1897", "coins/ort/1897/index.html", False, (SIDE,), "")
PLATE = NoteLink(
    "[[ort/1897 both]]", "Ort of 1897", "coins/ort/1897/index.html", True, (SIDE, SIDE), "Ort & co."
)


def make(markdown, *links, number=1):
    return str(PRESS.make(Note(markdown, links), number))


def test_a_note_becomes_paragraphs():
    assert make("One.\n\nTwo *it* is.") == "<p>One.</p>\n<p>Two <em>it</em> is.</p>"


def test_headings_begin_under_the_page_s_own():
    assert make("# A\n\n## B") == "<h2>A</h2>\n<h3>B</h3>"
    assert make("## A\n\n#### B") == "<h2>A</h2>\n<h4>B</h4>"


def test_a_link_to_a_coin_is_a_mention():
    html = make("See [[ort/1897]].", INLINE)
    assert html == '<p>See <a class="mention" href="../coins/ort/1897/index.html">the ort of 1897</a>.</p>'


def test_a_link_that_leads_nowhere_is_its_words():
    nowhere = NoteLink("[[ort/1799]]", "an ort <1799>", "", False, (), "")
    assert make("[[ort/1799]] and [[daler/1|that one]]", nowhere) == "<p>an ort &lt;1799&gt; and that one</p>"


def test_a_plate_alone_is_a_figure():
    html = make("Before.\n\n[[ort/1897 both]]\n\nAfter.", PLATE)
    assert html == '<p>Before.</p>\n<figure class="plate">2 of Ort of 1897</figure>\n<p>After.</p>'


def test_a_plate_within_a_paragraph_parts_it():
    html = make("Look [[ort/1897 both]] here.", PLATE)
    assert html == '<p>Look </p>\n<figure class="plate">2 of Ort of 1897</figure>\n<p> here.</p>'


def test_a_plate_in_a_list_stands_in_its_item():
    html = make("- [[ort/1897 both]]\n- x", PLATE)
    assert html.startswith('<ul>\n<li><figure class="plate">')


def test_a_plate_within_a_heading_or_emphasis_is_a_link():
    assert make("*[[ort/1897 both]]*", PLATE) == (
        '<p><em><a class="mention" href="../coins/ort/1897/index.html">Ort of 1897</a></em></p>'
    )


def test_a_link_within_a_link_is_its_words():
    html = make("[so [[ort/1897]] it](https://example.org/)", INLINE)
    assert html.count("<a ") == 1
    assert "so the ort of 1897 it" in html


def test_links_in_code_stay_as_typed():
    html = make('`[[ort/1897]]`\n\n```\n[[ort/1897]] "--"\n```\n\n    [[ort/1897]]', INLINE)
    assert html.count("[[ort/1897]]") == 3
    assert '"--"' in html
    assert "<a" not in html


@pytest.mark.parametrize(
    "typed",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "![x](javascript:alert(1))",
        "[x](javascript:alert(1))",
        "[x](JaVaScRiPt:alert(1))",
        "[x](data:text/html,<script>alert(1)</script>)",
        "<a href='vbscript:x' onclick='x()'>x</a>",
        "<svg><script>alert(1)</script></svg>",
        "<math><mi xlink:href='javascript:alert(1)'>x</mi></math>",
        "<iframe src='https://example.org/'></iframe>",
        "<style>@import url(https://example.org/x.css)</style>",
        "<div style='background:url(https://example.org/)'>x</div>",
        "<form action='https://example.org'><input name=x></form>",
        "<base href='https://example.org/'>",
        "<meta http-equiv=refresh content='0;url=https://example.org/'>",
        "<p class='notice' id='x'>x</p>",
        "<a title='> [[ort/1897]] onclick=alert(1)' href='x'>x</a>",
        '[x](y "> [[ort/1897]] onclick=alert(1) <script>")',
        "\ue0000\ue001 <b onclick=x>",
        "<<script>script>alert(1)</script>",
        "`<script>alert(1)</script>`",
        "| a |\n| - |\n| <script>alert(1)</script> |",
        "x[^1]\n\n[^1]: <script>alert(1)</script>",
    ],
)
def test_nothing_typed_can_run_or_reach_another_host(typed):
    tags = set(re.findall(r"\w+", "p a b i div span code pre table thead tbody tr th td sup ol li hr"))

    class Watch(HTMLParser):
        def handle_starttag(self, tag, attrs):
            assert tag in tags
            for name, value in attrs:
                assert name in {"href", "title", "class", "id", "rel"}
                if name == "href":
                    assert value in ("x", "y") or value.startswith(("#fn", "../coins/"))
                if name == "class":
                    assert value in ("mention", "footnote", "footnote-ref", "footnote-backref")

    html = make(typed, INLINE)
    Watch().feed(html)
    assert "\ue000" not in html


def test_an_image_typed_is_its_words():
    assert make("![A map](map.png)") == "<p><span>A map</span></p>"


def test_links_away_tell_nothing_of_where_they_came_from():
    assert make("[x](https://example.org/)") == (
        '<p><a href="https://example.org/" rel="noopener noreferrer">x</a></p>'
    )


def test_quotes_and_dashes_are_printed_ones():
    assert make('"So," he said -- it\'s *"old"*...') == "<p>“So,” he said – it’s <em>“old”</em>…</p>"
    assert make("\"*Old*\" and the '90s, 'quoted'") == "<p>“<em>Old</em>” and the ’90s, ‘quoted’</p>"


def test_an_escaped_quote_stays_as_typed():
    assert make('6\\" wide') == '<p>6" wide</p>'


def test_footnotes_of_two_notes_on_one_page_keep_apart():
    first = make("A[^1]\n\n[^1]: Said so.", number=1)
    second = make("A[^1]\n\n[^1]: Said so.", number=2)
    assert 'href="#fn:1-1"' in first and 'id="fn:1-1"' in first
    assert 'href="#fn:2-1"' in second and 'id="fn:2-1"' in second


def test_a_note_is_the_same_whatever_was_made_before():
    first = make("A[^1] [[ort/1897]]\n\n[^1]: Said so.", INLINE)
    make("Other[^1]\n\n[^1]: x\n\n[[ort/1897 both]]", PLATE)
    assert make("A[^1] [[ort/1897]]\n\n[^1]: Said so.", INLINE) == first


def test_a_table_s_columns_keep_their_side():
    html = make("| year | struck |\n| --- | ---: |\n| 1897 | 98000 |")
    assert '<td class="right">98000</td>' in html


class _Nothing:
    def fullmatch(self, text):
        return None


PIECES = st.lists(
    st.one_of(
        st.sampled_from(
            [" ", "  ", "\n", "\n\n", ".", "..", ",", ";", "(", ")", "1", "1.", "é", "ß", "字", "a", "Ab"]
        ),
        st.text(max_size=3),
    ),
    max_size=12,
)


@given(PIECES)
@example(["One. Two\n\nthree.\n"])
@example(["a \nb"])
@example(["a\n1. b"])
@example(["a\n\n  b"])
@example(["(c) a"])
@example(["a (c) b"])
def test_plain_words_come_out_as_markdown_would_have_them(pieces):
    text = "".join(pieces)
    made = make(text)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(notes, "_PLAIN", _Nothing())
        assert make(text) == made
