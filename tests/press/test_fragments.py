"""What pure macros made is kept, and given where it is the same."""

import pytest
from jinja2 import DictLoader, FunctionLoader

from daterun.pages.pieces import Link
from daterun.press import fragments
from daterun.press.addresses import link_from
from daterun.press.bounds import BoundedEnvironment


class Pages:
    """Makes pages of one text with the macros of one template, and counts how often a macro looked at words."""

    def __init__(self, macros):
        self.asked = 0
        self.address = ""
        self.environment = BoundedEnvironment(loader=DictLoader({"macros": macros}), autoescape=True)
        self.environment.offer(to=self._to, words=self._words)

    def _to(self, address):
        link = link_from(self.address, address)
        self.environment.fragments.follow(link)
        return link

    def _words(self, key):
        self.asked += 1
        return key

    def make(self, address, text, **given):
        self.address = address
        self.environment.begin(address.rpartition("/")[0])
        template = self.environment.from_string('{% from "macros" import card, cards %}' + text)
        return template.render(**given)


CARDS = (
    '{% macro card(link, n=1) %}{{ words("a") }}<a href="{{ to(link.address) }}">{{ link.text }} {{ n }}</a>'
    "{% endmacro %}{% macro cards(links) %}{% for each in links %}{{ card(each) }}{% endfor %}{% endmacro %}"
)
HERE, BESIDE, THERE = (Link(each, f"coins/{each}/index.html") for each in ("a", "b", "c"))


@pytest.fixture
def pages():
    return Pages(CARDS)


