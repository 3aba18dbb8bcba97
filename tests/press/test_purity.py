"""Which macros are pure."""

import pytest
from jinja2 import Environment

from daterun.press.purity import Purity

ABROAD = (
    "{% macro held(s) %}{{ to(s.address) }}{% endmacro %}{% macro seen() %}{{ page.title }}{% endmacro %}"
)
IMPORTS = '{% from "abroad" import held, seen as shown %}'


def is_pure(text, name="m"):
    purity, environment = Purity(), Environment()
    purity.learn(environment.parse(ABROAD), "abroad", "/abroad")
    purity.learn(environment.parse(text), "home", "/home")
    return purity.tells("/home", name)


@pytest.mark.parametrize(
    "text",
    [
        "{% macro m() %}words{% endmacro %}",
        "{% macro m(a, b=2) %}{{ a.b }} {{ b|round }}{% endmacro %}",
        "{% macro m(a) %}{{ to(a) }} {{ asset('x') }} {{ words('key', n=a) }}{% endmacro %}",
        "{% macro m(a) %}{% for b in a %}{{ loop.index }} {{ b }}{% endfor %}{% endmacro %}",
        "{% macro m(a) %}{% set c = a %}{{ c }}{% endmacro %}",
        "{% macro m(page) %}{{ page.title }}{% endmacro %}",
        "{% macro n(a) %}{{ a }}{% endmacro %}{% macro m(a) %}{{ n(a) }}{% endmacro %}",
        "{% macro m(a) %}{{ m(a) if a }}{% endmacro %}",
        IMPORTS + "{% macro m(a) %}{{ held(a) }}{% endmacro %}",
    ],
)
def test_a_macro_that_takes_all_from_what_it_is_handed_is_pure(text):
    assert is_pure(text)


@pytest.mark.parametrize(
    "text",
    [
        "{% macro m() %}{{ page.title }}{% endmacro %}",
        "{% macro m(a=view) %}{{ a }}{% endmacro %}",
        "{% macro m(a) %}{{ notes(a) }}{% endmacro %}",
        "{% macro m() %}{{ caller() }}{% endmacro %}",
        "{% macro m() %}{{ varargs }}{% endmacro %}",
        "{% macro m(a, to=to) %}{{ page[a] }}{% endmacro %}",
        "{% macro m(a) %}{% for b in b %}{{ b }}{% endfor %}{% endmacro %}",
        "{% macro m(a) %}{% with page=page %}{{ page }}{% endwith %}{% endmacro %}",
        "{% macro m(a) %}{% if a %}{% set page = a %}{% endif %}{{ page }}{% endmacro %}",
        "{% set words = 1 %}{% macro m() %}{{ words }}{% endmacro %}",
        "{% set c = view %}{% macro m(a) %}{% if a %}{% set c = a %}{% endif %}{{ c }}{% endmacro %}",
        "{% macro m() %}a{% endmacro %}{% block b %}{% macro m() %}{{ view }}{% endmacro %}{% endblock %}",
        "{% set c = 1 %}{% macro m() %}{{ c }}{% endmacro %}",
        "{% macro m() %}{{ loop.index }}{% endmacro %}",
        "{% macro m() %}{% include 'abroad' %}{% endmacro %}",
        "{% macro m() %}{% from 'abroad' import held %}{{ held(1) }}{% endmacro %}",
        "{% macro m() %}{{ cycler('a', 'b').next() }}{% endmacro %}",
        "{% macro n() %}{{ view }}{% endmacro %}{% macro m() %}{{ n() }}{% endmacro %}",
        "{% macro m() %}a{% endmacro %}{% macro m() %}b{% endmacro %}",
        "{% block b %}{% macro m() %}a{% endmacro %}{% endblock %}",
        "{% macro n() %}{% macro m() %}a{% endmacro %}{% endmacro %}",
        IMPORTS + "{% macro m() %}{{ shown() }}{% endmacro %}",
        IMPORTS + "{% macro held(s) %}{{ s }}{% endmacro %}{% macro m(a) %}{{ held(a) }}{% endmacro %}",
        '{% from "nowhere" import lost %}{% macro m() %}{{ lost() }}{% endmacro %}',
        '{% import "abroad" as abroad %}{% macro m(a) %}{{ abroad.held(a) }}{% endmacro %}',
    ],
)
def test_a_macro_that_may_see_more_is_not_pure(text):
    assert not is_pure(text)


def test_what_was_never_learned_is_not_pure():
    assert not is_pure("{% macro m() %}{% endmacro %}", "n")
    assert not Purity().tells("/home", "m")
