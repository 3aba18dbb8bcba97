import sys
from pathlib import Path

import pytest

from daterun.checks.catalogue import check_catalogue
from daterun.exchange.guessing import TARGETS, guess_columns, guess_decimals
from daterun.exchange.headings import fields_by_heading
from daterun.exchange.intake import LEDGER, take_in, write
from daterun.exchange.mapping import (
    ColumnMapping,
    complete,
    mapping_path,
    read_mapping,
    write_mapping,
)
from daterun.exchange.rejects import write_rejects
from daterun.exchange.seriesnames import SeriesNames
from daterun.exchange.start import lay_out
from daterun.exchange.tables import read_table
from daterun.problems import CannotContinue, Misread
from daterun.records.catalogue import read_catalogue

sys.path.insert(0, str(Path(__file__).parent))
from messy import HEADINGS, messy_rows

sys.path.pop(0)


@pytest.fixture
def folder(catalogue_folder):
    return catalogue_folder({})


@pytest.fixture
def taking(folder, tmp_path):
    """Take a text in as a table; give what it comes to."""

    def take(text, **said):
        path = tmp_path / "a.csv"
        path.write_text(text, encoding="utf-8", newline="")
        table = read_table(path)
        mapping = ColumnMapping(guess_columns(table), **said)
        return take_in(folder, read_catalogue(folder)[0], table, mapping)

    return take


def reasons(intake):
    return [(each.row.number, each.column, each.reason.partition(";")[0]) for each in intake.rejects]


def test_a_row_becomes_a_coin_with_all_that_its_columns_say(taking, folder):
    intake = taking(
        "Coin,Year,Condition,Paid,Bought,Seller,Weight (g),Die axis,Location,Comments\n"
        'Ort,1897,GVF/EF,£4.50,3 April 2019,"Moss, A.",8.97,12,tray 4,=1+1\n'
    )
    assert reasons(intake) == []
    write(folder, intake)
    assert (folder / "content/coins/ort/1897.md").read_text(encoding="utf-8") == (
        "---\nseries: ort\ndate: 1897\ngrade: GVF/EF\nweight: 8.97 g\naxis: 12h\n"
        'acquired: {on: 2019-04-03, from: "Moss, A.", price: 4.50 GBP}\nkept: tray 4\n---\n=1+1\n'
    )
    catalogue, problems = read_catalogue(folder)
    assert [*problems, *check_catalogue(catalogue, None)] == []


def test_taking_in_twice_adds_nothing(taking, folder):
    text = "Series,Year,Grade\nort,1897,VF\nort,1897,VF\nort,1900,EF\n"
    write(folder, taking(text))
    assert len(list((folder / "content/coins").rglob("*.md"))) == 3
    again = taking(text)
    assert (again.taken, again.there) == ((), (2, 3, 4))


def test_one_more_like_those_there_is_one_more(taking, folder):
    write(folder, taking("Series,Year\nort,1897\n"))
    assert [each.coin.id for each in taking("Series,Year\nort,1897\nort,1897\n").taken] == ["ort/1897-2"]


def test_a_coin_corrected_since_is_not_taken_in_again(taking, folder):
    text = "Series,Year,Grade\nort,1897,VF\n"
    write(folder, taking(text))
    path = folder / "content/coins/ort/1897.md"
    path.write_text(path.read_text(encoding="utf-8").replace("grade: VF", "grade: F"), encoding="utf-8")
    assert taking(text).there == (2,)
    path.unlink()
    assert [each.coin.id for each in taking(text).taken] == ["ort/1897"]


def test_what_was_taken_in_is_known_by_what_it_says_where_the_ledger_is_lost(taking, folder):
    text = "Series,Year,Grade\nort,1897,VF\n"
    write(folder, taking(text))
    (folder / LEDGER).unlink()
    assert taking(text).there == (2,)
    (folder / LEDGER).write_text("[broken", encoding="utf-8")
    assert taking(text).there == (2,)


def test_a_coin_of_the_same_id_is_never_written_over(taking, folder, coin):
    path = folder / "content/coins/a.md"
    path.parent.mkdir(parents=True)
    path.write_text(coin("1891", "grade: EF40"), encoding="utf-8")
    intake = taking("id,Series,Year\na,ort,1897\n")
    assert reasons(intake) == [(2, "id", "the coin a is there already and says otherwise")]
    assert intake.taken == ()


@pytest.mark.parametrize("id_", ["../a", "/a", "a//b", ".a", "a\\b", "a:b"])
def test_an_id_that_leads_astray_is_rejected(taking, id_):
    assert [each.column for each in taking(f"id,Series,Year\n{id_},ort,1897\n").rejects] == ["id"]


