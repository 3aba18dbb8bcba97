"""The pictures for print on disk, remembered at their printed size, and which print uses which.

They lie apart from every edition, in a folder of the program that made them, for another may make other bytes.
Losing them costs the time to make them again, nothing else.
"""

import json
import shutil
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from daterun.pages.pictures import PictureOrder
from daterun.press.fingerprints import program_of_pictures
from daterun.press.pictures import make_pictures
from daterun.problems import CannotContinue, Problem

_PICTURES, _USED, _HALF = "pictures", "used", ".daterun-new"


class PrintStore:
    """Makes and keeps the pictures under one folder; each print, of one thing for one reader, notes its own."""

    def __init__(self, under: Path) -> None:
        self.under = under
        self.root = under / program_of_pictures()

    def note(self, name: str, addresses: Iterable[str], is_whole: bool) -> None:
        """Note what a print uses, before any of it is made, so that no other print takes it away meanwhile.

        What a choice of coins uses is added to what the print used before; the whole takes its place.
        """
        used = set(addresses)
        if not is_whole:
            used |= self._used(name)
        try:
            _write(self.root / _USED / f"{name}.json", json.dumps(sorted(used)).encode())
        except OSError as error:
            raise CannotContinue(f"{self.root} cannot be written: {error.strerror or error}") from error

    def make(
        self,
        orders: Iterable[PictureOrder],
        photos: Mapping[str, tuple[Path, str]],
        progress: Callable[[int, int], None],
    ) -> tuple[int, tuple[Problem, ...]]:
        """Make the pictures that are not remembered; give how many. Each is whole before it bears its name."""
        stale = [each for each in orders if not (self.root / each.address).is_file()]
        self.root.mkdir(parents=True, exist_ok=True)
        problems = make_pictures(
            stale, photos, lambda address, data: _write(self.root / address, data), progress
        )
        return len(stale), problems

    def prune(self) -> int:
        """Take away the pictures that no print used the last time, and all of another program; give how many."""
        with suppress(OSError):
            for each in self.under.iterdir():
                if each != self.root:
                    shutil.rmtree(each, ignore_errors=True)
            names = [path.stem for path in (self.root / _USED).glob("*.json")]
            used = {address for name in names for address in self._used(name)}
            stale = [path for path in (self.root / _PICTURES).glob("*/*") if self._address(path) not in used]
            for path in stale:
                path.unlink(missing_ok=True)
            return len(stale)
        return 0

    def _used(self, name: str) -> set[str]:
        """Read what a print used; what cannot be read counts as nothing."""
        try:
            found = json.loads((self.root / _USED / f"{name}.json").read_bytes())
        except (OSError, ValueError):
            return set()
        return {each for each in found if isinstance(each, str)} if isinstance(found, list) else set()

    def _address(self, path: Path) -> str:
        """Give the address of a picture, and for half a picture that of the whole."""
        name = path.name
        if name.startswith(".") and name.endswith(_HALF):
            name = name[1 : -len(_HALF)]
        return f"{_PICTURES}/{path.parent.name}/{name}"


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    half = path.with_name(f".{path.name}{_HALF}")
    half.write_bytes(data)
    half.replace(path)
