"""Stamps: by what a file is known to be unchanged without being read, and when such a stamp can be trusted."""

import os
from pathlib import Path

Stamp = tuple[int, int, int, int]
"""Size in bytes, time of change of the file and of its entry in nanoseconds, number on disk."""

JUST_NOW_NS = 2_000_000_000
"""A file changed so shortly before it was looked at may change again within one tick of its clock."""


def stamp_of(path: str | Path) -> Stamp | None:
    """Take a file's stamp; None where there is none to be had."""
    try:
        status = os.stat(path)  # noqa: PTH116 - a third of the time of making a Path first
    except (OSError, ValueError):
        return None
    return (status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino)


def has_settled(changed_ns: int, now_ns: int) -> bool:
    """Tell whether a change lies so far back that another since would have another time."""
    return changed_ns < now_ns - JUST_NOW_NS