@pytest.mark.parametrize(
    ("text", "rejects"),
    [
        ("Series,Year\nort,1898\n", [(2, "Year", "none of the series Ort was struck with the date 1898")]),
        ("Series,Year\nort,189\n", [(2, "Year", '"189" is not a year')]),
        ("Series,Year\nort,\n", [(2, "Year", "no date is said")]),
        ("Series,Year\ncrown,1897\n", [(2, "Series", 'there is no series "crown"')]),
        ("Year,Grade\n1897,VF\n", [(2, "", "no series is said")]),
        ("Series,Year,Grade\nort,1897,lovely\n", [(2, "Grade", 'grade "lovely" is on no scale')]),
        ("Series,Year,Paid\nort,1897,$12\n", [(2, "Paid", '"$12" does not say which dollar')]),
        ("Series,Year,How\nort,1897,sold\n", [(2, "How", 'no coin comes in by being "sold"')]),
        ("Series,Year\nort,1902\n", [(2, "Year", "1902 has 2 mints, and the coin does not say which it is")]),
        ("Series,Year\nort,1897,what\n", [(2, "", "the row has more cells than there are headings")]),
        ("Series,Year,Weight\nort,1897,12 g\n", None),
    ],
)
def test_a_row_that_gives_no_coin_is_rejected_by_row_column_and_reason(taking, text, rejects):
    found = reasons(taking(text))
    if rejects is None:
        assert [each[:2] for each in found] == [(2, "Weight")]
    else:
        assert [each[:2] for each in found] == [each[:2] for each in rejects]
        assert found[0][2].startswith(rejects[0][2])


def test_the_one_grade_of_a_row_with_a_grading_firm_is_the_certificates(taking, folder):
    intake = taking(
        "Series,Year,Grade,Slab,Cert no\nort,1897,AU55,North Pier,4417\nort,1900,VF30,,\nort,1901,EF40,raw,\n"
    )
    assert reasons(intake) == []
    graded, *own = [each.text for each in intake.taken]
    assert "certificate: {by: North Pier, grade: AU55, number: 4417}\n" in graded
    assert "\ngrade:" not in graded
    assert ["\ngrade: VF30\n" in own[0], "\ngrade: EF40\n" in own[1]] == [True, True]
    assert not [each for each in own if "certificate" in each]
    write(folder, intake)
    catalogue, problems = read_catalogue(folder)
    assert [*problems, *check_catalogue(catalogue, None)] == []


@pytest.mark.parametrize(
    ("text", "reject"),
    [
        (
            "Series,Year,Grade,Slab,Slab grade\nort,1897,AU55,North,\n",
            (2, "Slab grade", "no grade is said for the certificate; write it under Slab grade"),
        ),
        (
            "Series,Year,Grade,Slab\nort,1897,AU55,yes\n",
            (2, "Slab", '"yes" does not say which firm graded the coin; write its name'),
        ),
        ("Series,Year,Grade,Slab\nort,1897,lovely,North\n", (2, "Grade", 'grade "lovely" is on no scale')),
    ],
)
def test_a_certificate_without_firm_or_grade_is_rejected_by_its_column(taking, text, reject):
    (found,) = taking(text).rejects
    assert (found.row.number, found.column, found.reason[: len(reject[2])]) == reject


def test_of_two_rows_with_one_certificate_number_the_second_is_rejected(taking):
    intake = taking(
        "Series,Year,Grader,Certified grade,Cert no\nort,1897,North,VF30,7\nort,1900,North,VF30,7\n"
    )
    assert [each.row.number for each in intake.rejects] == [3]


def test_a_mint_mark_may_stand_with_the_date(taking):
    (taken,) = taking("Series,Year\nort,1902 K\n").taken
    assert (taken.coin.date.key, taken.coin.mint, taken.coin.id) == ("1902", "K", "ort/1902-k")


def test_series_go_by_name_face_and_issuer(taking):
    text = "Country,Coin,Year\nKingdom of Vessmark,Orts,1897\nvessmark,1 ort,1900\nNowhere,Orts,1901\n"
    intake = taking(text)
    assert [each.coin.series for each in intake.taken] == ["ort", "ort"]
    assert reasons(intake) == [(4, "Coin", '"Nowhere" is no issuer of the catalogue')]


