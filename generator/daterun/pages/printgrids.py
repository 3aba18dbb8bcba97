"""The grids of the whole coinage for print, each cut into parts that fit across a page."""

from collections.abc import Sequence
from dataclasses import replace

from daterun.pages.binder import Binder
from daterun.pages.grids import count_runs, runs_of, say_years
from daterun.pages.gridviews import GridGroup, GridView
from daterun.pages.words import Words

MOST_COLUMNS = 24
"""Years that fit across a turned page, Letter being the narrower."""


def whole_grids(binder: Binder) -> tuple[GridView, ...]:
    """Make the grids of the whole coinage, each cut into parts that fit across a page."""
    words = binder.words
    found: list[GridView] = []
    for issuer in binder.issuers:
        runs = runs_of(binder.cabinet, issuer.id)
        filled, slots = count_runs(runs)
        caption = words.say(
            "home.grid",
            issuer=issuer.name,
            years=say_years(runs, words),
            denominations=words.count("denominations", len(runs)),
            filled=words.number(filled),
            slots=words.number(slots),
        )
        grid = binder.grids.whole(issuer, runs, caption)
        if grid is not None:
            found += cut_grid(grid, MOST_COLUMNS, words)
    return tuple(found)


def cut_grid(grid: GridView, most: int, words: Words) -> tuple[GridView, ...]:
    """Cut a wide grid into parts of equal width, each with its own headings and the years in its caption.

    A row that has nothing in a part is left out of it.
    """
    count = -(-len(grid.columns) // most)
    if count <= 1:
        return (grid,)
    wide = -(-len(grid.columns) // count)
    parts = []
    for start in range(0, len(grid.columns), wide):
        end = min(start + wide, len(grid.columns))
        columns = grid.columns[start:end]
        years = words.say("print.columns", first=columns[0].label, last=columns[-1].label)
        rows = (replace(row, cells=row.cells[start:end]) for row in grid.rows)
        parts.append(
            replace(
                grid,
                caption=f"{grid.caption} · {years}",
                groups=_cut_groups(grid.groups, start, end),
                columns=columns,
                rows=tuple(row for row in rows if any(each.reason != "outside" for each in row.cells)),
                legend=grid.legend if end == len(grid.columns) else (),
            )
        )
    return tuple(parts)


def _cut_groups(groups: Sequence[GridGroup], start: int, end: int) -> tuple[GridGroup, ...]:
    found = []
    at = 0
    for group in groups:
        inside = min(at + group.columns, end) - max(at, start)
        if inside > 0:
            found.append(replace(group, columns=inside))
        at += group.columns
    return tuple(found)
