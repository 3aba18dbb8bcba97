"""Coins gathered by what sets them apart: scarce dates, former collections, coins out of the ordinary."""

from collections.abc import Sequence

from daterun.checks.completeness import Filled
from daterun.pages import addresses
from daterun.pages.aimviews import Gathered, ListingView
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.cards import card
from daterun.pages.completions import completeness_page
from daterun.pages.counts import by_series
from daterun.pages.grids import count_runs, ranks_of, runs_of, say_tally
from daterun.pages.pieces import Card, CoinCard, Link, Table
from daterun.pages.slotnames import link_to_coin, link_to_slot, say_number
from daterun.pages.views import Page
from daterun.pages.wanted import wanted_page, wanted_slots
from daterun.pages.wording import say_kind, say_owner, say_source_of
from daterun.readers.closed import ClosedOwner
from daterun.records.coins import CoinKind

MOST_FEWEST = 20


def gathering_pages(binder: Binder) -> list[Page]:
    """Plan the pages that gather slots and coins, as far as there is anything for them to show."""
    pages = []
    if binder.cabinet.denominations:
        pages.append(completeness_page(binder))
        if binder.catalogue.settings.shows_wants:
            pages.append(wanted_page(binder))
    if scarce_dates(binder):
        pages.append(scarce_page(binder))
    if _owners(binder):
        pages.append(former_page(binder))
    if _unusual(binder):
        pages.append(unusual_page(binder))
    return pages


def ways(binder: Binder) -> tuple[Card, ...]:
    """List the pages that gather, as cards with what they hold."""
    words = binder.words
    found = []
    if binder.cabinet.denominations:
        found.append(_completeness_card(binder))
        if binder.catalogue.settings.shows_wants:
            wanted = words.count("wanted.lead", len(wanted_slots(binder.cabinet)))
            found.append(Card(Link(words.say("wanted.heading"), addresses.WANTED), wanted, "", ()))
    if scarce := scarce_dates(binder):
        line = words.count("dates", len(scarce))
        found.append(Card(Link(words.say("scarce.heading"), addresses.SCARCE), line, "", ()))
    if owners := _owners(binder):
        line = words.count("collections", len(owners))
        found.append(Card(Link(words.say("former.heading"), addresses.FORMER), line, "", ()))
    if unusual := _unusual(binder):
        line = words.count("coins", len(unusual))
        found.append(Card(Link(words.say("unusual.heading"), addresses.UNUSUAL), line, "", ()))
    return tuple(found)


def _completeness_card(binder: Binder) -> Card:
    """Make the card of the page of completeness, with how far all runs are filled."""
    name = binder.words.say("completeness.heading")
    runs = [run for issuer in binder.issuers for run in runs_of(binder.cabinet, issuer.id)]
    filled, slots = count_runs(runs)
    tally = say_tally(filled, slots, binder.words)
    ranks = ranks_of(binder.cabinet, runs)
    return Card(Link(name, addresses.COMPLETENESS), "", tally, (), ranks, slots)


def scarce_dates(binder: Binder) -> tuple[Filled, ...]:
    """List the dates that their series marks as scarce, in order of denomination and date."""
    return tuple(
        state for count in by_series(binder.cabinet) for state in count.states if state.slot.figures.scarce
    )


def scarce_page(binder: Binder) -> Page:
    """Plan the page of scarce dates, whether held or not, with the coins that are."""
    words, found = binder.words, scarce_dates(binder)
    held = [binder.cabinet.by_id[each.coin] for each in found if each.coin is not None]
    tables = [_scarce_table(binder, found, words.say("scarce.heading"))]
    known = [
        state
        for count in by_series(binder.cabinet)
        for state in count.states
        if state.slot.figures.ordinary and not state.slot.figures.scarce
    ]
    known.sort(key=lambda each: (min(each.slot.figures.ordinary), each.slot.date.sort, each.slot.series))
    if known and binder.catalogue.settings.shows_wants:
        tables.append(_scarce_table(binder, known[:MOST_FEWEST], words.say("scarce.fewest")))
    view = ListingView(
        words.say("scarce.heading"),
        words.say("scarce.lead", held=words.number(len(held)), dates=words.count("dates", len(found))),
        gathered=(Gathered(Link(""), "", _cards(binder, held)),) if held else (),
        tables=tuple(tables),
    )
    return binder.page(addresses.SCARCE, "listing", view, view.lead)


