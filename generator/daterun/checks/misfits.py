"""The coins whose record is impossible or in conflict with another, and so is in no figure until it is mended."""

from collections.abc import Iterable
from dataclasses import dataclass

from daterun.problems import Problem
from daterun.records.catalogue import Catalogue

BESIDE_THE_POINT = frozenset(
    {
        *("link", "address", "same address", "same name", "departs", "unclaimed photo", "no disc", "crop"),
        *("missing photo", "broken photo", "two photos", "same photo", "photo used twice", "photo"),
        *("unknown lot", "unknown coin", "way in", "way out", "money", "until before since"),
    }
)
"""Rules that a coin's record can break without being wrong about what the coin is."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """A coin left out of the figures: its id, and the first thing that is wrong with its record."""

    coin: str
    why: str


def find_misfits(catalogue: Catalogue, problems: Iterable[Problem]) -> tuple[Misfit, ...]:
    """List the coins with an error about what they are, in order of id, those that could not be read too.

    An error that conflicts with another coin's record leaves out both.
    """
    paths = {each.path: each.id for each in catalogue.coins}
    paths.update({path: _id_of(path) for path in catalogue.broken if path.startswith("content/coins/")})
    found: dict[str, str] = {}
    for problem in problems:
        of_coin = problem.place.path.startswith("content/coins/")
        if not problem.is_error or not of_coin or problem.rule in BESIDE_THE_POINT:
            continue
        for place in (problem.place, *problem.others):
            if (coin := paths.get(place.path)) is not None:
                found.setdefault(coin, problem.sentence)
            elif place.path.startswith("content/coins/") and place.path.endswith(".md"):
                found.setdefault(_id_of(place.path), problem.sentence)
    return tuple(Misfit(coin, found[coin]) for coin in sorted(found))


def _id_of(path: str) -> str:
    return path.removeprefix("content/coins/").removesuffix(".md")
