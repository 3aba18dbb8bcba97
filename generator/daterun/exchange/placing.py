"""New files put into a folder whole or not at all, and never over one that is there."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from daterun.problems import CannotContinue


@contextmanager
def _aside(path: Path, data: bytes) -> Iterator[Path]:
    waiting = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with waiting.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        yield waiting
    finally:
        waiting.unlink(missing_ok=True)


def place_new(path: Path, data: bytes) -> None:
    """Write a new file. Raise CannotContinue, with nothing written, where one is there or it cannot be."""
    try:
        with _aside(path, data) as waiting:
            _take(waiting, path)
    except FileExistsError:
        raise CannotContinue(f"{path} is there already, and nothing is written over") from None
    except OSError as error:
        raise CannotContinue(f"{path} cannot be written: {error.strerror or error}") from None


def _take(waiting: Path, path: Path) -> None:
    """Give a waiting file its name; a link fails where the name is taken, which a renaming would not."""
    try:
        os.link(waiting, path)
    except FileExistsError:
        raise
    except OSError:  # a disk that knows no links, such as a memory stick
        if path.exists():
            raise FileExistsError from None
        waiting.replace(path)


def replace_own(path: Path, data: bytes) -> None:
    """Write a file that is Daterun's own, over an earlier one of its own."""
    try:
        with _aside(path, data) as waiting:
            waiting.replace(path)
    except OSError as error:
        raise CannotContinue(f"{path} cannot be written: {error.strerror or error}") from None


def place_all(files: dict[Path, bytes]) -> None:
    """Write several new files; where one of them cannot be, those already written are taken back."""
    written: list[Path] = []
    try:
        for path, data in files.items():
            place_new(path, data)
            written.append(path)
    except CannotContinue:
        for path in written:
            path.unlink(missing_ok=True)
        raise


def place_many(files: dict[Path, bytes]) -> None:
    """Write many new files: all of them aside first and brought to the disk at once, then each given its name.

    Five thousand files brought to the disk one by one take a minute, at once a second. Raise CannotContinue
    where one of them is there; those before it stay, each whole.
    """
    waiting: dict[Path, Path] = {}
    try:
        for path, data in files.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            aside = path.with_name(f".{path.name}.{os.getpid()}.new")
            aside.write_bytes(data)
            waiting[path] = aside
        if hasattr(os, "sync"):
            os.sync()
        for path, aside in waiting.items():
            try:
                _take(aside, path)
            except FileExistsError:
                raise CannotContinue(f"{path} is there already, and nothing is written over") from None
    except OSError as error:
        raise CannotContinue(f"the coins cannot be written: {error.strerror or error}") from None
    finally:
        for aside in waiting.values():
            aside.unlink(missing_ok=True)
