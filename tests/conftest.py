"""Small catalogues for tests, written from a dictionary of file names and texts."""

import signal
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, database=None)
settings.load_profile("steady")

if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    # Whoever runs the tests in the background has Ctrl-C ignored, and so would every program that they start.
    signal.signal(signal.SIGINT, signal.default_int_handler)

_BASE_FOLDER = Path(__file__).parent / "cases" / "base"

BASE: Mapping[str, str] = {
    path.relative_to(_BASE_FOLDER).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(_BASE_FOLDER.rglob("*.yaml"))
}
"""A catalogue without a coin and without a fault: its settings, the issuer vessmark and the series ort."""

MakeFolder = Callable[..., Path]


def make_folder(root: Path, files: Mapping[str, str | bytes | None], base: Mapping[str, str] = BASE) -> Path:
    """Write a catalogue folder of the base with these files laid over it; None takes one out."""
    for name, content in {**base, **files}.items():
        if content is None:
            continue
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return root


@pytest.fixture
def base_files() -> dict[str, str]:
    """The base's texts by file name, to be changed by a test for its own catalogue."""
    return dict(BASE)


@pytest.fixture
def catalogue_folder(tmp_path: Path) -> MakeFolder:
    """Write small catalogues: call it with a dictionary of file names and texts; it gives the folder."""

    def make(files: Mapping[str, str | bytes | None] = {}, base: Mapping[str, str] = BASE) -> Path:
        return make_folder(tmp_path / "catalogue", files, base)

    return make


@pytest.fixture
def coin() -> Callable[..., str]:
    """Word a coin file of the series ort from its date, further lines of front matter, and notes."""

    def word(date: str, *lines: str, notes: str = "") -> str:
        matter = "\n".join(["---", "series: ort", f"date: {date}", *lines, "---"])
        return f"{matter}\n{notes}\n"

    return word
