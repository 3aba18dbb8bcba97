import pytest

from daterun.pages.grids import MOST_COLUMNS, runs_of, say_tally, say_years
from daterun.readers.reader import Reader

HEADS = "vessmark"


@pytest.fixture
def home_grid(planned):
    def make(files, reader=Reader.PUBLIC):
        (grid,) = planned(files, reader).body("index.html").grids
        return grid

    return make


@pytest.fixture
def tray(planned):
    def make(files, reader=Reader.PUBLIC):
        (grid,) = planned(files, reader).body("denominations/vessmark/ort").grids
        return grid

    return make


def states(cell):
    return [each.state for each in cell.slots]


def test_a_column_is_a_year_and_leads_to_its_page(home_grid):
    grid = home_grid({})
    assert [each.label for each in grid.columns] == [str(year) for year in range(1891, 1907)]
    assert grid.columns[0].short == "91"
    assert grid.columns[0].address == "dates/1891/index.html"


def test_a_year_without_a_page_has_a_heading_that_leads_nowhere(home_grid, coin):
    grid = home_grid({})
    assert [each.label for each in grid.columns if not each.address] == ["1898"]
    held = home_grid({"content/coins/a.md": coin("1898", "kind: pattern")})
    assert [each.label for each in held.columns if not each.address] == []


def test_columns_stand_under_the_monarch_of_their_issues(home_grid):
    groups = home_grid({}).groups
    assert [(each.link.text, each.years, each.columns) for each in groups] == [
        ("Ingrith", "1869–1893", 3),
        ("Torvald III", "1893–1908", 13),
    ]
    assert groups[0].link.address == "monarchs/vessmark/ingrith/index.html"
    assert [nth for nth, each in enumerate(home_grid({}).columns) if each.starts_group] == [0, 3]


def test_a_monarch_of_whom_there_are_no_types_is_named_without_a_link(home_grid, base_files):
    issuer = base_files["content/issuers/vessmark.yaml"].replace(
        "from: 1893-11-20, to", "from: 1899-01-01, to"
    )
    between = "  oda: {name: Oda, reign: {from: 1893-11-20, to: 1898-12-31}}\n  torvald-iii:"
    struck = "  struck: {1891: 5, 1892: 5, 1897: unknown}\n  not struck: [1893–1896]\n"
    ort = base_files["content/series/vessmark/ort.yaml"].partition("  struck:")[0] + struck
    grid = home_grid(
        {
            "content/issuers/vessmark.yaml": issuer.replace("  torvald-iii:", between),
            "content/series/vessmark/ort.yaml": ort,
        }
    )
    assert [(each.link.text, bool(each.link.address)) for each in grid.groups] == [
        ("Ingrith", True),
        ("Oda", False),
        ("Torvald III", True),
    ]


def test_a_cell_without_a_slot_says_why(home_grid, cell):
    grid = home_grid({})
    proofs = cell(grid, "Ort", "1894")
    assert (proofs.reason, proofs.label) == ("proofs-only", "Ort 1894: 60 struck, proofs only")
    none = cell(grid, "Ort", "1898")
    assert (none.reason, none.label) == ("not-struck", "Ort 1898: none struck")


def test_a_date_whose_every_part_is_of_proofs_is_proofs_only(home_grid, series, cell):
    ort = series("1891: 5; 1892: {by mint: {none: {proofs: 40}, K: {proofs: 20}}}; 1893: 5")
    found = cell(home_grid({"content/series/vessmark/ort.yaml": ort}), "Ort", "1892")
    assert (found.reason, found.label) == ("proofs-only", "Ort 1892: 60 struck, proofs only")


def test_a_year_of_which_nothing_is_known_says_so(home_grid, series, cell):
    ort = series("1891: 5; 1893: 5") + "  not known: [1892]\n"
    found = cell(home_grid({"content/series/vessmark/ort.yaml": ort}), "Ort", "1892")
    assert (found.reason, found.label) == ("not-known", "Ort 1892: not known whether any was struck")


def test_a_double_date_stands_in_the_column_of_its_first_year(home_grid, cell, coin):
    grid = home_grid({"content/coins/a.md": coin("1895-96")})
    assert states(cell(grid, "Ort", "1895")) == ["filled"]
    assert cell(grid, "Ort", "1895").date == "1895–96"
    second = cell(grid, "Ort", "1896")
    assert (second.slots, second.reason, second.label) == ((), "outside", "")


