"""The plan of an edition: every page there is, with what it shows, and every picture that the pages need."""

from dataclasses import dataclass, field

from daterun.pages import addresses
from daterun.pages.aims import aim_pages
from daterun.pages.binder import Binder
from daterun.pages.cabinet import arrange
from daterun.pages.coin import coin_pages
from daterun.pages.coinlist import coin_list_page
from daterun.pages.comparing import compare_page
from daterun.pages.dates import date_pages
from daterun.pages.denominations import denomination_pages
from daterun.pages.essays import essay_pages
from daterun.pages.figures import figure_pages
from daterun.pages.finding import find_page
from daterun.pages.findrows import lay_down
from daterun.pages.findviews import DataFile, FindData
from daterun.pages.gatherings import gathering_pages
from daterun.pages.grids import Grids
from daterun.pages.home import home_view
from daterun.pages.monarchs import monarch_pages
from daterun.pages.notes import Notes
from daterun.pages.parts import MOST, spread
from daterun.pages.pictures import PictureOrder
from daterun.pages.pieces import Link
from daterun.pages.plates import PlateOrder, plate_orders
from daterun.pages.sides import Sides
from daterun.pages.tags import announce, tag_pages
from daterun.pages.tagviews import Announcements
from daterun.pages.views import NotFoundView, Page
from daterun.pages.words import Words
from daterun.readers.closed import ClosedCatalogue


@dataclass(frozen=True, slots=True)
class Plan:
    """Pages in the order of the site, picture orders in the order of their addresses, data for scripts, plates.

    Announcements are what the edition tells of itself, None where it tells nothing. The find data and the binder
    are what the plan was made with.
    """

    pages: tuple[Page, ...]
    pictures: tuple[PictureOrder, ...]
    data: tuple[DataFile, ...] = ()
    plates: tuple[PlateOrder, ...] = ()
    announcements: Announcements | None = None
    find: FindData | None = None
    binder: Binder | None = field(default=None, compare=False, repr=False)


def plan_pages(catalogue: ClosedCatalogue, words: Words, most: int = MOST) -> Plan:
    """Plan the whole edition of a closed catalogue. Of a list, one page holds no more than so many rows."""
    cabinet = arrange(catalogue)
    sides = Sides(catalogue.settings.pictures, words)
    binder = Binder(cabinet, words, sides, Grids(cabinet, sides, words), Notes(cabinet, sides, words))
    data = lay_down(binder)
    whole = [
        binder.page(addresses.HOME, "home", home_view(binder)),
        *monarch_pages(binder),
        *denomination_pages(binder),
        *date_pages(binder),
        coin_list_page(binder),
        find_page(binder, data),
        compare_page(binder, data),
        *coin_pages(binder),
        *essay_pages(binder),
        *aim_pages(binder),
        *gathering_pages(binder),
        *figure_pages(binder),
        _not_found(binder),
    ]
    pages = tag_pages(binder, [part for each in whole for part in spread(each, words, most)])
    pictures = tuple(sides.orders[address] for address in sorted(sides.orders))
    return Plan(
        tuple(pages),
        pictures,
        data.files,
        plate_orders(binder),
        announce(binder, pages),
        data,
        binder,
    )


def _not_found(binder: Binder) -> Page:
    words = binder.words
    links = (
        Link(words.say("nav.home"), addresses.HOME),
        Link(words.say("nav.denominations"), addresses.DENOMINATIONS),
        Link(words.say("nav.dates"), addresses.DATES),
    )
    view = NotFoundView(words.say("not-found.heading"), words.say("not-found.lead"), links)
    return binder.page(addresses.NOT_FOUND, "not-found", view)
