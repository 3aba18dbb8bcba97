"""What every page of figures is made with: its frame, links to coins, and the naming of what is left out."""

from collections.abc import Iterable, Mapping

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.figureviews import FigureSection, FiguresView
from daterun.pages.holdings import Holding, Lack
from daterun.pages.pieces import Card, Fact, Link
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.pages.wording import name_coin
from daterun.pages.words import Words

MOST_NAMED = 60
"""Coins left out of a figure that its page names one by one; the rest stand on the pages of their series."""


def figures_page(
    binder: Binder,
    address: str,
    heading: str,
    lead: str,
    sections: Iterable[FigureSection | None],
    cautions: Iterable[str] = (),
    cards: tuple[Card, ...] = (),
    description: str = "",
) -> Page:
    """Make a page of figures of the sections that there are; the cautions go by their keys."""
    shown = tuple(each for each in sections if each is not None)
    spoken = tuple(binder.words.say(f"caution.{each}") for each in cautions)
    view = FiguresView(heading, lead, shown, cards, spoken)
    trail = (Link(binder.words.say("nav.figures"), addresses.FIGURES),)
    is_first = address == addresses.FIGURES
    return binder.page(address, "figures", view, description or lead, () if is_first else trail)


def card_of(page: Page, line: str) -> Card:
    """Make the card by which another page leads to a page of figures."""
    return Card(Link(page.frame.title, page.address), line, "", ())


def name_left_out(left_out: Mapping[Lack, tuple[Holding, ...]], words: Words) -> tuple[Fact, ...]:
    """Name the coins that a figure leaves out, by the reason; of very many, only how many they are."""
    return tuple(
        left_out_fact(words.say(f"figures.lack.{lack.value}"), (each.standing for each in found), words)
        for lack, found in left_out.items()
        if found
    )


def left_out_fact(reason: str, standings: Iterable[Standing], words: Words) -> Fact:
    """Name coins that are left out for one reason."""
    found = tuple(standings)
    links = tuple(
        Link(name_coin(each, words), addresses.of_coin(each.coin.id)) for each in found[:MOST_NAMED]
    )
    more = len(found) - len(links)
    remark = words.count("figures.left-out.more", more) if more else ""
    return Fact(reason, words.count("figures.left-out.coins", len(found)), remark, links)
