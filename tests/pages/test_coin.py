import pytest

from daterun.pages.coin import MOST_COMPANIONS, STRIP
from daterun.readers.reader import Reader


def test_a_coin_is_told_in_one_line(planned, coin):
    found = planned({"content/coins/a.md": coin("1891", "grade: VF30")})
    assert found.coin("a").heading == "Ort 1891"
    assert found.coin("a").lead == "Ingrith · .750 silver · 9.000 g · 26.5 mm · 341,000 struck"
    assert found.pages["coins/a/index.html"].frame.description == "Ort 1891. VF30."


def test_a_coin_without_a_grade_is_said_to_have_none(planned, coin):
    found = planned({"content/coins/a.md": coin("1891")})
    assert found.fact("a", "Grade").value == "not graded"
    assert found.pages["coins/a/index.html"].frame.description == "Ort 1891. Not graded."


def test_the_grade_is_shown_as_it_was_written_with_its_reasons(planned, coin):
    grade = "grade: {grade: VF30–EF40, reasons: hair over the ear is flat}"
    fact = planned({"content/coins/a.md": coin("1891", grade)}).fact("a", "Keeper’s grade")
    assert (fact.value, fact.remark) == ("VF30–EF40", "hair over the ear is flat")


def test_a_british_grade_is_placed_on_the_scale_approximately(planned, coin):
    found = planned({"content/coins/a.md": coin("1891", "grade: GVF/EF")})
    assert found.fact("a", "Keeper’s grade").value == "GVF/EF"
    scale = found.fact("a", "On the 70-point scale")
    assert "–" in scale.value
    assert scale.remark == "approximate; the correspondence is common practice and has no published authority"
    exact = planned({"content/coins/a.md": coin("1891", "grade: VF30")})
    assert exact.fact("a", "On the 70-point scale") is None


def test_a_sealed_certificate_is_the_grade_in_force(planned, coin):
    lines = ("grade: EF45", "certificate: {by: North Pier Grading, grade: AU55, number: 4417-0092}")
    files = {"content/coins/a.md": coin("1891", *lines)}
    found = planned(files)
    assert (found.fact("a", "Grade").value, found.fact("a", "Grade").remark) == (
        "AU55",
        "certified by North Pier Grading",
    )
    assert found.fact("a", "Certificate") is None
    assert planned(files, Reader.KEEPER).fact("a", "Certificate").value == "4417-0092"


def test_opinions_are_beside_each_other_for_all_but_the_public(planned, coin):
    lines = (
        "grades: [{grade: VF30, on: 2019}, {grade: EF45, on: 2024-02-11, reasons: seen again}]",
        "certificate: {by: North Pier Grading, grade: AU55, on: 2025-05, sealed: no}",
    )
    files = {"content/coins/a.md": coin("1891", *lines), "content/coins/b.md": coin("1892", "grade: VF30")}
    assert planned(files).coin("a").opinions is None
    club = planned(files, Reader.CLUB)
    assert [[each.text for each in row] for row in club.coin("a").opinions.rows] == [
        ["the keeper", "VF30", "2019", ""],
        ["the keeper", "EF45", "11 February 2024", "seen again"],
        ["North Pier Grading", "AU55", "May 2025", "no longer in its holder"],
    ]
    assert club.coin("b").opinions is None


def test_a_problem_coin_says_why_and_warns_against_cleaning(planned, coin):
    found = planned({"content/coins/a.md": coin("1891", "grade: VF30", "problem: [cleaned, pierced]")})
    assert found.fact("a", "Problem").value == "cleaned and pierced"
    assert "Never clean a coin; cleaning ruins it." in found.coin("a").cautions
    details = planned({"content/coins/a.md": coin("1891", "grade: VF30 details")})
    assert "Never clean a coin; cleaning ruins it." in details.coin("a").cautions


def test_the_run_shows_the_neighbouring_slots_with_the_coin_in_the_midst(planned, coin):
    found = planned({"content/coins/a.md": coin("1899", "variety: old-spelling")})
    run = found.coin("a").run
    assert [each.date for each in run][:4] == ["1891", "1892", "1893", "1895–96"]
    assert len(run) == 2 * STRIP + 1
    assert [each.date for each in run if each.is_current] == ["1899"]
    assert found.coin("a").run_name.address == "denominations/vessmark/ort/index.html"


def test_at_the_end_of_a_long_run_the_strip_keeps_its_length(planned, series, coin):
    ort = series("; ".join(f"{year}: 5" for year in range(1800, 1900)))
    files = {"content/series/vessmark/ort.yaml": ort}
    for year, first in (("1800", "1800"), ("1850", "1844"), ("1899", "1887")):
        run = planned({**files, "content/coins/a.md": coin(year)}).coin("a").run
        assert (len(run), run[0].date) == (2 * STRIP + 1, first)


