"""Whether the days on record lie before the day that the catalogue is reckoned to."""

from collections.abc import Iterator

from daterun.problems import Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.located import Mapping
from daterun.trade.dates import Day

_Said = tuple[Day | None, Mapping, str]
"""A day, the mapping in which it is written, and its key."""


def check_days(catalogue: Catalogue) -> Iterator[Problem]:
    """Find days later than `as of`, which is then out of date, or the day is a slip."""
    as_of = catalogue.settings.as_of
    if as_of is None:
        return
    place = catalogue.settings.at.place_of("as of")
    for day, at, key in _days(catalogue):
        if day is not None and day.first > as_of.last:
            yield Problem(
                "after as of",
                f"{day} is later than the day ages are reckoned to, {as_of}",
                at.place_of(key),
                "move the day in catalogue.yaml on, or look at this one again",
                Severity.ADVICE,
                (place,),
            )


def _days(catalogue: Catalogue) -> Iterator[_Said]:
    for coin in catalogue.coins:
        yield from _days_of_coin(coin)
    for lot in catalogue.lots.values():
        yield lot.on, lot.at, "on"
    for essay in catalogue.essays:
        yield essay.on, essay.at, "on"
    for price in catalogue.settings.metals.values():
        yield price.on, price.at, "on"


def _days_of_coin(coin: Coin) -> Iterator[_Said]:
    yield coin.added, coin.at, "added"
    for each in (coin.acquired, coin.parted, coin.value, *coin.own_grades, *coin.certificates):
        if each is not None:
            yield each.on, each.at, "on"
    for owner in coin.provenance:
        yield owner.since, owner.at, "since"
        yield owner.until, owner.at, "until"
