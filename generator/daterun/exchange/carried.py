"""The starter series that travel with the program: which there are, and how far each is verified."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from daterun.naming import listed
from daterun.problems import CannotContinue, meant
from daterun.records.issuers import Issuer
from daterun.records.series import Series

STARTERS = Path(__file__).resolve().parent / "starters"


@dataclass(frozen=True, slots=True)
class Chosen:
    """The files of some starter series, by their place in a catalogue folder."""

    series: tuple[str, ...]
    files: dict[str, bytes]


def carried_series() -> tuple[str, ...]:
    """List the whole names of the starter series, ``<issuer>/<series>``."""
    root = STARTERS / "series"
    return tuple(sorted(path.relative_to(root).with_suffix("").as_posix() for path in root.glob("*/*.yaml")))


def choose(names: Sequence[str]) -> Chosen:
    """Find starter series by issuer (all of its series), by whole name, or by a short id that is unique.

    Raise CannotContinue where a name is none of these.
    """
    chosen = tuple(dict.fromkeys(key for name in names for key in _named(name)))
    issuers = dict.fromkeys(key.partition("/")[0] for key in chosen)
    paths = [f"issuers/{each}.yaml" for each in issuers] + [f"series/{key}.yaml" for key in chosen]
    return Chosen(chosen, {f"content/{path}": (STARTERS / path).read_bytes() for path in paths})


def _named(name: str) -> tuple[str, ...]:
    every = carried_series()
    issuers = dict.fromkeys(key.partition("/")[0] for key in every)
    if name in issuers:
        return tuple(key for key in every if key.startswith(f"{name}/"))
    found = tuple(key for key in every if name == key or key.endswith(f"/{name}"))
    if len(found) == 1:
        return found
    if found:
        raise CannotContinue(f'"{name}" is the name of several starter series: {listed(found, "or")}')
    hint = meant(name, [*issuers, *every])
    raise CannotContinue(f'there are no starter series "{name}"' + (f"; {hint}" if hint else ""))


def say_verified(series: Series) -> str:
    """Say how far a series is verified: its dates, its standards and its types apart."""
    bare = [each for each in series.standards if not each.checked]
    types = [each for each in series.types if "from memory" in each.source]
    wholly = series.struck.source.removeprefix("Dates: ").startswith("from memory")
    dates = "dates from published sources"
    if not series.struck.checked:
        dates = "dates from memory" if wholly else "dates partly from memory"
    standards = "standards partly from memory" if bare else "standards from published sources"
    kinds = "types from published sources" if not types else "types partly from memory"
    counted = sum(1 for each in series.issues if each.figures.mintage)
    figures = f"{counted} of {len(series.issues)} mintages told"
    return f"{dates}; {standards}; {kinds}; {figures}"


def left_out(issuers: Sequence[Issuer]) -> Iterator[str]:
    """Say what of an issuer's coins no starter series is carried for."""
    for issuer in issuers:
        _, found, what = issuer.note.partition("Left out: ")
        if found:
            yield f"{issuer.name}: left out are {what}"