def test_a_year_with_a_date_and_a_double_date_has_both(home_grid, series, cell, coin):
    ort = series("1895: 5; 1895-96: 5; 1897: 5")
    files = {"content/series/vessmark/ort.yaml": ort, "content/coins/a.md": coin("1895-96")}
    found = cell(home_grid(files), "Ort", "1895")
    assert states(found) == ["missing", "filled"]
    assert found.date == "1895/1895–96"


def test_an_issue_without_a_date_has_a_column_of_its_own(home_grid, series, cell, coin):
    ort = series("1891: 5; undated: 900")
    files = {"content/series/vessmark/ort.yaml": ort, "content/coins/a.md": coin("undated")}
    grid = home_grid(files)
    assert [(each.label, each.address) for each in grid.columns] == [
        ("1891", "dates/1891/index.html"),
        ("undated", "dates/undated/index.html"),
    ]
    assert states(cell(grid, "Ort", "undated")) == ["filled"]
    assert grid.rows[0].tally == "1 of 2"


def test_a_coinage_without_any_year_has_a_grid_of_one_column(home_grid, series):
    grid = home_grid({"content/series/vessmark/ort.yaml": series("undated: 900")})
    assert [each.label for each in grid.columns] == ["undated"]
    assert grid.caption == "Kingdom of Vessmark, undated: 1 denomination. Dates in the cabinet: 0 of 1"


def test_dates_of_another_calendar_stand_in_their_sorting_years(home_grid, series, cell):
    ort = series("AH 1320: 5; AH 1322: 7", "labels: {AH 1320: 1902, AH 1322: 1904}")
    grid = home_grid({"content/series/vessmark/ort.yaml": ort})
    assert [each.label for each in grid.columns] == ["1902", "1903", "1904"]
    assert cell(grid, "Ort", "1904").date == "AH 1322"


def test_a_run_of_centuries_has_columns_only_for_the_years_struck(home_grid, series):
    years = range(1600, 1900, 50)
    ort = series("; ".join(f"{year}: 5" for year in years))
    grid = home_grid({"content/series/vessmark/ort.yaml": ort})
    assert [each.label for each in grid.columns] == [str(year) for year in years]
    shorter = series(f"1600: 5; {1599 + MOST_COLUMNS}: 5")
    assert len(home_grid({"content/series/vessmark/ort.yaml": shorter}).columns) == MOST_COLUMNS


def test_a_first_year_of_proofs_alone_has_a_column(home_grid, series, cell):
    ort = series("1890: {proofs: 20}; 1891: 5")
    grid = home_grid({"content/series/vessmark/ort.yaml": ort})
    assert cell(grid, "Ort", "1890").reason == "proofs-only"


def test_every_row_has_a_cell_for_every_column_and_every_column_a_group(planned, coin):
    for page in planned({"content/coins/a.md": coin("1895-96")}).plan.pages:
        for grid in getattr(page.body, "grids", ()):
            assert all(len(each.cells) == len(grid.columns) for each in grid.rows)
            assert sum(each.columns for each in grid.groups) in (0, len(grid.columns))


def test_a_row_counts_its_slots(home_grid, coin):
    row = home_grid(
        {"content/coins/a.md": coin("1891"), "content/coins/b.md": coin("1899", "variety: old-spelling")}
    )
    assert (row.rows[0].filled, row.rows[0].slots, row.rows[0].tally) == (2, 13, "2 of 13")


def test_the_legend_explains_the_signs_that_stand_in_the_grid_and_no_others(home_grid, series, coin):
    assert [each.kind for each in home_grid({}).legend] == ["missing", "scarce", "proofs-only", "not-struck"]
    full = {"content/series/vessmark/ort.yaml": series("1891: 5"), "content/coins/a.md": coin("1891")}
    assert [(each.kind, each.text) for each in home_grid(full).legend] == [("filled", "in the cabinet")]


def test_a_slot_is_as_large_as_its_coin_beside_the_largest(home_grid, base_files, cell):
    daler = base_files["content/series/vessmark/ort.yaml"].replace("name: Ort", "name: Daler")
    daler = daler.replace("26.5 mm", "53 mm").replace("1 ort", "1 daler")
    grid = home_grid({"content/series/vessmark/daler.yaml": daler})
    assert cell(grid, "Daler", "1891").slots[0].size == 1000
    assert cell(grid, "Ort", "1891").slots[0].size == 500


