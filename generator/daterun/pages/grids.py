"""The grids: a run a row with a column a year, or one run as a tray with a row a decade."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from daterun.checks.completeness import Filled, State, tally
from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet
from daterun.pages.sides import Sides
from daterun.pages.slots import diameter_mm, grid_slot
from daterun.pages.views import (
    GridCell,
    GridColumn,
    GridGroup,
    GridRow,
    GridSlot,
    GridView,
    LegendItem,
    Link,
)
from daterun.pages.wording import say_struck
from daterun.pages.words import Words
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series
from daterun.trade.dates import Span

MOST_COLUMNS = 120
"""Beyond this many years, only those in which something was struck have a column."""


@dataclass(frozen=True, slots=True)
class Run:
    """A row of a grid before it is drawn: a series with the slots of its run, or of a part of it."""

    series: Series
    states: tuple[Filled, ...]
    name: str


class Grids:
    """Makes grids of the runs of a cabinet."""

    def __init__(self, cabinet: Cabinet, sides: Sides, words: Words) -> None:
        self.cabinet = cabinet
        self.sides = sides
        self.words = words

    def whole(
        self, issuer: Issuer, runs: Sequence[Run], caption: str, span: Span | None = None
    ) -> GridView | None:
        """Make the grid of several runs, a column a year; None where none of them has a year."""
        years = _years(runs, span)
        if not years:
            return None
        largest = _largest(runs)
        heads = [self._head(issuer, runs, year) for year in years]
        groups = self._groups(issuer, heads)
        starts = {0}
        for group in groups[:-1]:
            starts.add(max(starts) + group.columns)
        columns = tuple(
            GridColumn(str(year), f"{year % 100:02}", addresses.of_year(year), nth in starts)
            for nth, year in enumerate(years)
        )
        rows = tuple(self._row(run, [self._cell(run, year, largest) for year in years]) for run in runs)
        return GridView(
            "run", caption, self.words.say("grid.corner"), groups, columns, rows, self._legend(rows)
        )

    def tray(self, run: Run, caption: str) -> GridView | None:
        """Make the grid of one run as a tray: a row a decade, a column a year of it."""
        years = run.series.struck.years
        if years is None:
            return None
        largest = _largest((run,))
        rows = []
        for decade in range(years.first // 10 * 10, years.last + 1, 10):
            cells = [self._cell(run, year, largest) for year in range(decade, decade + 10)]
            if any(cell.slots or cell.reason != "outside" for cell in cells):
                rows.append(self._row(run, cells, Link(self.words.say("grid.decade", year=decade))))
        columns = tuple(GridColumn(str(last), str(last), "", False) for last in range(10))
        return GridView(
            "tray", caption, self.words.say("grid.decades"), (), columns, tuple(rows), self._legend(rows)
        )

    def _head(self, issuer: Issuer, runs: Sequence[Run], year: int) -> Monarch | None:
        """Choose the monarch under whom a column stands: of most of its issues, else of the reign."""
        heads: dict[str, int] = {}
        for run in runs:
            for filled in run.states:
                if filled.slot.date.year == year:
                    for coin_type in run.series.types_of(filled.slot.date):
                        heads[coin_type.monarch] = heads.get(coin_type.monarch, 0) + 1
        for each in reversed(issuer.monarchs):
            if each.id in heads and heads[each.id] == max(heads.values()):
                return each
        covering = [each for each in issuer.monarchs if each.reign.covers_year(year)]
        return covering[0] if covering else None

    def _groups(self, issuer: Issuer, heads: Sequence[Monarch | None]) -> tuple[GridGroup, ...]:
        if not any(heads):
            return ()
        groups: list[tuple[Monarch | None, int]] = []
        for head in heads:
            if groups and groups[-1][0] is head:
                groups[-1] = (head, groups[-1][1] + 1)
            else:
                groups.append((head, 1))
        return tuple(
            GridGroup(
                Link(head.name, addresses.of_monarch(issuer.id, head.id)) if head else Link(""),
                head.reign.years if head else "",
                columns,
            )
            for head, columns in groups
        )

    def _cell(self, run: Run, year: int, largest_mm: float) -> GridCell:
        found = [each for each in run.states if each.slot.date.year == year]
        if found:
            slots = tuple(
                grid_slot(each, run.series, self.cabinet, self.sides, self.words, largest_mm)
                for each in found
            )
            dates = "/".join(dict.fromkeys(each.slot.date.key.replace("-", "–") for each in found))
            return GridCell(dates, slots, "", "")
        reason, remark = self._reason(run, year)
        label = ""
        if reason != "outside":
            label = self.words.say("slot.label", name=f"{run.series.name} {year}", state=remark)
        return GridCell(str(year) if reason != "outside" else "", (), reason, label)

    def _reason(self, run: Run, year: int) -> tuple[str, str]:
        """Say why a cell has no slot, and in what words."""
        struck = run.series.struck
        proofs = [each for each in run.series.issues if each.date.year == year and each.figures.proofs_only]
        if proofs:
            return "proofs-only", say_struck(proofs[0].figures, self.words)
        if struck.is_not_known(year):
            return "not-known", self.words.say("reason.not-known")
        years = struck.years
        if years is None or year not in years:
            return "outside", ""
        return "not-struck", self.words.say("reason.not-struck")

    def _row(self, run: Run, cells: Sequence[GridCell], link: Link | None = None) -> GridRow:
        slots = [slot for cell in cells for slot in cell.slots]
        filled = sum(1 for slot in slots if slot.state == State.FILLED)
        counted = sum(1 for slot in slots if slot.state != State.LEFT_OUT)
        return GridRow(
            link or Link(run.name, addresses.of_denomination(run.series)),
            tuple(cells),
            self.words.say("grid.tally", filled=filled, slots=counted) if counted else "",
            filled,
            counted,
        )

    def _legend(self, rows: Iterable[GridRow]) -> tuple[LegendItem, ...]:
        """List the signs that stand in a grid, in a fixed order."""
        cells = [cell for row in rows for cell in row.cells]
        slots = [slot for cell in cells for slot in cell.slots]
        kinds = [
            *(state.value for state in State if any(_is_plain(slot, state) for slot in slots)),
            *(["scarce"] if any(s.is_scarce and s.state == State.MISSING for s in slots) else []),
            *(
                reason
                for reason in ("proofs-only", "not-known", "not-struck")
                if any(cell.reason == reason for cell in cells)
            ),
        ]
        return tuple(LegendItem(kind, self.words.say(f"legend.{kind}")) for kind in kinds)


def _is_plain(slot: GridSlot, state: State) -> bool:
    return slot.state == state and not (state is State.MISSING and slot.is_scarce)


def _years(runs: Sequence[Run], span: Span | None) -> list[int]:
    struck = {each.slot.date.year for run in runs for each in run.states if each.slot.date.year is not None}
    if not struck:
        return []
    every = [year for year in range(min(struck), max(struck) + 1) if span is None or year in span]
    return every if len(every) <= MOST_COLUMNS else [year for year in every if year in struck]


def _largest(runs: Sequence[Run]) -> float:
    return max((diameter_mm(run.series, each) for run in runs for each in run.states), default=1.0)


def runs_of(cabinet: Cabinet, issuer: str) -> tuple[Run, ...]:
    """List the runs of an issuer, in order of denomination."""
    return tuple(
        Run(series, cabinet.runs[series.key], series.name)
        for denomination in cabinet.denominations
        if denomination.issuer.id == issuer
        for series in denomination.series
    )


def count_runs(runs: Iterable[Run]) -> tuple[int, int]:
    """Count the slots filled and all slots that count, over several runs."""
    counts = [tally(run.states) for run in runs]
    return sum(each.filled for each in counts), sum(each.slots - each.left_out for each in counts)
