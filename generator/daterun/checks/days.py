"""Whether the days on record lie before the day that the catalogue is reckoned to."""

from collections.abc import Iterator

from daterun.problems import Place, Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.trade.dates import Day

_Said = tuple[Day | None, Place]


def check_days(catalogue: Catalogue) -> Iterator[Problem]:
    """Find days later than `as of`, which is then out of date, or the day is a slip."""
    as_of = catalogue.settings.as_of
    if as_of is None:
        return
    place = catalogue.settings.at.place_of("as of")
    for day, where in _days(catalogue):
        if day is not None and day.first > as_of.last:
            yield Problem(
                "after as of",
                f"{day} is later than the day ages are reckoned to, {as_of}",
                where,
                "move the day in catalogue.yaml on, or look at this one again",
                Severity.ADVICE,
                (place,),
            )


def _days(catalogue: Catalogue) -> Iterator[_Said]:
    for coin in catalogue.coins:
        yield from _days_of_coin(coin)
    for lot in catalogue.lots.values():
        yield lot.on, lot.at.place_of("on")
    for essay in catalogue.essays:
        yield essay.on, essay.at.place_of("on")
    for price in catalogue.settings.metals.values():
        yield price.on, price.at.place_of("on")


def _days_of_coin(coin: Coin) -> Iterator[_Said]:
    yield coin.added, coin.at.place_of("added")
    for each in (coin.acquired, coin.parted, coin.value, *coin.own_grades, *coin.certificates):
        if each is not None:
            yield each.on, each.at.place_of("on")
    for owner in coin.provenance:
        yield owner.since, owner.at.place_of("since")
        yield owner.until, owner.at.place_of("until")
