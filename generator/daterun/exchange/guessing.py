"""Which column of a keeper's table is which field of a coin, guessed from the headings and the cells."""

import re
from collections.abc import Iterable, Mapping

from daterun.exchange.columns import COLUMNS
from daterun.exchange.tables import Table

IGNORED = "ignored"
ISSUER = "issuer"
"""A column that names the country: it says nothing of its own, but tells series of one name apart."""

TARGETS = (*COLUMNS, ISSUER, IGNORED)

_HEADINGS: Mapping[str, str] = {
    "series": "series|denomination|denom|coin|coin type|coin name|face value|value face|face",
    ISSUER: "issuer|country|realm|state|kingdom|nation|issued by",
    "date": "date|year|coin date|year on coin|dated|date on coin|year date",
    "variety": "variety|varieties|die variety|var",
    "mint": "mint|mintmark|mint mark|mint letter|mm",
    "strike": "strike|struck as|proof",
    "grade": "grade|condition|state of preservation|my grade|own grade|cond|gr",
    "problem": "problem|problems|damage|faults|fault",
    "certificate by": "grader|graded by|grading firm|grading company|certified by|slab",
    "certificate grade": "certified grade|slab grade|certificate grade",
    "certificate number": "cert|cert no|cert number|certificate|certificate no|certificate number",
    "weight": "weight|mass|wt|weight g|weight grams|weight in g|weight in grams|gewicht|poids|peso",
    "diameter": "diameter|diam|size|dia|diameter mm|diameter in mm|size mm",
    "thickness": "thickness|thickness mm",
    "axis": "axis|die axis|die alignment|alignment|orientation",
    "references": "reference|references|ref|refs|catalogue number|catalogue no|cat no|literature",
    "quantity": "quantity|qty|count|number|pieces|pcs",
    "set": "set",
    "lot": "lot|lot id",
    "added": "added|entered|date added|date entered",
    "acquired on": "acquired|acquired on|date acquired|acquisition date|bought|bought on|date bought"
    "|purchase date|purchased|purchased on|date of purchase|date purchased|bought date",
    "acquired from": "from|bought from|seller|dealer|vendor|purchased from|acquired from|source|obtained from",
    "acquired how": "how|how acquired|acquired how|way acquired",
    "acquired price": "price|paid|cost|price paid|purchase price|bought for|amount paid|acquired price",
    "value amount": "value|worth|estimate|estimated value|market value|current value|valuation",
    "value on": "valued on|value date|date valued|valuation date",
    "kept": "kept|location|place|where|storage|box|tray|cabinet|where kept|album|stored",
    "private": "private|private note|private notes|secret",
    "notes": "notes|note|comment|comments|remark|remarks|description|details|text",
    "id": "id|inventory number|inventory no|inv no|number in collection",
}

_BY_HEADING = {
    **{heading: target for target, headings in _HEADINGS.items() for heading in headings.split("|")},
    **{column: column for column in COLUMNS},
}


def guess_columns(table: Table) -> dict[str, str]:
    """Guess the target of every column; each target is given once, but notes may be made of several."""
    found: dict[str, str] = {}
    for column in table.columns:
        target = _BY_HEADING.get(_folded(column), IGNORED)
        taken = target in found.values() and target != "notes"
        found[column] = IGNORED if taken else target
    if "date" not in found.values():
        for nth, column in enumerate(table.columns):
            if found[column] == IGNORED and _are_years(row.cells[nth] for row in table.rows):
                found[column] = "date"
                break
    return found


def _folded(heading: str) -> str:
    return " ".join(re.sub(r"[^\w]+|_", " ", heading.casefold()).split())


def _are_years(cells: Iterable[str]) -> bool:
    written = [each.strip() for each in cells if each.strip()]
    years = sum(1 for each in written if re.fullmatch(r"1[0-9]{3}|20[0-9]{2}", each))
    return bool(written) and years * 5 >= len(written) * 4
