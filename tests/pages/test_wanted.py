"""The page of what is wanted and spare, completeness in tables, and the pages that gather coins."""

import pytest

from daterun.pages.printchoice import Choice
from daterun.pages.printwants import plan_wants
from daterun.readers.reader import Reader

AIMS = """title: A small cabinet
currency: VKR
aims:
  - id: by-mint
    name: By mint
    series: ort
    dates: 1891–1903
    one per: [date, mint]
    leave out: {ort: {1903: dear}}
  - {id: proofs, name: Proofs, series: ort, strikes: [proof]}
wants:
  - {slot: ort 1892, at most: 400 VKR, remark: ask at the fair}
  - {slot: ort 1891, at most: 5 VKR}
"""


@pytest.fixture
def files(coin):
    return {
        "content/catalogue.yaml": AIMS,
        "content/coins/best.md": coin("1891", "grade: VF30"),
        "content/coins/second.md": coin("1891", "grade: F12"),
        "content/coins/k.md": coin("1902", "mint: K", "grade: EF40"),
    }


def table(view, caption):
    return next((each for each in view.tables if each.caption == caption), None)


def texts(found):
    return [tuple(cell.text for cell in row) for row in found.rows]


def test_the_missing_come_scarcest_first_with_unknown_numbers_last(planned, files):
    rows = texts(table(planned(files, Reader.CLUB).body("wanted"), "Missing, the scarcest first"))
    assert rows[:4] == [
        ("Ort 1903", "764 or 1,128", "left out of By mint"),
        ("Ort 1892", "2,310", "By mint"),
        ("Ort 1902, Vessborg", "12,000", "By mint"),
        ("Ort 1897", "98,000", "By mint"),
    ]
    numbers = [each[1] for each in rows]
    first_unknown = numbers.index("not known")
    assert set(numbers[first_unknown:]) == {"not known"}
    assert [each[0] for each in rows[first_unknown:]][:3] == ["Ort 1893", "Ort 1900", "Ort 1901"]


def test_a_date_that_an_aim_asks_for_by_its_mints_is_not_asked_for_again_as_a_whole(planned, files):
    found = table(planned(files, Reader.CLUB).body("wanted"), "Missing, the scarcest first")
    names = [each[0] for each in texts(found)]
    assert "Ort 1902, Vessborg" in names
    assert "Ort 1902" not in names
    assert len(names) == len(set(names))


def test_proofs_are_a_list_of_their_own(planned, files):
    rows = texts(table(planned(files, Reader.CLUB).body("wanted"), "Proofs missing, the scarcest first"))
    assert rows == [("Ort 1899, proof", "40", "Proofs"), ("Ort 1894, proof", "60", "Proofs")]


def test_a_slot_of_proofs_or_specimens_is_said_to_be_either(planned, files):
    either = AIMS.replace("strikes: [proof]", "strikes: [proof, specimen]")
    view = planned({**files, "content/catalogue.yaml": either}, Reader.CLUB).body("wanted")
    rows = texts(table(view, "Proofs missing, the scarcest first"))
    assert [each[0] for each in rows] == ["Ort 1899, proof or specimen", "Ort 1894, proof or specimen"]


def test_most_to_pay_and_remarks_are_for_the_keeper_alone(planned, files, leaves):
    keeper = planned(files, Reader.KEEPER).body("wanted")
    rows = texts(table(keeper, "Missing, the scarcest first"))
    assert rows[1] == ("Ort 1892", "2,310", "By mint", "400 VKR", "ask at the fair")
    assert texts(table(keeper, "Notes on what is not missing any more")) == [("ort 1891", "5 VKR")]
    club = [each for each in leaves(planned(files, Reader.CLUB).body("wanted")) if isinstance(each, str)]
    assert not [each for each in club if "400" in each or "fair" in each or each == "5 VKR"]


def noted(found):
    """Give what bears the keeper's notes on the page and in print, by series and date."""
    page = found.body("wanted")
    on_page = {
        row[0]: row[-2:]
        for each in page.tables
        if each.caption.endswith("scarcest first") and len(each.headings) > 3
        for row in texts(each)
        if any(row[-2:])
    }
    lines = {line.name: line for group in plan_wants(found.binder, Choice()).groups for line in group.lines}
    return on_page, {
        name: (each.most, each.remark) for name, each in lines.items() if each.most or each.remark
    }


def test_a_note_on_a_date_is_not_one_on_its_proofs_on_the_page_or_in_print(planned, files):
    settings = AIMS.replace("ort 1892, at most", "ort 1899, at most")
    on_page, printed = noted(planned({**files, "content/catalogue.yaml": settings}, Reader.KEEPER))
    assert on_page == {"Ort 1899": ("400 VKR", "ask at the fair")}
    assert printed == {"1899": ("at most 400 VKR", "ask at the fair")}


