"""The PDFs of an edition on disk: all of one thing are written or none, in the edition's folder ``print``."""

import re
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from daterun.press.folders import PRINTED, SIGN
from daterun.problems import CannotContinue

FOLDER = "print"

_HALF = ".daterun-new"


def write_printed(root: Path, reader: str, what: str, made: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write the PDFs of one thing and take away volumes that it no longer has; give those that changed.

    All stand beside their places before any takes its own, so that a full disk spoils nothing.
    """
    folder = root / FOLDER
    _check_place(root, folder)
    changed = {name: data for name, data in made.items() if _differs(folder / name, data)}
    waiting = {name: folder / f".{name}{_HALF}" for name in changed}
    try:
        root.mkdir(parents=True, exist_ok=True)
        if not (
            root / SIGN
        ).exists():  # before anything else, for by it the next print knows the folder as ours
            (root / f"{SIGN}{_HALF}").write_text(f"{reader}\n", encoding="utf-8")
            (root / f"{SIGN}{_HALF}").replace(root / SIGN)
        folder.mkdir(exist_ok=True)
        for path in folder.iterdir():
            if path.name.startswith(".") and path.name.endswith(_HALF):
                path.unlink()  # of a print that was killed
        for name, data in changed.items():
            waiting[name].write_bytes(data)
        for name, path in waiting.items():
            path.replace(folder / name)
        for path in sorted(folder.iterdir()):
            if _is_volume(path.name, what) and path.name not in made:
                path.unlink()
    except OSError as error:
        raise CannotContinue(f"{folder} cannot be written: {error.strerror or error}") from error
    finally:
        for path in waiting.values():
            with suppress(OSError):
                path.unlink(missing_ok=True)
    return tuple(sorted(changed))


def _check_place(root: Path, folder: Path) -> None:
    """Raise CannotContinue where a folder is not an edition but holds something, or leads elsewhere."""
    if folder.is_symlink():
        raise CannotContinue(f"{folder} is a link to another folder; what is printed stays in its edition")
    half = f"{SIGN}{_HALF}"
    if not (root / SIGN).exists() and root.is_dir() and any(each.name != half for each in root.iterdir()):
        raise CannotContinue(f"{root} holds files that Daterun did not make; move them away first")


def volume_name(what: str, nth: int, of: int) -> str:
    """Name the file of a volume, from 1; a thing of one volume bears no number."""
    return f"{what}.pdf" if of == 1 else f"{what}-{nth}.pdf"


def _differs(path: Path, data: bytes) -> bool:
    try:
        return path.read_bytes() != data
    except OSError:
        return True


def _is_volume(name: str, what: str) -> bool:
    return PRINTED.fullmatch(f"{FOLDER}/{name}") is not None and bool(
        re.fullmatch(rf"{what}(-\d+)?\.pdf", name)
    )
