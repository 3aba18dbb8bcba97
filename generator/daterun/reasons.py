"""Why a thing of an edition is as it is: what it is made from, and why it was made again or left.

All is read, checked and planned as a build does, and nothing is written. The words are left to
``command/why.py``.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from posixpath import normpath
from urllib.parse import unquote, urlsplit

from daterun.edition import Edition, Fate, Kind, straight
from daterun.pages import addresses
from daterun.press.folders import PRINTED, SIGN, choose_output
from daterun.press.theme import ThemeMistake
from daterun.problems import Problem, meant, sort_problems
from daterun.readers.reader import Reader
from daterun.result import Progress, silent
from daterun.site import check
from daterun.sourcefiles import Part

_INDEX = "index.html"

_MOST_COMPARED = 10_000
"""Addresses among which the nearest is sought, which takes half a thousandth of a second for each."""


@dataclass(frozen=True, slots=True)
class Made:
    """A thing of the edition, the files it is made from by the part they take, and what became of it."""

    address: str
    kind: Kind
    sources: Mapping[Part, tuple[str, ...]]
    fate: Fate


@dataclass(frozen=True, slots=True)
class Taken:
    """A thing that one file takes a part in, with that part."""

    address: str
    kind: Kind
    part: Part
    fate: Fate


class Lack(StrEnum):
    """Why an edition lacks something, or why nothing is made from a file."""

    PARTED = "parted with"
    OTHER_READER = "for another reader"
    LEFT_OVER = "left over"
    PRINTED = "printed"
    SIGN = "the sign of the edition"
    STRANGER = "not made by Daterun"
    UNCLAIMED = "of no coin"
    OTHER_THEME = "of no theme that is used"
    FOR_PRINT = "for print alone"
    NOT_READ = "not read"


@dataclass(frozen=True, slots=True)
class Bearing:
    """A file of the keeper's or of the theme, and all that is made from it; the lack says why nothing is."""

    path: str
    things: tuple[Taken, ...]
    lack: Lack | None = None


@dataclass(frozen=True, slots=True)
class Absent:
    """Something that the edition does not have, why, and the readers whose editions have it."""

    address: str
    lack: Lack
    readers: tuple[Reader, ...] = ()


@dataclass(frozen=True, slots=True)
class Unknown:
    """What was asked for is nothing that there is; the hint says what is near to it."""

    asked: str
    hint: str


@dataclass(frozen=True, slots=True)
class Unsound:
    """The catalogue or the theme has errors, so that nothing can be planned."""

    problems: tuple[Problem, ...]
    coins: int


Answer = Made | Bearing | Absent | Unknown | Unsound


def explain(
    folder: Path,
    reader: Reader,
    output: Path | None,
    asked: str,
    here: Path,
    progress: Progress = silent,
) -> Answer:
    """Explain what was asked for: an address of the edition, a file in its folder, or a file it is made from.

    Paths are relative to where one stands, or to the catalogue folder. Raise CannotContinue as a build does.
    """
    root = choose_output(folder, reader.value, output)
    checked = check(folder, progress, keeps=False)
    if checked.has_errors:
        return Unsound(checked.problems, len(checked.catalogue.coins))
    try:
        edition = Edition(folder, reader, root, checked)
        return _answer(edition, asked, here)
    except ThemeMistake as mistake:
        problems = sort_problems([*checked.problems, mistake.problem])
        return Unsound(problems, len(checked.catalogue.coins))


def _answer(edition: Edition, asked: str, here: Path) -> Answer:
    if asked.startswith(("http://", "https://")):
        web = edition.checked.catalogue.settings.web
        rest = asked.removeprefix(web.rstrip("/")) if web else asked
        if rest == asked or (rest and rest[0] not in "/?#"):
            return Unknown(asked, f"the site lies at {web}" if web else "catalogue.yaml names no web address")
        return _at_address(edition, asked, urlsplit(rest).path)
    for start in (here, edition.folder):
        path = start / asked
        if (below := _below(path, edition.root)) is not None:
            return _at_address(edition, asked, below)
        if path.is_file() and (file := edition.file_at(path)) is not None:
            return _bearing(edition, file)
    if asked in edition.theme_files.values():
        return _bearing(edition, asked)
    if asked.startswith(("content/", "themes/")):
        return Unknown(asked, meant(asked, edition.files()))
    return _at_address(edition, asked, urlsplit(asked).path)


def _below(path: Path, root: Path) -> str | None:
    """Tell the address of a file in the edition's folder, whether it is there or not; None for any other."""
    for found in (straight(path), path.resolve()):
        if found.is_relative_to(root):
            return "" if found == root else found.relative_to(root).as_posix()
    return None


def _forms(address: str) -> Iterator[str]:
    """Give the addresses that may be meant by one as it is written: of a folder, its index."""
    plain = normpath(address.strip("/"))
    plain = "" if plain == "." else plain
    for each in dict.fromkeys((plain, unquote(plain))):
        yield from (each, f"{each}/{_INDEX}" if each else _INDEX)


def _at_address(edition: Edition, asked: str, address: str) -> Answer:
    forms = tuple(_forms(address))
    for each in forms:
        if each in edition.things:
            return Made(each, edition.things[each].kind, edition.listed(each), edition.fate(each))
    for each in forms:
        if (absent := _absent(edition, each)) is not None:
            return absent
    return Unknown(asked, _nearest(forms[0].removesuffix(_INDEX), edition))


def _nearest(address: str, edition: Edition) -> str:
    """Word the hint for an address that is none: the nearest in the same folder, else of all."""
    nice = [each.removesuffix(_INDEX) or _INDEX for each in edition.things]
    folder = address.rstrip("/").rpartition("/")[0]
    beside = [each for each in nice if each.startswith(f"{folder}/")] if folder else []
    return meant(address, (beside or nice)[:_MOST_COMPARED])


def _absent(edition: Edition, address: str) -> Absent | None:
    """Tell why an edition lacks what others have or had; None where nothing is known of the address."""
    coin_id = address.removeprefix("coins/").removesuffix(f"/{_INDEX}")
    coin = edition.checked.catalogue.coin(coin_id)
    if coin is not None and address == addresses.of_coin(coin.id):
        return Absent(address, Lack.PARTED, (Reader.KEEPER,))
    if PRINTED.fullmatch(address):
        return Absent(address, Lack.PRINTED)
    if address == SIGN:
        return Absent(address, Lack.SIGN)
    if readers := edition.others_with(address):
        return Absent(address, Lack.OTHER_READER, readers)
    if address in edition.output.made:
        return Absent(address, Lack.LEFT_OVER)
    if address in edition.output.on_disk:
        return Absent(address, Lack.STRANGER)
    return None


def _bearing(edition: Edition, path: str) -> Bearing:
    things = tuple(
        Taken(address, edition.things[address].kind, part, edition.fate(address))
        for address, part in edition.taken(path)
    )
    return Bearing(path, things, None if things else _lack_of(edition, path))


def _lack_of(edition: Edition, path: str) -> Lack:
    """Tell why nothing is made from a file."""
    if path.startswith("themes/"):
        if path in edition.theme_files.values():
            return Lack.NOT_READ
        is_for_print = path.startswith(tuple(f"themes/{each.name}/print/" for each in edition.theme.folders))
        return Lack.FOR_PRINT if is_for_print else Lack.OTHER_THEME
    if edition.sources.coins_of(path):
        return Lack.PARTED
    return Lack.UNCLAIMED if path.startswith("content/photos/") else Lack.NOT_READ