def test_a_note_on_a_date_struck_only_as_proofs_is_one_on_its_proofs(planned, files):
    settings = AIMS.replace("ort 1892, at most", "ort 1894, at most")
    found = planned({**files, "content/catalogue.yaml": settings}, Reader.KEEPER)
    on_page, printed = noted(found)
    assert on_page == {"Ort 1894, proof": ("400 VKR", "ask at the fair")}
    assert printed == {"1894, proof": ("at most 400 VKR", "ask at the fair")}
    assert texts(table(found.body("wanted"), "Notes on what is not missing any more")) == [
        ("ort 1891", "5 VKR")
    ]


def test_a_note_on_a_mint_is_one_on_the_slot_for_all_its_dates_on_the_page_and_in_print(planned, files):
    settings = AIMS.replace("one per: [date, mint]", "one per: [mint]").replace("ort 1892", "ort none")
    files = {**files, "content/catalogue.yaml": settings.replace("    leave out: {ort: {1903: dear}}\n", "")}
    on_page, printed = noted(planned(files, Reader.KEEPER))
    assert on_page == {"Ort Vessborg": ("400 VKR", "ask at the fair")}
    assert printed == {"Vessborg": ("at most 400 VKR", "ask at the fair")}


def test_a_date_with_one_type_is_one_line_though_an_aim_asks_for_it_by_its_type(planned, files):
    settings = AIMS.replace("one per: [date, mint]", "one per: [date, type]").replace(
        "{1903: dear}", "{1901 torvald: dear}"
    )
    settings = settings.replace("slot: ort 1892", "slot: ort 1892 ingrith")
    settings = settings.replace("- {id: proofs", "- {id: whole, name: By date, series: ort}\n  - {id: proofs")
    found = planned({**files, "content/catalogue.yaml": settings}, Reader.KEEPER)
    rows = {row[0]: row[2:] for row in texts(table(found.body("wanted"), "Missing, the scarcest first"))}
    assert not [each for each in rows if "," in each]
    assert rows["Ort 1892"] == ("By mint and By date", "400 VKR", "ask at the fair")
    assert rows["Ort 1901"] == ("By date", "", "")
    (group,) = plan_wants(found.binder, Choice()).groups
    (line,) = [each for each in group.lines if each.name.startswith("1892")]
    assert (line.name, line.marks, line.most) == ("1892", "a b", "at most 400 VKR")


@pytest.mark.parametrize("order", [("[date]", "[date, mint]"), ("[date, mint]", "[date]")])
def test_the_only_mint_of_a_date_is_named_in_its_one_line(planned, series, order):
    aims = "".join(
        f"  - {{id: a-{nth}, name: Aim {nth}, series: ort, one per: {each}}}\n"
        for nth, each in enumerate(order)
    )
    found = planned(
        {
            "content/series/vessmark/ort.yaml": series("1906: {by mint: {K: 266000}}"),
            "content/catalogue.yaml": f"title: T\naims:\n{aims}wants: [{{slot: ort 1906, remark: dull}}]\n",
        },
        Reader.KEEPER,
    )
    (row,) = texts(table(found.body("wanted"), "Missing, the scarcest first"))
    assert (row[0], *row[2:]) == ("Ort 1906, Kaldhamn (K)", "Aim 0 and Aim 1", "dull")
    (group,) = plan_wants(found.binder, Choice()).groups
    assert [(each.name, each.marks, each.remark) for each in group.lines] == [
        ("1906, Kaldhamn (K)", "a b", "dull")
    ]


def test_a_date_of_one_series_and_that_of_any_of_several_are_two_wants_in_print(planned, series):
    found = planned(
        {
            "content/series/vessmark/ort.yaml": series("1906: 5"),
            "content/series/vessmark/daler.yaml": series("1906: 7", name="Daler"),
            "content/catalogue.yaml": "title: T\naims:\n  - {id: a, name: A, series: ort}\n"
            "  - {id: b, name: B, series: [ort, daler], across series: yes}\n"
            "wants: [{slot: ort 1906, remark: dull}]\n",
        },
        Reader.KEEPER,
    )
    groups = plan_wants(found.binder, Choice()).groups
    lines = [(each.name, each.marks, each.remark) for group in groups for each in group.lines]
    assert lines == [("1906", "a", "dull"), ("1906", "b", "")]


def test_the_public_has_no_page_of_wants_unless_it_is_turned_on(planned, files):
    assert "wanted/index.html" not in planned(files).pages
    turned_on = AIMS + "readers: {public: {wants: yes}}\n"
    public = planned({**files, "content/catalogue.yaml": turned_on})
    assert "wanted/index.html" in public.pages
    assert "400" not in str(public.body("wanted"))