@pytest.mark.parametrize(
    "front", [("1894", "strike: proof"), ("1870", "kind: pattern"), ("18?2",), ("undated",)]
)
def test_a_coin_whose_date_has_no_slot_has_no_strip(planned, coin, front):
    view = planned({"content/coins/a.md": coin(*front)}).coin("a")
    assert view.run == ()
    assert view.id == "a"


def test_a_pattern_of_a_date_never_struck_tells_what_it_is(planned, coin):
    found = planned({"content/coins/a.md": coin("1870", "kind: pattern", "departs: struck on a thick flan")})
    view = found.coin("a")
    assert (view.heading, view.kind, view.departs) == (
        "Ort 1870, pattern",
        "pattern",
        "struck on a thick flan",
    )
    assert view.lead == ""
    assert found.fact("a", "Struck") is None
    assert found.fact("a", "Metal") is None
    assert view.diameter == 0


def test_a_worn_coin_tells_what_is_known_and_no_more(planned, coin):
    found = planned({"content/coins/a.md": coin("18?2", "weight: 8.5 g")})
    assert found.coin("a").heading == "Ort 18?2"
    assert found.coin("a").lead == ""
    assert [[each.text for each in row] for row in found.coin("a").measured.rows] == [
        ["Weight", "", "8.50 g", ""]
    ]


def test_a_coin_of_two_types_in_one_year_is_named_by_its_own(planned, base_files, coin):
    ort = base_files["content/series/vessmark/ort.yaml"]
    ort = ort.replace("dates: 1894–1906\n    monarch", "dates: 1893–1906\n    monarch")
    files = {
        "content/series/vessmark/ort.yaml": ort.replace(
            "1893: unknown", "1893: {by type: {ingrith: 7, torvald: 3}}"
        ),
        "content/coins/a.md": coin("1893", "type: ingrith"),
        "content/coins/b.md": coin("1893", "type: torvald"),
    }
    found = planned(files)
    assert [found.coin(each).heading for each in "ab"] == ["Ort 1893, Ingrith", "Ort 1893, Torvald III"]
    assert found.coin("a").lead.startswith("Ingrith · ")
    struck = found.fact("b", "Struck")
    assert (struck.value, struck.remark) == (
        "10 struck",
        "Torvald III: 3 struck; Source: Mint reports, 1891 to 1906",
    )


def test_a_coin_of_a_mint_is_named_by_it_only_where_the_date_has_several(planned, coin):
    files = {
        "content/coins/a.md": coin("1902", "mint: K"),
        "content/coins/b.md": coin("1902", "mint: none"),
        "content/coins/c.md": coin("1891"),
    }
    found = planned(files)
    assert [found.coin(each).heading for each in "abc"] == [
        "Ort 1902, Kaldhamn (K)",
        "Ort 1902, Vessborg",
        "Ort 1891",
    ]
    assert found.fact("a", "Mint").value == "Kaldhamn (K)"
    assert found.fact("c", "Mint") is None


def test_a_mint_mark_is_told_where_the_issuer_names_no_mints(planned, base_files, coin):
    issuer = base_files["content/issuers/vessmark.yaml"].replace("mints: {none: Vessborg, K: Kaldhamn}\n", "")
    files = {
        "content/issuers/vessmark.yaml": issuer,
        "content/coins/a.md": coin("1902", "mint: K"),
        "content/coins/b.md": coin("1902", "mint: none"),
    }
    found = planned(files)
    assert found.fact("a", "Mint").value == "K"
    assert found.coin("b").heading == "Ort 1902, no mint mark"


def test_a_coin_of_one_part_of_its_date_tells_the_part_and_the_whole(planned, coin):
    fact = planned({"content/coins/a.md": coin("1899", "variety: new-spelling")}).fact("a", "Struck")
    assert fact.value == "298,000 struck, 40 of them proofs"
    assert fact.remark == "new spelling: 88,000 struck; Source: Mint reports, 1891 to 1906"
    assert [(each.text, each.address) for each in fact.links] == [
        ("all coins of 1899", "dates/1899/index.html")
    ]


def test_the_source_of_a_figure_says_where_it_is_from_memory(planned, series, coin):
    ort = series("1891: {mintage: 5, checked: no}; 1892: {mintage: 6, source: Ledger}")
    files = {
        "content/series/vessmark/ort.yaml": ort,
        "content/coins/a.md": coin("1891"),
        "content/coins/b.md": coin("1892"),
    }
    found = planned(files)
    assert found.fact("a", "Struck").remark == "Source: Mint reports (from memory, not checked)"
    assert found.fact("b", "Struck").remark == "Source: Ledger"


