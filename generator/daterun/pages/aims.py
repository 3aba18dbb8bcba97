"""A page per aim: its rules in words, its slots, what another grade would do, and what to look for next."""

from dataclasses import replace

from daterun.checks.aims import AimState
from daterun.checks.completeness import Filled, State
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.aimgrids import aim_grids, aim_sets
from daterun.pages.aimviews import ListingView
from daterun.pages.binder import Binder
from daterun.pages.completions import grade_facts
from daterun.pages.counts import Count
from daterun.pages.figureviews import Bar, BarChart
from daterun.pages.pieces import Card, Fact, Link, Table
from daterun.pages.recounts import STEPS, at_steps, fall, recounted
from daterun.pages.slotnames import link_to_coin, link_to_slot
from daterun.pages.views import IndexView, Page
from daterun.pages.wanted import missing_table, spares_table, upgrades_table
from daterun.readers.closed import ClosedAim
from daterun.readers.reader import Reader
from daterun.records.aims import Divider, End, Problems
from daterun.records.coins import CoinKind
from daterun.trade.scales import STEP_BY_NUMBER


def aim_pages(binder: Binder) -> list[Page]:
    """Plan a page per aim and their list; the list leads to the other pages on what is wanted and held."""
    words = binder.words
    heading = words.say("nav.aims")
    pairs = list(zip(binder.catalogue.settings.aims, binder.cabinet.aims, strict=True))
    if not pairs:
        return []
    cards = tuple(_card(binder, state) for _, state in pairs)
    pages = [binder.page(addresses.AIMS, "index", IndexView(heading, words.count("aims", len(cards)), cards))]
    trail = (Link(heading, addresses.AIMS),)
    links = [Link(""), *(Link(aim.name, addresses.of_aim(aim.id)) for aim, _ in pairs), Link("")]
    for nth, (aim, state) in enumerate(pairs):
        view = _view(binder, aim, state, (links[nth], links[nth + 2]))
        pages.append(binder.page(addresses.of_aim(aim.id), "listing", view, view.lead, trail))
    return pages


def aim_bars(binder: Binder) -> BarChart | None:
    """Draw how far each aim is filled; None where there are no aims."""
    aims = binder.cabinet.aims
    if not aims:
        return None
    words = binder.words
    return BarChart(
        words.say("nav.aims"),
        (words.say("table.aim"), words.say("table.filled")),
        tuple(_bar(binder, each) for each in aims),
    )


def _bar(binder: Binder, state: AimState) -> Bar:
    fallen = {step: aim_at(binder, state, step) for step in STEPS}
    return Bar(
        Link(state.name, addresses.of_aim(state.id)),
        recounted(
            Link(_short_tally(binder, state)), [Link(_short_tally(binder, fallen[step])) for step in STEPS]
        ),
        1000,
        _share(state),
        at_steps(_share(state), lambda step: _share(fallen[step])),
    )


def aim_at(binder: Binder, state: AimState, least: int) -> AimState:
    """Count an aim again with only the coins of a step of the scale or better; its curve stays."""
    return replace(state, states=fall(state.states, binder.cabinet, least, state.rules.counts))


def _share(state: AimState) -> int:
    return _thousandths(state.tally.filled, state.tally.slots - state.tally.left_out)


def _thousandths(part: int, whole: int) -> int:
    return part * 1000 // whole if whole else 0


def _short_tally(binder: Binder, state: AimState) -> str:
    counts, words = state.tally, binder.words
    return words.say(
        "grid.tally",
        filled=words.number(counts.filled),
        slots=words.number(counts.slots - counts.left_out),
    )


def _card(binder: Binder, state: AimState) -> Card:
    filled = [
        binder.cabinet.by_id[each.coin] for each in state.states if each.state is State.FILLED and each.coin
    ]
    best = binder.cabinet.best(each for each in filled if each.coin.photos)
    sides = (binder.sides.telling(best),) if best is not None else ()
    line = _say_counts(binder, state)
    again = at_steps(line, lambda step: _say_counts_at(binder, state, step))
    return Card(Link(state.name, addresses.of_aim(state.id)), line, "", sides, again=again)


