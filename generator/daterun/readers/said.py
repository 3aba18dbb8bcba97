"""What a reader is told anyway: the texts, amounts and days of a closed catalogue.

A private value that is the same as one of these cannot be told from it in a page.
"""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from daterun.readers.closed import ClosedCatalogue
from daterun.records.located import Mapping as Located
from daterun.trade.dates import Day
from daterun.trade.gradewords import known_words
from daterun.trade.money import Money
from daterun.trade.scales import STEPS

FREE = frozenset(
    {
        "id",
        "title",
        "notes",
        "text",
        "note",
        "design",
        "grade_reasons",
        "reasons",
        "departs",
        "struck_in",
        "summary",
        "problem",
        "problems",
    }
)
"""The fields in which the keeper writes freely, and in which something private may be written by mistake."""


@dataclass(slots=True)
class Said:
    """What a reader is told: names as whole texts, what is known of the coinage, what the keeper wrote freely."""

    names: set[str] = field(default_factory=set)
    known: set[str] = field(default_factory=set)
    free: set[str] = field(default_factory=set)
    amounts: set[Money] = field(default_factory=set)
    days: set[Day] = field(default_factory=set)


def gather_said(closed: ClosedCatalogue) -> Said:
    """Gather what an edition is made from."""
    said = Said(known={*known_words(), *(step.name for step in STEPS)})  # of the trade, which tell nobody
    _walk((closed.settings, closed.coins, closed.essays), said, said.names)
    _walk((closed.issuers, closed.series), said, said.known)
    for series in closed.series.values():
        # Every grid and run says these, whoever has the coins; a lot of one coin may be called the same.
        for name in {series.name, series.id, series.denomination} - {""}:
            said.known.update(f"{name} {issue.date}" for issue in series.issues)
        # A coin names its standard so, where that has no id.
        said.known.update(each.name for each in series.standards)
    return said


@cache
def _fields_of(kind: Any) -> tuple[str, ...] | None:
    """Name the fields of a kind of record; None for what is none."""
    return tuple(each.name for each in dataclasses.fields(kind)) if dataclasses.is_dataclass(kind) else None


def _walk(value: object, said: Said, texts: set[str]) -> None:
    kind: type = type(value)
    if isinstance(value, str):
        texts.add(str(value))
    elif isinstance(value, Money):
        said.amounts.add(value)
    elif isinstance(value, Day):
        said.days.add(value)
    elif isinstance(value, Located):
        return
    elif (names := _fields_of(kind)) is not None:
        for name in names:
            _walk(getattr(value, name), said, said.free if name in FREE else texts)
    elif isinstance(value, Mapping):
        for key, each in value.items():
            _walk(key, said, texts)
            _walk(each, said, texts)
    elif isinstance(value, tuple | list | set | frozenset):
        for each in value:
            _walk(each, said, texts)
