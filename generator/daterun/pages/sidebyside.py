"""Grades side by side: the coins of one type in order of grade, both sides, and what shows the grade.

The correspondence of the two habits of grading is printed as what it is, approximate.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cards import marks_of
from daterun.pages.figurepages import figures_page
from daterun.pages.figureviews import FigureSection, GradedCoin, SideBySideView, Strip
from daterun.pages.pieces import Card, Link, Table
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.pages.wording import name_type, say_grade
from daterun.records.coins import CoinKind
from daterun.records.series import CoinType, Series, Side
from daterun.trade.grading import Grade
from daterun.trade.scales import CORRESPONDENCE, in_full

Links = Mapping[str, Link]

STRIP = 8
"""Coins that stand in one strip at most, for no more fit a sheet of paper; more have several, the best first."""


def fellows(binder: Binder, series: Series, coin_type: CoinType) -> tuple[Standing, ...]:
    """List the regular coins held of a type, the best grade first and the ungraded last."""
    return tuple(
        sorted((each for each in binder.cabinet.of_series(series) if _is_of(each, coin_type)), key=_order)
    )


def _is_of(standing: Standing, coin_type: CoinType) -> bool:
    own = standing.place.type
    return (
        own is not None
        and own.id == coin_type.id
        and standing.coin.is_held
        and standing.coin.kind is CoinKind.REGULAR
    )


def _order(standing: Standing) -> tuple[Fraction, Fraction, bool, str]:
    """The better grade first, at one grade the sound coin before the problem coin."""
    grade = standing.coin.grade
    low = grade.counted("low") if grade is not None else Fraction(0)
    high = grade.counted("high") if grade is not None else Fraction(0)
    return -low, -high, standing.coin.is_problem, standing.coin.id


def link_to(binder: Binder, series: Series, coin_type: CoinType) -> Link:
    """Lead to a type's coins side by side; nowhere where none is held."""
    if not any(_is_of(each, coin_type) for each in binder.cabinet.of_series(series)):
        return Link("")
    return Link(binder.words.say("sidebyside.link"), addresses.of_type(series, coin_type))


def side_by_side_pages(binder: Binder, links: Links) -> list[Page]:
    """Plan the list of types and a page for each type of which any coin is held; none where there is no type."""
    found = [
        (series, coin_type, coins)
        for denomination in binder.cabinet.denominations
        for series in denomination.series
        for coin_type in series.types
        if (coins := fellows(binder, series, coin_type))
    ]
    if not found:
        return []
    names = [_name(binder, series, coin_type) for series, coin_type, _ in found]
    ways = [
        Link(""),
        *(
            Link(name, addresses.of_type(series, coin_type))
            for name, (series, coin_type, _) in zip(names, found, strict=True)
        ),
        Link(""),
    ]
    words = binder.words
    cards = tuple(
        Card(
            link,
            _range(binder, coins),
            words.count("coins", len(coins)),
            (binder.sides.portrait(coins[0]),),
        )
        for link, (_, _, coins) in zip(ways[1:], found, strict=False)
    )
    heading, lead = words.say("sidebyside.heading"), words.say("sidebyside.lead")
    cautions = ("grades", "correspondence")
    section = FigureSection("correspondence", "", tables=(correspondence_table(binder),))
    index = figures_page(binder, addresses.SIDE_BY_SIDE, heading, lead, [section], cautions, cards)
    pages = [index]
    trail = (Link(words.say("nav.figures"), addresses.FIGURES), Link(heading, addresses.SIDE_BY_SIDE))
    for nth, (series, coin_type, coins) in enumerate(found):
        view = _view(binder, names[nth], coins, links, (ways[nth], ways[nth + 2]))
        address = addresses.of_type(series, coin_type)
        pages.append(binder.page(address, "sidebyside", view, view.lead, trail))
    return pages


def _name(binder: Binder, series: Series, coin_type: CoinType) -> str:
    issuer = binder.catalogue.issuers.get(series.issuer)
    return f"{binder.of_issuer(series.name, series.issuer)}, {name_type(coin_type, series, issuer)}"


def _range(binder: Binder, coins: Sequence[Standing]) -> str:
    """Word from which grade to which the coins of a type run."""
    words = binder.words
    graded = [each for each in coins if each.coin.grade is not None]
    if not graded:
        return words.say("grade.none")
    best, least = (say_grade(each.coin, words) for each in (graded[0], graded[-1]))
    return best if best == least else words.say("sidebyside.range", least=least, best=best)


def _view(
    binder: Binder, name: str, coins: Sequence[Standing], links: Links, neighbours: tuple[Link, Link]
) -> SideBySideView:
    words = binder.words
    many = -(-len(coins) // STRIP)
    ends = [len(coins) * nth // many for nth in range(many + 1)]
    strips = tuple(
        Strip(
            words.say("sidebyside.strip", first=start + 1, last=end)
            if many > 1
            else words.say("sidebyside.caption"),
            tuple(_graded(binder, each, links) for each in coins[start:end]),
        )
        for start, end in pairwise(ends)
    )
    cautions = tuple(words.say(f"caution.{each}") for each in ("grades", "correspondence", "cleaning"))
    lead = words.say("sidebyside.line", coins=words.count("coins", len(coins)), range=_range(binder, coins))
    return SideBySideView(words.say("sidebyside.name", name=name), lead, strips, neighbours, cautions)


def _graded(binder: Binder, standing: Standing, links: Links) -> GradedCoin:
    words, coin = binder.words, standing.coin
    return GradedCoin(
        links[coin.id],
        say_grade(coin, words),
        _scale(binder, coin.grade),
        words.say("grade.by", by=coin.graded_by) if coin.graded_by else "",
        marks_of(standing, words),
        binder.sides.side(standing, Side.OBVERSE),
        binder.sides.side(standing, Side.REVERSE),
        _reasons(standing),
    )


def _reasons(standing: Standing) -> str:
    """Give the keeper's last words on what shows the grade, after that grade where it is not the one in force."""
    coin = standing.coin
    if coin.grade_reasons:
        return coin.grade_reasons
    last = next((each for each in reversed(coin.own_grades) if each.reasons), None)
    if last is None:
        return ""
    return last.reasons if last.grade == coin.grade else f"{last.grade.text}: {last.reasons}"


def _scale(binder: Binder, grade: Grade | None) -> str:
    """Word where a grade of the British habit lies on the 70-point scale; nothing for a grade of that scale."""
    if grade is None or not grade.approximate:
        return ""
    low, high = float(grade.low), float(grade.high)
    place = f"{low:g}" if low == high else f"{low:g}–{high:g}"
    return binder.words.say("sidebyside.scale", place=place)


def correspondence_table(binder: Binder) -> Table:
    """Print how the British ladder lies on the 70-point scale, lowest first, as approximate."""
    words = binder.words
    rows = tuple(
        (
            Link(word),
            Link(in_full(word)),
            Link(words.say("sidebyside.about", low=low, high=high)),
        )
        for word, (low, high) in CORRESPONDENCE.items()
    )
    headings = tuple(words.say(f"table.{key}") for key in ("ladder", "ladder-name", "scale"))
    notes = (words.say("caution.correspondence"),)
    return Table(words.say("sidebyside.correspondence"), headings, rows, (), notes)
