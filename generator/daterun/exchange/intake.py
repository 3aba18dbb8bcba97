"""A table's rows into coins: every row is a new coin, one that is there already, a blank, or is rejected.

What would be written is known, and checked by all rules, before anything is; reading the table and its cells is
left to their modules.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from daterun.checks.catalogue import check_catalogue
from daterun.exchange.add import taken_ids
from daterun.exchange.cells import BLANKS, Habits, splits_mint, write_cell, write_currency
from daterun.exchange.coinfile import coin_path, read_text, with_coins, write_coin
from daterun.exchange.columns import put_together
from daterun.exchange.guessing import CURRENCY, IGNORED, ISSUER
from daterun.exchange.ids import free_id, wish_id
from daterun.exchange.mapping import ColumnMapping
from daterun.exchange.placing import place_many, replace_own
from daterun.exchange.plain import plain_mapping
from daterun.exchange.seriesnames import SeriesNames, canonical
from daterun.exchange.tables import Row, Table
from daterun.exchange.yamltext import Plain
from daterun.problems import Misread, Problem
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.files import fold_name
from daterun.records.located import Mapping as Located
from daterun.trade.dates import parse_coin_date

LEDGER = ".daterun/intake.json"
"""Where is remembered which rows were taken in, so that a coin corrected since is not taken in again."""


@dataclass(frozen=True, slots=True)
class Reject:
    """A row that gives no coin: the column that is to blame, "" where none is, and why."""

    row: Row
    column: str
    reason: str


@dataclass(frozen=True, slots=True)
class Taken:
    """A row that gives a new coin."""

    row: Row
    coin: Coin
    text: str
    mark: str


@dataclass(frozen=True, slots=True)
class Intake:
    """What a table comes to: new coins, the numbers of rows that are there already, blanks, and rejects."""

    taken: tuple[Taken, ...]
    there: tuple[int, ...]
    blank: int
    rejects: tuple[Reject, ...]


@dataclass(frozen=True, slots=True)
class _Candidate:
    row: Row
    values: dict[str, Plain]
    notes: str
    id: str
    mark: str


class _RejectedError(Exception):
    def __init__(self, column: str, reason: str) -> None:
        self.column = column
        self.reason = reason


def take_in(folder: Path, catalogue: Catalogue, table: Table, mapping: ColumnMapping) -> Intake:
    """Work out what a table comes to in a catalogue; nothing is written."""
    targets = {column: mapping.columns.get(column, IGNORED) for column in table.columns}
    habits = _habits(table, targets, mapping, catalogue)
    names = SeriesNames(catalogue)
    ledger = read_ledger(folder)
    taken_already = taken_ids(folder)
    known = Counter(_mark_of_coin(coin, catalogue) for coin in catalogue.coins)
    seen: Counter[str] = Counter()
    by_id = {fold_name(coin.id): coin for coin in catalogue.coins}
    rejects: list[Reject] = []
    there: list[int] = []
    candidates: list[_Candidate] = []
    counted: dict[str, int] = {}
    blank = 0
    for row in table.rows:
        if row.is_blank:
            blank += 1
            continue
        try:
            values, notes, own_id = _values(row, table, targets, habits, names, mapping.series)
        except _RejectedError as error:
            rejects.append(Reject(row, error.column, error.reason))
            continue
        series = catalogue.find_series(str(values["series"]))
        assert series is not None, "a row without a series is rejected"
        bare = _mark(canonical(values, series), notes)
        seen[bare] += 1
        mark = f"{bare}-{seen[bare]}"
        entered = ledger.get(mark)
        if seen[bare] <= known[bare] or (entered is not None and fold_name(entered) in taken_already):
            there.append(row.number)
            continue
        if own_id and fold_name(own_id) in taken_already:
            other = by_id.get(fold_name(own_id))
            what = f"the coin {other.id}" if other else f"another row or file named {own_id}"
            rejects.append(Reject(row, _column(targets, "id"), f"{what} is there already and says otherwise"))
            continue
        coin_id = own_id or free_id(wish_id(names.short(series), values), taken_already, counted)
        taken_already.add(fold_name(coin_id))
        candidates.append(_Candidate(row, values, notes, coin_id, mark))
    taken, faulty = _sound(candidates, catalogue, targets)
    rejects += faulty
    return Intake(taken, tuple(there), blank, tuple(sorted(rejects, key=lambda each: each.row.number)))


def write(folder: Path, intake: Intake) -> None:
    """Write the new coins of an intake, and remember which rows they were."""
    place_many({folder / coin_path(each.coin.id): each.text.encode("utf-8") for each in intake.taken})
    ledger = {**read_ledger(folder), **{each.mark: each.coin.id for each in intake.taken}}
    replace_own(folder / LEDGER, json.dumps(ledger, indent=0, sort_keys=True).encode("ascii"))


def read_ledger(folder: Path) -> dict[str, str]:
    """Read which rows were taken in as which coins; empty where that was forgotten."""
    try:
        found = json.loads((folder / LEDGER).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(key): str(value) for key, value in found.items()} if isinstance(found, dict) else {}


def _habits(table: Table, targets: Mapping[str, str], mapping: ColumnMapping, catalogue: Catalogue) -> Habits:
    axes = [nth for nth, column in enumerate(table.columns) if targets[column] == "axis"]
    numbers = [row.cells[nth].strip() for row in table.rows for nth in axes]
    return Habits(
        day_first={"day first": True, "month first": False}.get(mapping.order),
        decimal_comma=mapping.decimals == "comma",
        currency=mapping.currency or catalogue.settings.currency,
        hours=all(1 <= int(each) <= 12 for each in numbers if each.isascii() and each.isdigit()),
    )


def _values(
    row: Row,
    table: Table,
    targets: Mapping[str, str],
    habits: Habits,
    names: SeriesNames,
    series_word: str,
) -> tuple[dict[str, Plain], str, str]:
    """Put the values, notes and id of a row together; raise where a cell cannot be used."""
    if any(each.strip() for each in row.cells[len(table.columns) :]):
        raise _RejectedError("", "the row has more cells than there are headings")
    if not _says_date(row, targets):
        raise _RejectedError(_column(targets, "date"), "no date is said")
    habits = _in_currency(row, targets, habits)
    cells: dict[str, str] = {}
    notes: list[str] = []
    issuer = ""
    for column, cell in zip(table.columns, row.cells, strict=False):
        target = targets[column]
        if target == ISSUER:
            issuer = cell.strip()
        elif target == "notes":
            notes += [cell] if cell.strip() else []
        elif target not in (IGNORED, CURRENCY):
            try:
                written = write_cell(target, cell, habits)
            except Misread as misread:
                raise _RejectedError(column, _reason(misread)) from None
            if written:
                cells[target] = written
    _settle_series(cells, issuer, series_word, names, targets)
    _settle_certificate(cells, targets)
    own_id = cells.pop("id", "")
    if own_id and not _is_an_id(own_id):
        raise _RejectedError(_column(targets, "id"), f'"{own_id}" is no id that a coin can have')
    return put_together(cells), "\n\n".join(notes), own_id


def _says_date(row: Row, targets: Mapping[str, str]) -> bool:
    """Tell whether a row has a date at all, which the sums beneath a table have not."""
    pairs = zip(targets.values(), row.cells, strict=False)
    return any(target == "date" and write_cell(target, cell, Habits()) for target, cell in pairs)


def _in_currency(row: Row, targets: Mapping[str, str], habits: Habits) -> Habits:
    """Have amounts of a row be in the currency that a column of the row names, where one does."""
    for (column, target), cell in zip(targets.items(), row.cells, strict=False):
        if target == CURRENCY and (typed := cell.strip()) not in BLANKS:
            try:
                return replace(habits, currency=write_currency(typed))
            except Misread as misread:
                raise _RejectedError(column, _reason(misread)) from None
    return habits


def _settle_series(
    cells: dict[str, str], issuer: str, series_word: str, names: SeriesNames, targets: Mapping[str, str]
) -> None:
    """Name the series by the catalogue's own word, and part a mint mark from the date that it was typed with."""
    word = cells.get("series", series_word)
    if not word:
        raise _RejectedError(
            _column(targets, "series"), "no series is said; name the column that has it, or say --series"
        )
    parted = splits_mint(cells["date"]) if "mint" not in cells else None
    year = cells["date"][:4]
    try:
        series = names.find(word, issuer, int(year) if year.isascii() and year.isdigit() else None)
    except Misread as misread:
        raise _RejectedError(_column(targets, "series"), _reason(misread)) from None
    cells["series"] = word if names.is_name(word) else names.short(series)
    if parted is not None and parted[1] in series.mints_of(parse_coin_date(parted[0])):
        cells["date"], cells["mint"] = parted


