"""What each page is about: a coin, a denomination, a monarch, a year, an essay, an aim, a type, or the whole.

With it goes what is counted there without being shown, such as all coins of a series in a tally.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.shelves import years_of

_NONE: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Subject:
    """What one page is about, by the names and ids of records; what has no bearing on it is empty.

    Of the series counted, every coin counts. The coins are those that the page is there for, beside them.
    """

    coin: str = ""
    essay: str = ""
    issuer: str = ""
    series: frozenset[str] = _NONE
    counted: frozenset[str] = _NONE
    coins: frozenset[str] = _NONE
    is_whole: bool = False


WHOLE = Subject(is_whole=True)
"""The subject of a page that is about the whole collection."""


def subjects_of(binder: Binder) -> dict[str, Subject]:
    """Tell what pages are about, by their addresses; all others are about the whole collection."""
    found = {addresses.NOT_FOUND: Subject()}
    found.update(_coins(binder))
    found.update(_series(binder))
    found.update(_dates(binder))
    found.update((addresses.of_essay(each.id), Subject(essay=each.id)) for each in binder.catalogue.essays)
    for aim in binder.catalogue.settings.aims:
        series = (binder.catalogue.find_series(each) for each in aim.series)
        found[addresses.of_aim(aim.id)] = Subject(counted=frozenset(each.key for each in series if each))
    return found


def _coins(binder: Binder) -> Iterator[tuple[str, Subject]]:
    """Coins stand in a run with all coins of their series, and the pieces of a set name each other."""
    counted = {key: frozenset((key,)) for key in binder.catalogue.series}
    sets = {
        name: frozenset(each.coin.id for each in pieces)
        for name, pieces in binder.cabinet.shelves.by_set.items()
    }
    for each in binder.cabinet.coins:
        coin = each.coin
        pieces = sets.get(coin.private.set, _NONE) if coin.private is not None else _NONE
        yield (
            addresses.of_coin(coin.id),
            Subject(coin=coin.id, counted=counted[coin.series], coins=pieces | {coin.id}),
        )


def _series(binder: Binder) -> Iterator[tuple[str, Subject]]:
    """Series by denomination, by monarch and by themselves, and each type with its coins."""
    cabinet = binder.cabinet
    for denomination in cabinet.denominations:
        keys = frozenset(each.key for each in denomination.series)
        yield addresses.of_denomination(denomination.series[0]), Subject(series=keys, counted=keys)
        for series in denomination.series:
            own = frozenset((series.key,))
            yield addresses.of_figures(series), Subject(counted=own)
            for kind in series.types:
                coins = {each.coin.id for each in cabinet.of_series(series) if each.place.type == kind}
                yield addresses.of_type(series, kind), Subject(counted=own, coins=frozenset(coins))
    for issuer in binder.issuers:
        for monarch in cabinet.monarchs(issuer.id):
            named = frozenset(
                each.key
                for each in binder.catalogue.series.values()
                if each.issuer == issuer.id and any(kind.monarch == monarch.id for kind in each.types)
            )
            yield addresses.of_monarch(issuer.id, monarch.id), Subject(issuer=issuer.id, counted=named)


def _dates(binder: Binder) -> Iterator[tuple[str, Subject]]:
    """Years with the series that had an issue then and the coins of it; what has no year has a page as well."""
    series: dict[str, set[str]] = {}
    coins: dict[str, set[str]] = {}
    for one in binder.catalogue.series.values():
        for issue in one.issues:
            for address in _of_years(years_of(issue.date)):
                series.setdefault(address, set()).add(one.key)
    for each in binder.cabinet.coins:
        for address in _of_years(years_of(each.coin.date)):
            coins.setdefault(address, set()).add(each.coin.id)
    for address in series.keys() | coins.keys():
        yield (
            address,
            Subject(
                series=frozenset(series.get(address, ())),
                coins=frozenset(coins.get(address, ())),
            ),
        )


def _of_years(years: range) -> list[str]:
    return [addresses.of_year(each) for each in years] or [addresses.UNDATED]
