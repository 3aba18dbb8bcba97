"""A coin's file: its fields written in their order, and read again as the catalogue would read it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from daterun.exchange.yamltext import Plain, line_of
from daterun.problems import Problem, sort_problems
from daterun.records.catalogue import Catalogue
from daterun.records.coins import COIN, Coin, read_coin
from daterun.records.fields import Reading
from daterun.records.frontmatter import PartedText, part_front_matter
from daterun.records.located import Mapping as Located
from daterun.records.located import read_located

KEYS = tuple(key for field in COIN.fields for key in (field.short, field.key) if key)
"""The keys of a coin's file in the order in which they are written."""


def write_coin(
    values: Mapping[str, Plain], notes: str = "", comments: Mapping[str, Sequence[str]] = {}
) -> str:
    """Write a coin's file. Comments stand above the key that they are of, whether it is there or not."""
    lines = ["---"]
    for key in KEYS:
        lines += [f"# {' '.join(each.split())}" for each in comments.get(key, ())]
        if key in values:
            lines.append(line_of(key, values[key]))
    lines += ["---", notes if not notes or notes.endswith("\n") else f"{notes}\n"]
    return "\n".join(lines)


def coin_path(coin_id: str) -> str:
    """Tell where the file of a coin lies in the catalogue folder."""
    return f"content/coins/{coin_id}.md"


@dataclass(frozen=True, slots=True)
class Read:
    """A coin read from a text that is not yet a file, and the problems of reading it; None where it is none."""

    coin: Coin | None
    problems: tuple[Problem, ...]


def read_text(coin_id: str, text: str, catalogue: Catalogue) -> Read:
    """Read the text of a coin's file as the catalogue would, were it there."""
    path = coin_path(coin_id)
    parted = part_front_matter(text, path)
    if not isinstance(parted, PartedText):
        return Read(None, (parted,))
    node, problems = read_located(parted.matter, path, parted.matter_line)
    if not isinstance(node, Located):
        return Read(None, tuple(problems))
    settings = catalogue.settings
    reading = Reading(path, settings.grading, settings.currency or None)
    named = getattr(node.get("series"), "value", "")
    if (series := catalogue.find_series(named)) is not None:
        reading.labels = series.labels
    coin = read_coin(coin_id, node, parted, reading)
    node.let_go()
    return Read(coin, (*problems, *reading.problems))


def with_coins(catalogue: Catalogue, coins: Iterable[Coin]) -> Catalogue:
    """Give the catalogue as it would be with further coins."""
    together = (*catalogue.coins, *coins)
    return replace(catalogue, coins=tuple(sorted(together, key=lambda each: each.id)))


def problems_in(paths: Iterable[str], problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Choose the problems that stand in some files."""
    wanted = set(paths)
    return sort_problems(each for each in problems if each.place.path in wanted)
