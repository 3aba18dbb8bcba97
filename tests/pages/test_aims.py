"""The pages of aims: rules in words, every state of a slot, the curve, and what only some readers are shown."""

import pytest

from daterun.pages.aimviews import ListingView
from daterun.readers.reader import Reader

HEAD = "title: A small cabinet\ncurrency: VKR\n"
FINE = (
    "{id: fine, name: Fine or better, series: ort, dates: 1891–1897, at least: F12, problems: refused,"
    " leave out: {ort: {1893: beyond my means}}}"
)
HEADS = (
    "{id: heads, name: Heads, series: [ort, daler], one per: monarch, across series: yes, at least: VF20,"
    " problems: refused}"
)
YEARS = "{id: years, name: Every year, series: [ort, daler], one per: date, across series: yes}"
TYPES = "{id: types, name: Types, series: [ort, daler], one per: type}"
DALER = (
    "name: Daler\nissuer: vessmark\ntypes: [{id: early, dates: 1890–1892, monarch: ingrith}]\n"
    "issues: {source: Reports, struck: {1890: 500, 1891: 40}}\n"
)


def settings(*aims, more=""):
    return HEAD + "aims:\n" + "".join(f"  - {each}\n" for each in aims) + more


@pytest.fixture
def files(coin):
    return {
        "content/catalogue.yaml": settings(FINE, HEADS, YEARS, TYPES),
        "content/series/vessmark/daler.yaml": DALER,
        "content/coins/good.md": coin("1891", "grade: VF30"),
        "content/coins/spare.md": coin("1891", "grade: F15"),
        "content/coins/worn.md": coin("1892", "grade: G4"),
        "content/coins/cleaned.md": coin("1897", "grade: EF45", "problem: [cleaned]"),
        "content/coins/late.md": coin("1902", "mint: K", "grade: VG8"),
    }


def fact(view, name):
    return next(each for each in view.facts if each.name == name)


def table(view, caption):
    return next((each for each in view.tables if each.caption.startswith(caption)), None)


def texts(found):
    return [tuple(cell.text for cell in row) for row in found.rows]


def test_an_aim_tells_its_rules_in_words(planned, files):
    view = planned(files).body("aims/fine")
    assert isinstance(view, ListingView)
    assert view.lead == "1 of 4 filled, 2 below the aim, 1 missing, 1 left out."
    assert [each.text for each in fact(view, "Series").links] == ["Ort"]
    assert fact(view, "Dates").value == "1891–1897"
    assert fact(view, "One coin for each").value == "date"
    assert fact(view, "Grade").value == "F12 or better"
    assert fact(view, "Problem coins").value == "refused"


def test_the_grid_of_an_aim_shows_each_of_its_states_by_name(planned, files, cell):
    (grid,) = planned(files).body("aims/fine").grids
    states = {
        year: [each.state for each in cell(grid, "Ort", year).slots]
        for year in ("1891", "1892", "1893", "1895")
    }
    assert states == {"1891": ["filled"], "1892": ["below"], "1893": ["left-out"], "1895": ["missing"]}
    assert cell(grid, "Ort", "1894").reason == "proofs-only"
    assert {each.kind for each in grid.legend} >= {"filled", "below", "missing", "left-out", "proofs-only"}
    assert [each.label for each in grid.columns] == [str(year) for year in range(1891, 1898)]


def test_the_curve_says_what_each_grade_would_fill_and_which_the_aim_asks(planned, files):
    (curve,) = planned(files).body("aims/fine").bars
    rows = [(each.link.text, each.number.text) for each in curve.bars]
    assert rows[0] == ("at any grade", "2 of 4")
    assert ("F12, as the aim asks", "1 of 4") in rows
    assert rows[-1] == ("VF30", "1 of 4")
    assert "None would be filled at VF35 or better." in curve.notes