def _say_counts_at(binder: Binder, state: AimState, least: int) -> str:
    """Word the same where coins are counted from a step on, below which others fall than below the aim."""
    fallen = aim_at(binder, state, least)
    return _say_counts(binder, fallen, "below" if fallen.states == state.states else "below-either")


def _say_counts(binder: Binder, state: AimState, below: str = "below") -> str:
    """Word how many slots are in each state; left out and below only where there are any."""
    counts, words = state.tally, binder.words
    parts = [words.say("aim.filled", filled=words.number(counts.filled), n=counts.slots - counts.left_out)]
    for key, number in ((below, counts.below), ("missing", counts.missing), ("left-out", counts.left_out)):
        if number:
            parts.append(words.count(f"aim.{key}", number))
    return ", ".join(parts)


def _view(binder: Binder, aim: ClosedAim, state: AimState, neighbours: tuple[Link, Link]) -> ListingView:
    words = binder.words
    count = Count(state.id, state.name, "", state.states)
    tables = [_left_out(binder, state, aim)]
    if binder.catalogue.settings.shows_wants:
        strikes = state.rules.strikes
        tables = [
            missing_table(binder, state.states, strikes, words.say("wanted.missing")),
            upgrades_table(binder, (state,), words.say("wanted.upgrades")),
            _spares(binder, state),
            *tables,
        ]
    cautions = [words.say("caution.grades")]
    if any(binder.cabinet.by_id[each.coin].coin.grade is not None for each in state.states if each.coin):
        cautions.append(words.say("completeness.mean"))
    return ListingView(
        heading=state.name,
        lead=f"{_say_counts(binder, state)}.",
        facts=(*_rules(binder, aim), *grade_facts(binder, count, state.rules.counts)),
        grids=aim_grids(binder, aim, state),
        gathered=aim_sets(binder, aim, state),
        bars=tuple(each for each in (_curve(binder, aim, state),) if each is not None),
        tables=tuple(each for each in tables if each is not None),
        cautions=tuple(cautions),
        neighbours=neighbours,
        again=at_steps(
            f"{_say_counts(binder, state)}.", lambda step: f"{_say_counts_at(binder, state, step)}."
        ),
    )


def _rules(binder: Binder, aim: ClosedAim) -> tuple[Fact, ...]:
    """Word what the aim asks for, rule by rule."""
    words = binder.words
    series = [found for name in aim.series if (found := binder.catalogue.find_series(name)) is not None]
    once = {each.key: each for each in series}
    links = tuple(Link(each.name, addresses.of_denomination(each)) for each in once.values())
    dividers = [words.say(f"divider.{each.value}") for each in Divider if each in aim.one_per]
    scope = words.say("aim.across" if aim.across_series else "aim.within") if len(links) > 1 else ""
    strikes = [words.say(f"strike.{each.value}") for each in aim.strikes]
    facts = [
        Fact(words.say("aim.series"), "", "", links),
        Fact(words.say("table.dates"), str(aim.span) if aim.span is not None else words.say("aim.whole-run")),
        Fact(words.say("aim.one-per"), listed(dividers, words.say("and")), scope),
        Fact(words.say("fact.strike"), listed(strikes, words.say("or"))),
        Fact(words.say("fact.grade"), _say_grade(binder, aim), _say_end(binder, aim)),
        Fact(words.say("aim.problems"), words.say(f"aim.problems.{aim.problems.value}")),
    ]
    if aim.kinds != (CoinKind.REGULAR,):
        kinds = [words.say(f"kind.{each.value.replace(' ', '-')}") for each in aim.kinds]
        facts.append(Fact(words.say("aim.kinds"), listed(kinds, words.say("or"))))
    return tuple(facts)


