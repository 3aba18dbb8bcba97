"""The whole catalogue: every record of a catalogue folder, read at once, and every problem met on the way."""

from collections.abc import Callable, Sequence
from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TypeVar

from daterun.problems import CannotContinue, Place, Problem
from daterun.records.coins import Coin, read_coin
from daterun.records.essays import Essay, read_essay
from daterun.records.fields import Reading
from daterun.records.files import list_files, read_text
from daterun.records.frontmatter import PartedText, part_front_matter
from daterun.records.issuers import Issuer, read_issuer
from daterun.records.located import Entry, Mapping, Text, read_located
from daterun.records.lots import Lot, read_lot
from daterun.records.remembered import RecordMemory
from daterun.records.series import Series, read_series
from daterun.records.settings import Settings, read_settings, take_habits
from daterun.records.stray import find_stray
from daterun.shares import share_out
from daterun.trade.grading import Habit

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Every record of a catalogue folder, sorted by id, as it was written.

    Series go by their whole names. The broken are the paths of files that gave no record, so that a link
    to one of them is not called a link to nothing.
    """

    settings: Settings
    issuers: dict[str, Issuer]
    series: dict[str, Series]
    coins: tuple[Coin, ...]
    lots: dict[str, Lot]
    essays: tuple[Essay, ...]
    broken: frozenset[str] = field(default_factory=frozenset)

    def find_series(self, name: str) -> Series | None:
        """Find a series by its whole name, or by its short id while that is unique."""
        return find_series(self.series, name)

    def coin(self, coin_id: str) -> Coin | None:
        return next((each for each in self.coins if each.id == coin_id), None)


def find_series(series: AnyMapping[str, Series], name: str) -> Series | None:
    """Find a series by its whole name, or by its short id while that is unique; None otherwise."""
    if name in series:
        return series[name]
    found = [each for each in series.values() if each.id == name]
    return found[0] if len(found) == 1 else None


_BUNDLE = 200
"""Coins that come back from a copy of the process together, so that what they have in common comes but once."""

_WORTH_A_COPY = 3
"""Bundles of which the reading takes longer than copying the process and handing the records back."""


@dataclass(slots=True)
class _Folder:
    """A catalogue folder while it is read, with the problems met and the files that gave no record."""

    root: Path
    memory: RecordMemory | None
    habit: Habit = Habit.SEVENTY
    currency: str | None = None
    problems: list[Problem] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)
    context: object = None

    def files(self, under: str, suffix: str) -> list[str]:
        found, problems = list_files(self.root, f"content/{under}", suffix)
        self.problems += problems
        return found

    def reading(self, path: str) -> Reading:
        return Reading(path, self.habit, self.currency, problems=self.problems)

    def read_by(self, name: str, context: object) -> None:
        """Note what the files are read by from here on, beside their own text."""
        self.context = None if self.memory is None else self.memory.context(name, context)

    def record(self, path: str, read: Callable[[str], R | None]) -> R | None:
        """Read the record of a file, or give it as remembered; one that gives none is noted as broken."""

        def apart() -> tuple[R | None, tuple[Problem, ...]]:
            others, self.problems = self.problems, []
            try:
                return read(path), tuple(self.problems)
            finally:
                self.problems = others

        remembered = None if self.memory is None else self.memory.record(self.root, path, self.context, apart)
        record, problems = remembered or apart()
        self.problems += problems
        if record is None:
            self.broken.add(path)
        return record

    def text(self, path: str) -> str | None:
        text = read_text(self.root, path)
        if isinstance(text, Problem):
            self.problems.append(text)
            self.broken.add(path)
            return None
        return text

    def mapping(self, text: str, path: str, first_line: int = 1) -> Mapping | None:
        """Read YAML that must be a mapping; None, with its problem, where it is not one.

        Nothing at all is a mapping without keys, of which whatever is required will be missed.
        """
        node, problems = read_located(text, path, first_line)
        self.problems += problems
        if node is None and not problems:
            node = Mapping({}, Place(path, first_line, 1))
        if isinstance(node, Mapping):
            return node
        self.broken.add(path)
        if node is not None:
            self.problems.append(
                Problem("yaml", "keys with values are asked for here", node.place, "for example series: ort")
            )
        return None

    def yaml_file(self, path: str) -> Mapping | None:
        text = self.text(path)
        node = self.mapping(text, path) if text is not None else None
        if node is not None and not node.entries:
            self.problems.append(Problem("empty file", "nothing is written in this file", Place(path)))
            self.broken.add(path)
            return None
        return node

    def markdown_file(self, path: str) -> tuple[Mapping, PartedText] | None:
        text = self.text(path)
        if text is None:
            return None
        parted = part_front_matter(text, path)
        if isinstance(parted, Problem):
            self.problems.append(parted)
            self.broken.add(path)
            return None
        node = self.mapping(parted.matter, path, parted.matter_line)
        return (node, parted) if node is not None else None


def read_catalogue(root: Path, memory: RecordMemory | None = None) -> tuple[Catalogue, list[Problem]]:
    """Read a catalogue folder; what gives no record is left out, each with its problem.

    Files unchanged since an earlier reading with the same memory are not read again. Settings that give no
    record are stood in for. Raise CannotContinue where the folder is no catalogue.
    """
    path = "content/catalogue.yaml"
    if not root.is_dir():
        raise CannotContinue(f"there is no folder {root}")
    if not (root / "content").is_dir():
        raise CannotContinue(f"there is no catalogue in {root}: it has no folder named content")
    if not (root / path).is_file():
        raise CannotContinue(f"there is no catalogue in {root}: content/catalogue.yaml is not there")
    if not (root / path).resolve().is_relative_to(root.resolve()):
        raise CannotContinue(f"{root / path} is a link that leads out of the catalogue folder")
    folder = _Folder(root, memory)
    folder.problems += find_stray(root)
    settings = _read_settings(folder, path)
    habits = (folder.habit, folder.currency)
    folder.read_by("all", habits)
    issuers = _read_each(folder, "issuers", read_issuer)
    lots = _read_each(folder, "lots", read_lot)
    essays = _read_essays(folder)
    series = _read_all_series(folder)
    labels = {key: (each.id, each.labels) for key, each in series.items()}
    folder.read_by("coins", (habits, labels))
    coins = _read_coins(folder, series)
    if memory is not None:
        memory.end_reading()
    broken = frozenset(folder.broken)
    sound = tuple(sorted(coins, key=lambda each: each.id))
    return Catalogue(settings, issuers, series, sound, lots, essays, broken), folder.problems


def read_again(root: Path, path: str, catalogue: Catalogue) -> tuple[Coin | None, list[Problem]]:
    """Read the file of one coin again for a catalogue of which all else is as it was."""
    folder = _Folder(root, RecordMemory())
    reading = Reading(catalogue.settings.at.place.path)
    take_habits(catalogue.settings.at, reading)
    folder.habit, folder.currency = reading.habit, reading.currency
    return _read_coin(folder, catalogue.series, path), folder.problems


def _read_settings(folder: _Folder, path: str) -> Settings:
    node = folder.yaml_file(path)
    reading = folder.reading(path)
    settings = read_settings(node, reading) if node is not None else None
    folder.habit, folder.currency = reading.habit, reading.currency
    if settings is not None:
        return settings
    folder.broken.add(path)
    start = Place(path, 1, 1)
    titled = Mapping({"title": Entry("title", start, Text("Untitled", start))}, start)
    placeholder = read_settings(titled, Reading(path))
    assert placeholder is not None, "a title is all that settings need"
    return placeholder


def _stem(path: str, under: str) -> str:
    return path.removeprefix(f"content/{under}/").rsplit(".", 1)[0]


def _read_each(
    folder: _Folder, under: str, read: Callable[[str, Mapping, Reading], R | None]
) -> dict[str, R]:
    """Read every YAML file under a folder by its id."""

    def read_one(path: str) -> R | None:
        node = folder.yaml_file(path)
        return read(_stem(path, under), node, folder.reading(path)) if node is not None else None

    found = {path: folder.record(path, read_one) for path in folder.files(under, ".yaml")}
    return {_stem(path, under): record for path, record in found.items() if record is not None}


def _read_all_series(folder: _Folder) -> dict[str, Series]:
    def read_one(path: str) -> Series | None:
        issuer_folder, _, series_id = _stem(path, "series").rpartition("/")
        node = folder.yaml_file(path)
        found = read_series(series_id, node, folder.reading(path)) if node is not None else None
        if found is not None and found.issuer != issuer_folder:
            folder.problems.append(
                Problem(
                    "issuer",
                    f'the series says issuer "{found.issuer}" but lies in "series/{issuer_folder}"',
                    found.at.place_of("issuer"),
                    "move the file or change the word, so that both say the same",
                )
            )
        return found

    found = [folder.record(path, read_one) for path in folder.files("series", ".yaml")]
    return {each.key: each for each in found if each is not None}


def _read_coins(folder: _Folder, series: AnyMapping[str, Series]) -> list[Coin]:
    """Read the coins; where none are remembered and there are many, on all cores."""
    paths = folder.files("coins", ".md")
    if folder.memory is not None:
        found = [folder.record(path, partial(_read_coin, folder, series)) for path in paths]
        return [each for each in found if each is not None]
    bundles = [paths[begin : begin + _BUNDLE] for begin in range(0, len(paths), _BUNDLE)]

    def read_bundle(bundle: Sequence[str]) -> tuple[list[Coin], list[Problem], set[str]]:
        own = replace(folder, problems=[], broken=set())
        read = [own.record(path, partial(_read_coin, own, series)) for path in bundle]
        return [each for each in read if each is not None], own.problems, own.broken

    coins = []
    for _, (read, problems, broken) in share_out(bundles, read_bundle, lambda done: None, _WORTH_A_COPY):
        coins += read
        folder.problems += problems
        folder.broken |= broken
    return coins


def _read_coin(folder: _Folder, series: AnyMapping[str, Series], path: str) -> Coin | None:
    found = folder.markdown_file(path)
    if found is None:
        return None
    node, parted = found
    reading = folder.reading(path)
    named = node.get("series")
    its_series = find_series(series, named.value) if isinstance(named, Text) else None
    if its_series is not None:
        reading.labels = its_series.labels
    coin = read_coin(_stem(path, "coins"), node, parted, reading)
    node.let_go()
    return coin


def _read_essays(folder: _Folder) -> tuple[Essay, ...]:
    def read_one(path: str) -> Essay | None:
        found = folder.markdown_file(path)
        if found is None:
            return None
        node, parted = found
        return read_essay(_stem(path, "pages"), node, parted.text, parted.text_line, folder.reading(path))

    essays = [folder.record(path, read_one) for path in folder.files("pages", ".md")]
    return tuple(
        sorted(
            (each for each in essays if each is not None),
            key=lambda each: (each.order, each.title.casefold(), each.id),
        )
    )
