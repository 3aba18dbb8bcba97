"""What a reader is told anyway: the texts, amounts and days of a closed catalogue.

A private value that is the same as one of these cannot be told from it in a page.
"""

import dataclasses
from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.records.coins import Strike
from daterun.records.located import Mapping as Located
from daterun.trade.dates import Day
from daterun.trade.gradewords import known_words
from daterun.trade.grading import NO_PROBLEMS, PROBLEM_REASONS
from daterun.trade.money import Money
from daterun.trade.scales import CORRESPONDENCE, STEPS, in_full

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


_TRADE = frozenset(
    {
        *known_words(),
        *(str(step) for step in STEPS),
        *(step.name for step in STEPS),
        *map(in_full, CORRESPONDENCE),
        *PROBLEM_REASONS,
        *NO_PROBLEMS,
        "website",
        "article",
    }
)
"""Words of the trade, which tell nobody, and what pages call themselves in their heads."""


@dataclass(slots=True)
class Said:
    """What a reader is told: names as whole texts, what is known of the coinage, what the keeper wrote freely.

    Of persons and firms that are named, no part is a secret either.
    """

    names: set[str] = field(default_factory=set)
    persons: set[str] = field(default_factory=set)
    known: set[str] = field(default_factory=set)
    free: set[str] = field(default_factory=set)
    amounts: set[Money] = field(default_factory=set)
    days: set[Day] = field(default_factory=set)


def gather_said(closed: ClosedCatalogue) -> Said:
    """Gather what an edition is made from."""
    settings = closed.settings
    said = Said(names={settings.title}, known={*_TRADE, *(aim.id for aim in settings.aims)})
    _walk((settings, closed.coins, closed.essays), said, said.names, FREE)
    _walk((closed.issuers, closed.series), said, said.known, frozenset({"note"}))
    for series in closed.series.values():
        # Every grid and run says these, whoever has the coins; a lot of one coin may be called the same.
        for name in {series.name, series.id, series.denomination} - {""}:
            said.known.update(f"{name} {issue.date}" for issue in series.issues)
        if (years := series.struck.years) is not None:
            said.known.add(str(years))
            said.known.update(f"{year}s" for year in range(years.first // 10 * 10, years.last + 1, 10))
    for issuer in closed.issuers.values():
        for monarch in issuer.monarchs:
            said.known.update((monarch.reign.years, f"{monarch.name} {monarch.reign.years}"))
    said.persons.add(settings.keeper)
    for coin in closed.coins:
        _add_coin(coin, closed, said)
    return said


def _add_coin(coin: ClosedCoin, closed: ClosedCatalogue, said: Said) -> None:
    """Add what a page calls a coin, and whom it names."""
    said.names.add(coin.id)
    said.persons.add(coin.graded_by)
    said.persons.update(each.by for each in coin.certificates)
    for owner in coin.provenance:
        said.persons.update((owner.owner, owner.sale))
    series = closed.series[coin.series]
    issuer = closed.issuers.get(series.issuer)
    mint = issuer.mints.get(coin.mint, "") if issuer and coin.mint else ""
    if mint or coin.strike is not Strike.ORDINARY:
        strike = "" if coin.strike is Strike.ORDINARY else coin.strike.value
        said.known.add(f"{series.name} {coin.date} {mint} {strike}")


@cache
def _fields_of(kind: Any) -> tuple[str, ...] | None:
    """Name the fields of a kind of record; None for what is none."""
    return tuple(each.name for each in dataclasses.fields(kind)) if dataclasses.is_dataclass(kind) else None


def _walk(value: object, said: Said, texts: set[str], free: Set[str]) -> None:
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
        if "__str__" in vars(kind):  # a measure, a span, a grade: pages write it so
            texts.add(str(value))
        for name in names:
            _walk(getattr(value, name), said, said.free if name in free else texts, free)
    elif isinstance(value, Mapping):
        for key, each in value.items():
            _walk(key, said, texts, free)
            _walk(each, said, texts, free)
    elif isinstance(value, tuple | list | set | frozenset):
        for each in value:
            _walk(each, said, texts, free)
    elif kind is int and texts is said.known:
        texts.add(str(value))
