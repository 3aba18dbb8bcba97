"""Essays and their list. Those that say what they are part of form a set, with contents and its own order."""

from collections.abc import Sequence

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.pieces import Card, Link, Note
from daterun.pages.views import EssayView, IndexView, Page
from daterun.pages.wording import say_day
from daterun.readers.closed import ClosedEssay
from daterun.records.links import find_links


def essay_card(essay: ClosedEssay, binder: Binder) -> Card:
    """Make an essay's card, with the first coin it shows, and its place in its set."""
    shown = (
        binder.cabinet.by_id.get(placed.link.coin)
        for placed in find_links(essay.text, "", 1)
        if placed.link.is_coin
    )
    first = next((each for each in shown if each is not None), None)
    sides = (binder.sides.telling(first),) if first is not None else ()
    parts = [
        say_day(essay.on, binder.words) if essay.on is not None else "",
        _place(essay, _set_of(essay, binder.catalogue.essays), binder),
    ]
    tally = " · ".join(each for each in parts if each)
    return Card(Link(essay.title, addresses.of_essay(essay.id)), essay.summary, tally, sides)


def essay_pages(binder: Binder) -> list[Page]:
    """Plan the essays and their list; none at all where the keeper has written none.

    An essay of a set leads to those before and after it there, any other to its neighbours outside of sets.
    """
    essays = binder.catalogue.essays
    if not essays:
        return []
    words = binder.words
    heading = words.say("nav.essays")
    cards = tuple(essay_card(each, binder) for each in essays)
    index = IndexView(heading, words.count("essays", len(essays)), cards)
    pages = [binder.page(addresses.ESSAYS, "index", index)]
    trail = (Link(heading, addresses.ESSAYS),)
    alone = [each for each in essays if not _set_of(each, essays)]
    for essay in essays:
        fellows = _set_of(essay, essays)
        view = EssayView(
            heading=essay.title,
            summary=essay.summary,
            written=say_day(essay.on, words) if essay.on is not None else "",
            text=binder.notes.note(essay.text) or Note("", ()),
            neighbours=_neighbours(essay, fellows or alone),
            set_name=_name_of_set(essay, essays) if fellows else "",
            contents=tuple(
                Link(each.title, "" if each.id == essay.id else addresses.of_essay(each.id))
                for each in fellows
            ),
        )
        pages.append(binder.page(addresses.of_essay(essay.id), "essay", view, essay.summary, trail))
    return pages


def _set_of(essay: ClosedEssay, essays: Sequence[ClosedEssay]) -> tuple[ClosedEssay, ...]:
    """List the essays of an essay's set in their order; none where it is part of none, or all there is of one.

    An essay whose own short name the others give as what they are part of opens the set.
    """
    name = essay.part_of or essay.id
    opening = [each for each in essays if each.id == name and not each.part_of]
    found = (*opening, *(each for each in essays if each.part_of == name))
    return found if len(found) > 1 else ()


def _name_of_set(essay: ClosedEssay, essays: Sequence[ClosedEssay]) -> str:
    """Name a set by the essay that opens it, else by its short name with spaces for hyphens."""
    name = essay.part_of or essay.id
    title = next((each.title for each in essays if each.id == name and not each.part_of), "")
    plain = name.replace("-", " ").replace("_", " ")
    return title or plain[:1].upper() + plain[1:]


def _place(essay: ClosedEssay, fellows: Sequence[ClosedEssay], binder: Binder) -> str:
    if not fellows:
        return ""
    name = _name_of_set(essay, fellows)
    return binder.words.say("essay.place", nth=list(fellows).index(essay) + 1, all=len(fellows), name=name)


def _neighbours(essay: ClosedEssay, among: Sequence[ClosedEssay]) -> tuple[Link, Link]:
    links = [Link(""), *(Link(each.title, addresses.of_essay(each.id)) for each in among), Link("")]
    nth = list(among).index(essay)
    return links[nth], links[nth + 2]
