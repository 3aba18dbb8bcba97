"""The lines of the keeper's files, and of the theme's, that problems are about."""

from pathlib import Path

from daterun.bundled import themes_folder
from daterun.records.files import read_text


class Sources:
    """Gives lines of files by their path relative to the catalogue folder; each file is read once.

    A file of a bundled theme is found where that lies, unless the catalogue folder has one of that name.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lines: dict[str, list[str]] = {}

    def __call__(self, path: str, line: int) -> str | None:
        """Give one line, from 1, without its end; None where there is none."""
        if path not in self._lines:
            self._lines[path] = self._read(path)
        lines = self._lines[path]
        return lines[line - 1] if 1 <= line <= len(lines) else None

    def _read(self, path: str) -> list[str]:
        folder = self.folder
        if path.startswith("themes/") and not (folder / path).exists():
            folder = themes_folder().parent
        text = read_text(folder, path)
        return text.split("\n") if isinstance(text, str) else []
