"""The part of each run that was struck under one monarch, with what fills it."""

from daterun.checks.completeness import Filled, fill
from daterun.checks.slots import slots_of
from daterun.pages.cabinet import Cabinet
from daterun.pages.grids import Run, runs_of
from daterun.records.aims import Divider
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series


def runs_of_monarch(cabinet: Cabinet, issuer: Issuer, monarch: Monarch) -> tuple[Run, ...]:
    """Take the part of each run that was struck under a monarch.

    Where a date has types of two monarchs, it is a slot of each, filled only by a coin of that monarch's type.
    """
    runs = []
    for run in runs_of(cabinet, issuer.id):
        own = {each.id for each in run.series.types if each.monarch == monarch.id}
        dates = set()
        states: list[Filled] = []
        for issue in run.series.issues if own else ():
            types = cabinet.types_of(run.series, issue.date)
            if not any(each.id in own for each in types):
                continue
            dates.add(issue.date.key)
            filled = cabinet.state(run.series, issue.date)
            if filled is not None:
                shared = any(each.id not in own for each in types)
                states += _own_share(cabinet, run.series, filled, own) if shared else (filled,)
        if dates:
            runs.append(Run(run.series, tuple(states), run.name, frozenset(dates)))
    return tuple(runs)


def _own_share(cabinet: Cabinet, series: Series, filled: Filled, own: set[str]) -> tuple[Filled, ...]:
    """Make a slot of a monarch's own of a date that is shared: of his one type, or of his types together."""
    date = filled.slot.date
    by_type = slots_of(series, one_per=(Divider.DATE, Divider.TYPE))
    slots = tuple(each for each in by_type if each.date.key == date.key and each.type in own)
    if len(slots) != 1:
        slots = (filled.slot,)
    coins = [each.coin for each in cabinet.of_date(series, date) if each.coin.type in own]
    return fill(slots, coins)
