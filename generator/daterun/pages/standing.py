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

    Divided names what its date has more than one of: mint, variety, type. The rank is the low end of its grade
    in hundredths of a step of the 70-point scale, 0 without one.
    """

    coin: ClosedCoin
    series: Series
    issuer: Issuer | None
    place: Attribution
    divided: frozenset[str] = frozenset()
    rank: int = 0

    @property
    def monarch(self) -> Monarch | None:
        return self.place.monarch


def stand_all(catalogue: ClosedCatalogue) -> list[Standing]:
    """Work out where each coin belongs; what its date leaves to choose between is looked up once a date."""
    known: dict[tuple[str, str], tuple[Choices, frozenset[str]]] = {}
    found = []
    for coin in catalogue.coins:
        key = (coin.series, coin.date.key)
        if key not in known:
            choices = choices_of(catalogue.series[coin.series], coin.date)
            known[key] = choices, _divided(choices)
        found.append(_stand(coin, catalogue, *known[key]))
    return found


def _divided(choices: Choices) -> frozenset[str]:
    several = (choices.mints, choices.varieties, choices.types)
    return frozenset(name for name, found in zip(DIVIDERS, several, strict=True) if len(found) > 1)


def _stand(
    coin: ClosedCoin, catalogue: ClosedCatalogue, choices: Choices, divided: frozenset[str]
) -> Standing:
    series = catalogue.series[coin.series]
    issuer = catalogue.issuers.get(series.issuer)
    place = attribute(coin, series, issuer, choices)
    attributed = replace(
        coin,
        mint=place.mint,
        type=place.type.id if place.type is not None else None,
        varieties=tuple(each.id for each in place.varieties) or coin.varieties,
    )
    rank = int(coin.grade.counted() * 100) if coin.grade is not None else 0
    return Standing(attributed, series, issuer, place, divided, rank)
