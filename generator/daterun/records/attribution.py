"""Where a coin belongs: the issue, type, standard and monarch that follow from its series and date.

Written for any record with a coin's words on it, so that the full record and the one closed for a reader are
attributed by the same rule.
"""

from dataclasses import dataclass
from typing import Protocol

from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import CoinType, Series, Standard, Variety
from daterun.records.struck import DateIssue
from daterun.trade.dates import CoinDate


class Attributed(Protocol):
    """The words on a coin that say where it belongs."""

    @property
    def date(self) -> CoinDate: ...
    @property
    def varieties(self) -> tuple[str, ...]: ...
    @property
    def mint(self) -> str | None: ...
    @property
    def type(self) -> str | None: ...
    @property
    def standard(self) -> str | None: ...


@dataclass(frozen=True, slots=True)
class Attribution:
    """Where a coin belongs. Each part is None where the date does not settle it and the coin does not say."""

    issue: DateIssue | None
    type: CoinType | None
    standard: Standard | None
    monarch: Monarch | None
    mint: str | None
    varieties: tuple[Variety, ...]


@dataclass(frozen=True, slots=True)
class Choices:
    """What a date of a series leaves to choose between; the same for all its coins."""

    issue: DateIssue | None
    types: tuple[CoinType, ...]
    standards: tuple[Standard, ...]
    mints: tuple[str, ...]
    varieties: tuple[Variety, ...]


def choices_of(series: Series, date: CoinDate) -> Choices:
    """List what the coins of a date can be."""
    return Choices(
        series.issue(date.key),
        series.types_of(date),
        series.standards_of(date),
        series.mints_of(date),
        series.varieties_of(date),
    )


def attribute(
    coin: Attributed, series: Series, issuer: Issuer | None, choices: Choices | None = None
) -> Attribution:
    """Work out where a coin belongs: its own word first, else what its date leaves no choice about.

    The choices are those of its date, worked out unless they are given.
    """
    found = choices if choices is not None else choices_of(series, coin.date)
    issue, types, standards = found.issue, found.types, found.standards
    mints, varieties = found.mints, found.varieties
    coin_type = series.type(coin.type) if coin.type else (types[0] if len(types) == 1 else None)
    follows = standards[0] if len(standards) == 1 else None
    named = tuple(each for each in series.varieties if each.id in coin.varieties)
    return Attribution(
        issue,
        coin_type,
        series.standard(coin.standard) if coin.standard else follows,
        issuer.monarch(coin_type.monarch) if issuer and coin_type else None,
        coin.mint or (mints[0] if len(mints) == 1 else None),
        named or (varieties if len(varieties) == 1 else ()),
    )
