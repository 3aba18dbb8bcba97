"""What a page shows and where it leads: the addresses in its view, found by walking it, and its notes.

Which files of the keeper's these stand for is left to ``origins.py``.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from operator import attrgetter

from daterun.pages.findviews import CompareView, FindView
from daterun.pages.pieces import Note
from daterun.pages.tagviews import Tags
from daterun.pages.views import Body, Page

_ADDRESSED = ("address", "url")
_BESIDE = "neighbours"


@dataclass(frozen=True, slots=True)
class Leads:
    """Addresses of pages and pictures, as the view has them, each once in the order in which they are met.

    Beside are those of the pages before and after, of which no more than the name is shown. A picture for other
    programs is there by its whole web address. The notes are all texts in Markdown.
    """

    addresses: tuple[str, ...]
    beside: tuple[str, ...]
    notes: tuple[Note, ...]


def leads_of(page: Page) -> Leads:
    """Walk what a page shows; what stands round every page alike is passed over."""
    found: dict[str, None] = {}
    beside: dict[str, None] = {}
    notes: list[Note] = []
    _walk(page.body, found, beside, notes)
    if page.frame.tags is not None:
        _walk(page.frame.tags, found, beside, notes)
    found.update(dict.fromkeys(scripts_of(page.body)))
    return Leads(tuple(found), tuple(each for each in beside if each not in found), tuple(notes))


def scripts_of(body: Body) -> tuple[str, ...]:
    """List the addresses of the data that the scripts of a page read."""
    match body:
        case FindView():
            return (*body.data, *body.texts)
        case CompareView():
            return (*body.coins, *(each.address for each in body.records))
        case _:
            return ()


def _walk(value: object, found: dict[str, None], beside: dict[str, None], notes: list[Note]) -> None:
    if isinstance(value, tuple):
        for each in value:
            if not isinstance(each, str | int):
                _walk(each, found, beside, notes)
        return
    if isinstance(value, Note):
        notes.append(value)
    kind: type = type(value)
    for name, get in _fields_of(kind):
        held = get(value)
        if isinstance(held, str):
            if name in _ADDRESSED and held:
                found[held] = None
        elif name == _BESIDE:
            _walk(held, beside, beside, notes)
        elif held is not None and not isinstance(held, int):
            _walk(held, found, beside, notes)


@cache
def _fields_of(kind: type) -> tuple[tuple[str, Callable[[object], object]], ...]:
    """List the fields of a kind of view that may hold an address or another view."""
    return tuple(_readers(kind)) if is_dataclass(kind) else ()


def _readers(kind: type) -> Iterator[tuple[str, Callable[[object], object]]]:
    passed_over = ("canonical", "feed", "linked_data") if kind is Tags else ()
    for each in fields(kind):
        if each.name not in passed_over and (each.type is not str or each.name in _ADDRESSED):
            yield each.name, attrgetter(each.name)
