"""From an empty folder and the table that a keeper has to a site for a host, by the commands alone."""

import csv
import datetime
import importlib.util
from pathlib import Path

import pytest

from daterun.command.main import main

HERE = Path(__file__).parent


def load(path):
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


MESSY = load(HERE / "exchange/messy.py")

GERMAN = """Nominal;Jahrgang;Erhaltung;Gewicht (g);Ø mm;Stempelstellung;Kaufpreis;Währung;Gekauft am;Verkäufer;\
Aufbewahrung;Bemerkungen
Florin;1921;VF;11,21;28,5;12;12,50;GBP;3.4.2019;A. Moß;Schrank 1;=SUMME(A1:A3)
Florin;1926;GVF;11,305;28,5;12;1.250,00;EUR;13.4.2019;R. Tarn;Schrank 1;schöne Patina
;;;;;;;;;;;
Half crown;1935;EF/VF;14,10;32,3;12;45;£;3. März 2020;R. Tarn;Schrank 2;"Zeile 1
Zeile 2; mit Strichpunkt"
Penny;1919;F;9,4;30,8;12;2,00;GBP;2021;;;+ Randfehler
Penny;1919 KN;F;9,4;30,8;12;2,00;GBP;2021;;;+ Randfehler
Sixpence;1927;ss;2,83;19,4;12;;;;;;@home
 ;;;;;;;;;;;
Summe;;;;;;1.311,50;;;;;
"""
"""Invented, as a German spreadsheet saves it; the grade ss is on neither scale, and 1919 has three mints."""


@pytest.fixture
def journey(tmp_path, monkeypatch, capsys):
    """Run commands as they are typed; each gives its exit code and what it said."""
    monkeypatch.chdir(tmp_path)

    def run(*words):
        code = main([str(each) for each in words])
        said = capsys.readouterr()
        return code, said.out + said.err

    return run


def notes_of(path):
    return Path(path).read_text(encoding="utf-8").rpartition("---\n")[2].removesuffix("\n")


def pages_of_coins(site):
    return len(list((Path(site) / "coins/ort").glob("*/index.html")))


def test_a_messy_table_of_three_hundred_rows_comes_to_a_site(journey, monkeypatch):
    rows = list(MESSY.messy_rows())
    Path("my-orts.csv").write_bytes("\r\n".join([MESSY.HEADINGS, *(row for _, row in rows)]).encode("cp1252"))
    assert "daterun intake --folder my-coins my-orts.csv" in journey()[1]
    assert journey("start", "my-coins")[0] == 0
    for name in ("issuers/vessmark.yaml", "series/vessmark/ort.yaml"):
        written = (HERE / "cases/base/content" / name).read_bytes()
        (Path("my-coins/content") / name).write_bytes(written)
    for name in ("coins/ort/1899.md", "pages/a-first-coin.md"):
        (Path("my-coins/content") / name).unlink()
    monkeypatch.chdir("my-coins")
    said = journey("intake", "../my-orts.csv", "--day-first", "--currency", "GBP", "--rejects", "../rest.csv")
    coins = sum(sort in ("coin", "unclear day") for sort, _ in rows)
    rejected = sum(sort not in ("coin", "unclear day", "blank") for sort, _ in rows)
    assert f"300 rows: {coins} coins new, " in said[1]
    assert f", {rejected} rejected.\n" in said[1]
    assert journey("intake", "../my-orts.csv", "--write")[1].endswith(f"Wrote {coins} coins.\n")
    assert journey("check")[0] == 0
    assert journey("build", "--web", "https://example.org/coins/")[0] == 0
    assert pages_of_coins("output/public") == coins
    assert "The site is built" in journey()[1]

    mended = (
        Path("../rest.csv").read_text(encoding="utf-8-sig").replace("orrt,", "ort,").replace("19O2", "1892")
    )
    Path("../rest.csv").write_text(mended, encoding="utf-8-sig")
    code, said = journey("intake", "../rest.csv", "--write")
    assert code == 1
    assert "Wrote " in said and "names no currency" not in said
    assert journey("check")[0] == 0


def test_a_german_table_is_read_without_a_word_on_columns_decimals_or_currency(journey, monkeypatch):
    Path("muenzen.csv").write_bytes(GERMAN.replace("\n", "\r\n").encode("cp1252"))
    assert journey("start", "my-coins", "--series", "united-kingdom")[0] == 0
    monkeypatch.chdir("my-coins")
    code, said = journey("intake", "../muenzen.csv")
    assert code == 1
    assert 'of "3.4.2019" it is not said whether day or month comes first; say --day-first' in said
    code, said = journey("intake", "../muenzen.csv", "--day-first", "--write")
    assert "ignored" not in said
    assert "Read with days: day first, decimals: comma.\n" in said
    assert "9 rows: 4 coins new, 2 blank, 3 rejected.\n" in said
    assert [line for line in said.splitlines() if line.startswith("  row ")] == [
        "  row 6, Jahrgang: 1919 has 3 mints, and the coin does not say which it is; write mint: none, H or KN",
        '  row 8, Erhaltung: grade "ss" is on no scale; write a grade such as VF30, EF, GVF or MS-64',
        "  row 10, Jahrgang: no date is said",
    ]
    florin = Path("content/coins/florin/1926.md").read_text(encoding="utf-8")
    assert "weight: 11.305 g\n" in florin
    assert "acquired: {on: 2019-04-13, from: R. Tarn, price: 1250.00 EUR}\n" in florin
    assert "acquired: {on: 2020-03-03, " in Path("content/coins/half-crown/1935.md").read_text(
        encoding="utf-8"
    )
    assert notes_of("content/coins/florin/1921.md") == "=SUMME(A1:A3)"
    assert notes_of("content/coins/half-crown/1935.md") == "Zeile 1\nZeile 2; mit Strichpunkt"
    assert "mint: KN" in Path("content/coins/penny/1919-kn.md").read_text(encoding="utf-8")
    assert journey("check") == (0, "No problems in 4 coins.\n")
    assert journey("build")[0] == 0
    page = Path("output/public/coins/florin/1926/index.html").read_text(encoding="utf-8")
    assert "schöne Patina" in page
    assert "R. Tarn" not in page


def test_a_workbook_comes_to_the_same_coins_as_its_table(journey, monkeypatch):
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for row in csv.reader(GERMAN.splitlines(keepends=True), delimiter=";"):
        book.active.append([each or None for each in row])
    for line in book.active.iter_rows(min_row=2):
        for cell in line:
            cell.data_type = "s" if isinstance(cell.value, str) else cell.data_type
    book.active["B2"].value = 1921
    book.active["D2"].value = 11.21
    book.active["D3"].value = 11.305
    book.active["G3"].value = 1250.0
    book.active["I2"].value = datetime.datetime(2019, 4, 3)
    book.save("muenzen.xlsx")
    Path("muenzen.csv").write_bytes(GERMAN.encode("cp1252"))
    texts = []
    for number, table in enumerate(("muenzen.csv", "muenzen.xlsx")):
        assert journey("start", f"coins-{number}", "--series", "united-kingdom")[0] == 0
        said = journey("intake", "--folder", f"coins-{number}", table, "--day-first", "--write")
        assert "Wrote 4 coins." in said[1]
        found = sorted(Path(f"coins-{number}/content/coins").rglob("*.md"))
        texts.append({each.name: each.read_text(encoding="utf-8") for each in found})
    assert texts[1].pop("1926.md") == texts[0].pop("1926.md").replace("1250.00 EUR", "1250 EUR")
    assert texts[0] == texts[1]
