"""What the coins cost and are held to be worth, and what metal and face come to: the keeper's alone."""

from collections.abc import Callable, Sequence
from fractions import Fraction

from daterun.checks.worth import Sum, is_old, sum_money
from daterun.pages import addresses
from daterun.pages.acquisitions import Years, costs_section
from daterun.pages.amounts import say_amount, say_face, say_fraction, say_sum
from daterun.pages.binder import Binder
from daterun.pages.figurepages import MOST_NAMED, figures_page, left_out_fact
from daterun.pages.figureviews import FigureSection
from daterun.pages.holdings import Holding, Holdings
from daterun.pages.metalfigures import price_facts
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.pages.wording import say_day
from daterun.pages.words import Words
from daterun.problems import Misread
from daterun.readers.reader import Reader
from daterun.records.issuers import Issuer
from daterun.trade.faces import Face
from daterun.trade.money import Money

SUMS: tuple[tuple[str, Callable[[Holding], Money | None]], ...] = (
    ("cost", lambda each: each.cost),
    ("value", lambda each: each.value),
    ("worth", lambda each: each.metal),
    ("premium", lambda each: each.premium),
)
"""What is added up of each coin, by the key of its word."""


def cost_pages(binder: Binder, holdings: Holdings, years: Years) -> list[Page]:
    """Plan the page of cost and value; none for others than the keeper, or where no amount is told."""
    has_amount = any(each.cost is not None or each.value is not None for each in holdings.every)
    if binder.catalogue.reader is not Reader.KEEPER or not (has_amount or costs_section(binder, years)):
        return []
    words = binder.words
    sections = [
        FigureSection("whole", "", _old_values(binder, holdings), _whole(binder, holdings)),
        FigureSection("by-series", "", tables=(_by_series(binder, holdings),)),
        costs_section(binder, years),
        _parted(binder, holdings),
        _left_out(binder, holdings),
    ]
    heading, lead = words.say("figures.costs.heading"), words.say("figures.costs.lead")
    return [figures_page(binder, addresses.COSTS, heading, lead, sections, ("values", "metal", "grades"))]


def _sum(held: Sequence[Holding], amount: Callable[[Holding], Money | None]) -> Sum[str]:
    return sum_money((each.standing.coin.id, amount(each)) for each in held)


def _whole(binder: Binder, holdings: Holdings) -> tuple[Fact, ...]:
    words = binder.words
    facts = []
    for key, amount in SUMS:
        found = _sum(holdings.every, amount)
        counted = words.count("figures.counted", len(found.counted))
        lacking = words.count(f"figures.lacking-{key}", len(found.lacking)) if found.lacking else ""
        remark = "; ".join(each for each in (counted, lacking) if each)
        facts.append(Fact(words.say(f"figures.sum.{key}"), _said(found.totals, words), remark))
    faces = [fact for issuer in binder.issuers for fact in _face_facts(binder, holdings, issuer)]
    return (*facts, *faces, *price_facts(binder))


def _said(totals: Sequence[Money], words: Words) -> str:
    return say_sum(totals, words) or words.say("figures.none")


def _old_values(binder: Binder, holdings: Holdings) -> tuple[str, ...]:
    """Say how many of the values are older than a year."""
    words, as_of = binder.words, binder.catalogue.settings.as_of
    values = [each.standing.coin.private.value for each in holdings.every if each.standing.coin.private]
    days = [each.on for each in values if each is not None and each.on is not None]
    old = sum(1 for day in days if is_old(day, as_of))
    undated = sum(1 for each in values if each is not None and each.on is None)
    said = []
    if as_of is not None and (old or undated):
        said.append(words.count("figures.values.old", old, day=say_day(as_of, words)))
    if undated:
        said.append(words.count("figures.values.undated", undated))
    return tuple(said)


