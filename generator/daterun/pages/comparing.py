"""The page on which coins held for comparison are laid side by side by its script."""

from collections.abc import Iterable

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.coin import MOST_HELD
from daterun.pages.findviews import CompareView, DataFile
from daterun.pages.pieces import Link
from daterun.pages.views import Page

COLUMNS = (
    ("date", 3),
    ("monarch", 5),
    ("type", 14),
    ("variety", 11),
    ("mint", 13),
    ("strike", 12),
    ("grade", 7),
    ("problem", 10),
    ("metal", 6),
    ("weight", 15),
    ("diameter", 16),
    ("axis", 17),
    ("struck", 18),
)
"""The rows of the table of records, and the place of each in a coin's row of data; see ``finding.row_of``."""


def compare_page(binder: Binder, data: Iterable[DataFile]) -> Page:
    """Plan the page of comparison; it reads the rows of coins, not their texts."""
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
        data=tuple(each.address for each in data if each.name == "daterunCoins"),
    )
    return binder.page(addresses.COMPARE, "compare", view, view.lead)