def _settle_certificate(cells: dict[str, str], targets: Mapping[str, str]) -> None:
    """Have the one grade of a row that names a grading firm be that of the certificate, and no opinion beside it.

    Where a column of the table is for grades of certificates, that of the row cannot be told to be one.
    """
    if not cells.get("certificate by") or cells.get("certificate grade"):
        return
    if own := _column(targets, "certificate grade"):
        raise _RejectedError(own, f"no grade is said for the certificate; write it under {own}")
    if "grade" in cells:
        cells["certificate grade"] = cells.pop("grade")


def _sound(
    candidates: Iterable[_Candidate], catalogue: Catalogue, targets: Mapping[str, str]
) -> tuple[tuple[Taken, ...], list[Reject]]:
    """Part candidates into those that break no rule, together with all coins there, and those that do."""
    rejects: list[Reject] = []
    taken: list[tuple[Taken, Located]] = []
    for each in candidates:
        text = write_coin(each.values, each.notes)
        read = read_text(each.id, text, catalogue)
        error = next((problem for problem in read.problems if problem.is_error), None)
        if read.coin is None or error is not None:
            assert error is not None, "a file that gives no coin has an error"
            at = read.coin.at if read.coin else None
            rejects.append(_reject(each.row, error, at, targets, text))
        else:
            taken.append((Taken(each.row, read.coin, text, each.mark), read.coin.at))
    while True:
        together = with_coins(catalogue, [each.coin for each, _ in taken])
        errors: dict[str, Problem] = {}
        for problem in check_catalogue(together, None):
            if problem.is_error:
                errors.setdefault(problem.place.path, problem)
        faulty = [(each, at) for each, at in taken if coin_path(each.coin.id) in errors]
        if not faulty:
            return tuple(each for each, _ in taken), rejects
        rejects += [
            _reject(each.row, errors[coin_path(each.coin.id)], at, targets, each.text) for each, at in faulty
        ]
        taken = [each for each in taken if coin_path(each[0].coin.id) not in errors]


