import pytest

from daterun.readers.reader import Reader

UNDATED = "dates/undated/index.html"


def rows(view):
    return [(each.link.text, each.state, each.struck) for each in view.rows]


def test_there_is_a_page_for_each_year_struck_and_for_no_other(planned):
    addresses = [each for each in planned().pages if each.startswith("dates/")]
    years = [str(year) for year in range(1891, 1907) if year != 1898]
    assert addresses == ["dates/index.html", *(f"dates/{year}/index.html" for year in years)]


def test_the_list_of_dates_counts_the_coins_held_of_each(planned, coin):
    files = {
        "content/coins/a.md": coin("1891"),
        "content/coins/b.md": coin("1891", "parted: {on: 2024-05-01, how: sold}"),
    }
    view = planned(files, Reader.KEEPER).body("dates")
    assert view.lead == "15 years"
    assert [(each.link.text, each.tally) for each in view.cards[:2]] == [
        ("1891", "1 coin"),
        ("1892", "0 coins"),
    ]


def test_a_year_shows_what_was_struck_and_what_is_held_of_it(planned, base_files, coin):
    daler = base_files["content/series/vessmark/ort.yaml"].replace("name: Ort", "name: Daler")
    files = {
        "content/series/vessmark/daler.yaml": daler.replace("1 ort", "1 daler"),
        "content/coins/a.md": coin("1892", "grade: VF30"),
    }
    view = planned(files).body("dates/1892")
    assert view.heading == "1892"
    assert view.lead == "2 denominations were struck; 1 in the cabinet."
    assert rows(view) == [("Daler", "missing", "2,310 struck"), ("Ort", "filled", "2,310 struck")]
    missing, held = view.rows
    assert missing.remark == "Scarce date"
    assert missing.drawing.text == "Daler 1892, missing"
    assert missing.coins == ()
    assert held.drawing is None
    assert [each.link.address for each in held.coins] == ["coins/a/index.html"]


def test_one_denomination_struck_is_worded_as_one(planned):
    assert planned().body("dates/1891").lead == "1 denomination was struck; 0 in the cabinet."


def test_two_series_of_one_denomination_count_as_one(planned, series):
    files = {
        "content/series/vessmark/ort.yaml": series("1891: 5"),
        "content/series/vessmark/ort-bronze.yaml": series(
            "1891: 9", "denomination: Ort", name="Ort in bronze"
        ),
    }
    assert planned(files).body("dates/1891").lead == "1 denomination was struck; 0 in the cabinet."


def test_a_year_of_which_only_a_pattern_is_held_has_a_page(planned, coin):
    pattern = coin("1890", "kind: pattern", "departs: struck to show the design")
    view = planned({"content/coins/a.md": pattern}).body("dates/1890")
    assert view.lead == "No denomination was struck."
    (row,) = view.rows
    assert (row.link.text, row.state, row.struck) == ("Ort", "apart", "not of the regular issue")
    assert row.remark == "struck to show the design"
    assert [each.link.text for each in row.coins] == ["Ort 1890, pattern"]


def test_a_pattern_and_a_coin_sold_are_not_in_the_cabinet_of_their_year(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "kind: pattern"),
        "content/coins/b.md": coin("1891", "parted: {on: 2024-05-01, how: sold}"),
    }
    view = planned(files, Reader.KEEPER).body("dates/1891")
    assert view.lead == "1 denomination was struck; 0 in the cabinet."
    assert view.rows[0].state == "missing"
    assert len(view.rows[0].coins) == 2


def test_a_double_date_is_on_the_pages_of_both_its_years(planned, coin):
    found = planned({"content/coins/a.md": coin("1895-96")})
    for year in ("1895", "1896"):
        assert rows(found.body(f"dates/{year}")) == [("Ort 1895–96", "filled", "120,000 struck")]
    assert found.fact("a", "Struck").links[0].address == "dates/1895/index.html"


def test_proofs_alone_are_proofs_only_until_one_is_held(planned, coin):
    assert rows(planned().body("dates/1894")) == [("Ort", "proofs-only", "60 struck, proofs only")]
    held = planned({"content/coins/a.md": coin("1894", "strike: proof")})
    assert held.body("dates/1894").rows[0].state == "filled"


