"""A page per denomination: its trays, standards, types, varieties and dates, and what the keeper has of each."""

from collections.abc import Sequence

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Denomination
from daterun.pages.cards import cards
from daterun.pages.completions import count_table
from daterun.pages.counts import count_series
from daterun.pages.grids import Run, count_runs, ranks_of, say_tally, say_years
from daterun.pages.gridviews import GridView
from daterun.pages.pieces import Card, Drawing, Fact, Link, SideView
from daterun.pages.sidebyside import link_to
from daterun.pages.sides import FACES, draw, face_of, tone_of
from daterun.pages.standards import dates_table, standards_table, varieties_table
from daterun.pages.views import DenominationView, IndexView, Page, TypeView
from daterun.pages.wording import name_type, say_metal
from daterun.records.coins import CoinKind
from daterun.records.series import CoinType, Series, Side
from daterun.records.struck import DateIssue, Figures


def denomination_pages(binder: Binder) -> list[Page]:
    """Plan a page per denomination and their list, largest face value first."""
    words = binder.words
    heading = words.say("nav.denominations")
    denominations = binder.cabinet.denominations
    index = IndexView(
        heading,
        words.count("denominations", len(denominations)),
        tuple(_card(binder, each) for each in denominations),
    )
    pages = [binder.page(addresses.DENOMINATIONS, "index", index)]
    links = [
        Link(""),
        *(Link(each.name, addresses.of_denomination(each.series[0])) for each in denominations),
        Link(""),
    ]
    trail = (Link(heading, addresses.DENOMINATIONS),)
    for nth, each in enumerate(denominations):
        view = _view(binder, each, (links[nth], links[nth + 2]))
        address = addresses.of_denomination(each.series[0])
        pages.append(binder.page(address, "denomination", view, view.lead, trail))
    return pages


def _runs(binder: Binder, denomination: Denomination) -> tuple[Run, ...]:
    return tuple(Run(each, binder.cabinet.runs[each.key], each.name) for each in denomination.series)


def _view(binder: Binder, denomination: Denomination, neighbours: tuple[Link, Link]) -> DenominationView:
    words = binder.words
    runs = _runs(binder, denomination)
    types = tuple(_type_view(binder, series, each) for series in denomination.series for each in series.types)
    coins = binder.cabinet.of_denomination(denomination)
    others = [each for each in coins if each.coin.kind is not CoinKind.REGULAR]
    tables = tuple(dates_table(binder, each, denomination.issuer) for each in denomination.series)
    cautions = [words.say("caution.grades")]
    if not all(_is_checked(each) for each in denomination.series):
        cautions.append(words.say("caution.unchecked"))
    return DenominationView(
        heading=denomination.name,
        lead=_lead(binder, denomination, runs, *(words.number(each) for each in count_runs(runs))),
        counting=_lead(binder, denomination, runs, "{filled}", "{slots}"),
        grids=_trays(binder, runs),
        standards=standards_table(binder, denomination.series),
        types=types,
        varieties=varieties_table(binder, denomination.series),
        dates=tables,
        others=cards(others, binder.sides, words),
        sources=sources_of(denomination.series),
        cautions=tuple(cautions),
        neighbours=neighbours,
        completeness=count_table(
            binder,
            words.say("completeness.heading"),
            words.say("table.series"),
            tuple(count_series(binder.cabinet, each) for each in denomination.series),
        ),
    )


def _is_checked(series: Series) -> bool:
    """Tell whether every figure of a series was checked against its source."""
    figures = [each for issue in series.issues for each in _figures(issue)]
    return (
        all(each.checked for each in series.standards)
        and series.struck.checked
        and all(each.checked for each in figures)
    )


def _figures(issue: DateIssue) -> tuple[Figures, ...]:
    """List the figures of a date and of its parts."""
    return (issue.figures, *(part.figures for part in issue.parts))


def _lead(binder: Binder, denomination: Denomination, runs: Sequence[Run], filled: str, slots: str) -> str:
    """Word a denomination in one sentence: face value, issuer, years, and how many dates are held."""
    words = binder.words
    return words.say(
        "denomination.lead",
        face=denomination.series[0].face or denomination.name,
        issuer=denomination.issuer.name,
        years=say_years(runs, words),
        filled=filled,
        slots=slots,
    )


