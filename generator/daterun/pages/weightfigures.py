"""Weights against the standard and its remedy, what wear has taken by grade, and weighings in water."""

from collections.abc import Sequence
from fractions import Fraction

from daterun.checks.agreement import step_of
from daterun.checks.weighing import (
    AgainstRemedy,
    WaterWeighing,
    Weighing,
    losses_by_word,
)
from daterun.pages import addresses
from daterun.pages.amounts import say_percent
from daterun.pages.binder import Binder
from daterun.pages.figurepages import figures_page, left_out_fact
from daterun.pages.figureviews import FigureSection, Guide, Mark, Plot
from daterun.pages.gridviews import LegendItem
from daterun.pages.holdings import Holding, Holdings
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.plots import MOST_MARKS, draw_plot, draw_together, even_axis, grade_axis, paper
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.pages.wording import say_grade
from daterun.records.coins import CoinKind
from daterun.trade.measures import show_grams

KINDS = {
    AgainstRemedy.WITHIN: "dot",
    AgainstRemedy.NOT_LAID_DOWN: "dot",
    AgainstRemedy.LIGHT: "ring",
    AgainstRemedy.HEAVY: "lozenge",
}
"""The mark of each weight; a coin that has lost metal otherwise than by wear is a cross."""

Weighed = tuple[Holding, Weighing]


def weight_pages(binder: Binder, holdings: Holdings) -> list[Page]:
    """Plan the page of weights; none where no coin was weighed against a standard or in water."""
    weighed = [(each, each.weighing) for each in holdings.every if each.weighing is not None]
    sections = [
        _losses(binder, weighed) if weighed else None,
        _by_series(binder, holdings) if weighed else None,
        _water(binder, holdings),
        _left_out(binder, holdings) if weighed else None,
    ]
    if not any(sections):
        return []
    words = binder.words
    heading, lead = words.say("figures.weights.heading"), words.say("figures.weights.lead")
    cautions = ("weights", "cleaning", "grades")
    return [figures_page(binder, addresses.WEIGHTS, heading, lead, sections, cautions)]


def _losses(binder: Binder, weighed: Sequence[Weighed]) -> FigureSection:
    words = binder.words
    graded = [(holding, each) for holding, each in weighed if each.grade is not None]
    rows = tuple(
        (
            Link(words.say("figures.weights.word", word=each.word, n=each.lowest)),
            Link(words.number(len(each.coins)), f"{addresses.WEIGHTS}#by-series"),
            Link(say_percent(each.quartiles.low)),
            Link(say_percent(each.quartiles.median)),
            Link(say_percent(each.quartiles.high)),
        )
        for each in losses_by_word(each for _, each in weighed)
    )
    keys = ("graded", "coins", "loss-quarter", "loss-median", "loss-three-quarters")
    behind = Table(
        words.say("figures.weights.behind"),
        tuple(words.say(f"table.{key}") for key in keys),
        rows,
        (1, 2, 3, 4),
        (words.say("figures.weights.quartiles"),),
    )
    return FigureSection(
        "losses",
        "",
        plot=_plot(binder, graded) if graded else None,
        behind=behind if rows else None,
    )


def _plot(binder: Binder, graded: Sequence[Weighed]) -> Plot:
    words, are_few = binder.words, len(graded) <= MOST_MARKS
    steps = [step_of(each.grade) for _, each in graded if each.grade is not None]
    losses = {(each.loss.numerator, each.loss.denominator): each.loss * 100 for _, each in graded}
    across, up = grade_axis(steps), even_axis(losses.values())
    on = paper(420, (f"{float(each):g} %" for each in up.ticks()))
    heights = {key: on.y(up.part(loss)) for key, loss in losses.items()}
    marks = [
        Mark(
            on.x(across.part(step)),
            heights[each.loss.numerator, each.loss.denominator],
            "cross" if each.is_altered else KINDS[each.against_remedy],
            _say_mark(binder, holding, each) if are_few else "",
            holding.link.address,
        )
        for (holding, each), step in zip(graded, steps, strict=True)
    ]
    level = on.y(up.part(Fraction(0)))
    signs = (("dot", "within"), ("ring", "light"), ("lozenge", "heavy"), ("cross", "altered"))
    return draw_plot(
        on,
        words.say("figures.weights.caption"),
        words.count("figures.weights.summary", len(marks)),
        (words.say("figures.unit.grade"), words.say("figures.unit.loss")),
        across.ticks(),
        [(up.part(each), f"{_minus(each)} %") for each in up.ticks()],
        [Guide(on.left, level, on.right, level)],
        draw_together(marks, lambda n: words.count("coins", n), f"{addresses.WEIGHTS}#by-series"),
        [LegendItem(kind, words.say(f"figures.weights.{key}")) for kind, key in signs],
    )