def _scarce_table(binder: Binder, found: Sequence[Filled], caption: str) -> Table:
    words = binder.words
    rows = []
    for each in found:
        series = binder.catalogue.series[each.slot.series]
        issue = series.issue(each.slot.date.key)
        held = link_to_coin(binder, each.coin, with_name=False) if each.coin is not None else Link("")
        rows.append(
            (
                link_to_slot(binder, each),
                Link(say_number(binder, each)),
                held if held.text else Link(words.say("held.none")),
                Link(each.slot.figures.note),
                Link(say_source_of(issue, series, words) if issue is not None else ""),
            )
        )
    headings = tuple(words.say(f"table.{key}") for key in ("date", "ordinary", "held", "remark", "source"))
    keep = [nth for nth in range(len(headings)) if nth == 0 or any(row[nth].text for row in rows)]
    return Table(
        caption,
        tuple(headings[nth] for nth in keep),
        tuple(tuple(row[nth] for nth in keep) for row in rows),
        (1,),
    )


def _owners(binder: Binder) -> dict[str, list[tuple[Standing, ClosedOwner]]]:
    """Group coins by their former owners whom the reader may see, by name."""
    found: dict[str, list[tuple[Standing, ClosedOwner]]] = {}
    for standing in binder.cabinet.coins:
        for owner in standing.coin.provenance:
            found.setdefault(owner.owner, []).append((standing, owner))
    return {name: found[name] for name in sorted(found, key=lambda each: (each.casefold(), each))}


def former_page(binder: Binder) -> Page:
    """Plan the page of former collections, each with the coins that came from it."""
    words, owners = binder.words, _owners(binder)
    groups = []
    for name, coins in owners.items():
        shown = []
        for standing, owner in coins:
            said = say_owner(owner, words).removeprefix(owner.owner).lstrip(",; ")
            shown.append(_card(binder, standing, said))
        held = {standing.coin.id for standing, _ in coins}
        groups.append(Gathered(Link(name), words.count("coins", len(held)), tuple(shown)))
    view = ListingView(
        words.say("former.heading"), words.count("former.lead", len(owners)), gathered=tuple(groups)
    )
    return binder.page(addresses.FORMER, "listing", view, view.lead)


def _unusual(binder: Binder) -> list[Standing]:
    return [
        each for each in binder.cabinet.coins if each.coin.kind is not CoinKind.REGULAR and each.coin.is_held
    ]


def unusual_page(binder: Binder) -> Page:
    """Plan the page of coins out of the ordinary, kind by kind, each with how it departs from the rule."""
    words, found = binder.words, _unusual(binder)
    groups = []
    for kind in CoinKind:
        own = [each for each in found if each.coin.kind is kind]
        if own:
            name = say_kind(kind, words)
            coins = tuple(_card(binder, each, each.coin.departs) for each in own)
            groups.append(Gathered(Link(name[:1].upper() + name[1:]), words.count("coins", len(own)), coins))
    view = ListingView(
        words.say("unusual.heading"), f"{words.say('coins.others-line')}.", gathered=tuple(groups)
    )
    return binder.page(addresses.UNUSUAL, "listing", view, view.lead)


def _cards(binder: Binder, standings: Sequence[Standing]) -> tuple[CoinCard, ...]:
    return tuple(card(each, binder.sides, binder.words) for each in standings)


def _card(binder: Binder, standing: Standing, line: str) -> CoinCard:
    """Make a coin's card with a line of its own in place of its grade, where there is one."""
    made = card(standing, binder.sides, binder.words)
    return CoinCard(made.link, made.side, line or made.line, made.marks)
