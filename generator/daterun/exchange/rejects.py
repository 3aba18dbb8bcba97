"""The rows that an intake rejects, as a table of their own with the reasons, to be mended and taken in."""

import csv
import io
from collections.abc import Iterable

from daterun.exchange.guarding import guard
from daterun.exchange.intake import Reject
from daterun.exchange.tables import Table

REASON = "why rejected"


def write_rejects(table: Table, rejects: Iterable[Reject]) -> bytes:
    """Write rejected rows as they were, each with the column to blame and the reason behind them."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    columns = [each for each in table.columns if each not in ("row", "column to blame", REASON)]
    places = [table.columns.index(each) for each in columns]
    writer.writerow([*(guard(each) for each in columns), "row", "column to blame", REASON])
    for each in rejects:
        cells = [guard(each.row.cells[place]) for place in places]
        writer.writerow([*cells, each.row.number, guard(each.column), guard(each.reason)])
    return out.getvalue().encode("utf-8-sig")
