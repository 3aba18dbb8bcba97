"""A page per date: that year across the denominations, and the coins whose date cannot be read."""

from daterun.checks.completeness import Filled, State
from daterun.pages import addresses
from daterun.pages.binder import NO_NEIGHBOURS, Binder
from daterun.pages.cabinet import Standing, years_of
from daterun.pages.cards import cards
from daterun.pages.sides import draw, tone_of
from daterun.pages.views import (
    Card,
    CoinGroup,
    CoinListView,
    DateRow,
    DateView,
    Drawing,
    IndexView,
    Link,
    Page,
)
from daterun.pages.wording import say_date, say_struck
from daterun.records.coins import CoinKind
from daterun.records.series import Series, Side
from daterun.records.struck import DateIssue


def date_pages(binder: Binder) -> list[Page]:
    """Plan a page per year in which any series had an issue or of which a coin is held, and their list."""
    words = binder.words
    heading = words.say("nav.dates")
    coins: dict[int, list[Standing]] = {}
    for each in binder.cabinet.coins:
        for year in years_of(each.coin.date):
            coins.setdefault(year, []).append(each)
    issues: dict[int, list[tuple[Series, DateIssue]]] = {}
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            for issue in series.issues:
                for year in years_of(issue.date):
                    issues.setdefault(year, []).append((series, issue))
    years = sorted(coins.keys() | issues.keys())
    trail = (Link(heading, addresses.DATES),)
    pages = []
    links = [Link(""), *(Link(str(each), addresses.of_year(each)) for each in years), Link("")]
    index_cards = []
    for nth, year in enumerate(years):
        view = _view(binder, year, coins.get(year, []), issues.get(year, []), (links[nth], links[nth + 2]))
        pages.append(binder.page(addresses.of_year(year), "date", view, view.lead, trail))
        best = binder.cabinet.best(each for each in coins.get(year, []) if each.coin.photos)
        index_cards.append(
            Card(
                Link(str(year), addresses.of_year(year)),
                "",
                words.count("coins", len(coins.get(year, []))),
                (binder.sides.telling(best),) if best is not None else (),
            )
        )
    unread = [each for each in binder.cabinet.coins if each.coin.date.year is None]
    if unread:
        pages.append(_undated(binder, unread, trail))
        index_cards.append(
            Card(
                Link(words.say("dates.unread"), addresses.UNDATED),
                "",
                words.count("coins", len(unread)),
                (),
            )
        )
    index = IndexView(heading, words.count("years", len(years)), tuple(index_cards))
    return [binder.page(addresses.DATES, "index", index), *pages]


def _undated(binder: Binder, unread: list[Standing], trail: tuple[Link, ...]) -> Page:
    words = binder.words
    group = CoinGroup(Link(""), "", cards(unread, binder.sides, words))
    view = CoinListView(words.say("dates.unread"), words.say("dates.unread-lead"), (group,))
    return binder.page(addresses.UNDATED, "coins", view, view.lead, trail)


def _view(
    binder: Binder,
    year: int,
    coins: list[Standing],
    issues: list[tuple[Series, DateIssue]],
    neighbours: tuple[Link, Link],
) -> DateView:
    words = binder.words
    rows = [_row(binder, series, issue, coins) for series, issue in issues]
    keys = {(series.key, issue.date.key) for series, issue in issues}
    strays = [each for each in coins if (each.series.key, each.coin.date.key) not in keys]
    rows += [_stray(binder, each) for each in strays]
    held = sum(1 for row in rows if row.coins)
    lead = words.say(
        "date.lead",
        denominations=words.count("struck-denominations", len(issues)),
        held=words.number(min(held, len(issues))),
    )
    return DateView(str(year), lead, _monarchs(binder, issues), tuple(rows), neighbours or NO_NEIGHBOURS)


def _monarchs(binder: Binder, issues: list[tuple[Series, DateIssue]]) -> tuple[Link, ...]:
    found: dict[str, Link] = {}
    for series, issue in issues:
        issuer = binder.catalogue.issuers.get(series.issuer)
        for each in series.types_of(issue.date):
            monarch = issuer.monarch(each.monarch) if issuer is not None else None
            if monarch is not None:
                found[f"{series.issuer}/{monarch.id}"] = Link(
                    monarch.name, addresses.of_monarch(series.issuer, monarch.id)
                )
    return tuple(found.values())


def _row(binder: Binder, series: Series, issue: DateIssue, coins: list[Standing]) -> DateRow:
    words = binder.words
    own = [each for each in coins if each.series.key == series.key and each.coin.date.key == issue.date.key]
    filled = next(
        (each for each in binder.cabinet.runs[series.key] if each.slot.date.key == issue.date.key), None
    )
    date = say_date(issue.date, words)
    name = series.name if str(issue.date.year) == date else f"{series.name} {date}"
    remark = words.say("remark.scarce") if issue.figures.scarce else ""
    return DateRow(
        Link(name, addresses.of_denomination(series)),
        _state(own, filled),
        say_struck(issue.figures, words),
        remark or issue.figures.note,
        None if own else _gap(binder, series, issue),
        cards(own, binder.sides, words),
    )


def _state(own: list[Standing], filled: Filled | None) -> str:
    """Say how a date of a series stands: by its slot, or proofs-only where it has none."""
    if filled is not None:
        return filled.state.value
    return State.FILLED.value if any(each.coin.is_held for each in own) else "proofs-only"


def _gap(binder: Binder, series: Series, issue: DateIssue) -> Drawing:
    """Draw what is missing: the reverse of its type, with the date."""
    types = series.types_of(issue.date)
    standards = series.standards_of(issue.date)
    date = say_date(issue.date, binder.words)
    text = binder.words.say("drawing.gap", series=series.name, date=date)
    tone = tone_of(standards[0].metal if standards else None)
    return draw(series, types[0] if types else None, Side.REVERSE, date, tone, text)


def _stray(binder: Binder, standing: Standing) -> DateRow:
    """Show a coin whose date its series never struck: a pattern, a mule, a forgery."""
    words = binder.words
    kind = standing.coin.kind
    remark = standing.coin.departs if kind is not CoinKind.REGULAR else ""
    return DateRow(
        Link(standing.series.name, addresses.of_denomination(standing.series)),
        "apart",
        words.say("struck.apart"),
        remark,
        None,
        cards((standing,), binder.sides, words),
    )
