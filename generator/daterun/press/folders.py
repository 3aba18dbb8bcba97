"""Where an edition may be written: a folder of its own, apart from the keeper's files and from other editions."""

import hashlib
import re
from pathlib import Path

from daterun.problems import CannotContinue

MEMORY = ".daterun"
"""The folder in the catalogue folder in which Daterun remembers what it has seen and made."""

SIGN = ".daterun-edition"
"""The file by which the folder of an edition is known; it holds the name of the reader."""

PRINTED = re.compile(r"print/(?:catalogue|wants|labels|schedule)(?:-\d+)?\.pdf|print/labels-test\.pdf")
"""The addresses of what is printed into an edition; a build neither makes nor removes it."""


def choose_output(folder: Path, reader: str, output: Path | None) -> Path:
    """Choose the folder of an edition: the one asked for, else ``output/<reader>`` in the catalogue folder.

    Raise CannotContinue where it may not be written: it lies among the keeper's files or inside another
    edition, holds one, is that of another reader, or leads out of the catalogue folder by a link.
    """
    chosen = output if output is not None else folder / "output" / reader
    home, place = folder.resolve(), chosen.resolve()
    if output is None and not place.is_relative_to(home):
        raise CannotContinue(f"{chosen} is a link that leads out of the catalogue folder")
    if chosen.exists() and not chosen.is_dir():
        raise CannotContinue(f"{chosen} is a file; an edition needs a folder")
    if home.is_relative_to(place):
        raise CannotContinue(f"{chosen} holds the catalogue itself; name a folder of its own for the edition")
    for kept in ("content", "themes", ".daterun", ".git"):
        if place.is_relative_to(home / kept) or place.is_relative_to((home / kept).resolve()):
            raise CannotContinue(f"{chosen} lies in {kept}, which is the keeper's; name another folder")
    for above in place.parents:
        if (sign := _sign_in(above)) is not None:
            raise CannotContinue(f"{chosen} lies inside the {sign} edition in {above}; name another folder")
    if (sign := _sign_in(place)) not in (None, reader):
        raise CannotContinue(
            f"{chosen} holds the {sign} edition; name another folder for the {reader} edition"
        )
    return place


def memory_of(folder: Path, reader: str, root: Path) -> Path:
    """Choose the file in which is remembered what was made: one for each reader and folder of an edition."""
    if root == (folder / "output" / reader).resolve():
        return folder / MEMORY / f"{reader}.json"
    elsewhere = hashlib.blake2b(str(root).encode(), digest_size=6).hexdigest()
    return folder / MEMORY / f"{reader}-{elsewhere}.json"


def _sign_in(folder: Path) -> str | None:
    """Read whose edition a folder holds; None where it is not that of an edition."""
    try:
        return (folder / SIGN).read_text(encoding="utf-8").strip() or "unnamed"
    except (OSError, UnicodeDecodeError):
        return None