def _say_mark(binder: Binder, holding: Holding, weighing: Weighing) -> str:
    return binder.words.say(
        "figures.weights.mark",
        coin=holding.link.text,
        grade=say_grade(holding.standing.coin, binder.words),
        weight=show_grams(weighing.measured.grams),
        loss=say_percent(weighing.loss),
    )


def _minus(number: Fraction) -> str:
    return f"{float(number):g}".replace("-", "\u2212")


def _by_series(binder: Binder, holdings: Holdings) -> FigureSection:
    words = binder.words
    rows = []
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            weighed = [each.weighing for each in holdings.of(series) if each.weighing is not None]
            if weighed:
                counts = [
                    sum(1 for each in weighed if each.against_remedy is one)
                    for one in (AgainstRemedy.WITHIN, AgainstRemedy.LIGHT, AgainstRemedy.HEAVY)
                ]
                link = addresses.of_figures(series)
                cells = [Link(words.number(each), link if each else "") for each in (len(weighed), *counts)]
                rows.append((Link(series.name, link), *cells))
    keys = ("series", "weighed-coins", "within", "light", "heavy")
    table = Table(
        words.say("figures.weights.by-series"),
        tuple(words.say(f"table.{key}") for key in keys),
        tuple(rows),
        (1, 2, 3, 4),
        (words.say("figures.weights.remedy"),),
    )
    return FigureSection("by-series", "", tables=(table,))


def _water(binder: Binder, holdings: Holdings) -> FigureSection | None:
    words = binder.words
    found = [(each, each.water) for each in holdings.every if each.water is not None]
    if not found:
        return None
    keys = ("coin", "in-air", "in-water", "gravity", "by-reading", "by-alloy", "remark")
    table = Table(
        words.say("figures.water.caption"),
        tuple(words.say(f"table.{key}") for key in keys),
        tuple(_water_row(binder, holding, each) for holding, each in found),
        (1, 2, 3, 4, 5),
        (
            words.say("figures.water.reading"),
            words.say("figures.water.alloy"),
            words.say("figures.water.caution"),
        ),
    )
    return FigureSection("water", "", tables=(table,))


def _water_row(binder: Binder, holding: Holding, weighing: WaterWeighing) -> tuple[Link, ...]:
    words, gravity = binder.words, holding.standing.coin.gravity
    assert gravity is not None
    found = weighing.gravity
    remark = weighing.fault or words.say(f"figures.water.{weighing.against_alloy.value}")
    return (
        holding.link,
        Link(show_grams(gravity.dry.grams)),
        Link(show_grams(gravity.wet.grams)),
        Link(f"{found.value:.2f}" if found is not None else ""),
        Link(f"{found.low:.2f}–{found.high:.2f}" if found is not None else ""),
        Link(f"{weighing.expected:.2f}" if weighing.expected is not None else ""),
        Link(remark),
    )


def _left_out(binder: Binder, holdings: Holdings) -> FigureSection | None:
    words = binder.words
    groups: dict[str, list[Standing]] = {
        "not-regular": [],
        "no-standard-weight": [],
        "ungraded": [],
        "altered": [],
    }
    for each in holdings.every:
        reason = _reason(each)
        if reason:
            groups[reason].append(each.standing)
    names: list[Fact] = [
        left_out_fact(words.say(f"figures.lack.{reason}"), found, words)
        for reason, found in groups.items()
        if found
    ]
    if not names:
        return None
    return FigureSection("left-out", words.say("figures.left-out"), names=tuple(names))


def _reason(holding: Holding) -> str:
    """Say why a coin that was weighed is not among the losses by grade; "" where it is, or was never weighed."""
    coin, weighing = holding.standing.coin, holding.weighing
    if coin.weight is None:
        return ""
    if weighing is None:
        return "no-standard-weight" if coin.kind is CoinKind.REGULAR else "not-regular"
    if weighing.is_altered:
        return "altered"
    return "ungraded" if weighing.grade is None else ""


def weighings_table(binder: Binder, held: Sequence[Holding]) -> Table | None:
    """List the weighings of a series' coins; None where none was weighed against a standard."""
    words = binder.words
    said = {each: words.say(f"figures.remedy.{each.value}") for each in AgainstRemedy}
    rows = []
    for each in held:
        weighing = each.weighing
        if weighing is not None:
            against = said[weighing.against_remedy]
            altered = words.say("figures.weights.altered") if weighing.is_altered else ""
            rows.append(
                (
                    each.link,
                    binder.cell(say_grade(each.standing.coin, words)),
                    binder.cell(show_grams(weighing.standard.grams)),
                    binder.cell(show_grams(weighing.measured.grams)),
                    binder.cell(say_percent(weighing.loss)),
                    binder.cell("; ".join(one for one in (against, altered) if one)),
                )
            )
    if not rows:
        return None
    keys = ("coin", "grade", "standard", "measured", "loss", "against-remedy")
    headings = tuple(words.say(f"table.{key}") for key in keys)
    return Table(words.say("figures.weights.of-coins"), headings, tuple(rows), (2, 3, 4))
