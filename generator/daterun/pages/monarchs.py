"""A page per monarch: the reign, its portraits, the grid of its dates, and its coins."""

from collections.abc import Sequence

from daterun.checks.completeness import fill
from daterun.checks.slots import Slot
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.cards import card
from daterun.pages.grids import Run, count_runs, runs_of
from daterun.pages.slots import DEFAULT_DIAMETER_MM
from daterun.pages.views import Card, CoinCard, Fact, IndexView, Link, MonarchView, Page
from daterun.pages.wording import say_day
from daterun.records.coins import CoinKind
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series
from daterun.trade.dates import CoinDate


def monarch_cards(binder: Binder) -> tuple[Card, ...]:
    """Make a card of each monarch, in order of reign, with the portrait that shows best."""
    return tuple(
        _card(binder, issuer, monarch) for issuer in binder.issuers for monarch in _with_coins(binder, issuer)
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
        monarchs = _with_coins(binder, issuer)
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


def _with_coins(binder: Binder, issuer: Issuer) -> tuple[Monarch, ...]:
    """List the monarchs that any type of the issuer's series names."""
    named = {
        each.monarch
        for series in binder.catalogue.series.values()
        if series.issuer == issuer.id
        for each in series.types
    }
    return tuple(each for each in issuer.monarchs if each.id in named)


def is_under(series: Series, date: CoinDate, monarch: Monarch) -> bool:
    """Tell whether any type of a date is the monarch's."""
    return any(each.monarch == monarch.id for each in series.types_of(date))


def _runs(binder: Binder, issuer: Issuer, monarch: Monarch) -> tuple[Run, ...]:
    """Take the part of each run that was struck under a monarch.

    Where a date has types of two monarchs, it is a slot of each, filled only by a coin of that monarch's type.
    """
    runs = []
    for run in runs_of(binder.cabinet, issuer.id):
        own = {each.id for each in run.series.types if each.monarch == monarch.id}
        states = []
        for filled in run.states:
            types = run.series.types_of(filled.slot.date)
            if not any(each.id in own for each in types):
                continue
            if all(each.id in own for each in types):
                states.append(filled)
                continue
            coins = [
                each.coin
                for each in binder.cabinet.of_series(run.series)
                if each.place.type is not None and each.place.type.id in own
            ]
            slot = filled.slot
            states += fill((Slot(slot.series, slot.date, None, None, None, slot.figures),), coins)
        if states:
            runs.append(Run(run.series, tuple(states), run.name))
    return tuple(runs)


def _view(binder: Binder, issuer: Issuer, monarch: Monarch, neighbours: tuple[Link, Link]) -> MonarchView:
    words = binder.words
    runs = _runs(binder, issuer, monarch)
    filled, slots = count_runs(runs)
    lead = words.say(
        "monarch.lead",
        issuer=issuer.name,
        reign=_say_reign(monarch, binder),
        filled=words.number(filled),
        slots=words.number(slots),
    )
    coins = binder.cabinet.of_monarch(issuer.id, monarch.id)
    facts = [Fact(words.say("fact.reign"), _say_reign(monarch, binder), monarch.source)]
    facts.append(Fact(words.say("fact.coins"), words.count("coins", len(coins))))
    if monarch.note:
        facts.append(Fact(words.say("fact.note"), monarch.note))
    return MonarchView(
        heading=monarch.name,
        lead=lead,
        facts=tuple(facts),
        portraits=_portraits(binder, coins),
        grid=binder.grids.whole(issuer, runs, words.say("monarch.grid", monarch=monarch.name)),
        coins=tuple(card(each, binder.sides, words) for each in coins),
        neighbours=neighbours,
    )


def _say_reign(monarch: Monarch, binder: Binder) -> str:
    reign = monarch.reign
    first = say_day(reign.first, binder.words)
    if reign.last is None:
        return binder.words.say("reign.open", first=first)
    return binder.words.say("reign.closed", first=first, last=say_day(reign.last, binder.words))


def _portraits(binder: Binder, coins: Sequence[Standing]) -> tuple[CoinCard, ...]:
    """Show each portrait once, by the best coin that bears it: designs alike in words are one portrait."""
    by_design: dict[str, list[Standing]] = {}
    for each in coins:
        face = each.place.type.obverse if each.place.type is not None else None
        if face is not None and each.coin.kind is CoinKind.REGULAR:
            by_design.setdefault(face.design, []).append(each)
    shown = []
    for design, bearing in by_design.items():
        best = min(bearing, key=lambda each: (-_size_of(each), each.coin.id))
        candidates = [each for each in bearing if _size_of(each) == _size_of(best)]
        chosen = binder.cabinet.best(candidates)
        assert chosen is not None
        coin_card = card(chosen, binder.sides, binder.words, binder.sides.portrait(chosen))
        shown.append(CoinCard(coin_card.link, coin_card.side, design or coin_card.line, coin_card.marks))
    return tuple(shown)


def _size_of(standing: Standing) -> float:
    standard = standing.place.standard
    return float(standard.diameter.mm) if standard is not None and standard.diameter else DEFAULT_DIAMETER_MM


def _card(binder: Binder, issuer: Issuer, monarch: Monarch) -> Card:
    filled, slots = count_runs(_runs(binder, issuer, monarch))
    best = binder.cabinet.best(
        each for each in binder.cabinet.of_monarch(issuer.id, monarch.id) if "obverse" in each.coin.photos
    )
    sides = (binder.sides.portrait(best),) if best is not None else ()
    return Card(
        Link(monarch.name, addresses.of_monarch(issuer.id, monarch.id)),
        monarch.reign.years,
        binder.words.say("grid.tally", filled=filled, slots=slots),
        sides,
    )