STERLING = {
    "half-crown": ("Halfcrown", "Half-Crown", "HALF CROWNS", "2/6", "2s 6d", "2s6d", "half crown"),
    "florin": ("2/-", "Two Shillings", "two-shillings", "2s", "Florins"),
    "penny": ("1d", "One Penny", "Pennies", "1 penny"),
    "halfpenny": ("½d", "1/2d", "Half Penny", "half-pennies"),
    "farthing": ("¼d", "1/4d", "Farthings"),
    "crown": ("5/-", "5s", "five shillings", "Crowns"),
    "threepence": ("Silver threepence", "Threepence (silver)"),
    "brass-threepence": ("Brass threepence", "threepence, brass", "Threepence (brass)"),
}


@pytest.mark.parametrize("series", STERLING)
def test_a_series_goes_by_its_face_value_however_that_is_written(tmp_path, series):
    lay_out(tmp_path / "coins", ["united-kingdom"])
    names = SeriesNames(read_catalogue(tmp_path / "coins")[0])
    assert {names.find(word, "", 1937).id for word in STERLING[series]} == {series}


def test_a_face_value_of_two_series_is_settled_by_the_year_or_asked_about(tmp_path):
    lay_out(tmp_path / "coins", ["united-kingdom", "new-zealand"])
    names = SeriesNames(read_catalogue(tmp_path / "coins")[0])
    assert names.find("3d", "united-kingdom", 1911).key == "united-kingdom/threepence"
    assert names.find("2/6", "New Zealand", 1933).key == "new-zealand/half-crown"
    with pytest.raises(Misread, match=r'"2/6" can be .*new-zealand/half-crown or united-kingdom/half-crown'):
        names.find("2/6", "", 1933)
    with pytest.raises(Misread, match='there is no series "7/6"'):
        names.find("7/6", "", 1933)


def test_coins_of_a_series_lie_together_whatever_word_a_row_has_for_it(taking):
    intake = taking("Series,Year\nort,1897\nvessmark/ort,1897\nOrts,1900\n")
    assert [each.coin.id for each in intake.taken] == ["ort/1897", "ort/1897-2", "ort/1900"]


def test_amounts_are_in_the_currency_that_a_column_names(taking):
    intake = taking(
        "Series,Year,Currency,Paid,Value\nort,1897,eur,12,£20\nort,1900,,5,\nort,1901,€,7,\nort,1904,euros,7,\n",
        currency="GBP",
    )
    paid = [(str(each.coin.acquired.price), each.coin.value) for each in intake.taken]
    assert [each for each, _ in paid] == ["12 EUR", "5 GBP", "7 EUR"]
    assert str(paid[0][1].amount) == "20 GBP"
    assert reasons(intake)[0][:2] == (5, "Currency")


def test_photos_can_be_named_in_columns(taking):
    (taken,) = taking("Series,Year,Obverse photo,Reverse photo\nort,1897,1897/IMG_1; a.jpg,IMG_2.jpg\n").taken
    assert "photos: {obverse: 1897/IMG_1; a.jpg, reverse: IMG_2.jpg}\n" in taken.text
    assert [each.file for each in taken.coin.photos.values()] == ["1897/IMG_1; a.jpg", "IMG_2.jpg"]


@pytest.mark.parametrize(
    ("weights", "decimals"),
    [
        (("8,97", "9,000", ""), "comma"),
        (("9,000",), ""),
        (("8,97", "8.95"), ""),
        (("8.97 g", "9.0"), ""),
        (("1.250,00 EUR",), "comma"),
        (("1,250.00",), ""),
        (("1 234,5",), "comma"),
        (("heavy",), ""),
    ],
)
def test_decimals_are_told_by_numbers_that_leave_no_doubt(tmp_path, weights, decimals):
    path = tmp_path / "a.csv"
    path.write_text("Year;Weight\n" + "".join(f"1897;{each}\n" for each in weights), encoding="utf-8")
    table = read_table(path)
    assert guess_decimals(table, guess_columns(table)) == decimals


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("Nominal", "series"),
        ("Jahrgang", "date"),
        ("Münzzeichen", "mint"),
        ("Gewicht (g)", "weight"),
        ("Ø mm", "diameter"),
        ("Gekauft am", "acquired on"),
        ("Währung", "currency"),
        ("Valeur faciale", "series"),
        ("Année", "date"),
        ("Date d'achat", "acquired on"),
        ("POIDS", "weight"),
        ("WEIGHT_G", "weight"),
        ("acquired on", "acquired on"),
    ],
)
def test_headings_are_known_in_three_languages(tmp_path, heading, field):
    path = tmp_path / "a.csv"
    path.write_text(f"{heading},Colour\n1897,red\n", encoding="utf-8")
    assert guess_columns(read_table(path))[heading] == field


