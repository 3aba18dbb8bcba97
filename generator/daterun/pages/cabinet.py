"""The cabinet: the closed catalogue with what every page asks of it worked out once.

Each coin stands with its series and what follows from its date; each series with its slots and what fills them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from daterun.checks.aims import AimState, fill_aim, left_out_slots
from daterun.checks.completeness import Filled, Fitting, StandardWeight, fill_series
from daterun.pages.addresses import denomination_of
from daterun.pages.shelves import Shelves, lay_out, years_of
from daterun.pages.standing import Standing, stand_all
from daterun.problems import Misread, Place
from daterun.readers.closed import ClosedCatalogue
from daterun.records.coins import CoinKind
from daterun.records.issuers import Issuer, Monarch
from daterun.records.located import Mapping
from daterun.records.series import CoinType, Series
from daterun.trade.dates import CoinDate

__all__ = ["Cabinet", "Denomination", "Standing", "arrange", "face_value", "years_of"]


@dataclass(frozen=True, slots=True)
class Denomination:
    """Series of one denomination of one issuer, earliest first; the value is in the smallest unit of money."""

    name: str
    issuer: Issuer
    series: tuple[Series, ...]
    value: Fraction | None


@dataclass(frozen=True, slots=True)
class Cabinet:
    """Everything that pages are planned from. Coins are in order of denomination, date and id.

    The aims are filled, in the order of the settings.
    """

    catalogue: ClosedCatalogue
    coins: tuple[Standing, ...]
    by_id: dict[str, Standing]
    denominations: tuple[Denomination, ...]
    runs: dict[str, tuple[Filled, ...]]
    aims: tuple[AimState, ...]
    shelves: Shelves

    def of_series(self, series: Series) -> tuple[Standing, ...]:
        return self.shelves.by_series.get(series.key, ())

    def of_denomination(self, denomination: Denomination) -> tuple[Standing, ...]:
        return tuple(each for series in denomination.series for each in self.of_series(series))

    def of_date(self, series: Series, date: CoinDate) -> tuple[Standing, ...]:
        """List the coins of one date of a series, of every kind."""
        return self.shelves.by_date.get((series.key, date.key), ())

    def of_monarch(self, issuer: str, monarch: str) -> tuple[Standing, ...]:
        return self.shelves.by_monarch.get((issuer, monarch), ())

    def of_set(self, name: str) -> tuple[Standing, ...]:
        """List the pieces of a set; none for a reader who does not see sets."""
        return self.shelves.by_set.get(name, ())

    def neighbours(self, standing: Standing) -> tuple[Standing | None, Standing | None]:
        """Find the coins before and after a coin in its series."""
        own = self.of_series(standing.series)
        here = self.shelves.positions[standing.coin.id]
        return own[here - 1] if here > 0 else None, own[here + 1] if here + 1 < len(own) else None

    def state(self, series: Series, date: CoinDate) -> Filled | None:
        """Find the slot of a date in its run; None where the date has none."""
        return self.shelves.states.get((series.key, date.key))

    def types_of(self, series: Series, date: CoinDate) -> tuple[CoinType, ...]:
        """Find the types of a date; see ``Series.types_of``."""
        found = self.shelves.types.get((series.key, date.key))
        return series.types_of(date) if found is None else found

    def has_page(self, year: int) -> bool:
        """Tell whether there is a page of a year."""
        return year in self.shelves.years

    def monarchs(self, issuer: str) -> tuple[Monarch, ...]:
        """List the monarchs of an issuer whom any type names, who are those that have a page."""
        return self.shelves.monarchs.get(issuer, ())

    def best(self, coins: Iterable[Standing]) -> Standing | None:
        """Choose the coin that shows its fellows best: held, regular, with photos, and of the highest grade."""
        return min(coins, key=_show_order, default=None)


def _show_order(standing: Standing) -> tuple[int, int, int, int, Fraction, str]:
    coin = standing.coin
    grade = coin.grade.counted() if coin.grade is not None else Fraction(0)
    return (
        0 if coin.is_held else 1,
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


def arrange(catalogue: ClosedCatalogue) -> Cabinet:
    """Arrange a closed catalogue into the cabinet."""
    denominations = _denominations(catalogue)
    order = {series.key: nth for nth, series in enumerate(s for each in denominations for s in each.series)}
    coins = sorted(
        stand_all(catalogue),
        key=lambda each: (order[each.series.key], each.coin.date.sort, each.coin.id),
    )
    by_series: dict[str, list[Standing]] = {}
    for each in coins:
        by_series.setdefault(each.series.key, []).append(each)
    standard = _standards(coins)
    runs = {
        key: fill_series(series, _fitting(by_series.get(key, ())), standard=standard)
        for key, series in catalogue.series.items()
    }
    every = _fitting(coins)
    aims = tuple(
        fill_aim(aim, catalogue.series, every, left_out_slots(aim.leave_out, catalogue.series), standard)
        for aim in catalogue.settings.aims
    )
    issuers = {each.issuer.id: each.issuer for each in denominations}
    shelves = lay_out(coins, catalogue.series.values(), issuers.values(), runs)
    by_id = {each.coin.id: each for each in coins}
    return Cabinet(catalogue, tuple(coins), by_id, denominations, runs, aims, shelves)


def _fitting(standings: Iterable[Standing]) -> tuple[Fitting, ...]:
    return tuple(each.coin for each in standings)


def _standards(standings: Iterable[Standing]) -> StandardWeight:
    """Tell each coin's standard weight in grams; None where no one standard, or no weight, is laid down."""
    weights: dict[str, Decimal] = {}
    for each in standings:
        standard = each.place.standard
        if standard is not None and standard.weight is not None:
            weights[each.coin.id] = standard.weight.grams
    return lambda coin: weights.get(coin.id)


def _denominations(catalogue: ClosedCatalogue) -> tuple[Denomination, ...]:
    """Group series into denominations: issuers by name, then the largest face value first."""
    groups: dict[tuple[str, str], list[Series]] = {}
    for series in catalogue.series.values():
        groups.setdefault((series.issuer, denomination_of(series)), []).append(series)
    found = []
    for (issuer_id, name), members in groups.items():
        issuer = catalogue.issuers.get(issuer_id) or _unknown_issuer(issuer_id)
        members.sort(key=lambda each: (_first_year(each), each.key))
        values = [value for each in members if (value := face_value(each, issuer)) is not None]
        found.append(Denomination(name, issuer, tuple(members), max(values) if values else None))
    found.sort(key=_order)
    return tuple(found)


def _order(denomination: Denomination) -> tuple[str, str, Fraction, str]:
    """Put a denomination in its place; one of no known value comes last."""
    value = denomination.value if denomination.value is not None else Fraction(-1)
    return denomination.issuer.name, denomination.issuer.id, -value, denomination.name


def _unknown_issuer(issuer_id: str) -> Issuer:
    """Stand in for an issuer that has no file: a problem that stops a build, but not a look at the gaps."""
    return Issuer(issuer_id, "", issuer_id, None, None, {}, (), "", "", Mapping({}, Place("")))


def _first_year(series: Series) -> int:
    return series.struck.years.first if series.struck.years is not None else 10_000
