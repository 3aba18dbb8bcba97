import pytest

from daterun.readers.reader import Reader

WANTS = "title: A small cabinet\ncurrency: VKR\nreaders: {public: {wants: yes}, club: {wants: no}}\n"


def table(home):
    return [[each.text for each in row] for row in home.scarcest.rows]


def test_the_whole_coinage_is_one_grid_under_its_caption(planned, coin):
    (grid,) = planned({"content/coins/a.md": coin("1891")}).body("index.html").grids
    assert grid.caption == "Kingdom of Vessmark, 1891–1906: 1 denomination. Dates in the cabinet: 1 of 13"


def test_two_series_of_one_denomination_are_counted_once(planned, series):
    other = series("1911: 9", "denomination: Ort", name="Ort in bronze")
    (grid,) = planned({"content/series/vessmark/ort-bronze.yaml": other}).body("index.html").grids
    assert ": 1 denomination." in grid.caption
    assert [each.link.text for each in grid.rows] == ["Ort", "Ort in bronze"]


def test_the_largest_face_value_is_the_first_row_and_what_has_none_the_last(planned, series):
    files = {
        "content/series/vessmark/daler.yaml": series("1891: 5", "face: 1 daler", name="Daler"),
        "content/series/vessmark/skilling.yaml": series("1891: 5", "face: 1/2 skilling", name="Skilling"),
        "content/series/vessmark/token.yaml": series("1891: 5", name="Token"),
    }
    (grid,) = planned(files).body("index.html").grids
    assert [each.link.text for each in grid.rows] == ["Daler", "Ort", "Skilling", "Token"]


def test_each_issuer_has_a_grid(planned, series):
    files = {
        "content/issuers/norhavn.yaml": "name: Norhavn\n",
        "content/series/norhavn/mark.yaml": series("1850: 5", name="Mark", issuer="norhavn"),
    }
    grids = planned(files).body("index.html").grids
    assert [each.caption.partition(",")[0] for each in grids] == ["Kingdom of Vessmark", "Norhavn"]
    assert [each.label for each in grids[1].columns] == ["1850"]


@pytest.mark.parametrize(
    ("reader", "settings", "shown"),
    [
        (Reader.PUBLIC, None, False),
        (Reader.CLUB, None, True),
        (Reader.KEEPER, None, True),
        (Reader.PUBLIC, WANTS, True),
        (Reader.CLUB, WANTS, False),
    ],
)
def test_the_scarcest_gaps_are_for_those_who_see_the_wants(planned, reader, settings, shown):
    files = {"content/catalogue.yaml": settings} if settings else {}
    assert (planned(files, reader).body("index.html").scarcest is not None) == shown


def test_the_scarcest_gaps_go_by_the_lowest_figure_of_ordinary_strikes(planned, series, coin):
    ort = series(
        "1891: 9000; 1892: {mintage: 950, proofs: 50}; 1893: unknown; 1894: {proofs: 20};"
        " 1895: {mintage: [1200, 800]}; 1896: {by mint: {none: 400, K: 450}}; 1897: 10"
    )
    files = {"content/series/vessmark/ort.yaml": ort, "content/coins/a.md": coin("1897")}
    home = planned(files, Reader.CLUB).body("index.html")
    assert table(home) == [
        ["Ort 1895", "", "1,200 or 800 struck"],
        ["Ort 1896", "", "850 struck"],
        ["Ort 1892", "", "950 struck, 50 of them proofs"],
        ["Ort 1891", "", "9,000 struck"],
    ]
    assert home.scarcest.rows[0][0].address == "dates/1895/index.html"


def test_a_scarce_gap_names_the_monarchs_of_its_date(planned, base_files):
    ort = base_files["content/series/vessmark/ort.yaml"]
    both = ort.replace("dates: 1894–1906\n    monarch", "dates: 1892–1906\n    monarch")
    home = planned({"content/series/vessmark/ort.yaml": both}, Reader.CLUB).body("index.html")
    assert table(home)[1] == ["Ort 1892", "Ingrith and Torvald III", "2,310 struck"]


def test_a_collection_without_gaps_has_no_scarcest(planned, series, coin):
    files = {"content/series/vessmark/ort.yaml": series("1891: 5"), "content/coins/a.md": coin("1891")}
    assert planned(files, Reader.CLUB).body("index.html").scarcest is None


def test_the_latest_arrivals_come_newest_first_and_only_those_held(planned, coin):
    files = {
        "content/coins/a.md": coin("1891", "added: 2024-01-02"),
        "content/coins/b.md": coin("1892", "added: 2024-03"),
        "content/coins/c.md": coin("1893"),
        "content/coins/d.md": coin("1895-96", "added: 2025-01-01", "parted: {on: 2025-05-01, how: sold}"),
    }
    latest = planned(files, Reader.KEEPER).body("index.html").latest
    assert [each.link.text for each in latest] == ["Ort 1892", "Ort 1891"]


def test_a_catalogue_without_coins_or_series_has_a_first_page(planned):
    found = planned({"content/series/vessmark/ort.yaml": None}, Reader.KEEPER)
    home = found.body("index.html")
    assert (home.grids, home.scarcest, home.latest, home.monarchs, home.essays) == ((), None, (), (), ())
    assert found.body("coins").lead == "0 coins"
    assert found.body("dates").lead == "0 years"
    assert found.body("denominations").lead == "0 denominations"
    assert found.body("monarchs").lead == "0 monarchs"
