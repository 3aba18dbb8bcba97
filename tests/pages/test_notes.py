import pytest

from daterun.readers.reader import Reader


@pytest.fixture
def link(planned, coin):
    """Plan one coin whose notes hold one link, beside other coins; give where the link leads."""

    def find(written, files=(), reader=Reader.PUBLIC, **more):
        whole = {"content/coins/a.md": coin("1891", notes=f"See {written}."), **dict(files)}
        (found,) = planned(whole, reader, **more).coin("a").notes.links
        assert found.written == written
        return found

    return find


def test_a_coin_without_notes_has_none(planned, coin):
    assert planned({"content/coins/a.md": coin("1891", notes="  \n")}).coin("a").notes is None


def test_notes_are_handed_on_as_they_were_written(planned, coin):
    note = planned({"content/coins/a.md": coin("1891", notes="Sharp *lettering*.")}).coin("a").notes
    assert note.markdown.strip() == "Sharp *lettering*."
    assert note.links == ()


def test_a_link_leads_to_a_coin_by_its_name(link, coin):
    found = link("[[b]]", {"content/coins/b.md": coin("1892", "grade: VF30")})
    assert (found.text, found.address, found.is_plate) == ("Ort 1892", "coins/b/index.html", False)
    assert [each.name for each in found.sides] == ["reverse"]


def test_a_link_has_the_words_it_is_given(link, coin):
    assert link("[[b|the scarce one]]", {"content/coins/b.md": coin("1892")}).text == "the scarce one"


@pytest.mark.parametrize(
    ("plate", "sides"),
    [("both", ["obverse", "reverse"]), ("obverse", ["obverse"]), ("reverse", ["reverse"])],
)
def test_a_plate_shows_the_sides_it_names(link, coin, plate, sides):
    found = link(f"[[b {plate}]]", {"content/coins/b.md": coin("1892", "grade: VF30")})
    assert found.is_plate
    assert [each.name for each in found.sides] == sides
    assert found.caption == "Ort 1892. VF30."


def test_a_plate_tells_what_to_see_of_a_variety(link, coin):
    found = link("[[b both]]", {"content/coins/b.md": coin("1899", "variety: old-spelling")})
    assert found.caption == "Ort 1899, old spelling. Not graded, value spelt OORT."
    own = link("[[b both|Spelt OORT]]", {"content/coins/b.md": coin("1899", "variety: old-spelling")})
    assert own.caption == "Spelt OORT"


@pytest.mark.parametrize("written", ["[[tray/b]]", "[[tray/b both]]"])
def test_a_link_to_a_coin_that_the_reader_does_not_see_is_words_alone(link, coin, written):
    files = {"content/coins/tray/b.md": coin("1892", "parted: {on: 2024-05-01, how: sold}")}
    hidden = link(written, files)
    assert (hidden.text, hidden.address, hidden.is_plate, hidden.sides) == ("tray b", "", False, ())
    assert link(written, files, Reader.KEEPER).address == "coins/tray/b/index.html"


def test_a_link_to_a_date_leads_to_its_page_held_or_not(link, coin):
    gap = link("[[ort 1892]]")
    assert (gap.text, gap.address, gap.sides) == ("Ort 1892", "dates/1892/index.html", ())
    held = link("[[ort 1892]]", {"content/coins/b.md": coin("1892")})
    assert (held.text, held.address) == ("Ort 1892", "dates/1892/index.html")
    assert held.sides[0].drawing.text.startswith("Ort 1892, reverse")


def test_a_date_of_proofs_alone_is_shown_by_the_proof(link, coin):
    found = link("[[ort 1894]]", {"content/coins/b.md": coin("1894", "strike: proof")})
    assert found.sides[0].drawing.text.startswith("Ort 1894, proof, reverse")


def test_a_date_is_not_shown_by_a_forgery_or_by_a_coin_sold(link, coin):
    files = {
        "content/coins/b.md": coin("1892", "kind: forgery"),
        "content/coins/c.md": coin("1892", "parted: {how: sold}"),
    }
    assert link("[[ort 1892]]", files, Reader.KEEPER).sides == ()


@pytest.mark.parametrize("written", ["1895-96", "1895–96", "1895/96", "1895/1896"])
def test_a_double_date_is_found_however_it_is_written(link, written):
    found = link(f"[[ort {written}]]")
    assert (found.text, found.address) == ("Ort 1895–96", "dates/1895/index.html")


def test_a_date_of_another_calendar_is_found_by_its_label(link, series):
    ort = series("1891: 5; AH 1320: 5", "labels: {AH 1320: 1902}")
    found = link("[[ort ah 1320]]", {"content/series/vessmark/ort.yaml": ort})
    assert (found.text, found.address) == ("Ort AH 1320", "dates/1902/index.html")


def test_an_issue_without_a_date_leads_to_the_page_of_the_undated(link, series):
    found = link("[[ort undated]]", {"content/series/vessmark/ort.yaml": series("1891: 5; undated: 900")})
    assert (found.text, found.address) == ("Ort undated", "dates/undated/index.html")


@pytest.mark.parametrize(
    ("written", "text"),
    [("[[ort 1850]]", "Ort 1850"), ("[[mark 1850]]", "mark 1850"), ("[[ort 185]]", "Ort 185")],
)
def test_a_link_to_a_date_that_is_not_there_is_words_alone(link, written, text):
    found = link(written)
    assert (found.text, found.address) == (text, "")


def test_a_link_written_twice_leads_once(planned, coin):
    notes = "See [[ort 1892]], and again [[ort 1892]]; `[[ort 1893]]` is code."
    found = planned({"content/coins/a.md": coin("1891", notes=notes)}).coin("a").notes
    assert [each.written for each in found.links] == ["[[ort 1892]]"]