def test_what_is_wanted_and_spare_is_shown_only_where_the_edition_shows_wants(planned, files):
    public = planned(files).body("aims/fine")
    assert [each.caption for each in public.tables] == ["Left out of the aim"]
    club = planned(files, Reader.CLUB).body("aims/fine")
    assert texts(table(club, "Missing")) == [("Ort 1895–96", "120,000")]
    assert texts(table(club, "To be upgraded")) == [
        ("Ort 1892", "G4", "4 steps"),
        ("Ort 1897", "EF45, cleaned", "problem coin"),
    ]
    assert texts(table(club, "Spare")) == [("Ort 1891, F15", "Ort 1891", "Ort 1891, VF30")]


def test_why_a_slot_is_left_out_is_told_to_the_keeper_alone(planned, files):
    for reader in (Reader.PUBLIC, Reader.CLUB):
        left_out = table(planned(files, reader).body("aims/fine"), "Left out")
        assert texts(left_out) == [("Ort 1893", "none")]
    left_out = table(planned(files, Reader.KEEPER).body("aims/fine"), "Left out")
    assert texts(left_out) == [("Ort 1893", "none", "beyond my means")]


def test_a_set_across_series_is_shown_as_coins_with_their_states_in_words(planned, files):
    (group,) = planned(files).body("aims/heads").gathered
    assert [(each.link.text, each.marks) for each in group.coins] == [
        ("Ingrith", ()),
        ("Ort Torvald III", ("problem coin", "below the aim")),
    ]
    assert group.coins[0].line == "Ort 1891, VF30"
    assert group.coins[0].link.address == "coins/good/index.html"


def test_a_coin_of_every_year_is_a_tray_that_names_the_coins_in_it(planned, files):
    (grid,) = planned(files).body("aims/years").grids
    assert (grid.shape, [each.link.text for each in grid.rows]) == ("tray", ["1890s", "1900s"])
    ninety, ninety_one = grid.rows[0].cells[:2]
    assert ninety.slots[0].label == "Daler 1890: missing"
    assert ninety_one.slots[0].label.startswith("Ort 1891: VF30")
    assert grid.rows[0].tally == "3 of 7"


def test_types_of_each_series_stand_under_it_and_a_missing_one_is_drawn(planned, files):
    groups = planned(files).body("aims/types").gathered
    assert [(each.heading.text, each.line) for each in groups] == [("Ort", "2 of 2"), ("Daler", "0 of 1")]
    (missing,) = groups[1].coins
    assert missing.marks == ("missing",)
    assert missing.side.drawing is not None
    assert missing.link.address == "denominations/vessmark/daler/index.html"


def test_home_shows_how_far_each_aim_is_filled_and_leads_to_it(planned, files):
    bars = planned(files).body("").aims.bars
    assert [(each.link.text, each.number.text, each.filled) for each in bars] == [
        ("Fine or better", "1 of 4", 250),
        ("Heads", "1 of 2", 500),
        ("Every year", "4 of 14", 285),
        ("Types", "2 of 3", 666),
    ]
    assert bars[0].link.address == "aims/fine/index.html"


def test_without_aims_there_is_no_page_of_them_and_no_way_to_one(planned, coin):
    found = planned({"content/coins/a.md": coin("1891")})
    assert not any(each.startswith("aims/") for each in found.pages)
    home = found.pages["index.html"]
    assert "Aims" not in [each.link.text for each in home.frame.navigation]
    assert home.body.aims is None


def test_an_aim_that_asks_for_nothing_has_a_page_all_the_same(planned):
    proofs = "{id: none, name: Specimens, series: ort, dates: 1902–1902, strikes: proof}"
    view = planned({"content/catalogue.yaml": settings(proofs)}).body("aims/none")
    assert (view.lead, view.grids, view.bars) == ("0 of 0 filled.", (), ())


def test_the_mean_and_the_weakest_are_of_the_coins_that_fill_the_aim(planned, files):
    view = planned(files).body("aims/fine")
    assert fact(view, "Mean grade").value == "30.0, nearest to VF30"
    weakest = fact(view, "Weakest")
    assert (weakest.value, [each.address for each in weakest.links]) == ("VF30:", ["coins/good/index.html"])
