"""The keeper's aims: each one's slots over several series, and how far they are filled."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from daterun.checks.completeness import (
    Filled,
    Fitting,
    Rules,
    StandardWeight,
    Tally,
    coins_by_slot,
    fill_from,
    missing_dates,
    tally,
)
from daterun.checks.curve import Point, curve_from
from daterun.checks.slots import Slot, merge_across, slots_of
from daterun.records.aims import Divider, End, Problems
from daterun.records.catalogue import find_series
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Series
from daterun.trade.dates import Span
from daterun.trade.grading import Grade


class Aimed(Protocol):
    """What of an aim settles its slots; the left out may be reasons by slot, or the bare slots."""

    @property
    def id(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def series(self) -> tuple[str, ...]: ...
    @property
    def span(self) -> Span | None: ...
    @property
    def one_per(self) -> tuple[Divider, ...]: ...
    @property
    def strikes(self) -> tuple[Strike, ...]: ...
    @property
    def at_least(self) -> Grade | None: ...
    @property
    def counts(self) -> End: ...
    @property
    def problems(self) -> Problems: ...
    @property
    def kinds(self) -> tuple[CoinKind, ...]: ...
    @property
    def across_series(self) -> bool: ...


@dataclass(frozen=True, slots=True)
class AimState:
    """An aim with every slot's state, in the order of its series and their runs, and its curve of grades."""

    id: str
    name: str
    rules: Rules
    states: tuple[Filled, ...]
    curve: tuple[Point, ...]

    @property
    def tally(self) -> Tally:
        return tally(self.states)

    @property
    def missing_dates(self) -> tuple[str, ...]:
        """Name the missing slots with their series, as in ``ort 1892``; without where it is of several."""
        return tuple(
            name if len(each.slot.all_series) > 1 else f"{each.slot.series.rpartition('/')[2]} {name}"
            for each in self.states
            for name in missing_dates((each,))
        )


def rules_of(aim: Aimed) -> Rules:
    """Take from an aim what it asks of a coin."""
    at_least = aim.at_least.counted() if aim.at_least is not None else None
    return Rules(aim.strikes, aim.kinds, at_least, aim.counts, aim.problems)


def slots_of_aim(aim: Aimed, series: Mapping[str, Series]) -> tuple[Slot, ...]:
    """List the slots of an aim, each once, though a series be named twice.

    A series that is not there gives none and is for the checks to report.
    """
    found = (find_series(series, name) for name in aim.series)
    once = {each.key: each for each in found if each is not None}
    slots = tuple(
        slot for each in once.values() for slot in slots_of(each, aim.span, aim.one_per, aim.strikes)
    )
    return merge_across(slots) if aim.across_series else slots


def left_out_slots(
    left_out: Mapping[str, Iterable[str]], series: Mapping[str, Series]
) -> frozenset[tuple[str, str]]:
    """Turn what an aim leaves out, by series as written and slot as written, into series keys and slot names."""
    pairs = set()
    for name, slots in left_out.items():
        found = find_series(series, name)
        if found is not None:
            pairs |= {(found.key, " ".join(slot.split())) for slot in slots}
    return frozenset(pairs)


def fill_aim(
    aim: Aimed,
    series: Mapping[str, Series],
    coins: Iterable[Fitting],
    left_out: frozenset[tuple[str, str]],
    standard: StandardWeight,
) -> AimState:
    """Fill an aim's slots with the coins; see completeness for the order in which coins are chosen."""
    slots = slots_of_aim(aim, series)
    dated = Divider.DATE in aim.one_per
    rules = rules_of(aim)
    by_slot = coins_by_slot(slots, coins, rules, dated)
    states = fill_from(slots, by_slot, rules, left_out, standard)
    return AimState(aim.id, aim.name, rules, states, curve_from(slots, by_slot, rules, left_out))