def test_a_year_tells_how_it_divides_and_what_the_sources_remark(planned):
    assert planned().body("dates/1902").rows[0].struck == "52,000 struck"
    assert (
        planned().body("dates/1902").rows[0].remark == "Vessborg: 12,000 struck; Kaldhamn (K): 40,000 struck"
    )
    assert planned().body("dates/1903").rows[0].struck == "764 or 1,128 struck"
    assert planned().body("dates/1903").rows[0].remark == "Two reports disagree"


def test_a_scarce_date_keeps_its_note(planned, series):
    ort = series("1891: {mintage: 5, scarce: yes, note: most were melted}")
    row = planned({"content/series/vessmark/ort.yaml": ort}).body("dates/1891").rows[0]
    assert row.remark == "Scarce date. Most were melted"


def test_a_year_names_its_monarchs_once_each(planned, base_files):
    ort = base_files["content/series/vessmark/ort.yaml"]
    ort = ort.replace("dates: 1894–1906\n    monarch", "dates: 1893–1906\n    monarch")
    view = planned({"content/series/vessmark/ort.yaml": ort}).body("dates/1893")
    assert [(each.text, each.address) for each in view.monarchs] == [
        ("Ingrith", "monarchs/vessmark/ingrith/index.html"),
        ("Torvald III", "monarchs/vessmark/torvald-iii/index.html"),
    ]


def test_a_coin_without_a_monarch_has_a_date_page_that_names_none(planned, series, coin):
    files = {"content/series/vessmark/ort.yaml": series("1891: 5"), "content/coins/a.md": coin("1891")}
    assert planned(files).body("dates/1891").monarchs == ()


def test_a_year_leads_to_the_year_before_and_after(planned):
    found = planned()
    assert [each.text for each in found.body("dates/1891").neighbours] == ["", "1892"]
    assert [each.text for each in found.body("dates/1899").neighbours] == ["1897", "1900"]
    assert [each.text for each in found.body("dates/1906").neighbours] == ["1905", ""]


def test_worn_and_undated_coins_have_a_page_of_their_own(planned, coin):
    files = {"content/coins/a.md": coin("18?2"), "content/coins/b.md": coin("undated", "kind: mule")}
    found = planned(files)
    (group,) = found.body(UNDATED).groups
    assert [each.link.text for each in group.coins] == ["Ort 18?2", "Ort undated, mule"]
    last = found.body("dates").cards[-1]
    assert (last.link.text, last.link.address, last.tally) == ("Without a readable date", UNDATED, "2 coins")


def test_an_issue_that_bears_no_date_is_on_that_page_held_or_not(planned, series, coin):
    ort = {
        "content/series/vessmark/ort.yaml": series(
            "1891: 5; undated: {mintage: 900, note: struck in a siege}"
        )
    }
    (group,) = planned(ort).body(UNDATED).groups
    assert (group.heading.text, group.heading.address) == (
        "Ort undated",
        "denominations/vessmark/ort/index.html",
    )
    assert group.line == "900 struck. Struck in a siege"
    assert group.coins == ()
    files = {**ort, "content/coins/a.md": coin("undated"), "content/coins/b.md": coin("18?1")}
    issue, rest = planned(files).body(UNDATED).groups
    assert [each.link.text for each in issue.coins] == ["Ort undated"]
    assert [each.link.text for each in rest.coins] == ["Ort 18?1"]


def test_where_all_dates_can_be_read_there_is_no_such_page(planned, coin):
    assert UNDATED not in planned({"content/coins/a.md": coin("1891")}).pages


@pytest.mark.parametrize(("name", "shown"), [("AH 1320", "Ort AH 1320"), ("1902", "Ort")])
def test_a_date_of_another_calendar_is_told_with_the_series(planned, series, name, shown):
    labels = ("labels: {AH 1320: 1902}",) if name.startswith("AH") else ()
    found = planned({"content/series/vessmark/ort.yaml": series(f"{name}: 5", *labels)})
    assert found.body("dates/1902").rows[0].link.text == shown


def test_with_several_issuers_a_row_names_its_own(planned, series):
    files = {
        "content/issuers/norhavn.yaml": "name: Norhavn\n",
        "content/series/norhavn/ort.yaml": series("1891: 5", issuer="norhavn"),
    }
    names = [each.link.text for each in planned(files).body("dates/1891").rows]
    assert names == ["Ort, Kingdom of Vessmark", "Ort, Norhavn"]
