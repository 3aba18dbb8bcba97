"""The grades of the coins held: how many there are of each step, and the list of those of one step."""

from collections.abc import Iterable

from daterun.checks.agreement import step_of
from daterun.checks.quantiles import quartiles
from daterun.pages import addresses
from daterun.pages.amounts import thousandths
from daterun.pages.binder import Binder
from daterun.pages.figurepages import figures_page
from daterun.pages.figureviews import Bar, BarChart, FigureSection
from daterun.pages.holdings import Holding, Holdings
from daterun.pages.pieces import Link, Table
from daterun.pages.views import Page
from daterun.pages.wording import say_grade_line
from daterun.records.coins import CoinKind
from daterun.trade.scales import STEPS

Steps = dict[int | None, tuple[Holding, ...]]
"""Coins by the place of the step that their grade counts as, lowest first; those without a grade under None."""


def coins_by_step(holdings: Holdings) -> Steps:
    """Group the regular coins held by step, those without a grade last."""
    found: dict[int | None, list[Holding]] = {}
    for each in holdings.every:
        coin = each.standing.coin
        if coin.kind is CoinKind.REGULAR:
            step = step_of(coin.grade) if coin.grade is not None else None
            found.setdefault(step, []).append(each)
    rest: list[int | None] = [None] if None in found else []
    return {step: tuple(found[step]) for step in [*_graded(found), *rest]}


def _graded(steps: Iterable[int | None]) -> list[int]:
    return sorted(step for step in steps if step is not None)


def grades_section(binder: Binder, steps: Steps) -> FigureSection | None:
    """Make the bars of the grades, a row for each step from the lowest held to the highest, then the ungraded."""
    if not steps:
        return None
    words, graded = binder.words, _graded(steps)
    rows: list[int | None] = list(range(graded[0], graded[-1] + 1)) if graded else []
    if None in steps:
        rows.append(None)
    counts = [len(steps.get(step, ())) for step in rows]
    bars = tuple(
        Bar(
            Link(_name(step, binder)),
            Link(words.number(count), addresses.of_grade(_number(step)) if count else ""),
            length,
            length,
        )
        for step, count, length in zip(rows, counts, thousandths(counts), strict=True)
    )
    lines = [words.say("figures.grades.counts")]
    found = quartiles(step for step in graded for _ in steps[step])
    if found is not None:
        low, median, high = (str(STEPS[int(each)]) for each in (found.low, found.median, found.high))
        lines.insert(0, words.say("figures.grades.quartiles", median=median, low=low, high=high))
    headings = (words.say("figures.grades.step"), words.say("figures.unit.coins"))
    chart = BarChart(words.say("figures.grades.caption"), headings, bars, tuple(lines))
    return FigureSection("grades", "", bars=(chart,))


def grade_pages(binder: Binder, steps: Steps) -> list[Page]:
    """Plan the list of coins of each step that any coin held is of."""
    words = binder.words
    pages = []
    for step, holdings in steps.items():
        heading = words.say("figures.grades.list", step=_name(step, binder))
        if step is None:
            heading = words.say("figures.grades.ungraded")
        count = words.count("coins", len(holdings))
        rows = tuple((each.link, binder.cell(say_grade_line(each.standing.coin, words))) for each in holdings)
        headings = (words.say("table.coin"), words.say("table.grade"))
        section = FigureSection("coins", "", tables=(Table(count, headings, rows),))
        pages.append(
            figures_page(
                binder,
                addresses.of_grade(_number(step)),
                heading,
                "",
                [section],
                ("grades", "correspondence"),
                description=f"{heading}: {count}.",
            )
        )
    return pages


def _name(step: int | None, binder: Binder) -> str:
    """Word a step: VF20, Very Fine."""
    if step is None:
        return binder.words.say("grade.none")
    return f"{STEPS[step]}, {STEPS[step].name}"


def _number(step: int | None) -> int | None:
    return STEPS[step].number if step is not None else None
