"""A page per date: that year across the denominations, and one of all that has no readable date."""

from daterun.checks.completeness import State
from daterun.checks.slots import figures_of
from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing, years_of
from daterun.pages.cards import cards, diameter_of
from daterun.pages.issues import remarks_on, sentences
from daterun.pages.pieces import Card, Drawing, Link
from daterun.pages.sides import draw, tone_of
from daterun.pages.slots import DEFAULT_DIAMETER_MM
from daterun.pages.views import CoinGroup, CoinListView, DateRow, DateView, IndexView, Page
from daterun.pages.wording import say_date, say_struck
from daterun.records.coins import CoinKind
from daterun.records.series import Series, Side
from daterun.records.struck import DateIssue

Issues = list[tuple[Series, DateIssue]]


def date_pages(binder: Binder) -> list[Page]:
    """Plan a page per year in which any series had an issue or of which a coin is on record, and their list."""
    words = binder.words
    heading = words.say("nav.dates")
    coins: dict[int, list[Standing]] = {}
    for each in binder.cabinet.coins:
        for year in years_of(each.coin.date):
            coins.setdefault(year, []).append(each)
    issues: dict[int, Issues] = {}
    undated: Issues = []
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            for issue in series.issues:
                for year in years_of(issue.date):
                    issues.setdefault(year, []).append((series, issue))
                if issue.date.year is None:
                    undated.append((series, issue))
    years = binder.cabinet.shelves.years
    trail = (Link(heading, addresses.DATES),)
    pages = []
    links = [Link(""), *(Link(str(each), addresses.of_year(each)) for each in years), Link("")]
    index_cards = []
    for nth, year in enumerate(years):
        own = coins.get(year, [])
        view = _view(binder, year, own, issues.get(year, []), (links[nth], links[nth + 2]))
        pages.append(binder.page(addresses.of_year(year), "date", view, view.lead, trail))
        index_cards.append(_card(binder, Link(str(year), addresses.of_year(year)), own))
    unread = [each for each in binder.cabinet.coins if each.coin.date.year is None]
    if unread or undated:
        pages.append(_undated(binder, unread, undated, trail))
        index_cards.append(_card(binder, Link(words.say("dates.unread"), addresses.UNDATED), unread))
    index = IndexView(heading, words.count("years", len(years)), tuple(index_cards))
    return [binder.page(addresses.DATES, "index", index), *pages]


def _card(binder: Binder, link: Link, coins: list[Standing]) -> Card:
    held = [each for each in coins if each.coin.is_held]
    best = binder.cabinet.best(each for each in held if each.coin.photos)
    sides = (binder.sides.telling(best),) if best is not None else ()
    return Card(link, "", binder.words.count("coins", len(held)), sides)


def _undated(binder: Binder, unread: list[Standing], issues: Issues, trail: tuple[Link, ...]) -> Page:
    """Plan the page of what has no readable date: issues that never bore one, then the coins worn smooth."""
    words = binder.words
    groups = []
    shown = set()
    for series, issue in issues:
        own = binder.cabinet.of_date(series, issue.date)
        shown |= {each.coin.id for each in own}
        name = words.say("coin.name", series=series.name, date=say_date(issue.date, words))
        link = Link(binder.of_issuer(name, series.issuer), addresses.of_denomination(series))
        line = sentences([say_struck(figures_of(issue), words), *_remarks(binder, series, issue)])
        groups.append(CoinGroup(link, line, cards(own, binder.sides, words)))
    rest = [each for each in unread if each.coin.id not in shown]
    if rest:
        groups.append(CoinGroup(Link(""), "", cards(rest, binder.sides, words)))
    view = CoinListView(words.say("dates.unread"), words.say("dates.unread-lead"), tuple(groups))
    return binder.page(addresses.UNDATED, "coins", view, view.lead, trail)


def _view(
    binder: Binder, year: int, coins: list[Standing], issues: Issues, neighbours: tuple[Link, Link]
) -> DateView:
    largest = max(
        [*(diameter_of(each) for each in coins), *(_diameter(series, issue) for series, issue in issues)],
        default=0.0,
    )
    rows = [_row(binder, series, issue, largest) for series, issue in issues]
    keys = {(series.key, issue.date.key) for series, issue in issues}
    strays = [each for each in coins if (each.series.key, each.coin.date.key) not in keys]
    rows += [_stray(binder, each, largest) for each in strays]
    return DateView(str(year), _lead(binder, issues), _monarchs(binder, issues), tuple(rows), neighbours)


