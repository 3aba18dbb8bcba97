"""Completeness by run, and the numbers struck against the dates held, on one scale of tens."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from daterun.checks.completeness import Filled, State
from daterun.pages import addresses
from daterun.pages.amounts import say_share, thousandths
from daterun.pages.binder import Binder
from daterun.pages.figurepages import figures_page
from daterun.pages.figureviews import Bar, BarChart, FigureSection, Guide, Mark, Plot
from daterun.pages.grids import Run, count_runs, runs_of, say_tally
from daterun.pages.gridviews import LegendItem
from daterun.pages.pieces import Link, Table
from daterun.pages.plots import draw_plot, log_axis, paper
from daterun.pages.recounts import STEPS, at_steps, fall, recounted
from daterun.pages.slots import name_slot, rank_of
from daterun.pages.views import Page
from daterun.pages.wording import say_struck
from daterun.records.issuers import Issuer

ROW = 27
"""The height of a run in the plot."""

CLASSES = (1_000, 10_000, 100_000, 1_000_000)
"""Where one class of numbers struck ends and the next begins, in the table behind the plot."""


def completeness_section(binder: Binder, issuer: Issuer) -> FigureSection | None:
    """Make the bars of how many dates of each run are held; None where the issuer has no date."""
    words = binder.words
    runs = _runs(binder, issuer)
    if not runs:
        return None
    most = max(count_runs((each,))[1] for each in runs)
    bars = tuple(_bar(binder, each, most) for each in runs)
    chart = BarChart(
        binder.of_issuer(words.say("figures.runs.caption"), issuer.id),
        (words.say("grid.corner"), words.say("figures.unit.dates-held")),
        bars,
        whole=recounted(_whole(binder, runs, 0), [_whole(binder, runs, step) for step in STEPS]),
    )
    return FigureSection(f"runs-{issuer.id}", "", bars=(chart,), is_counted=True)


def _bar(binder: Binder, run: Run, most: int) -> Bar:
    address = addresses.of_denomination(run.series)
    filled, slots = count_runs((run,))
    fallen = {step: count_runs((_at(binder, run, step),))[0] for step in STEPS}
    length, solid = thousandths((slots, filled, most))[:2]
    return Bar(
        Link(run.name, address),
        recounted(
            Link(_tally(filled, slots, binder), address),
            [Link(_tally(fallen[step], slots, binder), address) for step in STEPS],
        ),
        length,
        solid,
        at_steps(solid, lambda step: thousandths((fallen[step], most))[0]),
    )


def _whole(binder: Binder, runs: Sequence[Run], least: int) -> Link:
    counts = count_runs(_at(binder, each, least) for each in runs)
    return Link(binder.words.say("figures.runs.whole", tally=_tally(*counts, binder)))


def _at(binder: Binder, run: Run, least: int) -> Run:
    return replace(run, states=fall(run.states, binder.cabinet, least))


def _runs(binder: Binder, issuer: Issuer) -> tuple[Run, ...]:
    return tuple(each for each in runs_of(binder.cabinet, issuer.id) if each.states)


def _tally(filled: int, slots: int, binder: Binder) -> str:
    words = binder.words
    share = say_share(Fraction(filled, slots), words)
    return words.say("figures.tally", filled=words.number(filled), slots=words.number(slots), share=share)


@dataclass(frozen=True, slots=True)
class _Date:
    """A date of a run with its number of ordinary strikes, the lowest of disputed ones; None where not known.

    The rank is that of the coin that fills it.
    """

    filled: Filled
    struck: int | None
    rank: int

    @property
    def is_held(self) -> bool:
        return self.filled.state is State.FILLED

    def is_held_at(self, least: int) -> bool:
        return self.is_held and self.rank >= least * 100


def _dates(binder: Binder, run: Run) -> tuple[_Date, ...]:
    by_id = binder.cabinet.by_id
    return tuple(
        _Date(
            each,
            min(each.slot.figures.ordinary, default=None),
            rank_of(by_id[each.coin]) if each.coin else 0,
        )
        for each in run.states
    )


def struck_pages(binder: Binder) -> list[Page]:
    """Plan the page of numbers struck against dates held; none where no number is known."""
    words = binder.words
    sections = [
        section for issuer in binder.issuers if (section := _struck_section(binder, issuer)) is not None
    ]
    if not sections:
        return []
    heading, lead = words.say("figures.struck.heading"), words.say("figures.struck.lead")
    return [figures_page(binder, addresses.STRUCK_AND_HELD, heading, lead, sections)]


def _struck_section(binder: Binder, issuer: Issuer) -> FigureSection | None:
    words = binder.words
    runs = [(run, _dates(binder, run)) for run in _runs(binder, issuer)]
    known = [each for _, dates in runs for each in dates if each.struck]
    if not known:
        return None
    unknown = [each for _, dates in runs for each in dates if not each.struck]
    lines = [words.say("figures.struck.lowest")]
    if unknown:
        lines.append(words.count("figures.struck.unknown", len(unknown)))
    return FigureSection(
        f"struck-{issuer.id}",
        "",
        tuple(lines),
        plot=_plot(binder, issuer, runs),
        behind=_behind(binder, issuer, runs),
        is_counted=True,
    )


def _plot(binder: Binder, issuer: Issuer, runs: Sequence[tuple[Run, tuple[_Date, ...]]]) -> Plot:
    words = binder.words
    axis = log_axis(each.struck for _, dates in runs for each in dates if each.struck)
    on = paper(len(runs) * ROW + 74, (run.name for run, _ in runs))
    heights = [1 - (nth + 0.5) / len(runs) for nth in range(len(runs))]
    marks = [
        Mark(
            on.x(axis.part(each.struck)),
            on.y(height),
            "dot" if each.is_held else "ring",
            words.say(
                "slot.label",
                name=name_slot(run.series, each.filled, words, issuer),
                state=say_struck(each.filled.slot.figures, words),
            ),
            addresses.of_coin(each.filled.coin)
            if each.is_held and each.filled.coin
            else addresses.of_date(each.filled.slot.date),
            each.rank if each.is_held else None,
        )
        for (run, dates), height in zip(runs, heights, strict=True)
        for each in dates
        if each.struck
    ]
    known = [each for _, dates in runs for each in dates if each.struck]

    def summary(least: int = 0) -> str:
        held = sum(1 for each in known if each.is_held_at(least))
        return words.say("figures.struck.summary", n=len(known), held=words.number(held))

    plot = draw_plot(
        on,
        binder.of_issuer(words.say("figures.struck.caption"), issuer.id),
        summary(),
        (words.say("figures.unit.struck"), ""),
        [(axis.part(power), words.number(power)) for power in axis.powers],
        [(height, run.name) for (run, _), height in zip(runs, heights, strict=True)],
        [Guide(on.x(axis.part(power)), on.top, on.x(axis.part(power)), on.bottom) for power in axis.powers],
        marks,
        (
            LegendItem("dot", words.say("figures.struck.held")),
            LegendItem("ring", words.say("figures.struck.missing")),
        ),
    )
    return replace(plot, again=at_steps(summary(), summary))


def _class_of(struck: int | None) -> int | None:
    """Find the class of a number struck by the number of limits it reaches; None where it is not known."""
    return sum(1 for limit in CLASSES if struck >= limit) if struck else None


def _behind(binder: Binder, issuer: Issuer, runs: Sequence[tuple[Run, tuple[_Date, ...]]]) -> Table:
    """Count the dates held of those struck, by run and class of number; classes without a date are left out."""
    words = binder.words
    found = {_class_of(each.struck) for _, dates in runs for each in dates}
    classes: list[int | None] = [*sorted(each for each in found if each is not None)]
    if None in found:
        classes.append(None)
    rows = []
    for run, dates in runs:
        cells = [Link(run.name, addresses.of_denomination(run.series))]
        for one in classes:
            of_class = [each for each in dates if _class_of(each.struck) == one]
            tallies = [_held_at(binder, of_class, step) for step in (0, *STEPS)]
            cells.append(recounted(tallies[0], tallies[1:]))
        rows.append(tuple(cells))
    headings = (words.say("grid.corner"), *(_name_class(each, binder) for each in classes))
    caption = binder.of_issuer(words.say("figures.struck.behind"), issuer.id)
    return Table(caption, headings, tuple(rows), tuple(range(1, len(headings))))


def _held_at(binder: Binder, dates: Sequence[_Date], least: int) -> Link:
    held = sum(1 for each in dates if each.is_held_at(least))
    return Link(say_tally(held, len(dates), binder.words))


def _name_class(one: int | None, binder: Binder) -> str:
    words = binder.words
    if one is None:
        return words.say("figures.struck.not-known")
    if one == 0:
        return words.say("figures.struck.under", n=CLASSES[0])
    if one == len(CLASSES):
        return words.say("figures.struck.from", n=CLASSES[-1])
    return words.say("figures.struck.between", n=CLASSES[one - 1], last=words.number(CLASSES[one] - 1))
