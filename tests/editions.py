"""Editions as tests look at them: all that lies in one, and the one that a build from nothing makes."""

import shutil
from pathlib import Path

from daterun.readers.reader import Reader
from daterun.site import build


def read_all(root: Path) -> dict[str, bytes]:
    """Read every file below a folder, by its address."""
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }


def clean(folder: Path, reader: Reader = Reader.PUBLIC, web: str = "") -> dict[str, bytes]:
    """Build a catalogue in a folder of its own, from nothing, and read the edition."""
    other = folder.with_name("clean")
    shutil.rmtree(other, ignore_errors=True)
    for name in ("content", "themes"):
        if (folder / name).exists():
            shutil.copytree(folder / name, other / name, symlinks=True)
    build(other, reader, web=web)
    return read_all(other / "output" / reader.value)


def replace_in(path: Path, before: str, after: str) -> None:
    """Put one text in the place of another that stands in a file."""
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")
