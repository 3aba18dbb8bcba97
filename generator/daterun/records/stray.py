"""What lies beside the folders of a catalogue and is read by nothing, such as a folder named `serie`.

A file of the wrong sort inside one of the folders is met in ``records/files.py``.
"""

from collections.abc import Iterator
from pathlib import Path

from daterun.problems import Place, Problem, Severity, nearest

KNOWN = ("catalogue.yaml", "issuers", "series", "coins", "lots", "pages", "photos")
"""All that ``content`` can hold."""

_NOT_THE_KEEPERS = (
    "thumbs.db",
    "desktop.ini",
)  # left behind by machines; hidden files are passed over as well


def find_stray(root: Path) -> Iterator[Problem]:
    """Find files and folders in ``content`` that no part of the catalogue is read from; it is advice."""
    for name in sorted(each.name for each in (root / "content").iterdir()):
        if name in KNOWN or name.startswith(".") or name.endswith("~") or name.lower() in _NOT_THE_KEEPERS:
            continue
        shown = name.encode("utf-8", "replace").decode("utf-8")
        close = nearest(shown, KNOWN)
        hint = f'did you mean "{close}"?' if close else "known here: " + ", ".join(KNOWN)
        place = Place(f"content/{shown}")
        yield Problem("not read", "nothing in the catalogue is read from this", place, hint, Severity.ADVICE)
