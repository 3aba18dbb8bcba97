"""The desk: what a build leaves lying ready, so that the next can take up other notes of coins by themselves.

It counts only as long as all else is as it was, which ``standing`` tells; losing it costs a build, nothing else.
"""

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from daterun.press.searching import Search
from daterun.press.slips import SLIPS, forget_slips
from daterun.press.veiled import VeiledSearch
from daterun.records.frontmatter import digest_of_text
from daterun.sealed import seal, unseal

DESK = ".desk"
"""The ending of the file in which the desk of an edition is remembered."""


@dataclass(frozen=True, slots=True)
class Desk:
    """What an edition was made by, beside what lies in it.

    Typed are two digests of each coin's file by its path in the catalogue folder, of its front matter and of its
    notes; the stamps are those of the files when they were looked at before that, "" where they told nothing. The
    base is the path at which the site will lie. Times are how often notes were taken up since it was made whole.
    """

    theme: str
    language: str
    base: str
    typed: Mapping[str, tuple[str, str]]
    search: Search
    stamps: Mapping[str, str] = field(default_factory=dict)
    times: int = 0


def digest_of_notes(notes: str) -> str:
    """Give the digest by which notes are told to be as they were; "" for none but space."""
    return digest_of_text(notes) if notes.strip() else ""


def write_desk(path: Path, desk: Desk) -> None:
    """Remember a desk; what is sought is veiled. Raise OSError where that fails."""
    stored = {
        "theme": desk.theme,
        "language": desk.language,
        "base": desk.base,
        "typed": desk.typed,
        "stamps": desk.stamps,
        "sought": desk.search.veiled,
        "spared": desk.search.spared,
        "times": desk.times,
    }
    new = path.with_name(f"{path.name}.new")
    new.write_text(seal(json.dumps(stored)), encoding="utf-8")
    new.replace(path)


def read_desk(path: Path) -> Desk | None:
    """Read a desk; None where there is none that can be read."""
    try:
        stored = json.loads(unseal(path.read_text(encoding="utf-8")))
        search = VeiledSearch(map(str, stored["sought"]), map(str, stored["spared"]))
        typed = {str(each): (str(matter), str(notes)) for each, (matter, notes) in stored["typed"].items()}
        stamps = {str(each): str(stamp) for each, stamp in stored["stamps"].items()}
        theme, language, base = (str(stored[each]) for each in ("theme", "language", "base"))
        return Desk(theme, language, base, typed, search, stamps, int(stored["times"]))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None


def clear_desk(memory: Path) -> None:
    """Forget the desk and the slips that go with what is remembered of an edition."""
    forget_slips(memory.with_suffix(SLIPS))
    with suppress(OSError):
        memory.with_suffix(DESK).unlink(missing_ok=True)
