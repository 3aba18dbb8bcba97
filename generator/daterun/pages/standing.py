"""A coin with where it belongs: its series and issuer, and what its date settles about it."""

from dataclasses import dataclass, replace

from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.records.attribution import Attribution, attribute
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


def stand(coin: ClosedCoin, catalogue: ClosedCatalogue) -> Standing:
    """Work out where a coin belongs."""
    series = catalogue.series[coin.series]
    issuer = catalogue.issuers.get(series.issuer)
    place = attribute(coin, series, issuer)
    attributed = replace(
        coin,
        mint=place.mint,
        type=place.type.id if place.type is not None else None,
        varieties=tuple(each.id for each in place.varieties) or coin.varieties,
    )
    choices = (series.mints_of(coin.date), series.varieties_of(coin.date), series.types_of(coin.date))
    divided = frozenset(name for name, found in zip(DIVIDERS, choices, strict=True) if len(found) > 1)
    return Standing(attributed, series, issuer, place, divided)
