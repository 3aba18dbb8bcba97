"""The cabinet: the closed catalogue with what every page asks of it worked out once.

Each coin stands with its series and what follows from its date; each series with its slots and what fills them.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from daterun.checks.completeness import Filled, Fitting, StandardWeight, fill_series
from daterun.pages.addresses import denomination_of
from daterun.problems import Misread
from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.records.attribution import Attribution, attribute
from daterun.records.coins import CoinKind
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import Series
from daterun.trade.dates import CoinDate


@dataclass(frozen=True, slots=True)
class Standing:
    """A coin with where it belongs; its mint, type and varieties are filled in from its date."""

    coin: ClosedCoin
    series: Series
    issuer: Issuer | None
    place: Attribution

    @property
    def monarch(self) -> Monarch | None:
        return self.place.monarch


@dataclass(frozen=True, slots=True)
class Denomination:
    """Series of one denomination of one issuer, earliest first; the value is in the smallest unit of money."""

    name: str
    issuer: Issuer
    series: tuple[Series, ...]
    value: Fraction | None


@dataclass(frozen=True, slots=True)
class Cabinet:
    """Everything that pages are planned from. Coins are in order of denomination, date and id."""

    catalogue: ClosedCatalogue
    coins: tuple[Standing, ...]
    by_id: dict[str, Standing]
    denominations: tuple[Denomination, ...]
    runs: dict[str, tuple[Filled, ...]]

    def of_series(self, series: Series) -> tuple[Standing, ...]:
        return tuple(each for each in self.coins if each.series.key == series.key)

    def of_monarch(self, issuer: str, monarch: str) -> tuple[Standing, ...]:
        return tuple(
            each
            for each in self.coins
            if each.monarch is not None and each.monarch.id == monarch and each.series.issuer == issuer
        )

    def best(self, coins: Iterable[Standing]) -> Standing | None:
        """Choose the coin that shows its fellows best: with photos, regular, and of the highest grade."""
        return min(coins, key=_show_order, default=None)


def _show_order(standing: Standing) -> tuple[int, int, int, Fraction, str]:
    coin = standing.coin
    grade = coin.grade.counted() if coin.grade is not None else Fraction(0)
    return (
        0 if coin.kind is CoinKind.REGULAR else 1,
        -len(coin.photos),
        1 if coin.is_problem else 0,
        -grade,
        coin.id,
    )


def face_value(series: Series, issuer: Issuer | None) -> Fraction | None:
    """Read a series' face value in the smallest unit of its issuer's money; None where that cannot be done."""
    if issuer is None or issuer.money is None or not series.face:
        return None
    try:
        return issuer.money.parse_face(series.face).value
    except Misread:
        return None


def standard_weight(series: Series, coin: ClosedCoin) -> Decimal | None:
    """Find the standard weight of a coin in grams; None where no one standard, or no weight, is laid down."""
    standard = attribute(coin, series, None).standard
    return standard.weight.grams if standard is not None and standard.weight is not None else None


def arrange(catalogue: ClosedCatalogue) -> Cabinet:
    """Arrange a closed catalogue into the cabinet."""
    denominations = _denominations(catalogue)
    order = {series.key: nth for nth, series in enumerate(s for each in denominations for s in each.series)}
    coins = sorted(
        (_stand(coin, catalogue) for coin in catalogue.coins),
        key=lambda each: (order[each.series.key], each.coin.date.sort, each.coin.id),
    )
    by_series: dict[str, list[Standing]] = {}
    for each in coins:
        by_series.setdefault(each.series.key, []).append(each)
    runs = {
        key: fill_series(series, _fitting(by_series.get(key, ())), standard=_standards(series))
        for key, series in catalogue.series.items()
        if key in order
    }
    return Cabinet(catalogue, tuple(coins), {each.coin.id: each for each in coins}, denominations, runs)


def _fitting(standings: Iterable[Standing]) -> tuple[Fitting, ...]:
    return tuple(each.coin for each in standings)


def _standards(series: Series) -> StandardWeight:
    def standard(coin: Fitting) -> Decimal | None:
        return standard_weight(series, coin) if isinstance(coin, ClosedCoin) else None

    return standard


def _stand(coin: ClosedCoin, catalogue: ClosedCatalogue) -> Standing:
    series = catalogue.series[coin.series]
    issuer = catalogue.issuers.get(series.issuer)
    place = attribute(coin, series, issuer)
    attributed = replace(
        coin,
        mint=place.mint,
        type=place.type.id if place.type is not None else None,
        varieties=tuple(each.id for each in place.varieties) or coin.varieties,
    )
    return Standing(attributed, series, issuer, place)


def _denominations(catalogue: ClosedCatalogue) -> tuple[Denomination, ...]:
    """Group series into denominations: issuers by name, then the largest face value first."""
    groups: dict[tuple[str, str], list[Series]] = {}
    for series in catalogue.series.values():
        if series.issuer in catalogue.issuers:
            groups.setdefault((series.issuer, denomination_of(series)), []).append(series)
    found = []
    for (issuer_id, name), members in groups.items():
        issuer = catalogue.issuers[issuer_id]
        members.sort(key=lambda each: (_first_year(each), each.key))
        values = [value for each in members if (value := face_value(each, issuer)) is not None]
        found.append(Denomination(name, issuer, tuple(members), max(values) if values else None))
    found.sort(key=lambda each: (each.issuer.name, -(each.value or Fraction(-1)), each.name))
    return tuple(found)


def _first_year(series: Series) -> int:
    return series.struck.years.first if series.struck.years is not None else 10_000


def years_of(date: CoinDate) -> range:
    """The years a date stands for: both of a double date, none of a worn one."""
    if date.year is None or date.last_year is None:
        return range(0)
    return range(date.year, date.last_year + 1)
