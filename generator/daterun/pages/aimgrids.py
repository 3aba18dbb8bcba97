"""The slots of an aim to look at: grids of dates, or coins side by side where an aim does not ask for dates."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from daterun.checks.aims import AimState
from daterun.checks.completeness import Filled, State, tally
from daterun.pages import addresses
from daterun.pages.aimviews import Gathered
from daterun.pages.binder import Binder
from daterun.pages.cards import card
from daterun.pages.grids import Run, say_tally
from daterun.pages.gridviews import GridCell, GridColumn, GridRow, GridView, LegendItem
from daterun.pages.pieces import CoinCard, Link, SideView
from daterun.pages.recounts import at_steps, fall
from daterun.pages.sides import draw, tone_of
from daterun.pages.slotnames import address_of, name_of
from daterun.pages.slots import diameter_mm, rank_of, standard_of
from daterun.pages.wording import name_coin
from daterun.readers.closed import ClosedAim
from daterun.records.aims import Divider, End
from daterun.records.coins import Strike
from daterun.records.series import Series, Side


def aim_grids(binder: Binder, aim: ClosedAim, state: AimState) -> tuple[GridView, ...]:
    """Make the grids of an aim that asks for dates: one for each issuer, a tray where it has one series."""
    if Divider.DATE not in aim.one_per or not state.states:
        return ()
    if aim.across_series:
        return (_decades(binder, state),)
    grids = []
    for issuer in binder.issuers:
        runs = [
            Run(series, own, series.name, _dates(aim, series, own), state.rules.counts)
            for series in _series(binder, state)
            if series.issuer == issuer.id
            and (own := tuple(each for each in state.states if each.slot.series == series.key))
        ]
        if not runs:
            continue
        caption = binder.words.say("aim.grid", aim=binder.of_issuer(state.name, issuer.id))
        if len(runs) == 1 and aim.span is None:
            grids.append(binder.grids.tray(runs[0], caption))
        else:
            grids.append(binder.grids.whole(issuer, runs, caption, aim.span))
    return tuple(each for each in grids if each is not None)


def _series(binder: Binder, state: AimState) -> list[Series]:
    keys = dict.fromkeys(each.slot.series for each in state.states)
    return [binder.catalogue.series[each] for each in keys]


def _dates(aim: ClosedAim, series: Series, own: Sequence[Filled]) -> frozenset[str]:
    """Choose the dates that a grid shows: all of the aim's years, or those with a slot for proofs alone."""
    if Strike.ORDINARY not in aim.strikes:
        return frozenset(each.slot.date.key for each in own)
    return frozenset(
        each.date.key
        for each in series.issues
        if aim.span is None or (each.date.year is not None and each.date.year in aim.span)
    )