def test_what_fills_no_slot_anywhere_is_spare_and_beside_it_stands_what_does(planned, files):
    rows = table(planned(files, Reader.CLUB).body("wanted"), "Spare in every run and aim").rows
    assert [[each.text for each in row] for row in rows] == [["Ort 1891, F12", "VF30"]]
    assert rows[0][1].address == "coins/best/index.html"


def test_completeness_is_told_by_series_monarch_decade_and_year(planned, files):
    view = planned(files).body("completeness")
    assert view.lead.startswith("Dates in the cabinet: 2 of 13,")
    assert texts(table(view, "By series")) == [("Ort", "2 of 13", "1891 alone", "35.0", "Ort 1891, VF30")]
    assert texts(table(view, "By monarch")) == [
        ("Ingrith", "1 of 3", "1891 alone", "30.0", "Ort 1891, VF30"),
        ("Torvald III", "1 of 10", "1902 alone", "40.0", "Ort 1902, Kaldhamn (K), EF40"),
    ]
    assert [row[:2] for row in texts(table(view, "By decade"))] == [("1890s", "1 of 6"), ("1900s", "1 of 7")]
    years = table(view, "By year")
    assert [row[:2] for row in texts(years)][:2] == [("1891", "1 of 1"), ("1892", "0 of 1")]
    assert years.rows[0][0].address == "dates/1891/index.html"
    assert years.rows[0][-1].address == "coins/best/index.html"


def test_monarchs_and_denominations_tell_their_completeness(planned, files):
    found = planned(files)
    reign = found.body("monarchs/vessmark/torvald-iii").completeness
    assert texts(reign) == [("Ort", "1 of 10", "1902 alone", "40.0", "Ort 1902, Kaldhamn (K), EF40")]
    denomination = found.body("denominations/vessmark/ort").completeness
    assert texts(denomination)[0][:2] == ("Ort", "2 of 13")


def test_scarce_dates_are_told_whether_held_or_not(planned, files, coin):
    view = planned(files).body("scarce")
    assert view.lead == "1 date marked as scarce; 0 in the cabinet."
    assert texts(table(view, "Scarce dates")) == [("Ort 1892", "2,310", "none", "Mint reports, 1891 to 1906")]
    assert table(view, "Fewest struck of the other dates") is None
    held = planned({**files, "content/coins/scarce.md": coin("1892", "grade: G4")}, Reader.CLUB).body(
        "scarce"
    )
    assert held.lead == "1 date marked as scarce; 1 in the cabinet."
    assert [each.link.address for each in held.gathered[0].coins] == ["coins/scarce/index.html"]
    assert texts(table(held, "Fewest struck of the other dates"))[0][:2] == ("Ort 1903", "764 or 1,128")


PROVENANCE = (
    "provenance: [{owner: Hallin collection, until: 1988, sale: Kaldhamn sale, publish: yes},"
    " {owner: R. Tarn}]"
)


def test_former_collections_gather_their_coins_and_unpublished_owners_are_the_keepers(planned, coin):
    files = {"content/coins/a.md": coin("1891", PROVENANCE), "content/coins/b.md": coin("1892", PROVENANCE)}
    public = planned(files).body("former")
    (group,) = public.gathered
    assert (group.heading.text, group.line) == ("Hallin collection", "2 coins")
    assert group.coins[0].line == "until 1988; Kaldhamn sale"
    keeper = planned(files, Reader.KEEPER).body("former")
    assert [each.heading.text for each in keeper.gathered] == ["Hallin collection", "R. Tarn"]


def test_coins_out_of_the_ordinary_are_gathered_by_kind_with_how_they_depart(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "kind: error", "departs: struck off centre"),
        "content/coins/b.md": coin("1898", "kind: forgery", "departs: cast in tin"),
        "content/coins/c.md": coin(
            "1892", "kind: error", "departs: clipped", "parted: {on: 2024, how: sold}"
        ),
        "content/coins/d.md": coin("1893"),
    }
    view = planned(files, Reader.KEEPER).body("unusual")
    assert [(each.heading.text, [coin.line for coin in each.coins]) for each in view.gathered] == [
        ("Error of the mint", ["struck off centre"]),
        ("Forgery", ["cast in tin"]),
    ]


def test_a_catalogue_without_such_coins_has_no_page_for_them(planned, coin):
    pages = planned({"content/coins/a.md": coin("1891")}).pages
    assert not {"former/index.html", "unusual/index.html", "wanted/index.html"} & set(pages)
    assert {"completeness/index.html", "scarce/index.html"} <= set(pages)


def test_home_leads_to_every_gathering(planned, files, coin):
    home = planned({**files, "content/coins/o.md": coin("1893", PROVENANCE)}, Reader.CLUB).body("")
    assert {each.link.address for each in home.ways} == {
        "completeness/index.html",
        "wanted/index.html",
        "scarce/index.html",
        "former/index.html",
    }
