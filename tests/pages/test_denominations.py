import pytest

from daterun.readers.reader import Reader

ORT = "denominations/vessmark/ort"


def texts(table):
    return [[each.text for each in row] for row in table.rows]


def dates(view):
    (table,) = view.dates
    return {row[0]: row[1:] for row in texts(table)}


def test_a_denomination_is_told_in_one_line(planned, coin):
    files = {"content/coins/a.md": coin("1891")}
    assert planned(files).body(ORT).lead == (
        "1 ort, Kingdom of Vessmark, 1891–1906. Dates in the cabinet: 1 of 13."
    )


def test_a_series_without_any_year_is_told_as_undated(planned, series):
    files = {"content/series/vessmark/ort.yaml": series("undated: 900")}
    assert planned(files).body(ORT).lead == "Ort, Kingdom of Vessmark, undated. Dates in the cabinet: 0 of 1."


def test_a_series_without_types_standards_or_varieties_has_a_page(planned, series, coin):
    files = {"content/series/vessmark/ort.yaml": series("1891: 5"), "content/coins/a.md": coin("1891")}
    view = planned(files).body(ORT)
    assert (view.standards, view.types, view.varieties) == (None, (), None)
    assert dates(view) == {"1891": ["5 struck", "", "not graded"]}


def test_series_of_one_denomination_share_a_page_the_earliest_first(planned, series):
    files = {
        "content/series/vessmark/later.yaml": series("1911: 5", "denomination: Ort", name="Ort in bronze"),
    }
    view = planned(files).body(ORT)
    assert [each.caption for each in view.grids] == [
        "Ort. Dates in the cabinet: 0 of 13",
        "Ort in bronze. Dates in the cabinet: 0 of 1",
    ]
    assert "1891–1911" in view.lead


def test_the_list_of_denominations_tells_their_metals(planned, series):
    files = {"content/series/vessmark/token.yaml": series("1891: {proofs: 5}", name="Token")}
    cards = planned(files).body("denominations").cards
    assert [(each.link.text, each.line, each.tally) for each in cards] == [
        ("Ort", ".750 silver, .500 silver", "0 of 13"),
        ("Token", "", ""),
    ]


def test_a_date_tells_what_was_struck_and_what_is_held(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF30"),
        "content/coins/b.md": coin("1891", "grade: EF40", "problem: cleaned"),
        "content/coins/c.md": coin("1894", "strike: proof", "grade: PF63"),
        "content/coins/d.md": coin("1893", "kind: forgery"),
    }
    found = dates(planned(files).body(ORT))
    assert found["1891"] == ["341,000 struck", "", "EF40, cleaned, and 1 more"]
    assert found["1892"] == ["2,310 struck", "Scarce date", "none"]
    assert found["1893"] == ["number struck not known", "", "none"]
    assert found["1894"] == ["60 struck, proofs only", "", "proof, PF63"]
    assert found["1895–96"] == ["120,000 struck", "", "none"]
    assert found["1897"] == [
        "98,000 struck, 21,000 melted",
        "Melted at the mint. Source: Report of 1898",
        "none",
    ]
    assert found["1899"] == [
        "298,000 struck, 40 of them proofs",
        "Old spelling: 210,000 struck; new spelling: 88,000 struck",
        "none",
    ]
    assert found["1902"] == [
        "52,000 struck",
        "Vessborg: 12,000 struck; Kaldhamn (K): 40,000 struck",
        "none",
    ]
    assert found["1903"] == ["764 or 1,128 struck", "Two reports disagree", "none"]


def test_what_is_held_leads_to_the_coin_that_fills_the_slot(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF30"),
        "content/coins/b.md": coin("1891", "grade: EF40"),
    }
    (table,) = planned(files).body(ORT).dates
    assert table.rows[0][3].address == "coins/b/index.html"
    assert table.rows[0][0].address == "dates/1891/index.html"


def test_a_coin_sold_is_not_held(planned, coin):
    files = {"content/coins/a.md": coin("1891", "grade: VF30", "parted: {on: 2024-05-01, how: sold}")}
    view = planned(files, Reader.KEEPER).body(ORT)
    assert dates(view)["1891"][2] == "none"
    assert [each.facts[-1].value for each in view.types] == ["0 coins", "0 coins"]


def test_years_not_struck_and_not_known_stand_under_the_dates(planned, series):
    ort = series("1891: 5; 1899: 6") + "  not struck: [1892–1894, 1896]\n  not known: [1895, 1897, 1898]\n"
    (table,) = planned({"content/series/vessmark/ort.yaml": ort}).body(ORT).dates
    assert table.notes == (
        "Source: Mint reports",
        "Not struck: 1892–1894 and 1896",
        "Not known whether any was struck: 1895, 1897 and 1898",
    )


@pytest.mark.parametrize(
    ("source", "note"),
    [
        ("source: Mint reports\n  checked: no", "Source: Mint reports (from memory, not checked)"),
        ("checked: no", "Source: from memory, not checked"),
    ],
)
def test_figures_from_memory_are_said_to_be_so_with_a_source_and_without(planned, series, source, note):
    ort = series("1891: 5").replace("source: Mint reports", source)
    view = planned({"content/series/vessmark/ort.yaml": ort}).body(ORT)
    assert view.dates[0].notes == (note,)
    assert "Some figures here are from memory and have not been checked." in view.cautions


