"""The columns of a table of coins: one for each field of a coin, and for each part of those that have parts.

A coin's values laid out in columns, and put together again; what a cell's text means is left to ``cells.py``.
"""

from collections.abc import Mapping

from daterun.exchange.coinfile import KEYS
from daterun.exchange.plain import read_plain
from daterun.exchange.yamltext import Plain, flow_of, quoted
from daterun.records.coins import GRAVITY
from daterun.records.fields import Form
from daterun.records.opinions import CERTIFICATE, VALUE
from daterun.records.ownership import ACQUIRED, PARTED
from daterun.records.photographed import PHOTOS as PHOTOS_FORM

GROUPS: Mapping[str, Form] = {
    "certificate": CERTIFICATE,
    "gravity": GRAVITY,
    "acquired": ACQUIRED,
    "parted": PARTED,
    "value": VALUE,
    "photos": PHOTOS_FORM,
}
"""The fields with parts that have a column each, as in ``acquired on``."""

PHOTOS = tuple(f"photos {field.key}" for field in PHOTOS_FORM.fields)
"""The columns of photo files, of which none is cut at a semicolon."""

STRUCTURED = {
    "variety",
    "grade",
    "grades",
    "problem",
    "certificate problem",
    "certificates",
    "references",
    "acquired for",
    "parted for",
    "provenance",
    *PHOTOS,
    *GROUPS,
}
"""The columns whose cells may hold a list or a mapping, in brackets or braces; all others hold a text."""


def _parts(key: str) -> tuple[str, ...]:
    return tuple(f"{key} {field.key}" for field in GROUPS[key].fields) if key in GROUPS else ()


COLUMNS: tuple[str, ...] = ("id", *(each for key in KEYS for each in (key, *_parts(key))), "notes")
"""Every column that a table of coins can have, in order."""


def lay_in_columns(coin_id: str, values: Mapping[str, Plain], notes: str) -> dict[str, str]:
    """Lay a coin out in columns; those it has nothing for are not there."""
    cells = {"id": coin_id}
    for key, value in values.items():
        parts = value.items() if key in GROUPS and isinstance(value, Mapping) else ()
        known = set(_parts(key))
        if parts and all(f"{key} {part}" in known and each != "" for part, each in parts):
            cells.update({f"{key} {part}": _cell(f"{key} {part}", each) for part, each in parts})
        elif value != "":
            cells[key] = _cell(key, value)
    if notes.strip():
        cells["notes"] = notes.removesuffix("\n")
    return cells


def put_together(cells: Mapping[str, str]) -> dict[str, Plain]:
    """Put the values of a coin together from its cells, but for its id and notes; empty cells say nothing."""
    values: dict[str, Plain] = {}
    groups: dict[str, dict[str, Plain]] = {}
    for column, cell in cells.items():
        if not cell.strip() or column in ("id", "notes"):
            continue
        group, _, part = column.partition(" ")
        if part and column in _parts(group):
            groups.setdefault(group, {})[part] = _value(column, cell)
        else:
            values[column] = _value(column, cell)
    for group, parts in groups.items():
        values[group] = {each.key: parts[each.key] for each in GROUPS[group].fields if each.key in parts}
    return values


def _cell(column: str, value: Plain) -> str:
    if not isinstance(value, str):
        return flow_of(value)
    if column in STRUCTURED and (value[:1] in ("[", "{", '"') or ";" in value):
        return quoted(value)
    return value


def _value(column: str, cell: str) -> Plain:
    if column not in STRUCTURED:
        return cell
    typed = cell.strip()
    if (found := read_plain(typed)) is not None:
        return found
    several = [each.strip() for each in typed.split(";") if each.strip()]
    return several if len(several) > 1 and column not in ("grade", *PHOTOS, *GROUPS) else typed
