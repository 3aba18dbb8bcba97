"""The figures of ``daterun gaps --json``: completeness, grades, and what to look for next, as plain values."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from fractions import Fraction

from daterun.checks.aims import AimState
from daterun.checks.completeness import Filled, State, missing_dates
from daterun.checks.misfits import Misfit
from daterun.checks.runs import Grades, Stretch, longest_stretch
from daterun.checks.slots import Slot
from daterun.checks.wanted import by_scarcity, spare_everywhere, struck_for, upgrades
from daterun.pages.cabinet import Cabinet
from daterun.pages.counts import Count, by_decade, by_monarch, by_series, by_year, grades_of_states

Figures = dict[str, object]


def as_json(cabinet: Cabinet, misfits: Iterable[Misfit] = ()) -> Figures:
    """Put the figures into the shape that ``gaps --json`` promises.

    Coins that are not counted are named with why; a number struck that is not known is an empty list.
    """
    names = short_names(cabinet)
    return {
        "series": [_series(cabinet, each, names) for each in by_series(cabinet)],
        "aims": [_aim(cabinet, each, names) for each in cabinet.aims],
        "monarchs": [{"id": each.key, "name": each.name, **_figures(each)} for each in by_monarch(cabinet)],
        "decades": [{"decade": int(each.key), **_figures(each)} for each in by_decade(cabinet)],
        "years": [{"year": int(each.key), **_figures(each)} for each in by_year(cabinet)],
        "spares": list(spare_everywhere([*cabinet.runs.values(), *(each.states for each in cabinet.aims)])),
        "not_counted": [{"coin": each.coin, "why": each.why} for each in misfits],
    }


def short_names(cabinet: Cabinet) -> Mapping[str, str]:
    """Name each series as a keeper writes it: by its short id while that is unique, else by its whole name."""
    every = cabinet.catalogue.series
    ids = Counter(each.id for each in every.values())
    return {key: each.id if ids[each.id] == 1 else key for key, each in every.items()}


def name_of_slot(slot: Slot, names: Mapping[str, str]) -> str:
    """Name a slot with its series, as in ``ort 1892``; without one where it stands for several."""
    return slot.name if len(slot.all_series) > 1 else f"{names[slot.series]} {slot.name}"


def _series(cabinet: Cabinet, count: Count, names: Mapping[str, str]) -> Figures:
    return {
        "id": names[count.key],
        "name": count.name,
        **_figures(count),
        "missing_dates": list(missing_dates(count.states)),
        **_grades(cabinet, count.grades(cabinet)),
        "longest_stretch": _stretch(count.stretch),
    }


def _figures(count: Count) -> Figures:
    counts = count.tally
    return {"slots": counts.slots, "filled": counts.filled, "missing": counts.missing}


def _aim(cabinet: Cabinet, state: AimState, names: Mapping[str, str]) -> Figures:
    grades = {each.coin: cabinet.by_id[each.coin].coin.grade for each in state.states if each.coin}
    problems = frozenset(coin for coin in grades if cabinet.by_id[coin].coin.is_problem)
    return {
        "id": state.id,
        "name": state.name,
        **asdict(state.tally),
        "missing_dates": [
            name_of_slot(each.slot, names) for each in state.states if each.state is State.MISSING
        ],
        **_grades(cabinet, grades_of_states(cabinet, state.states, state.rules.counts)),
        "longest_stretch": _stretch(longest_stretch(state.states)),
        "curve": [{"at_least": each.at_least, "filled": each.filled} for each in state.curve],
        "scarcest": [
            {
                "slot": name_of_slot(each.slot, names),
                "struck": list(struck_for(each.slot.figures, state.rules.strikes)),
            }
            for each in by_scarcity(state.states, state.rules.strikes)
        ],
        "upgrades": [
            {
                "slot": name_of_slot(each.filled.slot, names),
                "coin": each.filled.coin,
                "steps": each.steps,
                "problem": each.is_problem,
            }
            for each in upgrades(state.states, state.rules, grades, problems)
        ],
        "spares": _spares(state.states, names),
    }


def _spares(states: Sequence[Filled], names: Mapping[str, str]) -> list[Figures]:
    return [{"slot": name_of_slot(each.slot, names), "coin": coin} for each in states for coin in each.spares]


def _grades(cabinet: Cabinet, grades: Grades) -> Figures:
    """Give the mean to the hundredth, the weakest coins, and those that have no grade and are in neither."""
    return {
        "mean_grade": _hundredths(grades.mean),
        "weakest": list(grades.weakest),
        "ungraded": list(grades.ungraded),
    }


def _hundredths(mean: Fraction | None) -> float | None:
    return None if mean is None else float(round(mean, 2))


def _stretch(stretch: Stretch | None) -> Figures | None:
    if stretch is None:
        return None
    return {"slots": stretch.length, "first": stretch.first, "last": stretch.last}
