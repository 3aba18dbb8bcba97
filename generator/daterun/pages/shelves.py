"""The shelves: coins, slots and issues laid out where a page looks for them, so that none searches them all."""

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from daterun.checks.completeness import Filled
from daterun.pages.standing import Standing
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import CoinType, Series
from daterun.records.struck import DateIssue
from daterun.trade.dates import CoinDate

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")

DateKey = tuple[str, str]
"""A date of a series: the series' whole name and the key of the date."""


@dataclass(frozen=True, slots=True)
class Shelves:
    """Coins in the order of the cabinet by what they share; what is known of each date; which pages there are.

    Issues go by series and first year; struck are the series and years that any issue stands for. The years
    are those of which there is a date page, the monarchs those of whom there is a page, by issuer.
    """

    by_series: Mapping[str, tuple[Standing, ...]]
    by_date: Mapping[DateKey, tuple[Standing, ...]]
    by_monarch: Mapping[tuple[str, str], tuple[Standing, ...]]
    by_set: Mapping[str, tuple[Standing, ...]]
    positions: Mapping[str, int]
    states: Mapping[DateKey, Filled]
    types: Mapping[DateKey, tuple[CoinType, ...]]
    issues: Mapping[tuple[str, int], tuple[DateIssue, ...]]
    struck: frozenset[tuple[str, int]]
    years: tuple[int, ...]
    monarchs: Mapping[str, tuple[Monarch, ...]]


def lay_out(
    coins: Iterable[Standing],
    series: Iterable[Series],
    issuers: Iterable[Issuer],
    runs: Mapping[str, Iterable[Filled]],
) -> Shelves:
    """Lay out coins, series and the slots of their runs; the coins are in the order of the cabinet."""
    held, every = tuple(coins), tuple(series)
    by_series = _group(held, lambda each: each.series.key)
    issues = [(one.key, issue) for one in every for issue in one.issues]
    dates = [each.coin.date for each in held] + [issue.date for _, issue in issues]
    named = {(one.issuer, each.monarch) for one in every for each in one.types}
    return Shelves(
        by_series=by_series,
        by_date=_group(held, lambda each: (each.series.key, each.coin.date.key)),
        by_monarch=_group(
            (each for each in held if each.monarch is not None),
            lambda each: (each.series.issuer, each.place.monarch.id if each.place.monarch else ""),
        ),
        by_set=_group(
            (each for each in held if each.coin.private is not None and each.coin.private.set),
            lambda each: each.coin.private.set if each.coin.private else "",
        ),
        positions={each.coin.id: nth for own in by_series.values() for nth, each in enumerate(own)},
        states={(key, each.slot.date.key): each for key, states in runs.items() for each in states},
        types={(one.key, each.date.key): one.types_of(each.date) for one in every for each in one.issues},
        issues={
            key: tuple(issue for _, issue in found)
            for key, found in _group(
                (each for each in issues if each[1].date.year is not None),
                lambda each: (each[0], each[1].date.year or 0),
            ).items()
        },
        struck=frozenset((key, year) for key, issue in issues for year in years_of(issue.date)),
        years=tuple(sorted({year for date in dates for year in years_of(date)})),
        monarchs={
            issuer.id: tuple(each for each in issuer.monarchs if (issuer.id, each.id) in named)
            for issuer in issuers
        },
    )


def _group(values: Iterable[V], key: Callable[[V], K]) -> dict[K, tuple[V, ...]]:
    groups: dict[K, list[V]] = {}
    for each in values:
        groups.setdefault(key(each), []).append(each)
    return {name: tuple(found) for name, found in groups.items()}


def years_of(date: CoinDate) -> range:
    """The years a date stands for: both of a double date, none of a worn one."""
    if date.year is None or date.last_year is None:
        return range(0)
    return range(date.year, date.last_year + 1)
