import pytest

from daterun.readers.reader import Reader

INGRITH = "monarchs/vessmark/ingrith"
TORVALD = "monarchs/vessmark/torvald-iii"


@pytest.fixture
def shared(base_files):
    """The ort with 1893 struck under both Ingrith and Torvald."""
    ort = base_files["content/series/vessmark/ort.yaml"]
    ort = ort.replace("dates: 1894–1906\n    monarch", "dates: 1893–1906\n    monarch")
    ort = ort.replace("1893: unknown", "1893: {by type: {ingrith: 700, torvald: 300}}")
    return {"content/series/vessmark/ort.yaml": ort}


def test_monarchs_of_whom_there_are_types_have_a_page_in_order_of_reign(planned):
    found = planned()
    assert [each.link.text for each in found.body("monarchs").cards] == ["Ingrith", "Torvald III"]
    assert "monarchs/vessmark/sunniva/index.html" not in found.pages


def test_a_monarch_has_the_reign_and_the_count_of_its_dates(planned, coin):
    view = planned({"content/coins/a.md": coin("1891")}).body(INGRITH)
    assert view.lead == (
        "Kingdom of Vessmark. Reigned 2 May 1869 to 20 November 1893. Dates of the reign in the cabinet: 1 of 3."
    )
    assert [(each.name, each.value) for each in view.facts] == [
        ("Reign", "2 May 1869 to 20 November 1893"),
        ("In the cabinet", "1 coin"),
    ]


def test_a_reign_without_an_end_is_worded_from_its_first_day(planned, base_files):
    ort = base_files["content/series/vessmark/ort.yaml"].replace("monarch: torvald-iii", "monarch: sunniva")
    view = planned({"content/series/vessmark/ort.yaml": ort}).body("monarchs/vessmark/sunniva")
    assert "Reigned from 3 February 1908." in view.lead


def test_the_grid_of_a_monarch_stands_under_that_monarch_alone(planned, shared):
    for address, name, columns in ((INGRITH, "Ingrith", 3), (TORVALD, "Torvald III", 14)):
        grid = planned(shared).body(address).grid
        assert [(each.link.text, each.columns) for each in grid.groups] == [(name, columns)]


def test_a_date_of_two_monarchs_is_a_slot_of_each_filled_by_the_right_coin(planned, shared, cell, coin):
    found = planned({**shared, "content/coins/a.md": coin("1893", "type: torvald")})
    (own,) = cell(found.body(INGRITH).grid, "Ort", "1893").slots
    assert (own.state, own.label) == ("missing", "Ort 1893, Ingrith: missing, 700 struck")
    (his,) = cell(found.body(TORVALD).grid, "Ort", "1893").slots
    assert (his.state, his.address) == ("filled", "coins/a/index.html")


def test_what_another_monarch_struck_in_a_year_is_not_said_to_be_unstruck(planned, shared, series, cell):
    """Torvald's first year has orts of his; the dalers of that year are all of Ingrith's."""
    types = [
        "types:",
        "  - {id: i, dates: 1891–1893, monarch: ingrith}",
        "  - {id: t, dates: 1894–1899, monarch: torvald-iii}",
    ]
    daler = series("1892: 5; 1893: 6; 1895: 7", *types, name="Daler")
    grid = planned({**shared, "content/series/vessmark/daler.yaml": daler}).body(TORVALD).grid
    assert cell(grid, "Daler", "1893").reason == "outside"
    assert cell(grid, "Daler", "1895").slots[0].state == "missing"


def test_a_date_of_proofs_alone_is_in_the_grid_of_its_monarch(planned, series, cell):
    ort = series(
        "1894: {proofs: 60}; 1895: 5", "types:", "  - {id: t, dates: 1894–1895, monarch: torvald-iii}"
    )
    grid = planned({"content/series/vessmark/ort.yaml": ort}).body(TORVALD).grid
    assert [each.label for each in grid.columns] == ["1894", "1895"]
    assert cell(grid, "Ort", "1894").reason == "proofs-only"


def test_a_monarch_with_types_but_no_issue_has_a_page_without_a_grid(planned, series):
    ort = series("1891: 5", "types:", "  - {id: s, dates: 1910–1911, monarch: sunniva}")
    found = planned({"content/series/vessmark/ort.yaml": ort})
    assert found.body("monarchs/vessmark/sunniva").grid is None
    assert found.body("monarchs").cards[0].tally == ""


def test_a_portrait_is_shown_once_by_the_largest_coin_pictured(planned, base_files, coin, photo):
    daler = base_files["content/series/vessmark/ort.yaml"].replace("name: Ort", "name: Daler")
    daler = daler.replace("26.5 mm", "35 mm").replace("1 ort", "1 daler")
    files = {
        "content/series/vessmark/daler.yaml": daler,
        "content/coins/daler.md": "---\nseries: daler\ndate: 1891\n---\n",
        "content/coins/fine.md": coin("1891", "grade: F12"),
        "content/coins/better.md": coin("1892", "grade: EF40"),
        "content/coins/best.md": coin("1893", "grade: MS65"),
        "content/coins/later.md": coin("1904"),
    }
    photos = {("fine", "obverse"): photo("f" * 32), ("better", "obverse"): photo("b" * 32)}
    (portrait,) = planned(files, photos=photos).body(INGRITH).portraits
    assert portrait.link.address == "coins/better/index.html"
    assert portrait.line == "Crowned head to the left"
    assert portrait.side.name == "obverse"
    (unpictured,) = planned(files).body(INGRITH).portraits
    assert unpictured.link.address == "coins/daler/index.html"


def test_a_coin_sold_is_not_counted_as_in_the_cabinet(planned, coin):
    files = {"content/coins/a.md": coin("1891", "parted: {on: 2024-05-01, how: sold}")}
    view = planned(files, Reader.KEEPER).body(INGRITH)
    assert view.facts[1].value == "0 coins"
    assert [each.marks for each in view.coins] == [("no longer held",)]


def test_monarchs_lead_to_the_one_before_and_after(planned):
    found = planned()
    assert [each.text for each in found.body(INGRITH).neighbours] == ["", "Torvald III"]
    assert [each.text for each in found.body(TORVALD).neighbours] == ["Ingrith", ""]