def _lead(binder: Binder, issues: Issues) -> str:
    """Word how many denominations were struck, and how many of those are held in a regular coin."""
    words = binder.words
    struck = {addresses.of_denomination(series) for series, _ in issues}
    held = {
        addresses.of_denomination(series)
        for series, issue in issues
        if any(_counts(each) for each in binder.cabinet.of_date(series, issue.date))
    }
    denominations = words.count("struck-denominations", len(struck))
    if not struck:
        return f"{denominations}."
    return words.say("date.lead", denominations=denominations, held=words.number(len(held)))


def _counts(standing: Standing) -> bool:
    return standing.coin.is_held and standing.coin.kind is CoinKind.REGULAR


def _monarchs(binder: Binder, issues: Issues) -> tuple[Link, ...]:
    found: dict[str, Link] = {}
    for series, issue in issues:
        issuer = binder.catalogue.issuers.get(series.issuer)
        for each in binder.cabinet.types_of(series, issue.date):
            monarch = issuer.monarch(each.monarch) if issuer is not None else None
            if monarch is not None:
                address = addresses.of_monarch(series.issuer, monarch.id)
                found[address] = Link(monarch.name, address)
    return tuple(found.values())


def _diameter(series: Series, issue: DateIssue) -> float:
    """Find the diameter in millimetres by the standard of a date; a middling one where it names none."""
    standards = series.standards_of(issue.date)
    return float(standards[0].diameter.mm) if standards and standards[0].diameter else DEFAULT_DIAMETER_MM


def _row(binder: Binder, series: Series, issue: DateIssue, largest_mm: float) -> DateRow:
    words = binder.words
    own = binder.cabinet.of_date(series, issue.date)
    date = say_date(issue.date, words)
    name = series.name
    standards = series.standards_of(issue.date)
    if date != f"{issue.date.year:04}":
        name = words.say("coin.name", series=name, date=date)
    return DateRow(
        Link(binder.of_issuer(name, series.issuer), addresses.of_denomination(series)),
        _state(binder, series, issue),
        say_struck(figures_of(issue), words),
        sentences(_remarks(binder, series, issue)),
        None if own else _gap(binder, series, issue),
        cards(own, binder.sides, words, largest_mm),
        tone_of(standards[0].metal if standards else None),
        figures_of(issue).scarce,
        round(_diameter(series, issue) / largest_mm * 1000),
    )


def _remarks(binder: Binder, series: Series, issue: DateIssue) -> list[str]:
    return remarks_on(issue, series, binder.catalogue.issuers.get(series.issuer), binder.words)


def _state(binder: Binder, series: Series, issue: DateIssue) -> str:
    """Say how a date of a series stands: by its slot, or proofs-only where it has none."""
    filled = binder.cabinet.state(series, issue.date)
    if filled is not None:
        return filled.state.value
    held = any(_counts(each) for each in binder.cabinet.of_date(series, issue.date))
    return State.FILLED.value if held else "proofs-only"


def _gap(binder: Binder, series: Series, issue: DateIssue) -> Drawing:
    """Draw what is missing: the reverse of its type, with the date."""
    types = binder.cabinet.types_of(series, issue.date)
    standards = series.standards_of(issue.date)
    date = say_date(issue.date, binder.words)
    text = binder.words.say("drawing.gap", series=series.name, date=date)
    tone = tone_of(standards[0].metal if standards else None)
    return draw(series, types[0] if types else None, Side.REVERSE, date, tone, text)


def _stray(binder: Binder, standing: Standing, largest_mm: float) -> DateRow:
    """Show a coin whose date its series never struck: a pattern, a mule, a forgery."""
    words, series = binder.words, standing.series
    regular = standing.coin.kind is CoinKind.REGULAR
    return DateRow(
        Link(binder.of_issuer(series.name, series.issuer), addresses.of_denomination(series)),
        "apart",
        words.say("struck.apart"),
        "" if regular else standing.coin.departs,
        None,
        cards((standing,), binder.sides, words, largest_mm),
    )