@pytest.mark.parametrize(
    ("heading", "cell", "field"),
    [
        ("Value", "20", "value amount"),
        ("Value", "{amount: 20 GBP}", "value"),
        ("Acquired", "2019-04-03", "acquired on"),
        ("Certificate", "4417", "certificate number"),
        ("Parted", "2019-04-03", "ignored"),
    ],
)
def test_a_heading_of_several_parts_is_the_usual_one_unless_its_cells_hold_them_all(
    tmp_path, heading, cell, field
):
    path = tmp_path / "a.csv"
    path.write_text(f"Year;{heading}\n1897;\n1900;{cell}\n", encoding="utf-8")
    assert guess_columns(read_table(path))[heading] == field


def test_every_heading_that_is_known_is_that_of_a_field():
    assert set(fields_by_heading().values()) <= set(TARGETS)


def test_a_series_can_be_said_for_all_rows(taking):
    assert [each.coin.id for each in taking("Year\n1897\n", series="ort").taken] == ["ort/1897"]


def test_years_are_found_without_a_heading_that_says_so(tmp_path):
    (tmp_path / "a.csv").write_text("Coin,When struck,Grade\nort,1897,VF\nort,1900,EF\n", encoding="utf-8")
    assert guess_columns(read_table(tmp_path / "a.csv")) == {
        "Coin": "series",
        "When struck": "date",
        "Grade": "grade",
    }


def test_a_mapping_reads_back_as_it_was_written(tmp_path):
    mapping = ColumnMapping({"Weight: g": "weight", "#": "ignored"}, "day first", "comma", "GBP", "ort")
    path = mapping_path(tmp_path / "a.csv")
    assert path.name == "a.csv.intake.yaml"
    assert read_mapping(path) is None
    path.write_text(write_mapping(mapping), encoding="utf-8")
    assert read_mapping(path) == mapping


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("columns: {Year: dat}", 'reads "Year" as "dat", which is no field: did you mean "date"'),
        ("column: {Year: date}", 'has no "column"'),
        ("days: first", "says days: first"),
        ("columns: [", "is no mapping of columns"),
    ],
)
def test_a_mapping_that_cannot_be_used_is_told(tmp_path, text, said):
    path = tmp_path / "a.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(CannotContinue, match=said):
        read_mapping(path)


def test_a_column_that_the_mapping_does_not_know_is_guessed_where_its_field_is_free():
    mapping = ColumnMapping({"Jahr": "date", "Grade": "ignored"})
    guessed = {"Jahr": "ignored", "Year": "date", "Grade": "grade", "Notes": "notes"}
    assert complete(mapping, guessed) == {
        "Jahr": "date",
        "Year": "ignored",
        "Grade": "ignored",
        "Notes": "notes",
    }


def test_a_messy_table_comes_to_sound_coins_and_rejects_and_nothing_else(folder, tmp_path):
    rows = list(messy_rows())
    path = tmp_path / "mine.csv"
    path.write_bytes("\r\n".join([HEADINGS, *(row for _, row in rows)]).encode("cp1252"))
    table = read_table(path)
    assert (table.separator, table.encoding) == (";", "cp1252")
    mapping = ColumnMapping(guess_columns(table), currency="GBP")
    expected = {"coin": [], "blank": [], "rejected": []}
    for number, (sort, _) in enumerate(rows, start=2):
        expected[sort if sort in ("coin", "blank") else "rejected"].append(number)

    intake = take_in(folder, read_catalogue(folder)[0], table, mapping)
    assert [each.row.number for each in intake.rejects] == expected["rejected"]
    assert [each.row.number for each in intake.taken] == expected["coin"]
    assert intake.blank == len(expected["blank"])

    write(folder, intake)
    catalogue, problems = read_catalogue(folder)
    assert [each for each in (*problems, *check_catalogue(catalogue, None)) if each.is_error] == []
    assert len(catalogue.coins) == len(expected["coin"])
    assert {
        each.acquired.price.currency for each in catalogue.coins if each.acquired and each.acquired.price
    } == {
        "EUR",
        "GBP",
    }
    again = take_in(folder, catalogue, table, mapping)
    assert (again.taken, len(again.there)) == ((), len(expected["coin"]))

    said = ColumnMapping(guess_columns(table), "day first", currency="GBP")
    unclear = [number for number, (sort, _) in enumerate(rows, start=2) if sort == "unclear day"]
    assert [each.row.number for each in take_in(folder, catalogue, table, said).taken] == unclear

    rejects = tmp_path / "rejects.csv"
    rejects.write_bytes(write_rejects(table, intake.rejects))
    mended = read_table(rejects)
    assert len(mended.rows) == len(expected["rejected"])
    assert mended.columns[-3:] == ("row", "column to blame", "why rejected")
    assert [row.cells[-3] for row in mended.rows] == [str(number) for number in expected["rejected"]]