def test_what_was_made_of_the_same_is_given_again(pages):
    first = pages.make("coins/a/index.html", "{{ card(link) }}{{ card(link) }}", link=BESIDE)
    assert first == 2 * 'a<a href="../b/index.html">b 1</a>'
    assert pages.make("coins/c/index.html", "{{ card(link) }}", link=BESIDE) == first[: len(first) // 2]
    assert pages.asked == 1


def test_what_is_equal_but_another_is_made_by_itself(pages):
    pages.make("coins/a/index.html", "{{ card(link) }}", link=BESIDE)
    pages.make("coins/a/index.html", "{{ card(link) }}", link=Link("b", "coins/b/index.html"))
    assert pages.asked == 2


@pytest.mark.parametrize("n", ["1", "true", "'1'", "none", "2"])
def test_plain_values_that_are_written_otherwise_are_told_apart(pages, n):
    first = pages.make("coins/a/index.html", "{{ card(link, 1) }}", link=BESIDE)
    other = pages.make("coins/a/index.html", f"{{{{ card(link, {n}) }}}}", link=BESIDE)
    assert (other == first) == (n in ("1", "'1'"))
    assert pages.asked == (1 if n == "1" else 2)


def test_a_link_to_the_page_s_own_folder_is_worded_for_it_alone(pages):
    on = {
        each.text: pages.make(each.address, "{{ cards(links) }}", links=(HERE, BESIDE, THERE))
        for each in (HERE, BESIDE, THERE, HERE)
    }
    for own, html in on.items():
        for each in (HERE, BESIDE, THERE):
            way = "index.html" if each.text == own else f"../{each.text}/index.html"
            assert f'<a href="{way}">{each.text} 1</a>' in html


@pytest.mark.parametrize(
    "address",
    [
        "index.html",
        "coins/index.html",
        "dates/1900/index.html",
        "coins/a/more/index.html",
        "coins/d/page-2.html",
    ],
)
def test_pages_in_other_folders_have_ways_of_their_own(pages, address):
    for before in ("coins/a/index.html", "index.html", "essays/index.html"):
        pages.make(before, "{{ card(link) }}", link=BESIDE)
    html = pages.make(address, "{{ card(link) }}", link=BESIDE)
    assert html == f'a<a href="{link_from(address, BESIDE.address)}">b 1</a>'


def test_a_list_that_may_change_is_read_each_time(pages):
    links = [BESIDE]
    first = pages.make("coins/a/index.html", "{{ cards(links) }}", links=links)
    links.append(THERE)
    assert pages.make("coins/a/index.html", "{{ cards(links) }}", links=links) == first + (
        'a<a href="../c/index.html">c 1</a>'
    )


def test_once_too_much_is_kept_it_is_let_go(pages, monkeypatch):
    monkeypatch.setattr(fragments, "MOST_KEPT", 40)
    for _ in range(2):
        for each in (BESIDE, THERE):
            assert each.address in pages.make("d/e/index.html", "{{ card(link) }}", link=each)
    assert pages.asked == 4


def test_what_fails_is_not_kept(pages):
    for _ in range(2):
        with pytest.raises(AttributeError):
            pages.make("coins/a/index.html", "{{ card(link) }}", link=Link("x", None))
    assert "../b/" in pages.make("coins/a/index.html", "{{ card(link) }}", link=BESIDE)


def test_a_block_handed_to_a_macro_is_made_each_time():
    pages = Pages("{% macro card(n) %}{{ n }}{{ caller() }}{% endmacro %}{% macro cards() %}{% endmacro %}")
    text = "{% call card(1) %}{{ said }}{% endcall %}"
    assert [pages.make("a/b/index.html", text, said=each) for each in "xy"] == ["1x", "1y"]


def test_two_templates_of_the_same_words_with_other_imports_are_told_apart():
    one, other = (
        f'{{% from "{name}" import held %}}{{% macro m(a) %}}{{{{ held(a) }}}}{{% endmacro %}}'
        for name in "xy"
    )
    files = {
        "x": "{% macro held(a) %}x{{ a }}{% endmacro %}",
        "y": "{% macro held(a) %}y{{ a }}{% endmacro %}",
        "one": one,
        "other": other,
    }

    def load(name):
        return files[name], f"/{name}", lambda: True

    environment = BoundedEnvironment(loader=FunctionLoader(load), autoescape=True)
    environment.begin("a/b")
    text = '{% from "one" import m %}{{ m(1) }}{% from "other" import m as n %}{{ n(1) }}'
    assert environment.from_string(text).render() == "x1y1"


def test_what_is_made_without_escaping_is_not_kept():
    pages = Pages("{% macro card(a) %}{{ a }}{{ words('b') }}{% endmacro %}{% macro cards() %}{% endmacro %}")
    text = "{% autoescape false %}{{ card('<b>') }}{% endautoescape %}"
    assert [pages.make("a/b/index.html", text) for _ in range(2)] == ["&lt;b&gt;b"] * 2
    assert pages.make("a/b/index.html", "{{ card('<b>') }}") == "&lt;b&gt;b"
    assert pages.asked == 3


def test_what_a_template_may_change_is_read_each_time_though_it_stands_in_a_tuple(pages):
    text = "{% set n = namespace(text='x', address='a.html') %}{% set t = (n,) %}{{ cards(t) }}"
    text += "{% set n.text = 'y' %}{{ cards(t) }}"
    html = pages.make("coins/a/index.html", text)
    assert "x 1</a>" in html
    assert "y 1</a>" in html


def test_small_fragments_and_large_keys_count_as_well(pages, monkeypatch):
    monkeypatch.setattr(fragments, "MOST_KEPT", 10_000)
    for n in range(100):
        pages.make(
            "coins/a/index.html", "{{ cards(()) }}{{ card(link, n) }}", link=BESIDE, n="k" * 3000 + str(n)
        )
        assert len(pages.environment.fragments._kept) < 20


def test_a_way_there_and_back_is_worded_as_the_straight_one(pages):
    odd = Link("odd", "coins/a/../b/index.html")
    for page, way in (("a", "../b/"), ("c", "../b/"), ("b", "")):
        html = pages.make(f"coins/{page}/index.html", "{{ card(link) }}", link=odd)
        assert f'href="{way}index.html"' in html
