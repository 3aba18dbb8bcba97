"""``daterun gaps``: the run of each series in the terminal, and how far the aims are filled."""

import argparse
import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any, TextIO

from daterun.checks.aims import AimState, fill_aim, left_out_slots
from daterun.checks.completeness import Filled, State, Tally, missing_dates, tally
from daterun.pages.cabinet import Cabinet, arrange, standard_weight
from daterun.readers.closed import ClosedCoin
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Series

EXAMPLE = """\
example:
  daterun gaps --folder my-coins
  daterun gaps --json
"""

SIGNS = {State.FILLED: "●", State.BELOW: "◐", State.MISSING: "○", State.LEFT_OUT: "–"}
PLAIN_SIGNS = {State.FILLED: "#", State.BELOW: "+", State.MISSING: "o", State.LEFT_OUT: "-"}
NONE_STRUCK = "·"
BAR = 20


def add(subparsers: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    parser = subparsers.add_parser(
        "gaps",
        help="show which dates of each run are held and which are missing",
        description="Show which dates of each run are held and which are missing.",
        epilog=EXAMPLE,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--folder", type=Path, default=Path(), help="the catalogue folder (the current one)")
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace, out: TextIO) -> int:
    """Print the gaps; 1 where the catalogue has errors, which are printed by ``daterun check``."""
    catalogue, problems = read_catalogue(arguments.folder)
    cabinet = arrange(close_catalogue(catalogue, {}, Reader.KEEPER))
    aims = aim_states(cabinet)
    if arguments.json:
        print(json.dumps(as_json(cabinet, aims), ensure_ascii=False, indent=2), file=out)
    else:
        print(as_text(cabinet, aims, _can_show(out)), file=out)
    if any(each.is_error for each in problems):
        print("Some files could not be read and are not counted; daterun check says which.", file=out)
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
    series = []
    for each in _series(cabinet):
        states = cabinet.runs[each.key]
        counts = tally(states)
        series.append(
            {
                "id": each.key,
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
                "missing_dates": list(each.missing_dates),
            }
            for each in aims
        ],
    }


def _series(cabinet: Cabinet) -> list[Series]:
    return [series for denomination in cabinet.denominations for series in denomination.series]


def as_text(cabinet: Cabinet, aims: Iterable[AimState], pretty: bool) -> str:
    """Lay out the run of each series, a line a decade, then the aims with bars."""
    signs = SIGNS if pretty else PLAIN_SIGNS
    lines: list[str] = []
    for series in _series(cabinet):
        states = cabinet.runs[series.key]
        counts = tally(states)
        lines.append(f"{series.name}  {counts.filled} of {counts.slots}")
        lines += _decades(series, states, signs, "·" if pretty else ".")
        missing = missing_dates(states)
        if missing:
            lines += _wrapped("  missing: ", missing)
        lines.append("")
    for aim in aims:
        counts = aim.tally
        lines.append(f"{aim.name}")
        lines.append(f"  {_bar(counts, pretty)} {_counts(counts)}")
    return "\n".join(lines).rstrip()


def _decades(
    series: Series, states: Iterable[Filled], signs: Mapping[State, str], none_struck: str
) -> list[str]:
    years = series.struck.years
    if years is None:
        return []
    by_year: dict[int, str] = {}
    for each in states:
        year = each.slot.date.year
        if year is not None:
            by_year[year] = by_year.get(year, "") + signs[each.state]
    lines = []
    for decade in range(years.first // 10 * 10, years.last + 1, 10):
        cells = []
        for year in range(decade, decade + 10):
            cells.append(by_year.get(year, none_struck if year in years else " "))
        lines.append(f"  {decade}s  {' '.join(f'{each:2}' for each in cells)}".rstrip())
    return lines


def _wrapped(head: str, words: Iterable[str], width: int = 78) -> list[str]:
    lines, line = [], head
    for word in words:
        if len(line) + len(word) + 2 > width and line.strip():
            lines.append(line.rstrip())
            line = " " * len(head)
        line += f"{word}, "
    lines.append(line.rstrip().rstrip(","))
    return lines


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
