"""What lies beside the folders of a catalogue, or among its photos, and is read by nothing.

A file of the wrong sort inside one of the other folders is met in ``records/files.py``.
"""

import os
from collections.abc import Iterator
from pathlib import Path

from daterun.problems import Place, Problem, Severity, nearest
from daterun.records.files import PICTURE_SUFFIXES, is_left_by_a_machine

KNOWN = ("catalogue.yaml", "issuers", "series", "coins", "lots", "pages", "photos")
"""All that ``content`` can hold."""


def find_stray(root: Path) -> Iterator[Problem]:
    """Find what in ``content`` is read by nothing, such as a folder named ``serie``; it is advice."""
    for name in sorted(each.name for each in (root / "content").iterdir()):
        if name in KNOWN or is_left_by_a_machine(name):
            continue
        shown = name.encode("utf-8", "replace").decode("utf-8")
        close = nearest(shown, KNOWN)
        hint = f'did you mean "{close}"?' if close else "known here: " + ", ".join(KNOWN)
        place = Place(f"content/{shown}")
        yield Problem("not read", "nothing in the catalogue is read from this", place, hint, Severity.ADVICE)
    yield from _find_among_photos(root)


def _find_among_photos(root: Path) -> Iterator[Problem]:
    """Find files under ``content/photos`` of which no picture can be made, such as those of some telephones."""
    for folder, folders, names in os.walk(root / "content/photos"):
        folders[:] = sorted(each for each in folders if not each.startswith("."))
        for name in sorted(names):
            path = Path(folder, name)
            if path.suffix.lower() in PICTURE_SUFFIXES or is_left_by_a_machine(name):
                continue
            shown = path.relative_to(root).as_posix().encode("utf-8", "replace").decode("utf-8")
            said = "no picture is made of a file of this kind"
            hint = "save a photo as JPEG, PNG, WebP, TIFF, AVIF or BMP"
            yield Problem("not read", said, Place(shown), hint, Severity.ADVICE)
