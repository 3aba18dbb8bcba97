"""The revision of a plan: what else it holds once the notes of one coin are other ones.

Notes stand on the page of their coin and among the words by which coins are found, and nowhere else; that no
other page changes with them is held by a test.
"""

from dataclasses import dataclass, replace

from daterun.pages import addresses
from daterun.pages.coin import coin_page
from daterun.pages.findrows import lay_down_text
from daterun.pages.findviews import DataFile
from daterun.pages.plan import Plan
from daterun.pages.renoting import find_by_texts
from daterun.pages.tags import tag_pages
from daterun.pages.views import Page


@dataclass(frozen=True, slots=True)
class Revision:
    """A revised plan, with the pages and data in it that are new, and the addresses of data that are no more."""

    plan: Plan
    pages: tuple[Page, ...]
    data: tuple[DataFile, ...]
    gone: tuple[str, ...]


def revise_notes(plan: Plan, coin_id: str, notes: str) -> Revision | None:
    """Revise a plan for other notes of a coin; None where they change more than a revision can."""
    binder, find = plan.binder, plan.find
    if binder is None or find is None:
        return None
    standing = binder.cabinet.by_id.get(coin_id)
    if standing is None:  # no page shows it to this reader
        return Revision(plan, (), (), ())
    ordered = len(binder.sides.orders)
    standing = replace(standing, coin=replace(standing.coin, notes=notes))
    pages = tag_pages(binder, [coin_page(binder, standing)])
    if len(binder.sides.orders) != ordered:
        return None
    revised = lay_down_text(binder, find, standing)
    before, after = ({each.address: each for each in texts.texts} for texts in (find, revised))
    data = tuple(after[each] for each in after.keys() - before.keys())
    gone = tuple(before.keys() - after.keys())
    if data:
        find_page = next(each for each in plan.pages if each.address == addresses.FIND)
        pages.append(find_by_texts(find_page, find.texts, revised.texts))
    new = {each.address: each for each in pages}
    plan = replace(
        plan,
        pages=tuple(new.get(each.address, each) for each in plan.pages),
        data=revised.files,
        find=revised,
    )
    return Revision(plan, tuple(pages), data, gone)
