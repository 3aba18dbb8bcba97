import re

import pytest

from daterun.pages.pieces import NoteLink
from daterun.press.templates import Press
from daterun.press.theme import ThemeMistake
from daterun.press.words import read_words


def press(theme, **given):
    return Press(theme, read_words(theme, "en-GB"), **given)


def mistake(theme, page):
    with pytest.raises(ThemeMistake) as caught:
        press(theme).render(page)
    problem = caught.value.problem
    return problem.place.path, problem.place.line, problem.sentence, problem.hint


def test_a_page_is_made_from_its_view(make_theme, essay_page):
    theme = make_theme()
    assert press(theme).render(essay_page("Some *text*.")) == (
        "<!doctype html>\n<title>On orts</title>\n"
        f'<link rel=stylesheet href="../../{theme.asset_address("style.css")}">\n<h1>On orts</h1>\n'
        '<p>Some <em>text</em>.</p>\n<a href="../../index.html">Home</a>\n'
    )


def test_what_a_view_says_is_escaped(make_theme, essay_page):
    html = press(make_theme()).render(essay_page(heading="<script>alert(1)</script>"))
    assert "<h1>&lt;script&gt;alert(1)&lt;/script&gt;</h1>" in html


def test_the_theme_shows_plates_and_mentions(make_theme, essay_page):
    links = (
        NoteLink("[[ort/1897]]", "an <ort>", "coins/ort/1897/index.html", False, (), ""),
        NoteLink("[[ort/1897 both]]", "x", "coins/ort/1897/index.html", True, (), "Two & two"),
    )
    html = press(make_theme()).render(essay_page("See [[ort/1897]].\n\n[[ort/1897 both]]", links=links))
    assert '<a href="../../coins/ort/1897/index.html">an &lt;ort&gt;</a>' in html
    assert "<figure>Two &amp; two</figure>" in html


def test_the_page_for_lost_addresses_has_whole_links_where_the_site_s_are_known(make_theme, lost_page):
    assert press(make_theme(), base="/coins/").render(lost_page) == '<a href="/coins/index.html">Home</a>\n'
    assert press(make_theme()).render(lost_page) == '<a href="index.html">Home</a>\n'


def test_filters_scale_sizes_and_write_millimetres(make_theme, essay_page):
    text = "{{ 500|scaled(76) }} {{ 0|scaled(76) }} {{ 2650|mm }} {{ 2605|mm }} {{ 3000|mm }}"
    html = press(make_theme({"templates/essay.html.j2": text})).render(essay_page())
    assert html == "38 1 26.5mm 26.05mm 30mm"


def test_a_mistake_of_grammar_is_told_with_its_line(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "<p>\n{% if view.heading %}\n"})
    path, line, sentence, _ = mistake(theme, essay_page())
    assert (path, line) == ("themes/tray/templates/essay.html.j2", 2)
    assert "Unexpected end of template" in sentence


def test_a_name_that_no_view_has_is_told_with_its_line(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "<p>\n{{ view.headign }}\n"})
    path, line, sentence, _ = mistake(theme, essay_page())
    assert (path, line) == ("themes/tray/templates/essay.html.j2", 2)
    assert "has no attribute 'headign'" in sentence


def test_a_mistake_in_a_part_is_told_there(make_theme, essay_page):
    theme = make_theme(
        {
            "templates/essay.html.j2": "{% from 'parts/x.html.j2' import x %}\n{{ x(view) }}",
            "templates/parts/x.html.j2": "{% macro x(v) %}\n\n{{ v.nothing }}{% endmacro %}",
        }
    )
    assert mistake(theme, essay_page())[:2] == ("themes/tray/templates/parts/x.html.j2", 3)


def test_a_missing_phrase_is_told_with_the_nearest(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "\n{{ words('hmoe') }}"})
    assert mistake(theme, essay_page()) == (
        "themes/tray/templates/essay.html.j2",
        2,
        'the theme has no phrase "hmoe"',
        'did you mean "home"?',
    )


def test_a_missing_asset_is_told_with_the_nearest(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "{{ asset('styel.css') }}"})
    assert mistake(theme, essay_page()) == (
        "themes/tray/templates/essay.html.j2",
        1,
        'the theme has no asset "styel.css"',
        'did you mean "style.css"?',
    )


def test_a_missing_template_is_told_where_it_is_asked_for(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "\n{% extends 'bass.html.j2' %}"})
    assert mistake(theme, essay_page()) == (
        "themes/tray/templates/essay.html.j2",
        2,
        'the theme has no template "bass.html.j2"',
        'did you mean "base.html.j2"?',
    )


def test_a_part_for_notes_without_its_macros_is_a_mistake(make_theme, essay_page):
    theme = make_theme({"templates/parts/note.html.j2": ""})
    assert mistake(theme, essay_page())[0] == "themes/tray/templates/parts/note.html.j2"


def test_arithmetic_that_fails_in_a_template_is_the_theme_s(make_theme, essay_page):
    theme = make_theme({"templates/essay.html.j2": "{{ 1 // 0 }}"})
    assert mistake(theme, essay_page())[:2] == ("themes/tray/templates/essay.html.j2", 1)