def test_a_coin_without_a_standard_is_shown_at_a_middling_size(home_grid, series, cell):
    grid = home_grid({"content/series/vessmark/daler.yaml": series("1891: 5", name="Daler")})
    assert cell(grid, "Daler", "1891").slots[0].size == round(24 / 26.5 * 1000)


def test_a_tray_has_a_row_a_decade_and_a_column_a_year_of_it(tray, coin):
    grid = tray({"content/coins/a.md": coin("1903")})
    assert [each.link.text for each in grid.rows] == ["1890s", "1900s"]
    assert [each.label for each in grid.columns] == [str(last) for last in range(10)]
    assert states(grid.rows[1].cells[3]) == ["filled"]
    assert grid.rows[0].cells[0].reason == "outside"
    assert grid.caption == "Ort. Dates in the cabinet: 1 of 13"


def test_a_tray_leaves_out_a_decade_in_which_there_is_nothing(tray, series):
    ort = series("1891: 5; 1911: 7")
    assert [each.link.text for each in tray({"content/series/vessmark/ort.yaml": ort}).rows] == [
        "1890s",
        "1910s",
    ]


def test_a_tray_ends_with_a_row_for_what_bears_no_date(tray, series):
    grid = tray({"content/series/vessmark/ort.yaml": series("1891: 5; undated: 900")})
    last = grid.rows[-1]
    assert (last.link.text, last.link.address) == ("undated", "dates/undated/index.html")
    assert [states(each) for each in last.cells] == [["missing"], *([[]] * 9)]


def test_a_filled_slot_leads_to_its_coin_and_a_gap_to_its_date(home_grid, cell, coin):
    grid = home_grid({"content/coins/a.md": coin("1891", "grade: VF30")})
    filled = cell(grid, "Ort", "1891").slots[0]
    assert (filled.address, filled.label, filled.rank) == ("coins/a/index.html", "Ort 1891: VF30", 3000)
    gap = cell(grid, "Ort", "1892").slots[0]
    assert gap.address == "dates/1892/index.html"
    assert gap.label == "Ort 1892: missing, 2,310 struck, scarce date"
    assert gap.is_scarce


def test_a_date_divided_by_mint_counts_as_many_as_all_its_mints_together(home_grid, cell):
    assert cell(home_grid({}), "Ort", "1902").slots[0].label == "Ort 1902: missing, 52,000 struck"


def test_spare_pieces_are_counted_on_the_slot(home_grid, cell, coin):
    files = {
        f"content/coins/{name}.md": coin("1891", f"grade: {grade}")
        for name, grade in (("a", "VF30"), ("b", "EF40"))
    }
    slot = cell(home_grid(files), "Ort", "1891").slots[0]
    assert (slot.pieces, slot.address) == (2, "coins/b/index.html")
    assert slot.label == "Ort 1891: EF40, 2 pieces"


def test_a_split_grade_ranks_by_its_lower_side_and_none_ranks_nought(home_grid, cell, coin):
    files = {"content/coins/a.md": coin("1891", "grade: VF20/EF40"), "content/coins/b.md": coin("1892")}
    grid = home_grid(files)
    assert cell(grid, "Ort", "1891").slots[0].rank == 2000
    assert cell(grid, "Ort", "1892").slots[0].rank == 0
    assert cell(grid, "Ort", "1892").slots[0].label == "Ort 1892: not graded"


@pytest.mark.parametrize(
    "departure", ["kind: forgery", "strike: proof", "parted: {on: 2024-05-01, how: sold}"]
)
def test_a_forgery_a_proof_and_a_coin_sold_fill_no_slot(home_grid, cell, coin, departure):
    grid = home_grid({"content/coins/a.md": coin("1891", departure)}, Reader.KEEPER)
    assert states(cell(grid, "Ort", "1891")) == ["missing"]


def test_years_are_worded_from_the_first_to_the_last(planned, series, words):
    cabinet = planned({"content/series/vessmark/daler.yaml": series("1911: 5", name="Daler")}).binder.cabinet
    runs = runs_of(cabinet, HEADS)
    assert say_years(runs, words) == "1891–1911"
    assert say_years([each for each in runs if each.name == "Daler"], words) == "1911"
    assert say_years([], words) == "undated"


def test_nothing_is_tallied_where_there_is_no_slot(words):
    assert say_tally(0, 0, words) == ""
    assert say_tally(0, 1200, words) == "0 of 1,200"
