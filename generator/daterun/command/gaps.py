"""``daterun gaps``: the run of each series in the terminal, and how far the aims are filled."""

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from typing import Any, TextIO

from daterun.checks.aims import AimState, fill_aim, left_out_slots
from daterun.checks.completeness import Filled, State, Tally, missing_dates, tally
from daterun.checks.slots import is_proofs_only
from daterun.pages.cabinet import Cabinet, arrange, standard_weight
from daterun.readers.closed import ClosedCoin
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Series

PRETTY: Mapping[str, str] = {
    State.FILLED: "●",
    State.BELOW: "◐",
    State.MISSING: "○",
    State.LEFT_OUT: "–",
    "none struck": "·",
    "proofs only": "p",
    "not known": "?",
}
PLAIN: Mapping[str, str] = {
    **PRETTY,
    State.FILLED: "#",
    State.BELOW: "+",
    State.MISSING: "o",
    State.LEFT_OUT: "-",
    "none struck": ".",
}
MEANINGS: Mapping[str, str] = {State.FILLED: "in the cabinet", State.MISSING: "missing"}
"""What the signs that are not named by what they mean stand for, in the order in which they are explained."""

BAR = 20
WIDTH = 78


def run(arguments: argparse.Namespace, out: TextIO) -> int:
    """Print the gaps; 1 where some files cannot be read, of which ``daterun check`` tells."""
    catalogue, problems = read_catalogue(arguments.folder)
    cabinet = arrange(close_catalogue(catalogue, {}, Reader.KEEPER))
    aims = aim_states(cabinet)
    if arguments.json:
        print(json.dumps(as_json(cabinet, aims), indent=2), file=out)
    else:
        print(as_text(cabinet, aims, _can_show(out)), file=out)
    if any(each.is_error for each in problems):
        print(
            "Some files have problems, and what could not be read is not counted; daterun check tells of them.",
            file=sys.stderr,
        )
        return 1
    return 0


def _can_show(out: TextIO) -> bool:
    """Tell whether the signs can be shown where the report goes."""
    try:
        "●◐○█".encode(getattr(out, "encoding", None) or "utf-8")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def aim_states(cabinet: Cabinet) -> tuple[AimState, ...]:
    """Fill the keeper's aims."""
    catalogue = cabinet.catalogue
    coins = tuple(each.coin for each in cabinet.coins)

    def standard(coin: Any) -> Any:
        found = catalogue.series.get(coin.series)
        return standard_weight(found, coin) if found is not None and isinstance(coin, ClosedCoin) else None

    return tuple(
        fill_aim(aim, catalogue.series, coins, left_out_slots(aim.leave_out, catalogue.series), standard)
        for aim in catalogue.settings.aims
    )


def as_json(cabinet: Cabinet, aims: Iterable[AimState]) -> Mapping[str, object]:
    """Put the figures into the shape that ``gaps --json`` promises."""
    names = short_names(cabinet)
    series = []
    for each in _series(cabinet):
        states = cabinet.runs[each.key]
        counts = tally(states)
        series.append(
            {
                "id": names[each.key],
                "name": each.name,
                "slots": counts.slots,
                "filled": counts.filled,
                "missing": counts.missing,
                "missing_dates": list(missing_dates(states)),
            }
        )
    return {
        "series": series,
        "aims": [
            {
                "id": each.id,
                "name": each.name,
                **asdict(each.tally),
                "missing_dates": _missing_of(each, names),
            }
            for each in aims
        ],
    }


def short_names(cabinet: Cabinet) -> Mapping[str, str]:
    """Name each series as a keeper writes it: by its short id while that is unique, else by its whole name."""
    every = cabinet.catalogue.series
    ids = Counter(each.id for each in every.values())
    return {key: each.id if ids[each.id] == 1 else key for key, each in every.items()}


def _missing_of(aim: AimState, names: Mapping[str, str]) -> list[str]:
    """Name the missing slots of an aim with their series, as in ``ort 1892``."""
    missing = [each.slot for each in aim.states if each.state is State.MISSING]
    return [f"{names[each.series]} {each.name}" for each in missing]


