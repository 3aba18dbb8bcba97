"""Which column of a keeper's table is which field of a coin, guessed from the headings and the cells."""

import re
from collections.abc import Iterable, Mapping

from daterun.exchange.columns import COLUMNS, GROUPS
from daterun.exchange.headings import fields_by_heading
from daterun.exchange.tables import Figure, Table

IGNORED = "ignored"
ISSUER = "issuer"
"""A column that names the country: it says nothing of its own, but tells series of one name apart."""

CURRENCY = "currency"
"""A column that names the currency of the row's amounts."""

TARGETS = (*COLUMNS, ISSUER, CURRENCY, IGNORED)

_USUAL = fields_by_heading()
_BY_HEADING = {**_USUAL, **{column: column for column in COLUMNS}}

_NUMBERS = ("weight", "diameter", "thickness", "acquired price", "parted price", "value amount")
_NUMBER = re.compile(r"[0-9][0-9., '\u00a0\u202f]*[0-9]")


def guess_columns(table: Table) -> dict[str, str]:
    """Guess the target of every column; each target is given once, but notes may be made of several."""
    found: dict[str, str] = {}
    for nth, column in enumerate(table.columns):
        target = _BY_HEADING.get(_folded(column), IGNORED)
        if target in GROUPS and not all(_is_structured(row.cells[nth]) for row in table.rows):
            target = _USUAL.get(target, IGNORED)
        taken = target in found.values() and target != "notes"
        found[column] = IGNORED if taken else target
    if "date" not in found.values():
        for nth, column in enumerate(table.columns):
            if found[column] == IGNORED and _are_years(row.cells[nth] for row in table.rows):
                found[column] = "date"
                break
    return found


def guess_decimals(table: Table, targets: Mapping[str, str]) -> str:
    """Tell by the cells that leave no doubt whether a comma parts the decimals; "" where it is not so throughout.

    "8,97" and "1.250,00" leave no doubt, nor does "8.97"; "1,250" and "9.000" do.
    """
    found = set()
    places = [nth for nth, column in enumerate(table.columns) if targets.get(column) in _NUMBERS]
    for row in table.rows:
        for nth in places:
            number = _NUMBER.search(row.cells[nth])
            if number is not None and not isinstance(row.cells[nth], Figure):
                found.add(_decimal_sign(number[0]))
    return "comma" if "," in found and "." not in found else ""


def _decimal_sign(number: str) -> str:
    """Find the sign that can only part the decimals; "" where there is none."""
    last = max(number.rfind(","), number.rfind("."))
    if last < 0:
        return ""
    sign, other = number[last], "." if number[last] == "," else ","
    if other in number:
        return sign
    is_group = len(number) - last - 1 == 3 and last <= 3
    return "" if is_group or number.count(sign) > 1 else sign


def _is_structured(cell: str) -> bool:
    """Tell whether a cell holds a mapping, as an export writes one with parts that have no column."""
    return not cell.strip() or cell.strip().startswith("{")


def _folded(heading: str) -> str:
    return " ".join(re.sub(r"[^\w]+|_", " ", heading.casefold()).split())


def _are_years(cells: Iterable[str]) -> bool:
    written = [each.strip() for each in cells if each.strip()]
    years = sum(1 for each in written if re.fullmatch(r"1[0-9]{3}|20[0-9]{2}", each))
    return bool(written) and years * 5 >= len(written) * 4
