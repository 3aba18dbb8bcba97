"""What earlier builds made: for each file of an edition by what it was made, and how it was left on disk.

Losing this is harmless, and a broken record counts as none: the files are then made again and compared.
"""

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from daterun.press.fingerprints import Mark

_VERSION = 1


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
        record = json.loads(path.read_text(encoding="utf-8"))
        if record["version"] != _VERSION:
            return {}
        return {
            str(address): Made(
                Mark(*map(str, mark)), int(size), int(time_ns), str(digest), str(earlier), str(reason)
            )
            for address, (mark, size, time_ns, digest, earlier, reason) in record["made"].items()
        }
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}


def write_made(path: Path, made: Mapping[str, Made]) -> None:
    """Write what was made, whole or not at all, and only where it differs from what is written there."""
    rows = {
        address: (
            [each.mark.shown, each.mark.theme, each.mark.program],
            each.size,
            each.time_ns,
            each.digest,
            each.earlier,
            each.reason,
        )
        for address, each in sorted(made.items())
    }
    text = json.dumps({"version": _VERSION, "made": rows}, ensure_ascii=False, separators=(",", ":"))
    with suppress(OSError, ValueError):
        if path.read_text(encoding="utf-8") == text:
            return
    path.parent.mkdir(parents=True, exist_ok=True)
    new = path.with_name(f"{path.name}.new")
    new.write_text(text, encoding="utf-8")
    new.replace(path)
