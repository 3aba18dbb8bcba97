"""The photos of a catalogue folder, and which side of which coin each is named after."""

import os
import re
import unicodedata
from collections.abc import Iterator, Sequence
from pathlib import Path

from daterun.problems import CannotContinue
from daterun.records.files import PICTURE_SUFFIXES

FOLDER = "content/photos"
SIDES = ("obverse", "reverse", "edge")
_NAMED = re.compile(rf"(?P<coin>.+)\.(?P<side>{'|'.join(SIDES)})\.[^./]+")


def find_photos(folder: Path) -> tuple[str, ...]:
    """List the picture files under ``content/photos``, as sorted paths relative to the catalogue folder.

    Hidden files and folders are passed over, and so are links that lead out of the catalogue folder. Raise
    CannotContinue where a folder cannot be read.
    """
    root = folder / FOLDER
    home = Path(os.path.realpath(folder))
    if not root.is_dir():
        return ()
    found = []
    for path in _walk(root):
        if path.suffix.lower() not in PICTURE_SUFFIXES:
            continue
        if path.is_symlink() and not Path(os.path.realpath(path)).is_relative_to(home):
            continue
        found.append(path.relative_to(folder).as_posix())
    return tuple(sorted(found))


def _walk(folder: Path) -> Iterator[Path]:
    try:
        entries = os.scandir(folder)
    except OSError as error:
        raise CannotContinue(f"{folder} cannot be read: {error.strerror or error}") from error
    with entries:
        for entry in entries:
            if entry.name.startswith("."):
                continue
            if entry.is_dir(follow_symlinks=False):
                yield from _walk(Path(entry.path))
            elif entry.is_symlink() or entry.is_file():
                yield Path(entry.path)


def claim(photos: Sequence[str], coin_ids: Sequence[str]) -> dict[tuple[str, str], list[str]]:
    """Find the photos named after each side of each coin, ``<coin id>.<side>.<suffix>``.

    Several photos may be named after one side, by their suffixes; a side that none is named after is left out.
    Letters with marks are the same whether a file system keeps them composed or apart.
    """
    known = {unicodedata.normalize("NFC", each): each for each in coin_ids}
    claims: dict[tuple[str, str], list[str]] = {}
    for path in photos:
        named = _NAMED.fullmatch(path.removeprefix(f"{FOLDER}/"))
        coin_id = known.get(unicodedata.normalize("NFC", named["coin"])) if named is not None else None
        if named is not None and coin_id is not None:
            claims.setdefault((coin_id, named["side"]), []).append(path)
    return claims
