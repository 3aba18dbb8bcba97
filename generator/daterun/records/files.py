"""The files of a catalogue folder: which there are, and their text, read with care.

Nothing outside the folder is read: links that lead out, devices and files of unreasonable size are problems.
"""

import os
import re
import stat
import unicodedata
from collections.abc import Iterator
from pathlib import Path

from daterun.problems import Place, Problem, Severity

_CONTROL = re.compile(r"[\x00-\x1f\x7f]")

_LEFT_BY_MACHINES = ("thumbs.db", "desktop.ini")

PICTURE_SUFFIXES = frozenset((".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff", ".avif", ".bmp"))
"""How the names of photos end that pictures can be made of, in small letters."""

_MISTAKABLE = {".yaml": (".yml",), ".md": (".markdown", ".mdown", ".mkd", ".txt")}

LARGEST_TEXT = 4_000_000
"""Bytes. The longest essay is some hundred thousand; a series of three hundred dates some thirty thousand."""


def list_files(folder: Path, under: str, suffix: str) -> tuple[list[str], list[Problem]]:
    """List the files of a suffix under a folder of the catalogue, as sorted paths relative to it.

    Hidden files and folders are passed over. Links to places outside the catalogue folder, names that are not
    text, and two names that differ only in case or form of their letters are problems.
    """
    problems: list[Problem] = []
    found: list[str] = []
    root = folder / under
    if not root.is_dir():
        return [], []
    home = Path(os.path.realpath(folder))
    for path in _walk(root, folder, problems):
        shown = path.relative_to(folder).as_posix()
        if not _is_text(shown):
            problems.append(Problem("path", "the name of this file is not text", Place(_shown(path, folder))))
            continue
        if path.suffix.lower() != suffix:
            problems += _passed_over(path, shown, suffix)
            continue
        if path.is_symlink() and not Path(os.path.realpath(path)).is_relative_to(home):
            problems.append(Problem("path", "this link leads out of the catalogue folder", Place(shown)))
            continue
        found.append(shown)
    found.sort()
    by_fold: dict[str, str] = {}
    for shown in found:
        fold = fold_name(shown)
        if fold in by_fold:
            problems.append(
                Problem(
                    "same name",
                    "another file has the same name but for the case or form of its letters",
                    Place(shown),
                    "on some machines only one of the two can exist; rename one",
                    others=(Place(by_fold[fold]),),
                )
            )
        by_fold.setdefault(fold, shown)
    return found, problems


def is_left_by_a_machine(name: str) -> bool:
    """Tell a hidden file, an editor's spare copy and what machines leave behind from the keeper's own files."""
    return name.startswith(".") or name.endswith("~") or name.lower() in _LEFT_BY_MACHINES


def _passed_over(path: Path, shown: str, suffix: str) -> Iterator[Problem]:
    """Say of a file of another suffix that it is not read, gravely where it looks meant for one that is."""
    if path.suffix.lower() in _MISTAKABLE.get(suffix, ()):
        sentence = f"this file is not read, for its name does not end in {suffix}"
        yield Problem("path", sentence, Place(shown), f"name it {path.stem}{suffix}")
    elif not is_left_by_a_machine(path.name):
        hint = f"only files that end in {suffix} are read here"
        if path.suffix.lower() in PICTURE_SUFFIXES:
            hint += "; photos lie under content/photos"
        yield Problem("not read", "this file is not read", Place(shown), hint, Severity.ADVICE)


def fold_name(name: str) -> str:
    """Fold a name as the most forgiving file systems do: case and composed letters do not tell apart."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", name).casefold())


def _is_text(name: str) -> bool:
    try:
        name.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return _CONTROL.search(name) is None


def _shown(path: Path, home: Path) -> str:
    """Write a path relative to the catalogue folder; what is not text in it becomes question marks."""
    return path.relative_to(home).as_posix().encode("utf-8", "replace").decode("utf-8")


def _walk(folder: Path, home: Path, problems: list[Problem]) -> Iterator[Path]:
    try:
        entries = sorted(os.scandir(folder), key=lambda each: each.name)
    except OSError as error:
        sentence = f"this folder cannot be read: {error.strerror or error}"
        problems.append(Problem("file", sentence, Place(_shown(folder, home))))
        return
    for entry in entries:
        path = Path(entry.path)
        if entry.name.startswith("."):
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _walk(path, home, problems)
        elif path.is_dir():
            place = Place(_shown(path, home))
            problems.append(
                Problem("path", "a link to a folder is not followed", place, "move the files here")
            )
        else:
            yield path


def read_text(folder: Path, shown: str) -> str | Problem:
    """Read a file as text: UTF-8 with or without its mark, any line ends; a problem where it is not that."""
    path = folder / shown
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            return Problem("file", "this is not a file that can be read", Place(shown))
        if status.st_size > LARGEST_TEXT:
            return Problem(
                "file",
                f"this file holds {status.st_size:,} bytes, too many for a text of a catalogue",
                Place(shown),
            )
        data = path.read_bytes()
    except OSError as error:
        return Problem("file", f"this file cannot be read: {error.strerror or error}", Place(shown))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line, column = _end_of(error.object[: error.start].decode("utf-8"))
        return Problem(
            "encoding",
            "this file is not UTF-8 text from here on",
            Place(shown, line, column, 1),
            "save it again as UTF-8 in your editor",
        )
    if "\0" in text:
        line, column = _end_of(text[: text.index("\0")])
        sentence = "a NUL byte stands here, which no text holds"
        return Problem("encoding", sentence, Place(shown, line, column, 1))
    return _with_plain_ends(text)


def _with_plain_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _end_of(text: str) -> tuple[int, int]:
    """Find the line and column just after a text, both from 1."""
    plain = _with_plain_ends(text)
    return plain.count("\n") + 1, len(plain) - plain.rfind("\n")