def test_one_figure_from_memory_is_enough_to_say_so(planned, series):
    ort = series("1891: {mintage: 5, checked: no}; 1892: {by mint: {none: 4, K: {mintage: 3, checked: no}}}")
    view = planned({"content/series/vessmark/ort.yaml": ort}).body(ORT)
    assert [row[1] for row in dates(view).values()] == [
        "From memory, not checked",
        "Vessborg: 4 struck; Kaldhamn (K): 3 struck. From memory, not checked",
    ]
    assert "Some figures here are from memory and have not been checked." in view.cautions
    assert planned().body(ORT).cautions == ("A grade is an opinion, the keeper’s or a grading firm’s.",)


def test_every_source_is_listed_once_those_of_parts_too(planned, series):
    ort = series(
        "1891: {mintage: 5, source: Report of 1891}; 1892: {by mint: {none: 4, K: {mintage: 3, source: Ledger}}}"
    )
    view = planned({"content/series/vessmark/ort.yaml": ort}).body(ORT)
    assert view.sources == ("Mint reports", "Report of 1891", "Ledger")


def test_the_standards_stand_in_order_with_what_each_lays_down(planned):
    table = planned().body(ORT).standards
    assert [each.text for each in table.rows[0]] == [
        "1891–1903", ".750 silver", "9.000 g", "± 0.040 g", "26.5 mm", "milled", "12h", "Coinage Law of 1870",
    ]  # fmt: skip
    assert [row[0] for row in texts(table)] == ["1891–1903", "1904–1906"]


def test_an_alloy_is_worded_by_the_names_of_its_metals(planned, series):
    ort = series(
        "1891: 5",
        "standards: [{dates: 1891, metal: Bronze, alloy: {Copper: 95, TIN: 4, zinc: 1}, checked: no}]",
    )
    row = texts(planned({"content/series/vessmark/ort.yaml": ort}).body(ORT).standards)[0]
    assert row[1] == "bronze (95 % copper, 4 % tin, 1 % zinc)"
    assert row[7] == "from memory, not checked"


def test_a_type_is_shown_by_its_best_coin_and_drawn_without_one(planned, coin, photo):
    files = {
        "content/coins/a.md": coin("1891", "grade: F12"),
        "content/coins/b.md": coin("1892", "grade: EF40"),
        "content/coins/c.md": coin("1893", "grade: MS65", "kind: forgery"),
    }
    photos = {(each, "obverse"): photo(each * 32) for each in "abc"}
    ingrith, torvald = planned(files, photos=photos).body(ORT).types
    assert (ingrith.heading, ingrith.years) == ("Ingrith", "1891–1893")
    assert ingrith.sides[0].picture.text == "Ort 1892, obverse"
    assert [(each.name, each.value, each.remark) for each in ingrith.facts] == [
        ("Obverse", "Crowned head to the left", "INGRITH QUEEN OF VESSMARK"),
        ("Reverse", "A spruce above three waves", "KINGDOM OF VESSMARK"),
        ("In the cabinet", "2 coins", ""),
    ]
    assert torvald.sides[0].drawing.text == "Ort, 1894–1906, obverse, drawn"


def test_two_types_of_one_monarch_are_told_apart_by_their_years(planned, series):
    ort = series(
        "1891: 5; 1892: 6",
        "types:",
        "  - {id: young, dates: 1891, monarch: ingrith}",
        "  - {id: veiled, dates: 1892, monarch: ingrith, name: Veiled head}",
    )
    types = planned({"content/series/vessmark/ort.yaml": ort}).body(ORT).types
    assert [each.heading for each in types] == ["Ingrith, 1891", "Veiled head"]


def test_a_type_of_an_unknown_monarch_goes_by_its_id(planned, series):
    ort = series("1891: 5", "types: [{id: first-head, dates: 1891, monarch: nobody}]")
    assert planned({"content/series/vessmark/ort.yaml": ort}).body(ORT).types[0].heading == "first head"


def test_varieties_tell_their_years_and_the_coins_held(planned, coin):
    files = {
        "content/coins/a.md": coin("1899", "variety: [old-spelling, nine-over-eight]"),
        "content/coins/b.md": coin("1891"),
        "content/coins/c.md": coin("1891", "parted: {on: 2024-05-01, how: sold}"),
    }
    table = planned(files, Reader.KEEPER).body(ORT).varieties
    assert texts(table) == [
        ["old spelling", "1891–1899", "reverse", "value spelt OORT", "2 coins"],
        ["new spelling", "1899–1906", "reverse", "value spelt ORT", "none"],
        ["nine over eight", "1899", "reverse", "last figure cut over an 8", "1 coin"],
    ]


def test_coins_out_of_the_ordinary_have_a_place_of_their_own(planned, coin):
    files = {"content/coins/a.md": coin("1870", "kind: pattern"), "content/coins/b.md": coin("1891")}
    assert [each.link.text for each in planned(files).body(ORT).others] == ["Ort 1870, pattern"]


def test_denominations_lead_to_the_next_smaller(planned, series):
    files = {"content/series/vessmark/daler.yaml": series("1891: 5", "face: 1 daler", name="Daler")}
    found = planned(files)
    assert [each.text for each in found.body("denominations/vessmark/daler").neighbours] == ["", "Ort"]
    assert [each.text for each in found.body(ORT).neighbours] == ["Daler", ""]


def test_an_issuer_without_a_file_goes_by_its_id(planned, coin):
    found = planned({"content/issuers/vessmark.yaml": None, "content/coins/a.md": coin("1902", "mint: K")})
    assert found.body(ORT).lead == "1 ort, vessmark, 1891–1906. Dates in the cabinet: 1 of 13."
    assert found.body("coins/a").heading == "Ort 1902, K"
    assert found.body("monarchs").cards == ()
