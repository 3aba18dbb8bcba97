"""A coin with where it belongs: its series and issuer, and what its date settles about it."""

from dataclasses import dataclass, replace

from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.records.attribution import Attribution, Choices, attribute, choices_of
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series
from daterun.records.struck import DIVIDERS


@dataclass(frozen=True, slots=True)
class Standing:
    """A coin with where it belongs; its mint, type and varieties are filled in from its date.

    Divided names what its date has more than one of: mint, variety, type.
    """

    coin: ClosedCoin
    series: Series
    issuer: Issuer | None
    place: Attribution
    divided: frozenset[str] = frozenset()

    @property
    def monarch(self) -> Monarch | None:
        return self.place.monarch


def stand_all(catalogue: ClosedCatalogue) -> list[Standing]:
    """Work out where each coin belongs; what its date leaves to choose between is looked up once a date."""
    known: dict[tuple[str, str], Choices] = {}
    found = []
    for coin in catalogue.coins:
        key = (coin.series, coin.date.key)
        if key not in known:
            known[key] = choices_of(catalogue.series[coin.series], coin.date)
        found.append(_stand(coin, catalogue, known[key]))
    return found


def _stand(coin: ClosedCoin, catalogue: ClosedCatalogue, choices: Choices) -> Standing:
    series = catalogue.series[coin.series]
    issuer = catalogue.issuers.get(series.issuer)
    place = attribute(coin, series, issuer, choices)
    attributed = replace(
        coin,
        mint=place.mint,
        type=place.type.id if place.type is not None else None,
        varieties=tuple(each.id for each in place.varieties) or coin.varieties,
    )
    several = (choices.mints, choices.varieties, choices.types)
    divided = frozenset(name for name, found in zip(DIVIDERS, several, strict=True) if len(found) > 1)
    return Standing(attributed, series, issuer, place, divided)