def _series(cabinet: Cabinet) -> list[Series]:
    return [series for denomination in cabinet.denominations for series in denomination.series]


def as_text(cabinet: Cabinet, aims: Iterable[AimState], pretty: bool) -> str:
    """Lay out the run of each series, a line a decade, then the aims with bars, then what the signs mean."""
    signs = PRETTY if pretty else PLAIN
    names = short_names(cabinet)
    lines: list[str] = []
    used: set[str] = set()
    for series in _series(cabinet):
        states = cabinet.runs[series.key]
        counts = tally(states)
        lines.append(f"{series.name} ({names[series.key]})  {counts.filled} of {counts.slots}")
        decades = _decades(series, states, signs)
        used.update(sign for line in decades for sign in line.partition("s  ")[2])
        lines += decades
        lines += _missing("missing", missing_dates(states))
        lines.append("")
    if used:
        meanings = {
            signs[key]: MEANINGS.get(key, key) for key in (State.FILLED, State.MISSING, *list(signs)[4:])
        }
        lines += [", ".join(f"{sign} {meaning}" for sign, meaning in meanings.items() if sign in used), ""]
    for aim in aims:
        lines.append(aim.name)
        lines.append(f"  {_bar(aim.tally, pretty)} {_counts(aim.tally)}")
        for key in dict.fromkeys(each.slot.series for each in aim.states):
            own = [each for each in aim.states if each.slot.series == key]
            lines += _missing(f"missing of {names[key]}", missing_dates(own))
        lines.append("")
    return "\n".join(lines).rstrip()


def _decades(series: Series, states: Iterable[Filled], signs: Mapping[str, str]) -> list[str]:
    """Draw the run, a line a decade; a year in which several things were struck has a sign for each."""
    years = series.struck.years
    if years is None:
        return []
    by_year: dict[int, str] = {}
    for each in states:
        if each.slot.date.year is not None:
            by_year[each.slot.date.year] = by_year.get(each.slot.date.year, "") + signs[each.state]
    width = max((len(each) for each in by_year.values()), default=1)
    lines = []
    for decade in range(years.first // 10 * 10, years.last + 1, 10):
        cells = [
            by_year.get(year) or signs.get(_no_slot(series, year), " ") for year in range(decade, decade + 10)
        ]
        if any(cell.strip() for cell in cells):
            lines.append(f"  {decade}s  {' '.join(f'{each:{width}}' for each in cells)}".rstrip())
    return lines


def _no_slot(series: Series, year: int) -> str:
    """Say why a year has no slot; nothing where it is outside the run, or the second of a double date."""
    struck = series.struck
    if any(each.date.year == year and is_proofs_only(each) for each in series.issues):
        return "proofs only"
    if struck.is_not_known(year):
        return "not known"
    return "none struck" if struck.is_not_struck(year) else ""


def _missing(what: str, names: Iterable[str]) -> list[str]:
    """Lay out the names of what is missing, broken into lines; none where nothing is."""
    head = f"  {what}: "
    lines, line = [], ""
    for name in names:
        if line and len(head) + len(line) + len(name) > WIDTH - 2:
            lines.append(f"{line},")
            line = name
        else:
            line = f"{line}, {name}" if line else name
    lines += [line] if line else []
    return [(head if nth == 0 else " " * len(head)) + each for nth, each in enumerate(lines)]


def _bar(counts: Tally, pretty: bool) -> str:
    """Draw how far an aim is filled: filled, below, and what is missing."""
    wanted = counts.slots - counts.left_out
    full, half, empty = ("█", "▒", "░") if pretty else ("#", "+", ".")
    if wanted == 0:
        return empty * BAR
    filled = counts.filled * BAR // wanted
    below = min((counts.filled + counts.below) * BAR // wanted, BAR) - filled
    return full * filled + half * below + empty * (BAR - filled - below)


def _counts(counts: Tally) -> str:
    parts = [f"{counts.filled} of {counts.slots - counts.left_out} filled"]
    for word, number in (
        ("below the aim", counts.below),
        ("missing", counts.missing),
        ("left out", counts.left_out),
    ):
        if number:
            parts.append(f"{number} {word}")
    return ", ".join(parts)
