"""A page per monarch: the reign, its portraits, the grid of its dates, and its coins."""

from collections.abc import Sequence

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.cards import card, cards
from daterun.pages.completions import count_table
from daterun.pages.counts import Count
from daterun.pages.grids import count_runs, ranks_of, say_tally
from daterun.pages.pieces import Card, CoinCard, Fact, Link
from daterun.pages.reigns import runs_of_monarch
from daterun.pages.slots import DEFAULT_DIAMETER_MM
from daterun.pages.views import IndexView, MonarchView, Page
from daterun.pages.wording import say_day
from daterun.records.coins import CoinKind
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Side


def monarch_cards(binder: Binder) -> tuple[Card, ...]:
    """Make a card of each monarch, in order of reign, with the portrait that shows best."""
    return tuple(
        _card(binder, issuer, monarch)
        for issuer in binder.issuers
        for monarch in binder.cabinet.monarchs(issuer.id)
    )


def monarch_pages(binder: Binder) -> list[Page]:
    """Plan a page per monarch that coins were struck under, and their list."""
    words = binder.words
    heading = words.say("nav.monarchs")
    cards = monarch_cards(binder)
    pages = [
        binder.page(
            addresses.MONARCHS, "index", IndexView(heading, words.count("monarchs", len(cards)), cards)
        )
    ]
    trail = (Link(heading, addresses.MONARCHS),)
    for issuer in binder.issuers:
        monarchs = binder.cabinet.monarchs(issuer.id)
        links = [
            Link(""),
            *(Link(each.name, addresses.of_monarch(issuer.id, each.id)) for each in monarchs),
            Link(""),
        ]
        for nth, monarch in enumerate(monarchs):
            view = _view(binder, issuer, monarch, (links[nth], links[nth + 2]))
            pages.append(
                binder.page(addresses.of_monarch(issuer.id, monarch.id), "monarch", view, view.lead, trail)
            )
    return pages


def _view(binder: Binder, issuer: Issuer, monarch: Monarch, neighbours: tuple[Link, Link]) -> MonarchView:
    words = binder.words
    runs = runs_of_monarch(binder.cabinet, issuer, monarch)
    filled, slots = count_runs(runs)

    def lead(filled: str, slots: str) -> str:
        reign = _say_reign(monarch, binder)
        return words.say("monarch.lead", issuer=issuer.name, reign=reign, filled=filled, slots=slots)

    coins = binder.cabinet.of_monarch(issuer.id, monarch.id)
    facts = [Fact(words.say("fact.reign"), _say_reign(monarch, binder), monarch.source)]
    held = sum(1 for each in coins if each.coin.is_held)
    facts.append(Fact(words.say("fact.coins"), words.count("coins", held)))
    if monarch.note:
        facts.append(Fact(words.say("fact.note"), monarch.note))
    return MonarchView(
        heading=monarch.name,
        lead=lead(words.number(filled), words.number(slots)),
        counting=lead("{filled}", "{slots}"),
        facts=tuple(facts),
        portraits=_portraits(binder, coins),
        grid=binder.grids.whole(issuer, runs, words.say("monarch.grid", monarch=monarch.name), head=monarch),
        coins=cards(coins, binder.sides, words),
        neighbours=neighbours,
        completeness=count_table(
            binder,
            words.say("completeness.by-series"),
            words.say("table.series"),
            tuple(
                Count(run.series.key, run.name, addresses.of_denomination(run.series), run.states)
                for run in runs
                if run.states
            ),
        ),
    )


def _say_reign(monarch: Monarch, binder: Binder) -> str:
    reign = monarch.reign
    first = say_day(reign.first, binder.words)
    if reign.last is None:
        return binder.words.say("reign.open", first=first)
    return binder.words.say("reign.closed", first=first, last=say_day(reign.last, binder.words))


def _portraits(binder: Binder, coins: Sequence[Standing]) -> tuple[CoinCard, ...]:
    """Show each portrait once, by the largest coin pictured: designs alike in words are one portrait."""
    by_design: dict[str, list[Standing]] = {}
    for each in coins:
        face = each.place.type.obverse if each.place.type is not None else None
        if face is not None and each.coin.kind is CoinKind.REGULAR:
            by_design.setdefault(face.design, []).append(each)
    shown = []
    for design, bearing in by_design.items():
        pictured = [each for each in bearing if Side.OBVERSE.value in each.coin.photos] or bearing
        largest = max(_size_of(each) for each in pictured)
        chosen = binder.cabinet.best(each for each in pictured if _size_of(each) == largest)
        assert chosen is not None
        coin_card = card(chosen, binder.sides, binder.words, binder.sides.portrait(chosen))
        shown.append(CoinCard(coin_card.link, coin_card.side, design or coin_card.line, coin_card.marks))
    return tuple(shown)


def _size_of(standing: Standing) -> float:
    """Find the size laid down for a coin, not that measured, by which two of one denomination would differ."""
    standard = standing.place.standard
    return float(standard.diameter.mm) if standard is not None and standard.diameter else DEFAULT_DIAMETER_MM


def _card(binder: Binder, issuer: Issuer, monarch: Monarch) -> Card:
    runs = runs_of_monarch(binder.cabinet, issuer, monarch)
    filled, slots = count_runs(runs)
    best = binder.cabinet.best(
        each for each in binder.cabinet.of_monarch(issuer.id, monarch.id) if "obverse" in each.coin.photos
    )
    sides = (binder.sides.portrait(best),) if best is not None else ()
    return Card(
        Link(binder.of_issuer(monarch.name, issuer.id), addresses.of_monarch(issuer.id, monarch.id)),
        monarch.reign.years,
        say_tally(filled, slots, binder.words),
        sides,
        ranks_of(binder.cabinet, runs),
        slots,
    )
