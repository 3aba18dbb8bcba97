"""The fine metal in the coins held: by metal and fineness, by series, and for the keeper at a price."""

from collections.abc import Sequence
from decimal import Decimal

from daterun.checks.worth import ContentSum, Price, sum_content
from daterun.pages import addresses
from daterun.pages.amounts import say_amount, say_grams, say_money, say_ounces
from daterun.pages.binder import Binder
from daterun.pages.figurepages import figures_page, name_left_out
from daterun.pages.figureviews import FigureSection
from daterun.pages.holdings import Holding, Holdings, Lack, lacking, prices_of
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.views import Page
from daterun.pages.wording import say_day
from daterun.readers.reader import Reader
from daterun.trade.measures import TROY_OUNCE_G

LEFT_OUT = (Lack.NOT_REGULAR, Lack.NO_STANDARD, Lack.NO_FINENESS, Lack.NO_WEIGHT)
"""Why a coin's metal is in no sum; base metal is not left out but holds none that is fine."""


def metal_pages(binder: Binder, holdings: Holdings) -> list[Page]:
    """Plan the page of the metal content; none where no coin holds any."""
    sums = sum_content(each.content for each in holdings.every if each.content is not None)
    if not sums:
        return []
    words = binder.words
    prices = prices_of(binder.catalogue) if binder.catalogue.reader is Reader.KEEPER else {}
    base = sum(1 for each in holdings.every if each.lack is Lack.BASE)
    names = name_left_out(lacking(holdings.every, LEFT_OUT), words)
    sections = [
        FigureSection(
            "fineness",
            "",
            (words.count("figures.metal.base", base),) if base else (),
            price_facts(binder),
            tables=(_by_fineness(binder, sums, prices), _by_series(binder, holdings, prices)),
        ),
        FigureSection("left-out", words.say("figures.left-out"), names=names) if names else None,
    ]
    heading, lead = words.say("figures.metal.heading"), words.say("figures.metal.lead")
    return [figures_page(binder, addresses.METAL, heading, lead, sections, ("metal", "weights"))]


def price_facts(binder: Binder) -> tuple[Fact, ...]:
    """Tell the prices of metals with their day and source, and that an old one is old; for the keeper alone."""
    if binder.catalogue.reader is not Reader.KEEPER:
        return ()
    words, settings = binder.words, binder.catalogue.settings
    facts = []
    for name, each in settings.metals.items():
        remarks = [say_day(each.on, words), each.source]
        if Price(each.price, each.per, each.on).is_old(settings.as_of):
            remarks.append(words.say("figures.metal.old"))
        facts.append(
            Fact(
                words.say("figures.metal.price", metal=words.say(f"metal.{name}")),
                words.say("figures.metal.per", price=say_money(each.price, words), unit=each.per),
                "; ".join(remark for remark in remarks if remark),
            )
        )
    return tuple(facts)


def _by_fineness(binder: Binder, sums: Sequence[ContentSum], prices: dict[str, Price]) -> Table:
    words = binder.words
    by_series = f"{addresses.METAL}#fineness-table-2"
    keys = ("metal", "fineness", "coins", "fine-grams", "fine-ounces", "weighed")
    headings = [words.say(f"table.{key}") for key in keys]
    if prices:
        headings.append(words.say("table.worth"))
    rows = []
    for each in sums:
        row = [
            Link(words.say(f"metal.{each.metal}")),
            Link(str(each.fineness)),
            Link(words.number(len(each.coins)), by_series),
            Link(say_grams(each.fine_g, words)),
            Link(say_ounces(each.troy_ounces, words)),
            Link(say_grams(each.measured_g, words)),
        ]
        if prices:
            row.append(Link(_worth(each.metal, each.fine_g, prices, binder)))
        rows.append(tuple(row))
    notes = [words.say("figures.metal.weighed"), *_totals(binder, sums, prices)]
    if any(each.pieces > len(each.coins) for each in sums):
        notes.append(words.say("figures.pieces"))
    numeric = tuple(range(1, len(headings)))
    return Table(words.say("figures.metal.by-fineness"), tuple(headings), tuple(rows), numeric, tuple(notes))


def _totals(binder: Binder, sums: Sequence[ContentSum], prices: dict[str, Price]) -> list[str]:
    """Word how much of each metal there is in all, and what it comes to where it has a price."""
    words = binder.words
    said = []
    for metal in dict.fromkeys(each.metal for each in sums):
        grams = sum((each.fine_g for each in sums if each.metal == metal), Decimal(0))
        worth = _worth(metal, grams, prices, binder)
        key = "figures.metal.whole-worth" if worth else "figures.metal.whole"
        ounces = say_ounces(grams / TROY_OUNCE_G, words)
        name = words.say(f"metal.{metal}")
        said.append(words.say(key, metal=name, grams=say_grams(grams, words), ounces=ounces, worth=worth))
    return said


def _worth(metal: str, grams: Decimal, prices: dict[str, Price], binder: Binder) -> str:
    price = prices.get(metal)
    return say_amount(price.worth(grams), binder.words) if price is not None else ""


def _by_series(binder: Binder, holdings: Holdings, prices: dict[str, Price]) -> Table:
    words = binder.words
    rows = []
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            held = holdings.of(series)
            sums = sum_content(each.content for each in held if each.content is not None)
            for each in sums:
                row = [
                    Link(f"{series.name}, {each.fineness}", addresses.of_figures(series)),
                    Link(words.number(len(each.coins)), addresses.of_figures(series)),
                    Link(say_grams(each.fine_g, words)),
                    Link(say_ounces(each.troy_ounces, words)),
                ]
                if prices:
                    row.append(Link(_worth(each.metal, each.fine_g, prices, binder)))
                rows.append(tuple(row))
    keys = ["series", "coins", "fine-grams", "fine-ounces", *(["worth"] if prices else [])]
    headings = tuple(words.say(f"table.{key}") for key in keys)
    return Table(words.say("figures.by-series"), headings, tuple(rows), tuple(range(1, len(headings))))


def content_table(binder: Binder, held: Sequence[Holding]) -> Table | None:
    """List what each coin of a series holds, those left out with the reason; None where none holds fine metal."""
    if not any(each.content is not None or each.lack in LEFT_OUT[1:] for each in held):
        return None
    words = binder.words
    is_keeper = binder.catalogue.reader is Reader.KEEPER and bool(binder.catalogue.settings.metals)
    rows = []
    for each in held:
        worth = [Link(say_amount(each.metal, words))] if is_keeper else []
        rows.append((*_content_cells(binder, each), *worth))
    keys = ["coin", "fineness", "fine-grams", "fine-ounces", "from-weight", *(["worth"] if is_keeper else [])]
    headings = tuple(words.say(f"table.{key}") for key in keys)
    numeric = (1, 2, 3, *([5] if is_keeper else []))
    return Table(words.say("figures.metal.of-coins"), headings, tuple(rows), numeric)


def _content_cells(binder: Binder, holding: Holding) -> tuple[Link, ...]:
    words, content = binder.words, holding.content
    link = holding.link
    if content is None:
        none = binder.cell("")
        return (link, none, none, none, binder.cell(words.say(f"figures.lack.{holding.lack.value}")))
    basis = words.say("table.weighed-word" if content.is_measured else "table.standard-word")
    if content.pieces > 1:
        basis = f"{basis}, {words.count('pieces', content.pieces)}"
    return (
        link,
        binder.cell(str(content.fineness)),
        binder.cell(say_grams(content.fine_g, words)),
        binder.cell(say_ounces(content.troy_ounces, words)),
        binder.cell(basis),
    )