def _by_series(binder: Binder, holdings: Holdings) -> Table:
    words = binder.words
    rows = []
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            held = holdings.of(series)
            if held:
                sums = [say_sum(_sum(held, amount).totals, words) for _, amount in SUMS]
                link = addresses.of_figures(series)
                cells = [Link(words.number(len(held)), link), *(Link(each) for each in sums)]
                rows.append((Link(series.name, link), *cells))
    headings = tuple(words.say(f"table.{key}") for key in ("series", "coins", *(key for key, _ in SUMS)))
    notes = (words.say("figures.costs.premium"),)
    return Table(words.say("figures.by-series"), headings, tuple(rows), (1, 2, 3, 4, 5), notes)


def _face_facts(binder: Binder, holdings: Holdings, issuer: Issuer) -> list[Fact]:
    """Tell the face value of the coins held, in the money of their day and in decimal money."""
    words = binder.words
    faced = [
        each for each in holdings.every if each.face is not None and each.standing.series.issuer == issuer.id
    ]
    if issuer.money is None or not faced:
        return []
    value = sum((each.face for each in faced if each.face is not None), Fraction(0))
    said = say_face(value, issuer.money)
    pieces = sum(each.pieces for each in faced)
    name = binder.of_issuer(words.say("figures.face.of-its-day"), issuer.id)
    facts = [Fact(name, said, words.count("pieces", pieces))]
    if issuer.decimal is not None:
        try:
            amount, unit = issuer.decimal.equivalent(Face(said, value), issuer.money)
        except Misread:
            return facts
        name = binder.of_issuer(words.say("figures.face.decimal"), issuer.id)
        since = words.say("figures.face.since", year=issuer.decimal.on.year)
        facts.append(Fact(name, f"{say_fraction(amount)} {unit}", since))
    return facts


def _parted(binder: Binder, holdings: Holdings) -> FigureSection | None:
    """Tell what was received for coins that were parted with, and what those had cost."""
    words = binder.words
    parted = [each for each in binder.cabinet.coins if not each.coin.is_held]
    if not parted:
        return None
    received = sum_money((each.coin.id, _received(each)) for each in parted)
    cost = sum_money((each.coin.id, each.coin.private.cost if each.coin.private else None) for each in parted)
    facts = [
        Fact(
            words.say("figures.parted.coins"),
            words.number(len(parted)),
            words.count("held.more", len(parted) - MOST_NAMED) if len(parted) > MOST_NAMED else "",
            tuple(holdings.links[each.coin.id] for each in parted[:MOST_NAMED]),
        ),
        Fact(words.say("figures.parted.received"), _said(received.totals, words)),
        Fact(words.say("figures.parted.cost"), _said(cost.totals, words)),
    ]
    return FigureSection("parted", words.say("figures.parted.heading"), facts=tuple(facts))


def _received(standing: Standing) -> Money | None:
    private = standing.coin.private
    return private.parted.price if private is not None and private.parted is not None else None


def _left_out(binder: Binder, holdings: Holdings) -> FigureSection | None:
    words = binder.words
    names = [
        left_out_fact(
            words.say(f"figures.lack.{key}"),
            (each.standing for each in holdings.every if amount(each) is None),
            words,
        )
        for key, amount in SUMS[:2]
        if any(amount(each) is None for each in holdings.every)
    ]
    names += [
        left_out_fact(
            words.say("figures.lack.premium"), (each.standing for each in _two_currencies(holdings)), words
        )
        for _ in _two_currencies(holdings)[:1]
    ]
    if not names:
        return None
    return FigureSection("left-out", words.say("figures.left-out"), names=tuple(names))


def _two_currencies(holdings: Holdings) -> list[Holding]:
    """List coins whose value and metal are told in two currencies, so that no premium can be told."""
    return [
        each
        for each in holdings.every
        if each.value is not None and each.metal is not None and each.premium is None
    ]


def amounts_table(binder: Binder, held: Sequence[Holding]) -> Table | None:
    """List cost, value, metal and premium of a series' coins; None for others than the keeper."""
    if binder.catalogue.reader is not Reader.KEEPER or not held:
        return None
    words = binder.words
    rows = tuple((each.link, *(Link(say_amount(amount(each), words)) for _, amount in SUMS)) for each in held)
    headings = tuple(words.say(f"table.{key}") for key in ("coin", *(key for key, _ in SUMS)))
    return Table(words.say("figures.costs.of-coins"), headings, rows, (1, 2, 3, 4))
