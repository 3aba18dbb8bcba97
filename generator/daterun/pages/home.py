"""The first page: the whole coinage as a grid, the scarcest gaps, the latest arrivals, the ways in."""

from daterun.checks.completeness import State
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.aims import aim_bars
from daterun.pages.binder import Binder
from daterun.pages.cards import cards
from daterun.pages.essays import essay_card
from daterun.pages.gatherings import ways
from daterun.pages.grids import Run, count_runs, runs_of, say_years
from daterun.pages.gridviews import GridView
from daterun.pages.monarchs import monarch_cards
from daterun.pages.pieces import CoinCard, Link, Table
from daterun.pages.slots import name_slot
from daterun.pages.views import HomeView
from daterun.pages.wording import say_struck
from daterun.records.issuers import Issuer
from daterun.records.series import Series
from daterun.trade.dates import CoinDate

MOST_SCARCEST = 8
MOST_LATEST = 6


def home_view(binder: Binder) -> HomeView:
    """Plan the first page. The scarcest gaps are there only where the reader's edition shows wants."""
    settings = binder.catalogue.settings
    return HomeView(
        heading=settings.title,
        lead=settings.summary,
        grids=tuple(grid for issuer in binder.issuers if (grid := _grid(binder, issuer)) is not None),
        scarcest=_scarcest(binder) if settings.shows_wants else None,
        latest=_latest(binder),
        monarchs=monarch_cards(binder),
        essays=tuple(essay_card(each, binder) for each in binder.catalogue.essays),
        aims=aim_bars(binder),
        ways=ways(binder),
    )


def _grid(binder: Binder, issuer: Issuer) -> GridView | None:
    runs = runs_of(binder.cabinet, issuer.id)
    filled, slots = count_runs(runs)
    denominations = {addresses.of_denomination(run.series) for run in runs}

    def caption(filled: str, slots: str) -> str:
        return binder.words.say(
            "home.grid",
            issuer=issuer.name,
            years=say_years(runs, binder.words),
            denominations=binder.words.count("denominations", len(denominations)),
            filled=filled,
            slots=slots,
        )

    number = binder.words.number
    counting = caption("{filled}", "{slots}")
    return binder.grids.whole(issuer, runs, caption(number(filled), number(slots)), counting=counting)


def _scarcest(binder: Binder) -> Table | None:
    """List the missing dates of which fewest ordinary strikes were made; those of unknown number are left out.

    Where sources disagree, the lowest figure places a date.
    """
    gaps = []
    for run in _all_runs(binder):
        for filled in run.states:
            ordinary = filled.slot.figures.ordinary
            if filled.state is State.MISSING and ordinary:
                gaps.append((min(ordinary), filled.slot.date.sort, run, filled))
    gaps.sort(key=lambda each: (each[0], each[1], each[2].series.key))
    if not gaps:
        return None
    rows = tuple(
        (
            Link(name_slot(run.series, filled, binder.words), addresses.of_date(filled.slot.date)),
            Link(_reign_of(binder, run.series, filled.slot.date)),
            Link(say_struck(filled.slot.figures, binder.words)),
        )
        for _, _, run, filled in gaps[:MOST_SCARCEST]
    )
    words = binder.words
    headings = (words.say("table.date"), words.say("table.monarch"), words.say("table.struck"))
    return Table(words.say("home.scarcest"), headings, rows, (2,))


def _reign_of(binder: Binder, series: Series, date: CoinDate) -> str:
    issuer = binder.catalogue.issuers.get(series.issuer)
    if issuer is None:
        return ""
    names = [
        monarch.name
        for each in binder.cabinet.types_of(series, date)
        if (monarch := issuer.monarch(each.monarch)) is not None
    ]
    return listed(tuple(dict.fromkeys(names)), binder.words.say("and"))


def _all_runs(binder: Binder) -> tuple[Run, ...]:
    return tuple(run for issuer in binder.issuers for run in runs_of(binder.cabinet, issuer.id))


def _latest(binder: Binder) -> tuple[CoinCard, ...]:
    """Show the coins held that entered the catalogue last, newest first; those with no day are left out."""
    dated = [
        (each.coin.added.last, each.coin.id, each)
        for each in binder.cabinet.coins
        if each.coin.added is not None and each.coin.is_held
    ]
    dated.sort(key=lambda each: (each[0], each[1]), reverse=True)
    return cards((standing for _, _, standing in dated[:MOST_LATEST]), binder.sides, binder.words)
