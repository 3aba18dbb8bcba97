"""What earlier builds made: for each file of an edition by what it was made, and how it was left on disk.

Losing this is harmless, and a broken record counts as none: the files are then made again and compared. Where
only a few files were made, what they came to is added in a file beside, which counts as long as the record is as
it was.
"""

import json
import time
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from daterun.press.fingerprints import Mark
from daterun.sealed import SEALED, seal, unseal

_VERSION = 2

_UNREADABLE = (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError)


@dataclass(frozen=True, slots=True)
class Made:
    """One file as it was made, or as it is about to be: then size and time are 0.

    Time is that of its last change in nanoseconds. The digest is that of its bytes, "" where it is not known
    yet, and the earlier that of what it is to take the place of. The reason says why it was last made.
    """

    mark: Mark
    size: int
    time_ns: int
    digest: str
    earlier: str
    reason: str


def read_made(path: Path) -> dict[str, Made]:
    """Read what was made; empty where there is no such record, or one that cannot be read."""
    try:
        return {address: _made(row) for address, row in read_rows(path).items()}
    except _UNREADABLE:
        return {}


def read_rows(path: Path) -> dict[str, Any]:
    """Read what was made, but leave it to ``made_of`` to make something of a row, where few are needed."""
    try:
        record = json.loads(unseal(path.read_text(encoding="utf-8")))
        is_earlier = record["version"] == 1 and not _beside(path).exists()  # then it was told apart otherwise
        if record["version"] != _VERSION and not is_earlier:
            return {}
        rows = dict(record["made"])
    except _UNREADABLE:
        return {}
    try:
        first, *lines = _beside(path).read_text(encoding="utf-8").split("\n")
        if first == _stamp(path):
            for line in lines[:-1]:  # the last is empty, or was cut short
                for address, row in json.loads(unseal(line)).items():
                    if row is None:
                        rows.pop(address, None)
                    else:
                        rows[address] = row
    except OSError:
        return rows
    except _UNREADABLE:
        return {}  # a record that lacks some of what was made would take that for a stranger's
    return rows


def made_of(rows: Mapping[str, Any], address: str) -> Made | None:
    """Make something of the row of a file; None where there is none that can be read."""
    try:
        return _made(rows[address])
    except _UNREADABLE:
        return None


def write_made(path: Path, made: Mapping[str, Made]) -> None:
    """Write what was made, whole or not at all, and only where it differs from what is written there."""
    rows = {address: _row(each) for address, each in sorted(made.items())}
    facts = json.dumps(rows, ensure_ascii=False, separators=(",", ":"))
    text = seal(f'{{"version":{_VERSION},"written":{time.time_ns()},"made":{facts}}}')
    beside = _beside(path)
    with suppress(OSError, ValueError):
        stood = unseal(path.read_text(encoding="utf-8"))
        if not beside.exists() and stood.partition(',"made":')[2] == f"{facts}}}":
            return
    path.parent.mkdir(parents=True, exist_ok=True)
    new = path.with_name(f"{path.name}.new")
    new.write_text(text, encoding="utf-8")
    new.replace(path)
    beside.unlink(missing_ok=True)


def add_made(path: Path, made: Mapping[str, Made | None]) -> None:
    """Add what became of a few files to what is written; None for one that is no more."""
    beside = _beside(path)
    stamp = f"{_stamp(path)}\n"
    rows = {address: _row(each) if each is not None else None for address, each in made.items()}
    with beside.open("a+b") as file:
        file.seek(0)
        whole = file.read()
        end = whole.rfind(b"\n") + 1 if whole.startswith(stamp.encode()) else 0
        file.truncate(end)  # a line cut short, as by a full disk, would spoil those behind it
        file.write(f"{'' if end else stamp}{seal(json.dumps(rows))}\n".encode())


def write_last(path: Path, reasons: Mapping[str, str]) -> None:
    """Write which files the last build made, each with the reason; what cannot be written is let go."""
    with suppress(OSError):
        path.with_suffix(".last").write_text(json.dumps(reasons, ensure_ascii=False), encoding="utf-8")


def read_last(path: Path) -> dict[str, str]:
    """Read which files the last build made, each with the reason; the path is that of the record."""
    try:
        stored = json.loads(path.with_suffix(".last").read_text(encoding="utf-8"))
        return {str(address): str(reason) for address, reason in stored.items()}
    except _UNREADABLE:
        return {}


def _beside(path: Path) -> Path:
    return path.with_name(f"{path.name}.since")


def _stamp(path: Path) -> str:
    """Tell which record it is that something is added to, by its seal; no two were written at one time."""
    with path.open(encoding="utf-8") as file:
        return file.readline(SEALED)


def _row(each: Made) -> tuple[list[str], int, int, str, str, str]:
    mark = [each.mark.shown, each.mark.theme, each.mark.program]
    return (mark, each.size, each.time_ns, each.digest, each.earlier, each.reason)


def _made(row: Any) -> Made:
    mark, size, time_ns, digest, earlier, reason = row
    return Made(Mark(*map(str, mark)), int(size), int(time_ns), str(digest), str(earlier), str(reason))
