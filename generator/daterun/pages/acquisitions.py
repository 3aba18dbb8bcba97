"""Acquisitions and what they cost, year by year: the keeper's alone."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from daterun.checks.worth import Sum, sum_money
from daterun.pages import addresses
from daterun.pages.amounts import say_amount, say_sum, thousandths
from daterun.pages.binder import Binder
from daterun.pages.figurepages import figures_page
from daterun.pages.figureviews import Bar, BarChart, FigureSection
from daterun.pages.pieces import Link, Table
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.pages.wording import say_day
from daterun.readers.closed import ClosedCatalogue
from daterun.trade.dates import Day
from daterun.trade.money import Money

Years = dict[int | None, tuple[Standing, ...]]
"""Coins by the year in which they came, those without a day under None, last."""


def coins_by_year(binder: Binder) -> Years:
    """Group all coins on record, those since parted with too, by the year in which they came.

    There are none for others than the keeper, who do not see how a coin came.
    """
    found: dict[int | None, list[Standing]] = {}
    for each in binder.cabinet.coins:
        if each.coin.private is not None:
            day = day_of(each, binder.catalogue)
            found.setdefault(day.year if day is not None else None, []).append(each)
    dated = sorted(year for year in found if year is not None)
    rest: list[int | None] = [None] if None in found else []
    return {year: tuple(found[year]) for year in [*dated, *rest]}


def day_of(standing: Standing, catalogue: ClosedCatalogue) -> Day | None:
    """Find the day on which a coin came: its own, else that of its lot."""
    private = standing.coin.private
    if private is None:
        return None
    if private.acquired is not None and private.acquired.on is not None:
        return private.acquired.on
    lot = catalogue.lots.get(private.lot) if private.lot else None
    return lot.on if lot is not None else None


def cost_of(standing: Standing) -> Money | None:
    private = standing.coin.private
    return private.cost if private is not None else None


def acquisitions_section(binder: Binder, years: Years) -> FigureSection | None:
    """Make the bars of the coins that came in each year; None for others than the keeper."""
    if not years:
        return None
    words = binder.words
    rows = _rows(years)
    counts = [len(years.get(year, ())) for year in rows]
    bars = tuple(
        Bar(
            Link(_name(year, binder)),
            Link(words.number(count), addresses.of_acquisitions(year) if count else ""),
            length,
            length,
        )
        for year, count, length in zip(rows, counts, thousandths(counts), strict=True)
    )
    headings = (words.say("figures.year"), words.say("figures.unit.coins"))
    notes = (words.say("figures.acquired.note"),)
    chart = BarChart(words.say("figures.acquired.caption"), headings, bars, notes)
    return FigureSection("acquired", "", bars=(chart,))


def costs_section(binder: Binder, years: Years) -> FigureSection | None:
    """Make the bars of what was paid in each year, a chart for each currency."""
    sums = {year: _sum(found) for year, found in years.items()}
    whole = sum_money((each.coin.id, cost_of(each)) for found in years.values() for each in found)
    charts = tuple(_cost_chart(binder, sums, each) for each in whole.totals)
    return FigureSection("by-year", "", bars=charts) if charts else None


def _cost_chart(binder: Binder, sums: dict[int | None, Sum[str]], whole: Money) -> BarChart:
    words = binder.words
    paid = {year: amount for year, each in sums.items() if (amount := _amount(each, whole.currency))}
    rows = _rows(paid)
    amounts = [paid.get(year, Decimal(0)) for year in rows]
    bars = tuple(
        Bar(
            Link(_name(year, binder)),
            Link(
                say_amount(Money(amount, whole.currency), words) if amount else "",
                addresses.of_acquisitions(year) if amount else "",
            ),
            length,
            length,
        )
        for year, amount, length in zip(rows, amounts, thousandths(amounts), strict=True)
    )
    lacking = sum(len(each.lacking) for each in sums.values())
    notes = [words.say("figures.cost-by-year.whole", whole=say_amount(whole, words))]
    if lacking:
        notes.append(words.count("figures.lacking-cost", lacking))
    headings = (words.say("figures.year"), words.say("figures.unit.cost", currency=whole.currency))
    caption = words.say("figures.cost-by-year.caption", currency=whole.currency)
    return BarChart(caption, headings, bars, tuple(notes))


def _amount(found: Sum[str] | None, currency: str) -> Decimal:
    totals = found.totals if found is not None else ()
    return next((each.amount for each in totals if each.currency == currency), Decimal(0))


def _sum(standings: Iterable[Standing]) -> Sum[str]:
    return sum_money((each.coin.id, cost_of(each)) for each in standings)


def _rows(years: Iterable[int | None]) -> list[int | None]:
    """List every year from the first to the last, so that an idle year shows as one, then those without a day."""
    found = set(years)
    dated = [year for year in found if year is not None]
    rows: list[int | None] = list(range(min(dated), max(dated) + 1)) if dated else []
    return [*rows, *([None] if None in found else [])]


def _name(year: int | None, binder: Binder) -> str:
    return str(year) if year is not None else binder.words.say("figures.acquired.undated")


def acquisition_pages(binder: Binder, years: Years, links: Mapping[str, Link]) -> list[Page]:
    """Plan the list of the coins that came in each year."""
    words = binder.words
    pages = []
    for year, found in years.items():
        heading = words.say("figures.acquired.list", year=year)
        if year is None:
            heading = words.say("figures.acquired.list-undated")
        ordered = sorted(found, key=lambda each: _order(each, binder.catalogue))
        headings = tuple(words.say(f"table.{key}") for key in ("coin", "day", "how", "cost"))
        whole = say_sum(_sum(found).totals, words) or words.say("figures.none")
        notes = (words.say("figures.acquired.cost", whole=whole),)
        table = Table(
            words.count("coins", len(found)),
            headings,
            tuple(_row(binder, each, links) for each in ordered),
            (3,),
            notes,
        )
        pages.append(
            figures_page(
                binder,
                addresses.of_acquisitions(year),
                heading,
                "",
                [FigureSection("coins", "", tables=(table,))],
                description=f"{heading}: {words.count('coins', len(found))}.",
            )
        )
    return pages


def _order(standing: Standing, catalogue: ClosedCatalogue) -> tuple[str, str]:
    day = day_of(standing, catalogue)
    return str(day or ""), standing.coin.id


def _row(binder: Binder, standing: Standing, links: Mapping[str, Link]) -> tuple[Link, ...]:
    words = binder.words
    day, private = day_of(standing, binder.catalogue), standing.coin.private
    acquired = private.acquired if private is not None else None
    how = words.say(f"how.{acquired.how.value}") if acquired is not None and acquired.how is not None else ""
    if not standing.coin.is_held:
        how = ", ".join(each for each in (how, words.say("mark.parted")) if each)
    return (
        links[standing.coin.id],
        Link(say_day(day, words) if day is not None else ""),
        Link(how),
        Link(say_amount(cost_of(standing), words)),
    )
