"""``daterun gaps``: the run of each series in the terminal, and how far the aims are filled."""

import argparse
import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TextIO

from daterun.checks.aims import AimState
from daterun.checks.catalogue import check_catalogue
from daterun.checks.completeness import Filled, State, Tally, missing_dates
from daterun.checks.misfits import Misfit, find_misfits
from daterun.checks.runs import Stretch
from daterun.checks.slots import is_proofs_only
from daterun.checks.wanted import by_scarcity, spare_everywhere
from daterun.command.gapfigures import as_json, name_of_slot, short_names
from daterun.pages.cabinet import Cabinet, arrange
from daterun.pages.counts import Count, by_decade, by_monarch, by_series, grades_of_states
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Series
from daterun.trade.scales import STEP_BY_NUMBER

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
    """Print the gaps; 1 where files cannot be read or coins are left out, of which ``daterun check`` tells."""
    catalogue, problems = read_catalogue(arguments.folder)
    misfits = find_misfits(catalogue, [*problems, *check_catalogue(catalogue, None)])
    apart = {each.coin for each in misfits}
    counted = replace(catalogue, coins=tuple(each for each in catalogue.coins if each.id not in apart))
    cabinet = arrange(close_catalogue(counted, {}, Reader.KEEPER))
    if arguments.json:
        print(json.dumps(as_json(cabinet, misfits), indent=2), file=out)
    else:
        print(as_text(cabinet, _can_show(out), misfits), file=out)
    if misfits or any(each.is_error for each in problems):
        print(
            "Some files have problems, and what they spoil is not counted; daterun check tells of them.",
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


def as_text(cabinet: Cabinet, pretty: bool, misfits: Sequence[Misfit] = ()) -> str:
    """Lay out the run of each series, a line a decade, what the signs mean, then monarchs and aims with bars."""
    signs = PRETTY if pretty else PLAIN
    names = short_names(cabinet)
    lines: list[str] = []
    used: set[str] = set()
    for count in by_series(cabinet):
        counts = count.tally
        lines.append(f"{count.name} ({names[count.key]})  {counts.filled} of {counts.slots}")
        decades = _decades(cabinet.catalogue.series[count.key], count.states, signs)
        used.update(sign for line in decades for sign in line.partition("s  ")[2])
        lines += decades
        if count.stretch is not None:
            lines.append(f"  {_say_stretch(count.stretch)}")
        lines += _listed("missing", missing_dates(count.states))
        lines.append("")
    if used:
        meanings = {
            signs[key]: MEANINGS.get(key, key) for key in (State.FILLED, State.MISSING, *list(signs)[4:])
        }
        lines += [", ".join(f"{sign} {meaning}" for sign, meaning in meanings.items() if sign in used), ""]
    lines += _bars("By monarch", by_monarch(cabinet), pretty)
    lines += _bars("By decade", by_decade(cabinet), pretty)
    for aim in cabinet.aims:
        lines += [*_aim(cabinet, aim, names, pretty), ""]
    spares = spare_everywhere([*cabinet.runs.values(), *(each.states for each in cabinet.aims)])
    if spares:
        lines += ["Spare in every run and aim", *_listed("coins", spares), ""]
    if misfits:
        lines.append("Not counted until their records are mended")
        lines += [f"  {each.coin}: {each.why}" for each in misfits]
    return "\n".join(lines).rstrip()


def _bars(heading: str, counts: Sequence[Count], pretty: bool) -> list[str]:
    """Draw a bar for each of some counts; nothing where one alone would say what the run says."""
    if len(counts) < 2:
        return []
    width = max(len(each.name) for each in counts)
    lines = [heading]
    for each in counts:
        counted = each.tally
        lines.append(f"  {each.name:{width}}  {_bar(counted, pretty)} {counted.filled} of {counted.slots}")
    return [*lines, ""]


def _say_stretch(stretch: Stretch) -> str:
    if stretch.length == 1:
        return f"longest unbroken: {stretch.first} alone"
    return f"longest unbroken: {stretch.length}, {stretch.first} to {stretch.last}"


def _aim(cabinet: Cabinet, aim: AimState, names: Mapping[str, str], pretty: bool) -> list[str]:
    """Lay out an aim: its bar, its grades, what another grade would do, and what to look for, scarcest first."""
    counts = aim.tally
    lines = [aim.name, f"  {_bar(counts, pretty)} {_counts(counts)}"]
    grades = grades_of_states(cabinet, aim.states, aim.rules.counts)
    if grades.mean is not None:
        weakest = cabinet.by_id[grades.weakest[0]].coin
        lines.append(f"  mean grade {float(grades.mean):.1f}, weakest {weakest.grade} ({weakest.id})")
    if len({each.filled for each in aim.curve}) > 1:
        lines += _listed("filled by at least", _turns(aim))
    missing = by_scarcity(aim.states, aim.rules.strikes)
    lines += _listed("missing, scarcest first", [name_of_slot(each.slot, names) for each in missing])
    below = [each for each in aim.states if each.state is State.BELOW]
    lines += _listed("to be upgraded", [name_of_slot(each.slot, names) for each in below])
    return lines


def _turns(aim: AimState) -> list[str]:
    """Name the grades at which the curve falls, each with the last number that it holds up to it."""
    turns = []
    for here, after in pairwise((*aim.curve, None)):
        if here is not None and here.filled and (after is None or after.filled < here.filled):
            at = "any grade" if here.at_least is None else str(STEP_BY_NUMBER[here.at_least])
            turns.append(f"{at} {here.filled}")
    return turns


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


def _listed(what: str, names: Iterable[str]) -> list[str]:
    """Lay out names, broken into lines; none where there are none."""
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
