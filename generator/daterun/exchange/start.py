"""A new catalogue folder laid out: explained settings, an essay, a theme folder, an example or starter series."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from daterun.exchange.carried import STARTERS, choose
from daterun.exchange.placing import place_all
from daterun.problems import CannotContinue


@dataclass(frozen=True, slots=True)
class LaidOut:
    """What was written, as paths relative to the folder, and the whole names of the starter series."""

    files: tuple[str, ...]
    series: tuple[str, ...]


def lay_out(folder: Path, names: Sequence[str] = ()) -> LaidOut:
    """Lay out a catalogue folder, with the starter series named, or else with a small invented example.

    Raise CannotContinue, with nothing written, where the folder holds anything but hidden files.
    """
    if folder.exists() and not folder.is_dir():
        raise CannotContinue(f"{folder} is a file, not a folder")
    in_use = (
        sorted(each.name for each in folder.iterdir() if not each.name.startswith("."))
        if folder.is_dir()
        else []
    )
    if in_use:
        more = " and more" if len(in_use) > 3 else ""
        raise CannotContinue(
            f"{folder.resolve()} is in use: it holds {', '.join(in_use[:3])}{more}; name a new or empty folder"
        )
    chosen = choose(names)
    files = _files_under(STARTERS / "always")
    files |= chosen.files if chosen.series else _files_under(STARTERS / "example")
    place_all({folder / name: data for name, data in files.items()})
    for name in ("coins", "photos"):
        (folder / "content" / name).mkdir(parents=True, exist_ok=True)
    return LaidOut(tuple(sorted(files)), chosen.series)


def _files_under(root: Path) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }
