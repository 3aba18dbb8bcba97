"""Pages of figures of small catalogues: what they count, what they leave out, and who sees them."""

from daterun.pages.figureviews import Mark
from daterun.pages.pieces import Table
from daterun.readers.reader import Reader

PRICES = """\
title: A cabinet
currency: VKR
as of: 2026-11-01
metals:
  silver: {price: 0.50 VKR, per: g, on: 2026-10-02, source: evening paper}
"""
METAL, WEIGHTS, COSTS = "figures/metal", "figures/weights", "figures/costs"
CERTIFICATES, STRUCK, ORT = "figures/certificates", "figures/struck", "figures/series/vessmark/ort"


def tables(view) -> dict[str, Table]:
    found = [table for section in view.sections for table in (*section.tables, section.behind)]
    return {each.caption: each for each in found if each is not None}


def texts(table):
    return [[each.text for each in row] for row in table.rows]


def bars(view) -> dict[str, list[tuple[str, str]]]:
    return {
        chart.caption: [(each.link.text, each.number.text) for each in chart.bars]
        for section in view.sections
        for chart in section.bars
    }


def facts(view):
    return {
        each.name: (each.value, each.remark)
        for section in view.sections
        for each in (*section.facts, *section.names)
    }


def names(view):
    return {
        each.name: [link.text for link in each.links] for section in view.sections for each in section.names
    }


def marks(view) -> list[Mark]:
    return [mark for section in view.sections if section.plot is not None for mark in section.plot.marks]


def test_without_a_series_there_are_no_figures(planned):
    found = planned({"content/series/vessmark/ort.yaml": None}, reader=Reader.KEEPER)
    assert not any(each.startswith(("figures/", "grades/")) for each in found.pages)
    assert all(each.link.text != "Figures" for each in found.pages["index.html"].frame.navigation)


def test_without_a_coin_the_figures_tell_what_is_missing(planned):
    found = planned()
    assert bars(found.body("figures")) == {"Completeness by run": [("Ort", "0 of 13, 0 %")]}
    assert {each.kind for each in marks(found.body(STRUCK))} == {"ring"}
    assert f"{METAL}/index.html" not in found.pages and f"{WEIGHTS}/index.html" not in found.pages


def test_a_run_is_as_complete_as_its_dates_are_held(planned, coin):
    files = {
        "content/coins/a.md": coin("1891"),
        "content/coins/b.md": coin("1891"),
        "content/coins/c.md": coin("1892", "kind: forgery", "departs: cast"),
        "content/coins/d.md": coin("1897", "parted: {on: 2020}"),
    }
    for reader in Reader:
        view = planned(files, reader).body("figures")
        assert bars(view)["Completeness by run"] == [("Ort", "1 of 13, 8 %")]


def test_grades_are_counted_by_step_from_the_lowest_to_the_highest(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF20"),
        "content/coins/b.md": coin("1892", "grade: VF30–EF40"),
        "content/coins/c.md": coin("1893"),
        "content/coins/d.md": coin("1897", "grade: VF20"),
    }
    found = planned(files)
    assert bars(found.body("figures"))["Grades"] == [
        ("VF20, Very Fine", "2"),
        ("VF25, Very Fine plus", "0"),
        ("VF30, Choice Very Fine", "1"),
        ("not graded", "1"),
    ]
    (table,) = tables(found.body("figures/grades/20")).values()
    assert texts(table) == [["Ort 1891", "VF20"], ["Ort 1897", "VF20"]]
    (table,) = tables(found.body("figures/grades/ungraded")).values()
    assert texts(table) == [["Ort 1893", "not graded"]]
    assert "figures/grades/25/index.html" not in found.pages


def test_a_mark_leads_to_the_coin_held_or_to_the_date_that_is_missing(planned, coin):
    found = marks(planned({"content/coins/a.md": coin("1891")}).body(STRUCK))
    by_text = {each.text: (each.kind, each.address) for each in found}
    assert by_text["Ort 1891: 341,000 struck"] == ("dot", "coins/a/index.html")
    assert by_text["Ort 1892: 2,310 struck"] == ("ring", "dates/1892/index.html")


def test_a_date_of_unknown_number_has_no_mark_and_is_counted_apart(planned, series):
    files = {"content/series/vessmark/ort.yaml": series("1891: 900; 1892: unknown; 1893: [4000, 700]")}
    view = planned(files).body(STRUCK)
    assert [each.text for each in marks(view)] == ["Ort 1891: 900 struck", "Ort 1893: 4,000 or 700 struck"]
    (table,) = tables(view).values()
    assert table.headings == ("Series", "Under 1,000", "Number not known")
    assert texts(table) == [["Ort", "0 of 2", "0 of 1"]]


def test_content_goes_by_the_weight_measured_else_by_the_standard_and_says_which(planned, coin):
    files = {"content/coins/a.md": coin("1891", "weight: 8.80 g"), "content/coins/b.md": coin("1904")}
    found = planned(files)
    assert texts(tables(found.body(METAL))["By metal and fineness"]) == [
        ["silver", ".750", "1", "6.60 g", "0.212 oz t", "6.60 g"],
        ["silver", ".500", "1", "4.50 g", "0.145 oz t", "0.00 g"],
    ]
    assert texts(tables(found.body(ORT))["Metal"]) == [
        ["Ort 1891", ".750", "6.60 g", "0.212 oz t", "weighed"],
        ["Ort 1904", ".500", "4.50 g", "0.145 oz t", "standard"],
    ]


def test_what_the_metal_comes_to_is_for_the_keeper(planned, coin):
    files = {"content/catalogue.yaml": PRICES, "content/coins/a.md": coin("1891")}
    keeper = planned(files, Reader.KEEPER).body(METAL)
    assert texts(tables(keeper)["By metal and fineness"])[0][-1] == "3.38 VKR"
    assert facts(keeper)["Price of silver"] == ("0.50 VKR a g", "2 October 2026; evening paper")
    for reader in (Reader.PUBLIC, Reader.CLUB):
        view = planned(files, reader).body(METAL)
        assert len(tables(view)["By metal and fineness"].headings) == 6
        assert facts(view) == {}


def test_an_old_price_is_said_to_be_old(planned, coin):
    files = {
        "content/catalogue.yaml": PRICES.replace("2026-10-02", "2025-10-31"),
        "content/coins/a.md": coin("1891"),
    }
    said = facts(planned(files, Reader.KEEPER).body(METAL))["Price of silver"]
    assert said == ("0.50 VKR a g", "31 October 2025; evening paper; an old price, of more than a year ago")


def test_several_pieces_count_for_the_keeper_and_as_one_for_others(planned, coin):
    files = {"content/catalogue.yaml": PRICES, "content/coins/a.md": coin("1891", "quantity: 3")}
    grams = {
        reader: texts(tables(planned(files, reader).body(METAL))["By metal and fineness"])[0][3]
        for reader in Reader
    }
    assert grams == {Reader.PUBLIC: "6.75 g", Reader.CLUB: "6.75 g", Reader.KEEPER: "20.25 g"}
    notes = tables(planned(files, Reader.KEEPER).body(METAL))["By metal and fineness"].notes
    assert "A record that stands for several pieces counts with all of them." in notes


def test_a_coin_that_a_sum_leaves_out_is_named_with_the_reason(planned, coin):
    files = {
        "content/coins/a.md": coin("1891"),
        "content/coins/b.md": coin("1892", "kind: forgery", "departs: cast"),
        "content/coins/c.md": coin("18?2"),
    }
    assert names(planned(files).body(METAL)) == {
        "Not of the regular issue": ["Ort 1892, forgery"],
        "Standard not settled by the date": ["Ort 18?2"],
    }


def test_of_very_many_coins_left_out_the_first_are_named_and_the_rest_counted(planned, coin):
    files = {
        f"content/coins/c{nth:03}.md": coin("1892", "kind: forgery", "departs: cast") for nth in range(70)
    }
    files["content/coins/a.md"] = coin("1891")
    (fact,) = (each for section in planned(files).body(METAL).sections for each in section.names)
    assert (fact.value, fact.remark, len(fact.links)) == (
        "70 coins:",
        "and 10 more, on the pages of their series",
        60,
    )


def test_a_weight_is_set_against_the_standard_and_its_remedy(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "grade: VF20", "weight: 8.80 g"),
        "content/coins/b.md": coin("1892", "grade: EF40", "weight: 8.97 g"),
        "content/coins/c.md": coin("1893", "weight: 8.99 g"),
        "content/coins/d.md": coin("1897", "grade: F12", "weight: 7.90 g", "problem: [holed]"),
    }
    found = planned(files)
    view = found.body(WEIGHTS)
    assert texts(tables(view)["Weighed coins by series"]) == [["Ort", "4", "2", "2", "0"]]
    assert [each.kind for each in marks(view)] == ["ring", "dot", "cross"]
    assert texts(tables(view)["Loss of weight by grade"]) == [
        ["VF, from 20", "1", "2.22 %", "2.22 %", "2.22 %"],
        ["EF, from 40", "1", "0.33 %", "0.33 %", "0.33 %"],
    ]
    assert names(view) == {
        "Without a grade": ["Ort 1893"],
        "Metal lost otherwise than by wear": ["Ort 1897"],
    }
    assert texts(tables(found.body(ORT))["Weights"])[0] == [
        "Ort 1891", "VF20", "9.000 g", "8.80 g", "2.22 %", "lighter than the remedy allows",
    ]  # fmt: skip


def test_a_weighing_in_water_is_set_against_the_alloy_and_proves_nothing(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "gravity: {dry: 8.97 g, wet: 8.08 g, reading: 0.01 g}"),
        "content/coins/b.md": coin(
            "1892", "kind: forgery", "departs: cast", "gravity: {dry: 8.00 g, wet: 6.90 g}"
        ),
    }
    view = planned(files).body(WEIGHTS)
    (table,) = tables(view).values()
    assert texts(table) == [
        ["Ort 1891", "8.97 g", "8.08 g", "10.08", "9.97–10.19", "10.06", "goes with the alloy"],
        [
            "Ort 1892, forgery",
            "8.00 g",
            "6.90 g",
            "7.27",
            "7.21–7.34",
            "10.06",
            "lower than the alloy should give",
        ],
    ]
    assert any("does not prove a coin genuine" in each for each in table.notes)


def amounts(view):
    return {name: value for name, (value, _) in facts(view).items()}


def test_sums_of_money_never_mix_currencies(planned, coin):
    files = {
        "content/catalogue.yaml": PRICES,
        "content/coins/a.md": coin("1891", "acquired: {on: 2019, price: 45 VKR}", "value: {amount: 80 VKR}"),
        "content/coins/b.md": coin(
            "1892", "acquired: {on: 2019, price: 10.50 ABC}", "value: {amount: 9 ABC}"
        ),
        "content/coins/c.md": coin("1893", "acquired: {on: 2020, price: 5 VKR}"),
        "content/coins/d.md": coin("1897"),
    }
    view = planned(files, Reader.KEEPER).body(COSTS)
    found = facts(view)
    assert found["Cost"] == (
        "10.50 ABC and 50.00 VKR",
        "from 3 coins; 1 coin has no cost on record and is not in the sum",
    )
    assert found["Value"][0] == "9.00 ABC and 80.00 VKR"
    assert found["Premium of value over metal"] == (
        "76.63 VKR",
        "from 1 coin; 3 coins lack a value or a metal worth",
    )
    assert names(view) == {
        "No cost on record": ["Ort 1897"],
        "No value on record": ["Ort 1893", "Ort 1897"],
        "Value and metal in two currencies": ["Ort 1892"],
    }
    assert bars(view) == {
        "Cost by year, in ABC": [("2019", "10.50 ABC")],
        "Cost by year, in VKR": [("2019", "45.00 VKR"), ("2020", "5.00 VKR")],
    }


def test_a_coin_parted_with_counts_in_the_year_it_came_and_not_among_those_held(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "acquired: {on: 2019-04-03, price: 45 VKR}"),
        "content/coins/b.md": coin(
            "1892", "acquired: {on: 2017, price: 30 VKR}", "parted: {on: 2020, how: sold, price: 40 VKR}"
        ),
    }
    found = planned(files, Reader.KEEPER)
    said = amounts(found.body(COSTS))
    assert (said["Cost"], said["Received"], said["They had cost"]) == ("45.00 VKR", "40.00 VKR", "30.00 VKR")
    assert bars(found.body("figures"))["Acquisitions by year"] == [
        ("2017", "1"),
        ("2018", "0"),
        ("2019", "1"),
    ]
    (table,) = tables(found.body("figures/acquired/2017")).values()
    assert texts(table) == [["Ort 1892", "2017", "no longer held", "30.00 VKR"]]


def test_a_coin_without_a_day_of_its_own_came_with_its_lot(planned, coin):
    files = {
        "content/lots/fair.yaml": "on: 2018-05-01\nprice: 10 VKR\nshare: equally\n",
        "content/coins/a.md": coin("1891", "lot: fair"),
        "content/coins/b.md": coin("1892", "lot: fair"),
        "content/coins/c.md": coin("1893"),
    }
    found = planned(files, Reader.KEEPER)
    assert bars(found.body("figures"))["Acquisitions by year"] == [("2018", "2"), ("day not told", "1")]
    (table,) = tables(found.body("figures/acquired/undated")).values()
    assert texts(table) == [["Ort 1893", "", "", ""]]


def test_face_values_are_added_in_the_money_of_their_day(planned, coin):
    files = {
        "content/issuers/vessmark.yaml": "name: Kingdom of Vessmark\nmoney: {daler: 4 ort, ort: 24 skilling}\n"
        "decimal: {on: 1919-01-01, daler: 4 kron}\n"
        "mints: {none: Vessborg, K: Kaldhamn}\nmonarchs:\n"
        "  ingrith: {name: Ingrith, reign: {from: 1869-05-02, to: 1893-11-20}}\n"
        "  torvald-iii: {name: Torvald III, reign: {from: 1893-11-20, to: 1908-02-03}}\n",
        "content/coins/a.md": coin("1891", "quantity: 4", "value: {amount: 80 VKR}"),
        "content/coins/b.md": coin("1892"),
    }
    said = facts(planned(files, Reader.KEEPER).body(COSTS))
    assert said["Face value, in the money of its day"] == ("1 daler 1 ort", "5 pieces")
    assert said["Face value, in decimal money"] == ("5 kron", "at the rate of 1919")


def test_old_values_and_values_without_a_day_are_said_to_be_so(planned, coin):
    files = {
        "content/catalogue.yaml": PRICES,
        "content/coins/a.md": coin("1891", "value: {amount: 80 VKR, on: 2025-10-01}"),
        "content/coins/b.md": coin("1892", "value: {amount: 80 VKR, on: 2026-01-01}"),
        "content/coins/c.md": coin("1893", "value: {amount: 80 VKR}"),
    }
    (section, *_) = planned(files, Reader.KEEPER).body(COSTS).sections
    assert section.lines == (
        "1 value is from more than a year before 1 November 2026.",
        "1 value has no day.",
    )


GRADES = (
    "grades:",
    "  - {grade: EF40, on: 2019-01-01}",
    "certificate: {by: North Pier Grading, grade: VF35, on: 2021-06-15}",
)


def test_own_grades_beside_certificates_are_for_club_and_keeper(planned, coin):
    files = {"content/coins/a.md": coin("1891", *GRADES)}
    assert f"{CERTIFICATES}/index.html" not in planned(files).pages
    for reader in (Reader.CLUB, Reader.KEEPER):
        view = planned(files, reader).body(CERTIFICATES)
        assert texts(tables(view)["The pairs"]) == [["Ort 1891", "EF40", "VF35", "North Pier Grading", "+1"]]
        assert [each.address for each in marks(view)] == ["coins/a/index.html"]


def test_few_pairs_are_said_to_be_weak(planned, coin):
    files = {"content/coins/a.md": coin("1891", *GRADES)}
    (section, *_) = planned(files, Reader.CLUB).body(CERTIFICATES).sections
    assert section.lines == ("Fewer than 10 pairs: these figures are weak.",)
    said = facts(planned(files, Reader.CLUB).body(CERTIFICATES))
    assert said["Bias"][0] == "+1.00 steps"
    assert said["Kappa"][0] == "0.00"


def test_a_certificate_that_no_own_grade_goes_before_is_named(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", *GRADES),
        "content/coins/b.md": coin("1892", "certificate: {by: North Pier Grading, grade: VF35, on: 2021}"),
        "content/coins/c.md": coin(
            "1893", "grades: [{grade: EF40, on: 2022}]", "certificate: {by: N, grade: VF35, on: 2021}"
        ),
    }
    view = planned(files, Reader.CLUB).body(CERTIFICATES)
    assert names(view) == {
        "No own grade": ["Ort 1892"],
        "No own grade before the certificate": ["Ort 1893"],
    }


def test_only_problem_coins_give_a_share_and_no_figures(planned, coin):
    files = {
        "content/coins/a.md": coin(
            "1891",
            "grades: [{grade: VF30, on: 2019}]",
            'certificate: {by: N, grade: "VF details, cleaned", on: 2021}',
        )
    }
    view = planned(files, Reader.CLUB).body(CERTIFICATES)
    assert facts(view)["Came back as problem coins"] == ("100 %, 1 of 1", "cleaned: 1")
    assert "Bias" not in facts(view)
    assert [each.kind for each in marks(view)] == ["cross"]


def test_a_coin_without_a_price_or_value_makes_no_page_of_costs(planned, coin):
    assert f"{COSTS}/index.html" not in planned({"content/coins/a.md": coin("1891")}, Reader.KEEPER).pages


def test_every_page_of_figures_is_told_in_its_own_words(planned, coin):
    files = {
        "content/catalogue.yaml": PRICES,
        "content/coins/a.md": coin("1891", *GRADES, "weight: 8.97 g", "value: {amount: 80 VKR}"),
    }
    pages = [
        each for each in planned(files, Reader.KEEPER).pages.values() if each.address.startswith("figures/")
    ]
    assert len(pages) >= 9
    assert len({each.frame.title for each in pages}) == len(pages)
    assert all(each.frame.description for each in pages)
