"""Tables as spreadsheets write them, read into rows of texts: any usual separator and encoding, or a workbook.

What the columns mean is left to ``guessing.py``.
"""

import csv
import datetime
import io
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Any

from daterun.exchange.guarding import unguard
from daterun.problems import CannotContinue

SEPARATORS = (",", ";", "\t", "|")
WORKBOOKS = (".xlsx", ".xlsm")
LARGEST = 100_000_000
"""Bytes. Five thousand coins with notes are some two million."""


class Figure(str):
    """A cell that a workbook holds as a number: whatever else the table does, its point parts the decimals."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number as the spreadsheet shows it, from 1, and its cells."""

    number: int
    cells: tuple[str, ...]

    @property
    def is_blank(self) -> bool:
        return not any(each.strip() for each in self.cells)


@dataclass(frozen=True, slots=True)
class Table:
    """A table with the names of its columns, each once; every row has a cell for each, and perhaps more."""

    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    separator: str
    encoding: str


def read_table(path: Path, separator: str = "", encoding: str = "") -> Table:
    """Read a table from a file of separated values or a workbook; separator and encoding are found unless said.

    Raise CannotContinue where there is none, or it has no row of headings.
    """
    try:
        data = path.read_bytes() if path.stat().st_size <= LARGEST else None
    except OSError as error:
        raise CannotContinue(f"{path} cannot be read: {error.strerror or error}") from None
    if data is None:
        raise CannotContinue(f"{path} is too large for a table of coins")
    if path.suffix.lower() in WORKBOOKS:
        return _headed(path, _workbook(path), "", "")
    text, encoding = _decode(path, data, encoding)
    first, _, rest = text.partition("\n")
    if first.startswith("sep=") and len(first.strip()) == 5:
        separator, text = first[4], rest
    separator = separator or _separator(text)
    return _headed(path, _records(path, text, separator), separator, encoding)


def _headed(path: Path, records: Iterable[list[str]], separator: str, encoding: str) -> Table:
    rows = [Row(number, tuple(each)) for number, each in enumerate(records, start=1)]
    head = next((nth for nth, row in enumerate(rows) if not row.is_blank), None)
    if head is None:
        raise CannotContinue(f"{path} has no rows")
    cells = list(rows[head].cells)
    while cells and not cells[-1].strip():
        cells.pop()
    columns = _each_once(cells)
    width = len(columns)
    filled = [Row(row.number, row.cells + ("",) * (width - len(row.cells))) for row in rows[head + 1 :]]
    return Table(columns, tuple(filled), separator, encoding)


def _each_once(names: list[str]) -> tuple[str, ...]:
    found: list[str] = []
    for nth, name in enumerate(names, start=1):
        plain = " ".join(name.split()) or f"column {nth}"
        own, number = plain, 2
        while own in found:
            own, number = f"{plain} ({number})", number + 1
        found.append(own)
    return tuple(found)


def _decode(path: Path, data: bytes, encoding: str) -> tuple[str, str]:
    """Decode by the mark at the head, else as UTF-8 where it is that, else as Windows wrote it in the West."""
    tried = [encoding] if encoding else _encodings(data)
    for each in tried:
        try:
            return data.decode(each), each
        except (UnicodeDecodeError, LookupError):
            continue
    raise CannotContinue(f"{path} is no text in {' or '.join(tried)}; save it as UTF-8")


def _encodings(data: bytes) -> list[str]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ["utf-16"]
    head = data[:1000]
    if head[1::2].count(0) > len(head) // 4:
        return ["utf-16-le"]
    if head[0::2].count(0) > len(head) // 4:
        return ["utf-16-be"]
    return ["utf-8-sig", "cp1252", "latin-1"]


def _separator(text: str) -> str:
    """Choose the separator that cuts the first rows into the same number of cells, and into most."""
    best, score = ",", (0, 0)
    for each in SEPARATORS:
        try:
            rows = list(islice(csv.reader(io.StringIO(text, newline=""), delimiter=each), 30))
        except csv.Error:
            continue
        widths = [len(row) for row in rows if any(cell.strip() for cell in row)]
        if widths and widths[0] > 1:
            found = (sum(width == widths[0] for width in widths) * 10 // len(widths), widths[0])
            if found > score:
                best, score = each, found
    return best


def _records(path: Path, text: str, separator: str) -> list[list[str]]:
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
        return [[unguard(cell.replace("\r\n", "\n").replace("\r", "\n")) for cell in row] for row in reader]
    except csv.Error as error:
        raise CannotContinue(f"{path} cannot be read as a table: {error}") from None


def _workbook(path: Path) -> list[list[str]]:
    try:
        import openpyxl  # type: ignore[import-untyped, import-not-found, unused-ignore]
    except ImportError:
        raise CannotContinue(
            "workbooks need openpyxl: pip install openpyxl, or save the sheet as CSV"
        ) from None
    shown = _cells(path, openpyxl.load_workbook, is_reckoned=True)
    if not _has_formulas(path):
        return [[_shown(value) for value in row] for row in shown]
    typed = _cells(path, openpyxl.load_workbook, is_reckoned=False)
    return [
        [_shown(value if value is not None else formula) for value, formula in zip(row, its, strict=True)]
        for row, its in zip(shown, typed, strict=True)
    ]


def _has_formulas(path: Path) -> bool:
    with zipfile.ZipFile(path) as whole:
        sheets = [each for each in whole.namelist() if each.startswith("xl/worksheets/")]
        return any(b"<f>" in data or b"<f " in data for data in map(whole.read, sheets))


def _cells(path: Path, load: Callable[..., Any], is_reckoned: bool) -> list[tuple[object, ...]]:
    """Read the first sheet: what its formulas came to when it was last reckoned, or else the formulas."""
    try:
        book = load(path, read_only=True, data_only=is_reckoned)
    except Exception as error:
        raise CannotContinue(f"{path} cannot be read as a workbook: {error}") from None
    try:
        return list(book.worksheets[0].iter_rows(values_only=True))
    finally:
        book.close()


def _shown(value: object) -> str:
    """Write a cell of a workbook as a spreadsheet shows it: to fifteen figures, days by year first."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case float() if value.is_integer():
            return Figure(int(value))
        case float():
            return Figure(f"{value:.15g}")
        case datetime.datetime():
            return value.date().isoformat()
        case datetime.date():
            return value.isoformat()
        case _:
            return str(value)
