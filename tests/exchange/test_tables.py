import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.exchange.guarding import guard, unguard
from daterun.exchange.tables import read_table
from daterun.problems import CannotContinue

ROWS = [["Year", "Grade", "Notes"], ["1899", "VF–EF", "hair, worn; a | b"], ["1900", "", "é €"]]


def text(separator):
    quoted = [[f'"{cell}"' if set(cell) & set(',;|\t"') else cell for cell in row] for row in ROWS]
    return "\r\n".join(separator.join(row) for row in quoted) + "\r\n"


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_any_usual_separator_and_encoding_is_read(tmp_path, separator, encoding):
    path = tmp_path / "a.csv"
    path.write_bytes(text(separator).encode(encoding))
    table = read_table(path)
    assert [list(table.columns), *(list(row.cells) for row in table.rows)] == ROWS
    assert table.separator == separator
    assert [row.number for row in table.rows] == [2, 3]


def read(tmp_path, content):
    path = tmp_path / "a.csv"
    path.write_text(content, encoding="utf-8", newline="")
    return read_table(path)


def test_a_line_that_names_the_separator_is_minded(tmp_path):
    assert read(tmp_path, "sep=;\nYear;Paid\n1899;4,50\n").columns == ("Year", "Paid")


def test_rows_are_numbered_as_the_spreadsheet_shows_them(tmp_path):
    table = read(tmp_path, 'Year,Notes\n1899,"two\nlines"\n,\n1900,\n')
    assert [(row.number, row.is_blank) for row in table.rows] == [(2, False), (3, True), (4, False)]
    assert table.rows[0].cells[1] == "two\nlines"


def test_headings_stand_in_the_first_row_that_is_not_blank_and_are_each_there_once(tmp_path):
    table = read(tmp_path, ",\nYear,Note,Note,,\n1899,a,b,,\n")
    assert table.columns == ("Year", "Note", "Note (2)")


def test_a_short_row_is_filled_and_a_long_one_keeps_its_cells(tmp_path):
    table = read(tmp_path, "Year,Note\n1899\n1900,a,b\n")
    assert [row.cells for row in table.rows] == [("1899", ""), ("1900", "a", "b")]


@pytest.mark.parametrize(("content", "said"), [("", "has no rows"), (",,\n \n", "has no rows")])
def test_a_table_without_rows_is_told(tmp_path, content, said):
    with pytest.raises(CannotContinue, match=said):
        read(tmp_path, content)


def test_a_file_that_is_not_there_is_told(tmp_path):
    with pytest.raises(CannotContinue, match="cannot be read"):
        read_table(tmp_path / "none.csv")


@given(st.text())
def test_a_guarded_cell_begins_no_formula_and_is_freed_to_what_it_was(cell):
    kept = guard(cell)
    assert kept.lstrip(" \n\xa0")[:1] not in tuple("=+-@\t\r＝＋－＠")
    assert unguard(kept) == cell


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "＝1", '=HYPERLINK("x")'])
def test_what_a_spreadsheet_would_reckon_is_guarded(cell):
    assert guard(cell) == f"'{cell}"


def test_an_apostrophe_of_ones_own_stays():
    assert unguard("'tis worn") == "'tis worn"
    assert unguard("=1+1") == "=1+1"


def test_a_workbook_is_read_with_its_days_and_numbers_as_people_read_them(tmp_path):
    openpyxl = pytest.importorskip("openpyxl")
    import datetime

    book = openpyxl.Workbook()
    book.active.append(["Year", "Paid", "Bought", "Proof", "Notes"])
    book.active.append([1899, 4.5, datetime.datetime(2019, 4, 3), True, None])
    book.active["E2"].value = "=1+1"
    book.active["E2"].data_type = "s"
    book.save(tmp_path / "a.xlsx")
    table = read_table(tmp_path / "a.xlsx")
    assert table.columns == ("Year", "Paid", "Bought", "Proof", "Notes")
    assert table.rows[0].cells == ("1899", "4.5", "2019-04-03", "yes", "=1+1")


def test_a_formula_that_no_spreadsheet_has_reckoned_stays_the_text_it_is(tmp_path):
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    book.active.append(["Year", "Paid", "Notes"])
    book.active.append([1899, "=2*4.5", None])
    book.save(tmp_path / "a.xlsx")
    assert read_table(tmp_path / "a.xlsx").rows[0].cells == ("1899", "=2*4.5", "")


def test_a_number_of_a_workbook_has_the_figures_that_a_spreadsheet_shows(tmp_path):
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    book.active.append(["Year", "Weight"])
    book.active.append([1899.0, 0.1 + 0.2])
    book.save(tmp_path / "a.xlsx")
    assert read_table(tmp_path / "a.xlsx").rows[0].cells == ("1899", "0.3")


def test_a_workbook_that_is_none_is_told(tmp_path):
    pytest.importorskip("openpyxl")
    (tmp_path / "a.xlsx").write_bytes(b"no workbook")
    with pytest.raises(CannotContinue, match="cannot be read as a workbook"):
        read_table(tmp_path / "a.xlsx")
