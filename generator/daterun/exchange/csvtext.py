"""Coins as a table of separated values that a spreadsheet can open and an intake can read back."""

import csv
import io
from collections.abc import Iterable

from daterun.exchange.columns import COLUMNS, lay_in_columns
from daterun.exchange.guarding import guard
from daterun.exchange.outgoing import Outgoing


def write_csv(coins: Iterable[Outgoing]) -> bytes:
    """Write a row for each coin, with the columns that any of them uses; no cell begins a formula.

    UTF-8 with its mark, by which spreadsheets know it.
    """
    rows = [lay_in_columns(each.id, each.values, each.notes) for each in coins]
    used = {"id", "series", "date"}.union(*rows)
    strange = sorted(column for column in used if column not in COLUMNS)
    columns = [each for each in COLUMNS if each in used] + strange
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(guard(each) for each in columns)
    for row in rows:
        writer.writerow(guard(row.get(column, "")) for column in columns)
    return out.getvalue().encode("utf-8-sig")
