"""A theme: the chain of folders in which its files are sought, and the mistakes found in them.

A keeper's theme stands before the bundled one of its name, and that before the default; a single file in an
earlier folder takes the place of the same file in a later one.
"""

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from daterun.problems import Place, Problem, meant

DEFAULT = "tray"
"""The theme that stands behind every other."""

LARGEST_FILE = 20_000_000
"""Bytes. The largest font for East Asian letters is some ten million."""


class ThemeMistake(Exception):
    """A mistake in a theme, as a problem with its place in the theme's file."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.sentence)
        self.problem = problem


@dataclass(frozen=True, slots=True)
class ThemeFile:
    """One file of a theme: its name within its part, its path, and how it is shown to the keeper."""

    name: str
    path: Path
    shown: str


@dataclass(frozen=True, slots=True)
class Theme:
    """A theme as it was found: its folders, first the one that counts most, and what the files hold.

    The fingerprint changes with any file of the theme. The assets' folder is their address on the site,
    named by what they hold, so that no browser keeps an old one.
    """

    name: str
    folders: tuple[Path, ...]
    templates: dict[str, ThemeFile]
    words: tuple[ThemeFile, ...]
    assets: dict[str, ThemeFile]
    assets_folder: str
    fingerprint: str

    def asset_address(self, name: str) -> str:
        """Tell the address of an asset; raise KeyError where the theme has none of that name."""
        return f"{self.assets_folder}/{self.assets[name].name}"

    def own_texts(self, bundled: Path) -> Iterator[str]:
        """Read the words, templates and scripts that come with the program, none of which tells of a keeper."""
        for each in (*self.words, *self.templates.values(), *self.assets.values()):
            if each.path.is_relative_to(bundled) and each.path.suffix in (
                ".yaml",
                ".j2",
                ".js",
                ".css",
                ".svg",
            ):
                yield each.path.read_text(encoding="utf-8-sig")


def find_theme(name: str, folder: Path, bundled: Path, asked_at: Place) -> Theme:
    """Find a theme by name in the catalogue folder's ``themes`` and among the bundled ones.

    Raise ThemeMistake, at the place that asks for it, where there is none of that name, and for a folder of a
    theme that lies elsewhere than in the catalogue folder.
    """
    own = folder / "themes"
    chain = [own / name, bundled / name, own / DEFAULT, bundled / DEFAULT]
    folders: list[Path] = []
    for each in chain:
        if each.is_dir() and not any(each.samefile(other) for other in folders):
            if each.is_relative_to(own) and not each.resolve().is_relative_to(folder.resolve()):
                why = "this folder is a link that leads out of the catalogue folder"
                raise ThemeMistake(Problem("theme", why, Place(f"themes/{each.name}"), "copy the theme here"))
            folders.append(each)
    if not any(each.name == name for each in folders):
        known = sorted({each.name for root in (own, bundled) for each in _folders_in(root)})
        raise ThemeMistake(
            Problem("theme", f'there is no theme "{name}"', asked_at, meant(name, known)),
        )
    return _read_theme(name, tuple(folders))


def _folders_in(root: Path) -> Iterator[Path]:
    if root.is_dir():
        yield from (each for each in root.iterdir() if each.is_dir() and not each.name.startswith("."))


def _read_theme(name: str, folders: tuple[Path, ...]) -> Theme:
    templates = _files(folders, "templates")
    assets = _files(folders, "assets")
    words = tuple(all_files(reversed(folders), "words"))
    of_assets = _hash_of(assets.values())
    whole = hashlib.blake2b(digest_size=16)
    for part in (_hash_of(templates.values()), _hash_of(words), of_assets):
        whole.update(part.encode())
    return Theme(name, folders, templates, words, assets, f"assets/{of_assets[:10]}", whole.hexdigest())


def all_files(folders: Iterable[Path], part: str) -> Iterator[ThemeFile]:
    """List the files of one part of a theme, folder by folder; hidden ones are passed over.

    Raise ThemeMistake for a file that lies elsewhere than in the theme, or is too large for one.
    """
    for folder in folders:
        root = folder / part
        for path in sorted(root.rglob("*")) if root.is_dir() else ():
            name = path.relative_to(root).as_posix()
            hidden = any(piece.startswith(".") or piece.endswith("~") for piece in name.split("/"))
            if path.is_file() and not hidden:
                yield _sound(ThemeFile(name, path, f"themes/{folder.name}/{part}/{name}"), folder)


def _sound(file: ThemeFile, folder: Path) -> ThemeFile:
    """Pass a file on that lies in the theme itself and is of a size that a theme's file may have."""
    why = ""
    if not file.path.resolve().is_relative_to(folder.resolve()):
        why = "this link leads out of the theme"
    elif file.path.stat().st_size > LARGEST_FILE:
        why = f"this file holds {file.path.stat().st_size:,} bytes, too many for a theme's"
    if why:
        raise ThemeMistake(Problem("theme", why, Place(file.shown)))
    return file


def _files(folders: tuple[Path, ...], part: str) -> dict[str, ThemeFile]:
    found = {each.name: each for each in all_files(reversed(folders), part)}
    return dict(sorted(found.items()))


def _hash_of(files: Iterable[ThemeFile]) -> str:
    total = hashlib.blake2b(digest_size=16)
    for each in files:
        data = each.path.read_bytes()
        total.update(f"{each.name}\0{len(data)}\0".encode())
        total.update(data)
    return total.hexdigest()