def _say_grade(binder: Binder, aim: ClosedAim) -> str:
    if aim.at_least is None:
        return binder.words.say("theme.count.any")
    return binder.words.say("aim.at-least", grade=aim.at_least.text)


def _say_end(binder: Binder, aim: ClosedAim) -> str:
    """Word the end of a range that counts, where it is not the usual one or a grade is asked for."""
    if aim.at_least is None and aim.counts is End.LOW:
        return ""
    return binder.words.say(f"aim.counts.{aim.counts.value}")


def _curve(binder: Binder, aim: ClosedAim, state: AimState) -> BarChart | None:
    """Draw how many slots would be filled at any grade and at each step, down to where none would be."""
    words = binder.words
    points = [each for each in state.curve if each.filled]
    slots = state.tally.slots - state.tally.left_out
    if not points or not slots:
        return None
    notes = [words.say("curve.note")]
    if len(points) < len(state.curve):
        first = state.curve[len(points)].at_least
        assert first is not None
        notes.append(words.say("curve.none", step=STEP_BY_NUMBER[first]))
    if aim.problems is Problems.REFUSED:
        notes.append(words.say("curve.problems"))
    asked = _step_asked(state)
    bars = []
    for each in points:
        step = words.say("theme.count.any") if each.at_least is None else str(STEP_BY_NUMBER[each.at_least])
        name = words.say("curve.asked", step=step) if each.at_least == asked else step
        share = _thousandths(each.filled, slots)
        number = words.say("grid.tally", filled=words.number(each.filled), slots=words.number(slots))
        bars.append(Bar(Link(name), Link(number), 1000, share))
    return BarChart(
        words.say("curve.caption"),
        (words.say("curve.at-least"), words.say("table.filled")),
        tuple(bars),
        tuple(notes),
    )


def _step_asked(state: AimState) -> int | None:
    """Find the step at which the curve shows the aim as it is: the first that is no lower."""
    least = state.rules.at_least
    if least is None:
        return None
    return next((each.at_least for each in state.curve if each.at_least and each.at_least >= least), None)


def _left_out(binder: Binder, state: AimState, aim: ClosedAim) -> Table | None:
    """List the slots left out, for the keeper with the reasons, with the coin that would stand there."""
    words = binder.words
    found = [each for each in state.states if each.state is State.LEFT_OUT]
    if not found:
        return None
    reasons = _reasons(binder, aim) if binder.catalogue.reader is Reader.KEEPER else {}
    rows = tuple(
        (
            link_to_slot(binder, each, state.rules.strikes),
            link_to_coin(binder, each.coin) if each.coin is not None else Link(words.say("held.none")),
            Link(_reason(each, reasons)),
        )
        for each in found
    )
    headings = (words.say("table.date"), words.say("table.held"), words.say("table.reason"))
    with_reasons = any(row[2].text for row in rows)
    width = 3 if with_reasons else 2
    return Table(words.say("aim.left-out-table"), headings[:width], tuple(row[:width] for row in rows))


def _spares(binder: Binder, state: AimState) -> Table | None:
    """List what is spare of each date; where an aim does not ask for dates, all but a few coins would be."""
    dated = [each for each in state.states if each.slot.is_dated]
    return spares_table(binder, dated, binder.words.say("aim.spares"))


def _reasons(binder: Binder, aim: ClosedAim) -> dict[tuple[str, str], str]:
    found = {}
    for name, slots in aim.leave_out.items():
        series = binder.catalogue.find_series(name)
        for slot, reason in slots.items() if series is not None else ():
            assert series is not None
            found[series.key, " ".join(slot.split())] = reason
    return found


def _reason(filled: Filled, reasons: dict[tuple[str, str], str]) -> str:
    slot = filled.slot
    return next((reasons[each, slot.name] for each in slot.all_series if (each, slot.name) in reasons), "")
