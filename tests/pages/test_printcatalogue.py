"""What the printed catalogue plans before it is set: wide grids cut into parts, and sides told once."""

from dataclasses import replace

import pytest

from daterun.pages.gridviews import GridCell, GridColumn, GridGroup, GridRow, GridSlot, GridView, LegendItem
from daterun.pages.pieces import Fact, Link
from daterun.pages.printentries import refer_back
from daterun.pages.printgrids import cut_grid
from daterun.pages.printpieces import Entry


def a_grid(years, rows):
    """A grid of two reigns, ten years and the rest; each row has slots in its own years alone."""
    slot = GridSlot("missing", False, "a gap", "", None, "", size=1000, pieces=0, rank=0)
    return GridView(
        shape="run",
        caption="The run",
        corner="Series",
        groups=(GridGroup(Link("First"), "", 10), GridGroup(Link("Second"), "", len(years) - 10)),
        columns=tuple(GridColumn(str(year), str(year)[2:], "", False) for year in years),
        rows=tuple(
            GridRow(
                Link(name),
                tuple(
                    GridCell(str(year), (slot,), "", "")
                    if year in own
                    else GridCell(str(year), (), "outside", "")
                    for year in years
                ),
                "0 of 9",
                0,
                len(own),
            )
            for name, own in rows.items()
        ),
        legend=(LegendItem("missing", "missing", ""),),
        counting="",
    )


YEARS = range(1871, 1921)


def test_a_grid_that_fits_is_left_as_it_is(words):
    grid = a_grid(YEARS, {"Ort": YEARS})
    assert cut_grid(grid, 50, words) == (grid,)


@pytest.mark.parametrize("most", [7, 24, 25, 49])
def test_the_parts_of_a_wide_grid_have_every_column_once_and_none_too_many(words, most):
    parts = cut_grid(a_grid(YEARS, {"Ort": YEARS}), most, words)
    assert [column.label for part in parts for column in part.columns] == [str(year) for year in YEARS]
    widths = [len(part.columns) for part in parts]
    assert max(widths) <= most
    assert max(widths) - min(widths) < max(widths)
    for part in parts:
        assert [cell.date for cell in part.rows[0].cells] == [each.label for each in part.columns]


def test_every_part_has_the_headings_of_its_reigns_and_the_last_alone_the_legend(words):
    parts = cut_grid(a_grid(YEARS, {"Ort": YEARS}), 24, words)
    assert [[(each.link.text, each.columns) for each in part.groups] for part in parts] == [
        [("First", 10), ("Second", 7)],
        [("Second", 17)],
        [("Second", 16)],
    ]
    assert [len(part.legend) for part in parts] == [0, 0, 1]
    assert parts[0].caption == "The run · 1871 to 1887"


def test_a_row_with_nothing_in_a_part_is_left_out_of_it(words):
    grid = a_grid(YEARS, {"Ort": YEARS, "Early": range(1871, 1880), "Late": range(1910, 1921)})
    assert [[row.link.text for row in part.rows] for part in cut_grid(grid, 25, words)] == [
        ["Ort", "Early"],
        ["Ort", "Late"],
    ]


def an_entry(number, obverse, reverse):
    facts = (Fact("Weight", "9 g"), Fact("Obverse", obverse), Fact("Reverse", reverse), Fact("Grade", "VF30"))
    return Entry(number, f"Ort {number}", f"coins/{number}/", "", (), "", facts, None, True)


def told(entry):
    return [(each.name, each.value, *(link.address for link in each.links)) for each in entry.facts[1:-1]]


def test_a_side_told_before_is_told_by_the_number_of_the_first(words):
    entries = refer_back(
        [an_entry(3, "A", "B"), an_entry(4, "A", "B"), an_entry(5, "C", "B"), an_entry(6, "C", "B")], words
    )
    assert [told(each) for each in entries] == [
        [("Obverse", "A"), ("Reverse", "B")],
        [("Obverse and reverse", "", "coins/3/")],
        [("Obverse", "C"), ("Reverse", "", "coins/3/")],
        [("Obverse", "", "coins/5/"), ("Reverse", "", "coins/3/")],
    ]
    assert [link.text for each in entries[1].facts for link in each.links] == ["as\u00a03"]
    assert all(each.facts[0].name == "Weight" and each.facts[-1].name == "Grade" for each in entries)


def test_an_entry_without_a_side_refers_to_nothing(words):
    bare = replace(an_entry(4, "", ""), facts=(Fact("Kind", "pattern"),))
    assert refer_back([an_entry(3, "A", "B"), bare], words)[1] == bare