def _decades(binder: Binder, state: AimState) -> GridView:
    """Lay out slots of any denomination as a tray: a row a decade, a column a year of it."""
    words = binder.words
    shown = [_as_its_coin(binder, each) for each in state.states]
    largest = max(diameter_mm(binder.catalogue.series[each.slot.series], each) for each in shown)
    by_decade: dict[int | None, dict[int, list[GridCell]]] = {}
    cells: dict[tuple[int | None, int], list[Filled]] = {}
    for each in shown:
        year = each.slot.date.year
        place = (year // 10 * 10, year % 10) if year is not None else (None, 0)
        cells.setdefault(place, []).append(each)
        by_decade.setdefault(place[0], {})
    rows = []
    for decade in sorted(by_decade, key=lambda each: (each is None, each or 0)):
        row = tuple(
            _cell(binder, cells.get((decade, last), ()), largest, state.rules.counts) for last in range(10)
        )
        name = words.say("date.undated") if decade is None else words.say("grid.decade", year=decade)
        own = [each for last in range(10) for each in cells.get((decade, last), ())]
        filled = sum(1 for each in own if each.state is State.FILLED)
        slots = sum(1 for each in own if each.state is not State.LEFT_OUT)
        rows.append(GridRow(Link(name), row, say_tally(filled, slots, words), filled, slots))
    columns = tuple(GridColumn(str(last), str(last), "", False) for last in range(10))
    present = {each.state for each in shown}
    legend = tuple(
        LegendItem(each.value, words.say(f"legend.{each.value}")) for each in State if each in present
    )
    caption = words.say("aim.grid", aim=state.name)
    return GridView("tray", caption, words.say("grid.decades"), (), columns, tuple(rows), legend)


def _cell(binder: Binder, found: Sequence[Filled], largest_mm: float, counts: End) -> GridCell:
    if not found:
        return GridCell("", (), "outside", "")
    slots = []
    for each in found:
        series = binder.catalogue.series[each.slot.series]
        sign = binder.grids.slot(each, series, largest_mm, counts)
        if each.coin is None:
            said = binder.words.say(f"state.{each.state.value}")
            label = binder.words.say("slot.label", name=name_of(binder, each), state=said)
            sign = replace(sign, label=label, is_scarce=False)
        slots.append(sign)
    return GridCell(found[0].slot.date.key.replace("-", "–"), tuple(slots), "", "")


def _as_its_coin(binder: Binder, filled: Filled) -> Filled:
    """Show a slot of several series as of that of the coin that stands in it."""
    if filled.coin is None:
        return filled
    coin = binder.cabinet.by_id[filled.coin].coin
    return replace(filled, slot=replace(filled.slot, series=coin.series, members=frozenset()))


def aim_sets(binder: Binder, aim: ClosedAim, state: AimState) -> tuple[Gathered, ...]:
    """Show the slots of an aim that does not ask for dates as coins, a group for each series."""
    if Divider.DATE in aim.one_per:
        return ()
    if aim.across_series:
        return (Gathered(Link(""), "", tuple(_slot_card(binder, each, state) for each in state.states)),)
    groups = []
    for series in _series(binder, state):
        own = [each for each in state.states if each.slot.series == series.key]
        link = Link(binder.of_issuer(series.name, series.issuer), addresses.of_denomination(series))
        coins = tuple(_slot_card(binder, each, state) for each in own)
        line = _tally(binder, own)
        again = at_steps(line, partial(_tally_at, binder, own, state))
        groups.append(Gathered(link, line, coins, again))
    return tuple(groups)


def _tally(binder: Binder, states: Sequence[Filled]) -> str:
    counted = tally(states)
    return say_tally(counted.filled, counted.slots - counted.left_out, binder.words)


def _tally_at(binder: Binder, states: Sequence[Filled], aim: AimState, least: int) -> str:
    return _tally(binder, fall(states, binder.cabinet, least, aim.rules.counts))


def _slot_card(binder: Binder, filled: Filled, state: AimState) -> CoinCard:
    """Show a slot by its coin, or as an outline where there is none; its state is said in words."""
    words = binder.words
    name = name_of(binder, filled, state.rules.strikes)
    said = words.say(f"state.{filled.state.value}")
    marks = () if filled.state is State.FILLED else (said,)
    if filled.coin is not None:
        standing = binder.cabinet.by_id[filled.coin]
        shown = card(standing, binder.sides, words)
        line = f"{name_coin(standing, words)}, {shown.line}"
        rank = rank_of(standing, state.rules.counts) if filled.state is State.FILLED else None
        return CoinCard(Link(name, shown.link.address), shown.side, line, (*shown.marks, *marks), rank=rank)
    series = binder.catalogue.series[filled.slot.series]
    standard = standard_of(series, filled)
    tone = tone_of(standard.metal if standard is not None else None)
    text = words.say("slot.label", name=name, state=said)
    coin_type = series.type(filled.slot.type) if filled.slot.type else None
    drawing = draw(series, coin_type, Side.REVERSE, "", tone, text)
    return CoinCard(
        Link(name, address_of(binder, filled.slot)), SideView("reverse", None, drawing, ""), "", marks
    )