def _reject(row: Row, problem: Problem, at: Located | None, targets: Mapping[str, str], text: str) -> Reject:
    key = _key_at(problem, at, text)
    hint = f"; {problem.hint}" if problem.hint else ""
    return Reject(row, _blamed(targets, key), f"{problem.sentence}{hint}")


def _key_at(problem: Problem, at: Located | None, text: str) -> str:
    """Find the field that a problem of a coin's file is about, by where it stands."""
    place = problem.place
    for key, entry in (at.entries if at is not None else {}).items():
        if entry.place.line == place.line:
            parts = entry.value.entries.items() if isinstance(entry.value, Located) else ()
            for part, inner in parts:
                if place in (inner.place, inner.value.place):
                    return f"{key} {part}"
            return key
    lines = text.split("\n")
    return lines[place.line - 1].partition(":")[0] if 0 < place.line <= len(lines) else ""


def _column(targets: Mapping[str, str], target: str) -> str:
    """Name the column that is read as a field, or as the first part of it; "" where none is."""
    found = [column for column, each in targets.items() if each == target]
    found += [column for column, each in targets.items() if each.startswith(f"{target} ")]
    return found[0] if found else ""


def _blamed(targets: Mapping[str, str], key: str) -> str:
    """Name the column from which a field of a coin came, "" where none is to blame."""
    column = _column(targets, key)
    return _column(targets, "grade") if not column and key == "certificate grade" else column


def _reason(misread: Misread) -> str:
    return f"{misread.sentence}; {misread.hint}" if misread.hint else misread.sentence


def _is_an_id(text: str) -> bool:
    parts = text.split("/")
    return all(
        each and not each.startswith(".") and each == each.strip() and not set(each) & set('\\:*?"<>|')
        for each in parts
    ) and all(sign.isprintable() for sign in text)


def _mark(values: Mapping[str, object], notes: str) -> str:
    whole = json.dumps([values, notes.strip()], sort_keys=True)
    return hashlib.blake2b(whole.encode(), digest_size=12).hexdigest()


def _mark_of_coin(coin: Coin, catalogue: Catalogue) -> str:
    return _mark(canonical(plain_mapping(coin.at), catalogue.find_series(coin.series)), coin.notes)
