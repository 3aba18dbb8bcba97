"""Which templates of a theme take part in a page: its own, and those that they extend, include and import."""

from collections.abc import Iterable, Iterator

from jinja2 import Environment, TemplateSyntaxError
from jinja2.meta import find_referenced_templates

from daterun.press.theme import Theme

NOTES = "parts/note.html.j2"
"""The template of links and plates in notes, which the press asks for by itself."""


def templates_of(theme: Theme, names: Iterable[str]) -> tuple[str, ...]:
    """List the names of the templates that take part in what these make, themselves first.

    Where one is included by a name that is told only while a page is made, any may take part, and all are listed.
    """
    found: dict[str, None] = {}
    ahead = list(names)
    while ahead:
        name = ahead.pop(0)
        if name in found or name not in theme.templates:
            continue
        found[name] = None
        for each in _asked_for(theme, name):
            if each is None:
                return tuple(dict.fromkeys((*found, *theme.templates)))
            ahead.append(each)
    return tuple(found)


def _asked_for(theme: Theme, name: str) -> Iterator[str | None]:
    """Read which templates one asks for; none where it cannot be read, for then no page is made by it."""
    text = theme.templates[name].path.read_text(encoding="utf-8-sig", errors="replace")
    try:
        # The tree is read for names alone and never run.
        tree = Environment(autoescape=True).parse(text)
    except TemplateSyntaxError:
        return
    yield from find_referenced_templates(tree)
