"""A spreadsheet taken in as it is typed: shown first, written when asked for, and nothing written over."""

import pytest

from daterun.command.main import main


def run(capsys, *arguments):
    code = main([str(each) for each in arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "mine.csv"
    path.write_text(
        "Coin;Year;Paid;Bought;Colour\nOrt;1897;12;3/4/2019;red\nOrt;1898;;;\n\n", encoding="utf-8"
    )
    return path


@pytest.fixture
def folder(catalogue_folder):
    return catalogue_folder({})


def test_a_table_is_shown_first_and_nothing_is_written(capsys, folder, table):
    code, out, err = run(capsys, "intake", "--folder", folder, table, "--day-first", "--currency", "gbp")
    assert code == 1
    assert out.splitlines() == [
        f"Columns, as kept in {table}.intake.yaml:",
        "  Coin    → series",
        "  Year    → date",
        "  Paid    → acquired price",
        "  Bought  → acquired on",
        "  Colour  – ignored",
        "Read with days: day first, currency: GBP.",
        "Row 2 is ort/1897: series: ort; date: 1897; acquired: {on: 2019-04-03, price: 12 GBP}",
        "3 rows: 1 coin new, 1 blank, 1 rejected.",
        "  row 3, Year: none of the series Ort was struck with the date 1898; look at the date again; "
        "if the coin is no regular one, say so with kind: and departs:",
    ]
    assert err == "Nothing was written; say --write to write the coins.\n"
    assert not (folder / "content/coins").exists()


def test_what_was_said_once_is_kept_beside_the_table(capsys, folder, table):
    run(capsys, "intake", "--folder", folder, table, "--day-first", "--currency", "GBP")
    kept = table.with_name("mine.csv.intake.yaml")
    kept.write_text(
        kept.read_text(encoding="utf-8").replace("Colour: ignored", "Colour: kept"), encoding="utf-8"
    )
    code, out, _ = run(capsys, "intake", "--folder", folder, table, "--write")
    assert code == 1
    assert out.endswith("Wrote 1 coin.\n")
    written = (folder / "content/coins/ort/1897.md").read_text(encoding="utf-8")
    assert "acquired: {on: 2019-04-03, price: 12 GBP}\nkept: red\n" in written
    _, again, _ = run(capsys, "intake", "--folder", folder, table, "--write")
    assert "0 coins new, 1 there already, 1 blank, 1 rejected" in again
    assert again.endswith("Nothing to write.\n")


def test_rejected_rows_can_be_had_as_a_table_which_is_never_written_over(capsys, folder, table, tmp_path):
    rejects = tmp_path / "rejects.csv"
    options = ("--day-first", "--currency", "GBP", "--rejects", rejects)
    run(capsys, "intake", "--folder", folder, table, *options)
    assert (
        rejects.read_text(encoding="utf-8-sig")
        .splitlines()[1]
        .startswith('Ort,1898,,,,3,Year,"none of the series')
    )
    code, _, err = run(capsys, "intake", "--folder", folder, table, *options, "--write")
    assert code == 2
    assert "nothing is written over" in err
    assert not (folder / "content/coins").exists()


def test_rows_that_were_mended_are_taken_in_as_the_table_was(capsys, folder, table, tmp_path):
    rejects = tmp_path / "rejects.csv"
    table.write_text(table.read_text(encoding="utf-8").replace("1898;;;", "1898;1.234,50;4/5/2019;"))
    run(capsys, "intake", "--folder", folder, table, "--day-first", "--currency", "GBP", "--rejects", rejects)
    rejects.write_text(rejects.read_text(encoding="utf-8-sig").replace("Ort,1898", "Ort,1900"), "utf-8")
    code, out, _ = run(capsys, "intake", "--folder", folder, rejects, "--write")
    assert (code, out.splitlines()[-1]) == (0, "Wrote 1 coin.")
    written = (folder / "content/coins/ort/1900.md").read_text(encoding="utf-8")
    assert "acquired: {on: 2019-05-04, price: 1234.50 GBP}" in written


def test_a_table_with_a_comma_in_its_decimals_is_read_so_throughout(capsys, folder, tmp_path):
    path = tmp_path / "mine.csv"
    path.write_text("Coin;Year;Weight\nOrt;1897;8,97\nOrt;1900;9,000\n", encoding="utf-8")
    code, out, _ = run(capsys, "intake", "--folder", folder, path, "--write")
    assert code == 0
    assert "Read with decimals: comma.\n" in out
    assert "weight: 9.000 g" in (folder / "content/coins/ort/1900.md").read_text(encoding="utf-8")
    kept = path.with_name("mine.csv.intake.yaml")
    kept.write_text(kept.read_text("utf-8").replace("decimals: comma", "decimals: point"), "utf-8")
    assert "row 3, Weight: the weight 9000 g is" in run(capsys, "intake", "--folder", folder, path)[1]


def test_rows_rejected_for_one_reason_are_told_together(capsys, folder, tmp_path):
    path = tmp_path / "many.csv"
    rows = ["Ort,1898"] * 7 + ["Otr,1897"] * 3 + ["Ort,189"]
    path.write_text("Coin,Year\n" + "\n".join(rows), encoding="utf-8")
    _, out, _ = run(capsys, "intake", "--folder", folder, path)
    assert "  rows 2, 3, 4 and 4 more, Year: none of the series Ort was struck with the date 1898;" in out
    assert '  rows 9, 10 and 11, Coin: there is no series "Otr"; did you mean "ort"?\n' in out
    assert '  row 12, Year: "189" is not a year; a year has four figures\n' in out
    assert "--rejects FILE" not in out


def test_many_reasons_are_counted_by_column(capsys, folder, tmp_path):
    path = tmp_path / "many.csv"
    rows = "".join(f"Ort,1897,made-up {each}\n" for each in "abcdefghijklmnopqrstuvwxy")
    path.write_text("Coin,Year,Grade\n" + rows, encoding="utf-8")
    _, out, _ = run(capsys, "intake", "--folder", folder, path)
    assert "  and 5 more; in all 25 for Grade. --rejects FILE writes them all.\n" in out


def test_a_table_that_is_not_there_is_wrong_usage(capsys, folder, tmp_path):
    assert run(capsys, "intake", "--folder", folder, tmp_path / "none.csv")[0] == 2


def test_rejects_are_never_written_under_the_name_of_a_workbook(capsys, folder, table, tmp_path):
    rejects = tmp_path / "rest.xlsx"
    code, _, err = run(capsys, "intake", "--folder", folder, table, "--rejects", rejects)
    assert code == 2
    assert "would be a workbook; rejected rows are written as CSV" in err
    assert not rejects.exists()


def test_photos_that_are_not_there_yet_are_told(capsys, folder, tmp_path):
    path = tmp_path / "mine.csv"
    path.write_text("Coin,Year,Photo obverse,Photo reverse\nOrt,1897,a.jpg,b.jpg\n", encoding="utf-8")
    photos = folder / "content/photos"
    _, out, _ = run(capsys, "intake", "--folder", folder, path)
    assert f"The 2 photos, a.jpg first, are not in {photos} yet; put what is lacking there before" in out
    photos.mkdir()
    (photos / "a.jpg").write_bytes(b"")
    _, out, _ = run(capsys, "intake", "--folder", folder, path)
    assert f"The photo b.jpg is not in {photos} yet;" in out
    (photos / "b.jpg").write_bytes(b"")
    assert "yet" not in run(capsys, "intake", "--folder", folder, path)[1]
