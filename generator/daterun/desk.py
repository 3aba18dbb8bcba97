"""The desk: what a build leaves lying ready, so that the next can take up other notes of coins by themselves.

It counts only as long as all else is as it was, which ``standing`` tells; losing it costs a build, nothing else.
"""

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from daterun.press.needle import Needle
from daterun.press.searching import Search
from daterun.records.frontmatter import digest_of_text
from daterun.sealed import seal, unseal

DESK, SLIPS = ".desk", ".slips"
"""The endings of the files of an edition in which the desk and the slips of pages are remembered."""


@dataclass(frozen=True, slots=True)
class Desk:
    """What an edition was made by, beside what lies in it.

    Typed are two digests of each coin's file by its path in the catalogue folder, of its front matter and of its
    notes; the stamps are those of the files when they were looked at before that, "" where they told nothing. The
    base is the path at which the site will lie. Of what is sought the values are not at hand.
    """

    theme: str
    language: str
    base: str
    typed: Mapping[str, tuple[str, str]]
    search: Search
    stamps: Mapping[str, str] = field(default_factory=dict)


def digest_of_notes(notes: str) -> str:
    """Give the digest by which notes are told to be as they were; "" for none but space."""
    return digest_of_text(notes) if notes.strip() else ""


def write_desk(path: Path, desk: Desk, stamps: Mapping[str, str]) -> None:
    """Remember a desk with the stamps of the coins' files. Raise OSError where that fails."""
    stored = {
        "theme": desk.theme,
        "language": desk.language,
        "base": desk.base,
        "typed": desk.typed,
        "stamps": stamps,
        "needles": [(" ".join(each.tokens), each.is_alone, each.proper) for each in desk.search.needles],
    }
    new = path.with_name(f"{path.name}.new")
    new.write_text(seal(json.dumps(stored)), encoding="utf-8")
    new.replace(path)


def read_desk(path: Path) -> Desk | None:
    """Read a desk; None where there is none that can be read."""
    try:
        stored = json.loads(unseal(path.read_text(encoding="utf-8")))
        needles = [
            Needle(tuple(str(words).split(" ")), None, bool(is_alone), str(proper))
            for words, is_alone, proper in stored["needles"]
        ]
        typed = {str(each): (str(matter), str(notes)) for each, (matter, notes) in stored["typed"].items()}
        stamps = {str(each): str(stamp) for each, stamp in stored["stamps"].items()}
        theme, language, base = (str(stored[each]) for each in ("theme", "language", "base"))
        return Desk(theme, language, base, typed, Search(needles), stamps)
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None


def clear_desk(memory: Path) -> None:
    """Forget the desk and the slips that go with what is remembered of an edition."""
    for ending in (DESK, SLIPS):
        with suppress(OSError):
            memory.with_suffix(ending).unlink(missing_ok=True)
