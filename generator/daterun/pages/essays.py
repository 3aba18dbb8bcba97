"""Essays and their list."""

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.pieces import Card, Link, Note
from daterun.pages.views import EssayView, IndexView, Page
from daterun.pages.wording import say_day
from daterun.readers.closed import ClosedEssay
from daterun.records.links import find_links


def essay_card(essay: ClosedEssay, binder: Binder) -> Card:
    """Make an essay's card, with the first coin it shows."""
    shown = (
        binder.cabinet.by_id.get(placed.link.coin)
        for placed in find_links(essay.text, "", 1)
        if placed.link.is_coin
    )
    first = next((each for each in shown if each is not None), None)
    sides = (binder.sides.telling(first),) if first is not None else ()
    written = say_day(essay.on, binder.words) if essay.on is not None else ""
    return Card(Link(essay.title, addresses.of_essay(essay.id)), essay.summary, written, sides)


def essay_pages(binder: Binder) -> list[Page]:
    """Plan the essays and their list; none at all where the keeper has written none."""
    essays = binder.catalogue.essays
    if not essays:
        return []
    words = binder.words
    heading = words.say("nav.essays")
    cards = tuple(essay_card(each, binder) for each in essays)
    pages = [
        binder.page(addresses.ESSAYS, "index", IndexView(heading, words.count("essays", len(essays)), cards))
    ]
    links = [Link(""), *(Link(each.title, addresses.of_essay(each.id)) for each in essays), Link("")]
    trail = (Link(heading, addresses.ESSAYS),)
    for nth, essay in enumerate(essays):
        view = EssayView(
            heading=essay.title,
            summary=essay.summary,
            written=say_day(essay.on, words) if essay.on is not None else "",
            text=binder.notes.note(essay.text) or Note("", ()),
            neighbours=(links[nth], links[nth + 2]),
        )
        pages.append(binder.page(addresses.of_essay(essay.id), "essay", view, essay.summary, trail))
    return pages
