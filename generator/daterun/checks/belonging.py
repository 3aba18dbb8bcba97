"""Whether a coin's series is there, and which coins the rules of a series hold for."""

from collections.abc import Iterator

from daterun.checks.wholeness import is_broken
from daterun.problems import Place, Problem, meant
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, CoinKind
from daterun.records.series import Series

SERIES = "unknown series"


def check_belonging(catalogue: Catalogue) -> Iterator[Problem]:
    """Find coins of a series that the catalogue does not have."""
    for coin in catalogue.coins:
        if catalogue.find_series(coin.series) is None:
            yield from unknown_series(catalogue, coin.series, coin.at.place_of("series"))


def unknown_series(catalogue: Catalogue, name: str, place: Place) -> Iterator[Problem]:
    """Report a name that is of no series, or of several; nothing where the series' own file is at fault."""
    if catalogue.find_series(name) is not None or is_broken(catalogue, "series", name):
        return
    alike = [key for key, each in catalogue.series.items() if each.id == name]
    if alike:
        yield Problem(
            SERIES, f'several series are called "{name}"', place, f"write {' or '.join(sorted(alike))}"
        )
        return
    known = list(catalogue.series) if "/" in name else [each.id for each in catalogue.series.values()]
    yield Problem(SERIES, f'there is no series "{name}"', place, meant(name, known))


def regular_coins(catalogue: Catalogue) -> Iterator[tuple[Coin, Series]]:
    """Go through the coins that the rules of their series hold for, each with its series.

    A kind other than regular is free of them; a kind that could not be read may be one of those.
    """
    for coin in catalogue.coins:
        series = catalogue.find_series(coin.series)
        if series is None or coin.kind is not CoinKind.REGULAR or "kind" in coin.at.misread:
            continue
        yield coin, series