def test_varieties_are_told_with_their_reading_where_the_date_has_several(planned, coin):
    files = {
        "content/coins/a.md": coin("1899", "variety: [old-spelling, nine-over-eight]"),
        "content/coins/b.md": coin("1891"),
    }
    found = planned(files)
    assert found.coin("a").heading == "Ort 1899, old spelling, nine over eight"
    readings = [each.remark for each in found.coin("a").record if each.name == "Variety"]
    assert readings == ["value spelt OORT", "last figure cut over an 8"]
    assert found.coin("b").heading == "Ort 1891"
    assert found.fact("b", "Variety") is None


def test_a_proof_is_named_as_one(planned, coin):
    found = planned({"content/coins/a.md": coin("1894", "strike: proof")})
    assert found.coin("a").heading == "Ort 1894, proof"
    assert found.fact("a", "Strike").value == "proof"
    assert found.fact("a", "Struck").value == "60 struck, proofs only"


def test_a_coin_leads_to_those_before_and_after_in_its_series(planned, coin):
    files = {
        f"content/coins/{each}.md": coin(date) for each, date in (("a", "1892"), ("b", "1891"), ("c", "18?2"))
    }
    found = planned(files)
    assert [each.text for each in found.coin("b").neighbours] == ["", "Ort 1892"]
    assert [each.text for each in found.coin("a").neighbours] == ["Ort 1891", "Ort 18?2"]
    assert [each.address for each in found.coin("c").neighbours] == ["coins/a/index.html", ""]


def test_coins_of_the_same_date_are_shown_beside_each_other(planned, coin):
    files = {
        f"content/coins/{each}.md": coin(date) for each, date in (("a", "1891"), ("b", "1891"), ("c", "1892"))
    }
    found = planned(files)
    assert [each.link.address for each in found.coin("a").companions] == ["coins/b/index.html"]
    assert found.coin("c").companions == ()


def test_a_hoard_of_one_date_does_not_fill_every_page(planned, coin):
    files = {f"content/coins/{nth:02}.md": coin("1891") for nth in range(MOST_COMPANIONS + 3)}
    found = planned(files)
    assert len(found.coin("00").companions) == MOST_COMPANIONS
    assert len(found.body("dates/1891").rows[0].coins) == MOST_COMPANIONS + 3


def test_former_owners_are_shown_where_they_are_published(planned, coin):
    owners = (
        "provenance:",
        "  - {owner: Hallin collection, until: 1988, sale: Kaldhamn autumn sale, lot: 212, publish: yes}",
        "  - {owner: a neighbour, since: 1988, until: 1999-05}",
    )
    files = {"content/coins/a.md": coin("1891", *owners)}
    published = "Hallin collection, until 1988; Kaldhamn autumn sale, lot 212"
    assert planned(files).coin("a").provenance == (published,)
    assert planned(files, Reader.KEEPER).coin("a").provenance == (published, "a neighbour, 1988 to May 1999")


def test_a_disc_that_was_not_found_is_said_so(planned, coin, photo):
    photos = {
        ("a", "obverse"): photo("a" * 32, disc=None, fallback="the background is not plain"),
        ("a", "reverse"): photo("b" * 32),
    }
    view = planned({"content/coins/a.md": coin("1891")}, photos=photos).coin("a")
    assert view.photo_remarks == ("The obverse is shown as a square: the background is not plain.",)


def test_the_measured_diameter_is_the_actual_size_else_that_of_the_standard(planned, coin):
    files = {"content/coins/a.md": coin("1891", "diameter: 26.42 mm"), "content/coins/b.md": coin("1891")}
    found = planned(files)
    assert (found.coin("a").diameter, found.coin("b").diameter) == (2642, 2650)
    assert found.coin("a").actual_size.startswith("26.42 mm across")


def test_a_forgery_is_told_no_metal_content(planned, coin):
    found = planned({"content/coins/a.md": coin("1891", "kind: forgery", "weight: 7.9 g")})
    assert found.fact("a", "Fine silver") is None
    assert not any("Melting" in each for each in found.coin("a").cautions)
    assert found.coin("a").measured.rows[0][3].text == "12.2 % under"


def test_the_keeper_alone_is_warned_about_values(planned, coin):
    files = {"content/coins/a.md": coin("1891")}
    warning = "A value is an opinion. For insurance and sale, ask a licensed valuer."
    assert warning in planned(files, Reader.KEEPER).coin("a").cautions
    assert warning not in planned(files, Reader.CLUB).coin("a").cautions


def test_a_coin_page_leads_up_to_its_denomination(planned, coin):
    frame = planned({"content/coins/a.md": coin("1891")}).pages["coins/a/index.html"].frame
    assert [(each.text, each.address) for each in frame.trail] == [
        ("Home", "index.html"),
        ("Denominations", "denominations/index.html"),
        ("Ort", "denominations/vessmark/ort/index.html"),
    ]
