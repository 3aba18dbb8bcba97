"""The page on which coins held for comparison are laid side by side by its script."""

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.coin import MOST_HELD
from daterun.pages.findviews import CompareView, FindData
from daterun.pages.pieces import Link
from daterun.pages.views import Page

COLUMNS = (
    ("date", 2),
    ("monarch", 3),
    ("type", 4),
    ("variety", 5),
    ("mint", 6),
    ("strike", 7),
    ("grade", 8),
    ("problem", 9),
    ("metal", 10),
    ("weight", 11),
    ("diameter", 12),
    ("axis", 13),
    ("struck", 14),
)
"""The rows of the table of records, and the place of each in a coin's record; see ``findrows.record_of``."""


def compare_page(binder: Binder, data: FindData) -> Page:
    """Plan the page of comparison."""
    words = binder.words
    view = CompareView(
        heading=words.say("compare.heading"),
        lead=words.say("compare.lead", n=MOST_HELD),
        most=MOST_HELD,
        columns=tuple(Link(words.say(f"compare.{key}"), str(place)) for key, place in COLUMNS),
        links=(
            Link(words.say("find.heading"), addresses.FIND),
            Link(words.say("nav.coins"), addresses.COINS),
        ),
        coins=tuple(each.address for each in data.coins),
        records=tuple(Link(_first_id(each.rows), each.address) for each in data.records),
    )
    return binder.page(addresses.COMPARE, "compare", view, view.lead)


def _first_id(rows: tuple[object, ...]) -> str:
    first = rows[0]
    return str(first[0]) if isinstance(first, tuple) else ""
