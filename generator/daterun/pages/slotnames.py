"""The slots of aims in words: their names, the coins that stand in them, and how many were struck."""

from collections.abc import Sequence

from daterun.checks.completeness import Filled
from daterun.checks.slots import Slot
from daterun.checks.wanted import struck_for
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.pieces import Link
from daterun.pages.slots import name_slot
from daterun.pages.wording import say_grade_line
from daterun.pages.words import Words
from daterun.records.coins import Strike

MOST_COINS = 5
"""Coins that a row of facts names; more are counted."""


def name_of(binder: Binder, filled: Filled, strikes: Sequence[Strike] = (Strike.ORDINARY,)) -> str:
    """Name a slot: by its series and date, or without them where it stands for several.

    That only proofs or specimens fill it is said.
    """
    series = binder.catalogue.series[filled.slot.series]
    parts = [name_slot(series, filled, binder.words, binder.catalogue.issuers.get(series.issuer))]
    if said := say_strikes(binder.words, strikes):
        parts.append(said)
    return ", ".join(parts)


def say_strikes(words: Words, strikes: Sequence[Strike]) -> str:
    """Word the strikes of which any one fills a slot; "" where an ordinary one does."""
    if Strike.ORDINARY in strikes:
        return ""
    return listed([words.say(f"strike.{each.value}") for each in strikes], words.say("or"))


def address_of(binder: Binder, slot: Slot) -> str:
    """Find the page that tells most of a slot: of its date, its monarch, else of its denomination."""
    if slot.is_dated:
        return addresses.of_date(slot.date)
    issuer = slot.series.partition("/")[0]
    if slot.monarch is not None and any(each.id == slot.monarch for each in binder.cabinet.monarchs(issuer)):
        return addresses.of_monarch(issuer, slot.monarch)
    return addresses.of_denomination(binder.catalogue.series[slot.series])


def link_to_slot(binder: Binder, filled: Filled, strikes: Sequence[Strike] = (Strike.ORDINARY,)) -> Link:
    return Link(name_of(binder, filled, strikes), address_of(binder, filled.slot))


def link_to_coin(binder: Binder, coin_id: str, with_name: bool = True) -> Link:
    """Lead to a coin by its name and grade, or by its grade alone."""
    standing = binder.cabinet.by_id[coin_id]
    grade = say_grade_line(standing.coin, binder.words)
    link = binder.sides.link(standing)
    return Link(f"{link.text}, {grade}" if with_name else grade, link.address)


def links_to_coins(binder: Binder, coins: Sequence[str]) -> tuple[Link, ...]:
    """Lead to the first few coins by their names, and count the rest."""
    shown = [binder.sides.link(binder.cabinet.by_id[each]) for each in coins[:MOST_COINS]]
    if len(coins) > MOST_COINS:
        shown.append(Link(binder.words.count("held.more", len(coins) - MOST_COINS)))
    return tuple(shown)


def say_number(binder: Binder, filled: Filled, strikes: Sequence[Strike] = (Strike.ORDINARY,)) -> str:
    """Word the number of pieces from which a slot can be filled; never nought for want of a figure."""
    numbers = [binder.words.number(each) for each in struck_for(filled.slot.figures, strikes)]
    return listed(numbers, binder.words.say("or")) if numbers else binder.words.say("number.unknown")
