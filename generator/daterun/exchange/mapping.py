"""The small file beside a table that keeps how it is read: its columns, and how its cells were typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from daterun.exchange.guessing import IGNORED, TARGETS
from daterun.exchange.plain import plain_mapping
from daterun.exchange.yamltext import flow_of, text_of
from daterun.problems import CannotContinue, meant
from daterun.records.located import Mapping as Located
from daterun.records.located import read_located

_HEAD = """# How daterun intake reads the table beside this file. Change what stands behind a column and run it
# again: a field of a coin (as in grade or acquired price), issuer, or ignored.
"""


@dataclass(frozen=True, slots=True)
class ColumnMapping:
    """The target of every column, and how the table was typed; "" where that is not said."""

    columns: Mapping[str, str]
    order: str = ""
    decimals: str = ""
    currency: str = ""
    series: str = ""


ORDERS = ("day first", "month first")
DECIMALS = ("point", "comma")


def mapping_path(table: Path) -> Path:
    """Tell where the mapping of a table is kept."""
    return table.with_name(f"{table.name}.intake.yaml")


def write_mapping(mapping: ColumnMapping) -> str:
    """Write a mapping as the text of its file."""
    said = {
        "days": mapping.order,
        "decimals": mapping.decimals,
        "currency": mapping.currency,
        "series": mapping.series,
    }
    lines = [f"{key}: {flow_of(value)}" for key, value in said.items() if value]
    lines.append("columns:")
    lines += [f"  {text_of(column)}: {target}" for column, target in mapping.columns.items()]
    return _HEAD + "\n".join(lines) + "\n"


def read_mapping(path: Path) -> ColumnMapping | None:
    """Read the mapping of a table; None where none is kept yet. Raise CannotContinue where it cannot be used."""
    if not path.is_file():
        return None
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise CannotContinue(f"{path} cannot be read: {error}") from None
    node, problems = read_located(text, path.name)
    if problems or not isinstance(node, Located):
        line = problems[0].place.line if problems else 1
        raise CannotContinue(f"{path}, line {line}, is no mapping of columns; delete it to begin afresh")
    values = plain_mapping(node)
    columns = values.pop("columns", {})
    known = ("days", "decimals", "currency", "series")
    for key in values:
        if key not in known:
            raise CannotContinue(f'{path} has no "{key}": {meant(key, (*known, "columns"))}')
    if not isinstance(columns, Mapping):
        raise CannotContinue(f"{path} names no columns; delete it to begin afresh")
    for column, target in columns.items():
        if target not in TARGETS:
            raise CannotContinue(
                f'{path} reads "{column}" as "{target}", which is no field: {meant(str(target), TARGETS)}'
            )
    texts = {key: str(values.get(key, "")) for key in known}
    for key, words in (("days", ORDERS), ("decimals", DECIMALS)):
        if texts[key] and texts[key] not in words:
            raise CannotContinue(f"{path} says {key}: {texts[key]}; it is {' or '.join(words)}")
    return ColumnMapping(
        {column: str(target) for column, target in columns.items()},
        texts["days"],
        texts["decimals"],
        texts["currency"],
        texts["series"],
    )


def complete(mapping: ColumnMapping, guessed: Mapping[str, str]) -> dict[str, str]:
    """Give the target of each column of a table: as kept, else as guessed where no other column has it."""
    found: dict[str, str] = {}
    for column, target in guessed.items():
        kept = mapping.columns.get(column)
        taken = target in mapping.columns.values() and target != "notes"
        found[column] = kept or (IGNORED if taken else target)
    return found
