"""Completeness counted: by series, monarch, decade and year, each with its unbroken stretch and its grades.

How the counts are worded and laid out is left to the pages and to the terminal.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from daterun.checks.completeness import Filled, Tally, tally
from daterun.checks.runs import Grades, Stretch, grades_of, longest_stretch
from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet
from daterun.pages.grids import runs_of
from daterun.pages.recounts import fall
from daterun.pages.reigns import runs_of_monarch
from daterun.records.aims import End
from daterun.records.issuers import Issuer
from daterun.records.series import Series


@dataclass(frozen=True, slots=True)
class Count:
    """Some slots counted: what they are of, the page that shows them, and how far they are filled.

    Key is an id or a year, by which a program tells one count from another. The states stand in order.
    """

    key: str
    name: str
    address: str
    states: tuple[Filled, ...]

    @property
    def tally(self) -> Tally:
        return tally(self.states)

    @property
    def stretch(self) -> Stretch | None:
        return longest_stretch(self.states)

    def at(self, least: int, cabinet: Cabinet, counts: End = End.LOW) -> "Count":
        """Count again with only the coins of a step of the scale or better."""
        return replace(self, states=fall(self.states, cabinet, least, counts))

    def grades(self, cabinet: Cabinet, counts: End = End.LOW) -> Grades:
        return grades_of_states(cabinet, self.states, counts)


def grades_of_states(cabinet: Cabinet, states: Sequence[Filled], counts: End = End.LOW) -> Grades:
    """Work out the mean and the weakest grade of the coins that fill slots."""
    coins = (each.coin for each in states if each.coin is not None)
    return grades_of(states, {each: cabinet.by_id[each].coin.grade for each in coins}, counts)


def by_series(cabinet: Cabinet) -> tuple[Count, ...]:
    """Count the run of each series, largest denomination first."""
    return tuple(
        count_series(cabinet, series)
        for denomination in cabinet.denominations
        for series in denomination.series
    )


def count_series(cabinet: Cabinet, series: Series) -> Count:
    """Count the run of one series."""
    return Count(series.key, series.name, addresses.of_denomination(series), cabinet.runs[series.key])


def by_monarch(cabinet: Cabinet) -> tuple[Count, ...]:
    """Count the coinage of each monarch; a date that two share is a slot of each."""
    return tuple(
        Count(
            f"{issuer.id}/{monarch.id}",
            monarch.name,
            addresses.of_monarch(issuer.id, monarch.id),
            tuple(state for run in runs_of_monarch(cabinet, issuer, monarch) for state in run.states),
        )
        for issuer in _issuers(cabinet)
        for monarch in cabinet.monarchs(issuer.id)
    )


def by_decade(cabinet: Cabinet) -> tuple[Count, ...]:
    """Count the slots of all runs by the decade of their first year; those without a year are in none."""
    groups: dict[int, list[Filled]] = {}
    for each in _dated(cabinet):
        groups.setdefault((each.slot.date.year or 0) // 10 * 10, []).append(each)
    return tuple(Count(str(decade), f"{decade}s", "", tuple(groups[decade])) for decade in sorted(groups))


def by_year(cabinet: Cabinet) -> tuple[Count, ...]:
    """Count the slots of all runs by their first year; those without a year are in none."""
    groups: dict[int, list[Filled]] = {}
    for each in _dated(cabinet):
        groups.setdefault(each.slot.date.year or 0, []).append(each)
    return tuple(
        Count(str(year), str(year), addresses.of_year(year), tuple(groups[year])) for year in sorted(groups)
    )


def _dated(cabinet: Cabinet) -> Iterable[Filled]:
    return (
        state
        for issuer in _issuers(cabinet)
        for run in runs_of(cabinet, issuer.id)
        for state in run.states
        if state.slot.date.year is not None
    )


def _issuers(cabinet: Cabinet) -> tuple[Issuer, ...]:
    return tuple({each.issuer.id: each.issuer for each in cabinet.denominations}.values())