def test_a_fault_of_the_program_keeps_its_traceback(make_theme, essay_page):
    with pytest.raises(AttributeError):
        press(make_theme({"templates/essay.html.j2": "{{ notes(1) }}"})).render(essay_page())


HOSTILE = [
    "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    "{{ notes.__globals__ }}",
    "{{ to.__self__.theme }}",
    "{{ words.__func__.__globals__['re'] }}",
    "{{ cycler.__init__.__globals__.os.popen('id').read() }}",
    "{{ self.__init__.__globals__ }}",
    "{{ ''|attr('__class__') }}",
    "{{ '{0.__class__.__mro__}'.format(1) }}",
    "{{ view.__class__.__init__.__globals__ }}",
    "{% for x in range(999999999) %}{% endfor %}",
    "{{ page.title.__class__ }}",
    "{{ [].append(1) }}",
    "{% for a in range(9) recursive %}{{ loop(range(9)) }}{% endfor %}",
    "{{ 'x' * 9999999999 }}",
    "{{ 9999999999 * [1] }}",
    "{{ 9 ** 99999999 }}",
    "{{ '%9999999999d' % 1 }}",
    "{{ '%0*d' % (9999999999, 1) }}",
    "{{ '%9999999999d'|format(1) }}",
    "{{ 'x'.center(9999999999) }}",
    "{{ 'x'|center(9999999999) }}",
    "{{ ('x\\ny')|indent(9999999999) }}",
]

ENDLESS = [
    "{% for a in range(9999) %}{% for b in range(9999) %}{% endfor %}{% endfor %}",
    "{% for a in range(9999) %}{% for b in range(9999) %}{{ loop.index }}{% endfor %}{% endfor %}",
    "{% macro m(n) %}a{% if n %}{{ m(n - 1) }}{{ m(n - 1) }}{% endif %}{% endmacro %}{{ m(60) }}",
    "{% macro m(n) %}{% if n and not varargs %}{{ m(n - 1) }}{{ m(n - 1) }}{% endif %}{% endmacro %}{{ m(60) }}",
    "{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}",
    "{% macro m(n) %}{{ [to(n ~ 1)] }}{{ m(n + 1) }}{% endmacro %}{{ m(0) }}",
    "{% macro m(n) %}{{ [to(n ~ 1), to(n ~ 2)] }}{{ m(n + 1) }}{% endmacro %}{{ m(0) }}",
    "{% macro m(n) %}{{ [to(n ~ 1), to(n ~ 2), to(n ~ 3)] }}{{ m(n + 1) }}{% endmacro %}{{ m(0) }}",
    "{% set r = range(99999) %}{% for a in r %}{% for b in r %}{{ r|sum }}{% endfor %}{% endfor %}",
]


@pytest.mark.parametrize("endless", ENDLESS, ids=range(len(ENDLESS)))
def test_a_template_that_is_never_done_is_a_mistake_of_the_theme(
    make_theme, essay_page, endless, monkeypatch
):
    monkeypatch.setattr("daterun.press.bounds.MOST_SECONDS", 1.0)
    monkeypatch.setattr("daterun.press.bounds.MOST_ROUNDS", 200_000)
    path, line, sentence, _ = mistake(make_theme({"templates/essay.html.j2": endless}), essay_page())
    assert (path, line) == ("themes/tray/templates/essay.html.j2", 1)
    assert re.search("rounds and calls|seconds for one page|recursion", sentence)


def test_a_loop_still_knows_its_length_and_its_last(make_theme, essay_page):
    text = "{% for a in 'abc' %}{{ loop.index }}/{{ loop.length }}{% if not loop.last %}, {% endif %}{% endfor %}"
    theme = make_theme({"templates/essay.html.j2": text + "{% for a in [] %}{% else %}.{% endfor %}"})
    assert press(theme).render(essay_page()) == "1/3, 2/3, 3/3."


@pytest.mark.parametrize("hostile", HOSTILE)
def test_a_template_that_reaches_for_the_program_is_a_mistake_of_the_theme(make_theme, essay_page, hostile):
    theme = make_theme({"templates/essay.html.j2": hostile})
    with pytest.raises(ThemeMistake):
        press(theme).render(essay_page())


@pytest.mark.parametrize("name", ["/etc/passwd", "../../secret.txt", "../words/en.yaml"])
def test_a_template_includes_no_file_but_the_themes_templates(make_theme, essay_page, name):
    theme = make_theme({"templates/essay.html.j2": f"{{% include '{name}' %}}"})
    with pytest.raises(ThemeMistake):
        press(theme).render(essay_page())


def test_a_template_that_is_no_text_is_a_mistake_of_the_theme(make_theme, essay_page):
    theme = make_theme()
    theme.templates["essay.html.j2"].path.write_bytes(b"caf\xe9 \xff")
    assert mistake(theme, essay_page())[2] == "this file is not UTF-8 text"
