"""Which pages of an edition stand for all: fewest pages that together have every part that any page has.

A part is a field of a template's view that is not empty, however deep, and each word of a closed set that tells
templates apart, such as the shape of a grid. The views are planned anew; the pages lie in the built edition.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from daterun.bundled import themes_folder
from daterun.pages.plan import plan_pages
from daterun.pages.views import Page
from daterun.press.theme import find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.site import check

TELLING = ("shape", "state", "reason", "kind", "is_round", "is_plate", "is_scarce")
"""Fields of which every value makes a part of its own."""


def planned_pages(demo, reader: Reader) -> tuple[Page, ...]:
    """Plan the pages of an edition of the demo."""
    checked = check(demo.folder)
    settings = checked.catalogue.settings
    theme = find_theme(settings.theme, demo.folder, themes_folder(), Place("catalogue.yaml"))
    closed = close_catalogue(checked.catalogue, checked.photos, reader)
    return plan_pages(closed, read_words(theme, settings.language)).pages


def parts_of(page: Page) -> frozenset[tuple[str, ...]]:
    """List the parts of a page, each under its template and its room of the site; figures have rooms within."""
    room = "/".join(page.address.split("/")[: 2 if page.template == "figures" else 1])
    found = {(page.template, room)}
    found |= {(page.template, *path) for path in _parts(page.body)}
    return frozenset(found)


def _parts(value: object) -> Iterator[tuple[str, ...]]:
    if isinstance(value, tuple):
        for each in value:
            yield from _parts(each)
    elif is_dataclass(value):
        name = type(value).__name__
        for field in fields(value):
            inner = getattr(value, field.name)
            if inner is None or inner == "" or inner == ():
                continue
            if field.name in TELLING:
                yield name, field.name, str(inner)
            else:
                yield name, field.name
            yield from _parts(inner)


def one_of_each(pages: tuple[Page, ...], known: frozenset[tuple[str, ...]] = frozenset()) -> list[str]:
    """Choose pages until every part not known yet is seen, each time the one that shows most for its size."""
    parts = {each.address: parts_of(each) - known for each in pages}
    sizes = {each.address: 20_000 + len(repr(each.body)) for each in pages}
    lacking = frozenset().union(*parts.values())
    chosen = []
    while lacking:
        best = max(parts, key=lambda address: (len(parts[address] & lacking) / sizes[address], address))
        chosen.append(best)
        lacking -= parts[best]
    return chosen
