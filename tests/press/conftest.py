"""A theme small enough to read, and frames and pages to put on it."""

import pytest

from daterun.pages.pieces import Link, Note
from daterun.pages.views import EssayView, Frame, NotFoundView, Page
from daterun.press.theme import find_theme
from daterun.problems import Place

MINI = {
    "templates/base.html.j2": (
        "<!doctype html>\n<title>{{ page.title }}</title>\n"
        "<link rel=stylesheet href=\"{{ asset('style.css') }}\">\n{% block content %}{% endblock %}\n"
    ),
    "templates/essay.html.j2": (
        "{% extends 'base.html.j2' %}\n{% block content %}\n<h1>{{ view.heading }}</h1>\n"
        "{{ notes(view.text) }}\n<a href=\"{{ to('index.html') }}\">{{ words('home') }}</a>\n{% endblock %}\n"
    ),
    "templates/not-found.html.j2": "<a href=\"{{ to('index.html') }}\">{{ words('home') }}</a>\n",
    "templates/parts/note.html.j2": (
        "{% macro plate(link) %}<figure>{{ link.caption }}</figure>{% endmacro %}\n"
        '{% macro mention(link) %}<a href="{{ to(link.address) }}">{{ link.text }}</a>{% endmacro %}\n'
    ),
    "words/en.yaml": "home: Home\n",
    "assets/style.css": "p { margin: 0 }\n",
}


@pytest.fixture
def make_theme(tmp_path):
    """Lay down a bundled theme and perhaps a keeper's own, and find it."""

    def make(changed=None, name="tray", own=None):
        bundled, folder = tmp_path / "bundled", tmp_path / "catalogue"
        for root, files in (
            (bundled / "tray", {**MINI, **(changed or {})}),
            (folder / "themes" / name, own or {}),
        ):
            for file, text in files.items():
                path = root / file
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8")
        return find_theme(name, folder, bundled, Place("content/catalogue.yaml", 3, 8, len(name)))

    return make


def frame(title="Title"):
    return Frame("Site", title, "", "en-GB", (), (), "", False, ())


def essay(markdown="Text.", address="essays/a/index.html", links=(), heading="On orts"):
    return Page(
        address,
        "essay",
        frame(heading),
        EssayView(heading, "", "", Note(markdown, links), (Link(""), Link(""))),
    )


@pytest.fixture
def essay_page():
    return essay


@pytest.fixture
def lost_page():
    return Page("404.html", "not-found", frame(), NotFoundView("Lost", "", ()))
