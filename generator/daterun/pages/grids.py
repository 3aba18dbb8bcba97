"""The grids: a run a row with a column a year, or one run as a tray with a row a decade."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from daterun.checks.completeness import Filled, State, tally
from daterun.checks.slots import figures_of, is_proofs_only
from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet
from daterun.pages.gridviews import GridCell, GridColumn, GridGroup, GridRow, GridSlot, GridView, LegendItem
from daterun.pages.pieces import Link
from daterun.pages.sides import Sides
from daterun.pages.slots import diameter_mm, grid_slot, rank_of
from daterun.pages.wording import say_date, say_struck
from daterun.pages.words import Words
from daterun.records.aims import End
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series
from daterun.trade.dates import Span

MOST_COLUMNS = 120
"""Beyond this many years, only those in which something was struck have a column."""


@dataclass(frozen=True, slots=True)
class Run:
    """A row of a grid before it is drawn: a series with the slots of its run, or of a part of it.

    The dates are the keys of the issues of that part; None means the whole run. Counts is the end of a range of
    grades that counts.
    """

    series: Series
    states: tuple[Filled, ...]
    name: str
    dates: frozenset[str] | None = None
    counts: End = End.LOW

    @property
    def by_year(self) -> dict[int | None, list[Filled]]:
        """Group the slots by the first year of their dates; None for those without a year."""
        found: dict[int | None, list[Filled]] = {}
        for each in self.states:
            found.setdefault(each.slot.date.year, []).append(each)
        return found

    @property
    def years(self) -> set[int]:
        """The first years of all its dates, those without a slot too."""
        dates = [
            each.date for each in self.series.issues if self.dates is None or each.date.key in self.dates
        ]
        return {each.year for each in dates if each.year is not None}


class Grids:
    """Makes grids of the runs of a cabinet."""

    def __init__(self, cabinet: Cabinet, sides: Sides, words: Words) -> None:
        self.cabinet = cabinet
        self.sides = sides
        self.words = words
        self._slots: dict[tuple[int, float, End], tuple[Filled, GridSlot]] = {}

    def slot(self, filled: Filled, series: Series, largest_mm: float, counts: End = End.LOW) -> GridSlot:
        """Make the sign of a slot; its size is in proportion to the largest coin beside it."""
        key = (id(filled), largest_mm, counts)  # its hash would walk the whole record each time
        if key not in self._slots:
            made = grid_slot(filled, series, self.cabinet, self.sides, self.words, largest_mm, counts)
            self._slots[key] = filled, made  # kept beside, so that no other takes its place in memory
        return self._slots[key][1]

    def forget(self) -> None:
        """Let go of the signs that were made; they are made again where they are asked for."""
        self._slots.clear()

    def whole(
        self,
        issuer: Issuer,
        runs: Sequence[Run],
        caption: str,
        span: Span | None = None,
        head: Monarch | None = None,
        counting: str = "",
    ) -> GridView | None:
        """Make the grid of several runs, a column a year, and one for issues without a year.

        The columns stand under the head where there is one, else each under the monarch of most of its issues.
        None where there is no column at all.
        """
        years: list[int | None] = [*_years(runs, span)]
        if span is None and any(None in run.by_year for run in runs):
            years.append(None)
        if not years:
            return None
        largest = _largest(runs)
        heads = [head] * len(years) if head is not None else self._heads(issuer, runs, years)
        groups = self._groups(issuer, heads)
        starts = {0}
        for group in groups[:-1]:
            starts.add(max(starts) + group.columns)
        columns = tuple(self._column(year, nth in starts) for nth, year in enumerate(years))
        rows = tuple(self._row(run, self._cells(run, years, largest)) for run in runs)
        corner = self.words.say("grid.corner")
        return GridView("run", caption, corner, groups, columns, rows, self._legend(rows), counting)

    def tray(self, run: Run, caption: str, counting: str = "") -> GridView | None:
        """Make the grid of one run as a tray: a row a decade, a column a year of it.

        Issues without a year have a row of their own at the end. None where there is no row at all.
        """
        largest = _largest((run,))
        rows = []
        years = run.series.struck.years
        for decade in range(years.first // 10 * 10, years.last + 1, 10) if years is not None else ():
            cells = self._cells(run, range(decade, decade + 10), largest)
            if any(cell.slots or cell.reason != "outside" for cell in cells):
                rows.append(self._row(run, cells, Link(self.words.say("grid.decade", year=decade))))
        if None in run.by_year:
            cells = [*self._cells(run, [None], largest), *([GridCell("", (), "outside", "")] * 9)]
            rows.append(self._row(run, cells, Link(self.words.say("date.undated"), addresses.UNDATED)))
        if not rows:
            return None
        columns = tuple(GridColumn(str(last), str(last), "", False) for last in range(10))
        return GridView(
            "tray",
            caption,
            self.words.say("grid.decades"),
            (),
            columns,
            tuple(rows),
            self._legend(rows),
            counting,
        )

    def _column(self, year: int | None, starts_group: bool) -> GridColumn:
        """Head a column; the year leads to its page, where there is one."""
        if year is None:
            return GridColumn(self.words.say("date.undated"), "–", addresses.UNDATED, starts_group)
        address = addresses.of_year(year) if self.cabinet.has_page(year) else ""
        return GridColumn(str(year), f"{year % 100:02}", address, starts_group)

    def _heads(
        self, issuer: Issuer, runs: Sequence[Run], years: Sequence[int | None]
    ) -> list[Monarch | None]:
        """Choose the monarch under whom each column stands: of most of its issues, else of the reign."""
        issues: dict[int | None, Counter[str]] = {}
        for run in runs:
            for each in run.states:
                date = each.slot.date
                found = issues.setdefault(date.year, Counter())
                found.update(coin_type.monarch for coin_type in self.cabinet.types_of(run.series, date))
        return [self._head(issuer, year, issues.get(year, Counter())) for year in years]

    def _head(self, issuer: Issuer, year: int | None, issues: Counter[str]) -> Monarch | None:
        most = max(issues.values(), default=0)
        for each in reversed(issuer.monarchs):
            if most and issues[each.id] == most:
                return each
        if year is None:
            return None
        return next((each for each in issuer.monarchs if each.reign.covers_year(year)), None)

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
            GridGroup(self._link_to(issuer, head), head.reign.years if head else "", columns)
            for head, columns in groups
        )

    def _link_to(self, issuer: Issuer, monarch: Monarch | None) -> Link:
        """Lead to a monarch's page; one whom no type names has none."""
        if monarch is None:
            return Link("")
        has_page = monarch in self.cabinet.monarchs(issuer.id)
        return Link(monarch.name, addresses.of_monarch(issuer.id, monarch.id) if has_page else "")

    def _cells(self, run: Run, years: Iterable[int | None], largest_mm: float) -> list[GridCell]:
        by_year = run.by_year
        return [self._cell(run, year, by_year.get(year, []), largest_mm) for year in years]

    def _cell(self, run: Run, year: int | None, found: Sequence[Filled], largest_mm: float) -> GridCell:
        if found:
            slots = tuple(self.slot(each, run.series, largest_mm, run.counts) for each in found)
            dates = "/".join(dict.fromkeys(say_date(each.slot.date, self.words) for each in found))
            return GridCell(dates, slots, "", "")
        reason, remark = self._reason(run, year) if year is not None else ("outside", "")
        if reason == "outside":
            return GridCell("", (), reason, "")
        return GridCell(
            str(year), (), reason, self.words.say("slot.label", name=f"{run.name} {year}", state=remark)
        )

    def _reason(self, run: Run, year: int) -> tuple[str, str]:
        """Say why a cell has no slot, and in what words.

        Outside is also a year whose issues belong to another part of the run, and the second year of a double
        date, which stands in the column of its first.
        """
        struck = run.series.struck
        issues = self.cabinet.shelves.issues.get((run.series.key, year), ())
        own = [each for each in issues if run.dates is None or each.date.key in run.dates]
        proofs = [each for each in own if is_proofs_only(each)]
        if proofs:
            return "proofs-only", say_struck(figures_of(proofs[0]), self.words)
        if (run.series.key, year) in self.cabinet.shelves.struck:
            return "outside", ""
        if struck.is_not_known(year):
            return "not-known", self.words.say("reason.not-known")
        if struck.is_not_struck(year):
            return "not-struck", self.words.say("reason.not-struck")
        return "outside", ""

    def _row(self, run: Run, cells: Sequence[GridCell], link: Link | None = None) -> GridRow:
        slots = [slot for cell in cells for slot in cell.slots]
        filled = sum(1 for slot in slots if slot.state == State.FILLED)
        counted = sum(1 for slot in slots if slot.state != State.LEFT_OUT)
        return GridRow(
            link or Link(run.name, addresses.of_denomination(run.series)),
            tuple(cells),
            say_tally(filled, counted, self.words),
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
        tones = Counter(slot.tone for slot in slots)
        tone = max(tones, key=lambda each: tones[each], default="silver")
        return tuple(LegendItem(kind, self.words.say(f"legend.{kind}"), tone) for kind in kinds)


def _is_plain(slot: GridSlot, state: State) -> bool:
    return slot.state == state and not (state is State.MISSING and slot.is_scarce)


def _years(runs: Sequence[Run], span: Span | None) -> list[int]:
    struck = {year for run in runs for year in run.years if span is None or year in span}
    if not struck:
        return []
    every = range(min(struck), max(struck) + 1)
    return list(every) if len(every) <= MOST_COLUMNS else sorted(struck)


def _largest(runs: Sequence[Run]) -> float:
    return max((diameter_mm(run.series, each) for run in runs for each in run.states), default=1.0)


def ranks_of(cabinet: Cabinet, runs: Iterable[Run]) -> tuple[int, ...]:
    """List the rank of every filled slot of some runs, for a tally that is counted again at a grade."""
    states = [each for run in runs for each in run.states]
    return tuple(
        rank_of(cabinet.by_id[each.coin]) for each in states if each.state is State.FILLED and each.coin
    )


def say_tally(filled: int, slots: int, words: Words) -> str:
    """Word how many slots are filled; nothing where there is none."""
    return words.say("grid.tally", filled=words.number(filled), slots=words.number(slots)) if slots else ""


def runs_of(cabinet: Cabinet, issuer: str) -> tuple[Run, ...]:
    """List the runs of an issuer, in order of denomination."""
    return tuple(
        Run(series, cabinet.runs[series.key], series.name)
        for denomination in cabinet.denominations
        if denomination.issuer.id == issuer
        for series in denomination.series
    )


def say_years(runs: Sequence[Run], words: Words) -> str:
    """Word the years from the first of the runs to the last; undated where they have none."""
    years = [span for run in runs if (span := run.series.struck.years) is not None]
    if not years:
        return words.say("date.undated")
    return str(Span(min(each.first for each in years), max(each.last for each in years)))


def count_runs(runs: Iterable[Run]) -> tuple[int, int]:
    """Count the slots filled and all slots that count, over several runs."""
    counts = [tally(run.states) for run in runs]
    return sum(each.filled for each in counts), sum(each.slots - each.left_out for each in counts)