def _trays(binder: Binder, runs: Sequence[Run]) -> tuple[GridView, ...]:
    trays = []
    for run in runs:
        filled, slots = (binder.words.number(each) for each in count_runs((run,)))
        caption = binder.words.say("denomination.tray", series=run.name, filled=filled, slots=slots)
        counting = binder.words.say("denomination.tray", series=run.name, filled="{filled}", slots="{slots}")
        tray = binder.grids.tray(run, caption, counting)
        if tray is not None:
            trays.append(tray)
    return tuple(trays)


def sources_of(series: Sequence[Series]) -> tuple[str, ...]:
    """List every source that the page's figures name, each once, in the order they are met."""
    found = []
    for one in series:
        found += [each.source for each in one.standards]
        found.append(one.struck.source)
        found += [each.source for issue in one.issues for each in _figures(issue)]
        found += [each.source for each in one.types]
        found += [each.source for each in one.varieties]
    return tuple(dict.fromkeys(each for each in found if each))


def _type_view(binder: Binder, series: Series, coin_type: CoinType) -> TypeView:
    """Show a type by the best coin of it, or drawn where there is none."""
    words = binder.words
    own = [
        each
        for each in binder.cabinet.of_series(series)
        if each.place.type is not None
        and each.place.type.id == coin_type.id
        and each.coin.kind is CoinKind.REGULAR
    ]
    best = binder.cabinet.best(own)
    if best is not None:
        sides = tuple(binder.sides.side(best, each) for each in FACES)
    else:
        sides = tuple(_drawn(binder, series, coin_type, each) for each in FACES)
    issuer = binder.catalogue.issuers.get(series.issuer)
    heading = name_type(coin_type, series, issuer)
    facts = []
    for side in FACES:
        face = face_of(coin_type, side)
        if face is None:
            continue
        said = words.say(f"side.{side.value}")
        facts.append(Fact(said[:1].upper() + said[1:], face.design, face.legend))
        if face.designer:
            facts.append(Fact(words.say("fact.designer"), face.designer))
    held = sum(1 for each in own if each.coin.is_held)
    facts.append(Fact(words.say("fact.coins"), words.count("coins", held)))
    if coin_type.note:
        facts.append(Fact(words.say("fact.note"), coin_type.note))
    name = f"type-{series.id}-{coin_type.id}"
    grades = link_to(binder, series, coin_type)
    years = "" if heading.endswith(str(coin_type.span)) else str(coin_type.span)
    return TypeView(name, heading, years, sides, tuple(facts), grades)


def _drawn(binder: Binder, series: Series, coin_type: CoinType, side: Side) -> SideView:
    standard = next((each for each in series.standards if each.span.overlaps(coin_type.span)), None)
    tone = tone_of(standard.metal if standard is not None else None)
    text = binder.words.say(
        "drawing.type",
        series=series.name,
        years=str(coin_type.span),
        side=binder.words.say(f"side.{side.value}"),
    )
    face = face_of(coin_type, side)
    drawing: Drawing = draw(series, coin_type, side, series.name, tone, text)
    return SideView(side.value, None, drawing, face.design if face is not None else "")


def _card(binder: Binder, denomination: Denomination) -> Card:
    words = binder.words
    filled, slots = count_runs(_runs(binder, denomination))
    coins = binder.cabinet.of_denomination(denomination)
    best = binder.cabinet.best(each for each in coins if "reverse" in each.coin.photos)
    sides = (binder.sides.telling(best),) if best is not None else ()
    standards = [each for series in denomination.series for each in series.standards]
    metals = tuple(dict.fromkeys(say_metal(each, words) for each in standards))
    name = binder.of_issuer(denomination.name, denomination.issuer.id)
    return Card(
        Link(name, addresses.of_denomination(denomination.series[0])),
        ", ".join(metals),
        say_tally(filled, slots, words),
        sides,
        ranks_of(binder.cabinet, _runs(binder, denomination)),
        slots,
    )
