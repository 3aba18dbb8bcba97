"""What each coin held weighs, contains, cost and is held to be worth: what the pages of figures add up.

A coin that lacks what a figure needs is kept with the reason, so that it can be named where it is left out.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from daterun.checks.weighing import WaterWeighing, Weighing, has_lost_metal, weigh_in_water
from daterun.checks.worth import Content, Price, content_of, premium
from daterun.pages.cabinet import Cabinet, face_value
from daterun.pages.measured import expected_density
from daterun.pages.pieces import Link
from daterun.pages.sides import Sides
from daterun.pages.standing import Standing
from daterun.readers.closed import ClosedCatalogue
from daterun.records.coins import CoinKind
from daterun.records.series import Series
from daterun.trade.money import Money


class Lack(StrEnum):
    """Why a coin's metal content, or its weight against the standard, cannot be told."""

    NOTHING = ""
    NOT_REGULAR = "not-regular"
    NO_STANDARD = "no-standard"
    NO_FINENESS = "no-fineness"
    NO_WEIGHT = "no-weight"
    BASE = "base"


@dataclass(frozen=True, slots=True)
class Holding:
    """A coin with its figures. Cost and value are of the whole record, however many pieces it stands for.

    The face value is in the smallest unit of the issuer's money, for all pieces.
    """

    standing: Standing
    link: Link
    pieces: int
    content: Content | None
    lack: Lack
    weighing: Weighing | None
    water: WaterWeighing | None
    face: Fraction | None
    metal: Money | None
    cost: Money | None
    value: Money | None

    @property
    def premium(self) -> Money | None:
        """By how much the value exceeds what the metal comes to."""
        return premium(self.value, self.metal)


@dataclass(frozen=True, slots=True)
class Holdings:
    """The coins held, in the order of the cabinet, and by the whole name of their series.

    The links lead to all coins on record, by their ids, so that each is named once.
    """

    every: tuple[Holding, ...]
    by_series: dict[str, tuple[Holding, ...]]
    links: dict[str, Link]

    def of(self, series: Series) -> tuple[Holding, ...]:
        return self.by_series.get(series.key, ())


def gather(cabinet: Cabinet, sides: Sides) -> Holdings:
    """Work out the figures of every coin held."""
    links = {each.coin.id: sides.link(each) for each in cabinet.coins}
    prices = prices_of(cabinet.catalogue)
    faces = {
        series.key: face_value(series, denomination.issuer)
        for denomination in cabinet.denominations
        for series in denomination.series
    }
    every = tuple(
        _hold(each, links[each.coin.id], prices, faces.get(each.series.key))
        for each in cabinet.coins
        if each.coin.is_held
    )
    by_series: dict[str, list[Holding]] = {}
    for each in every:
        by_series.setdefault(each.standing.series.key, []).append(each)
    return Holdings(every, {key: tuple(found) for key, found in by_series.items()}, links)


def prices_of(catalogue: ClosedCatalogue) -> dict[str, Price]:
    """List the prices of metals by metal."""
    return {name: Price(each.price, each.per, each.on) for name, each in catalogue.settings.metals.items()}


def _hold(standing: Standing, link: Link, prices: dict[str, Price], face: Fraction | None) -> Holding:
    coin, private = standing.coin, standing.coin.private
    pieces = private.quantity if private is not None else 1
    content, lack = _content(standing, pieces)
    price = prices.get(content.metal) if content is not None else None
    is_regular = coin.kind is CoinKind.REGULAR
    return Holding(
        standing,
        link,
        pieces,
        content,
        lack,
        _weighing(standing),
        _water(standing),
        face * pieces if face is not None and is_regular else None,
        price.worth(content.fine_g) if price is not None and content is not None else None,
        private.cost if private is not None else None,
        private.value.amount if private is not None and private.value is not None else None,
    )


def _content(standing: Standing, pieces: int) -> tuple[Content | None, Lack]:
    coin, standard = standing.coin, standing.place.standard
    if coin.kind is not CoinKind.REGULAR:
        return None, Lack.NOT_REGULAR
    if standard is None:
        return None, Lack.NO_STANDARD
    if standard.metal.fine is None:
        return None, Lack.BASE
    if standard.fineness is None:
        return None, Lack.NO_FINENESS
    found = content_of(coin.id, standard.metal.fine, standard.fineness, coin.weight, standard.weight, pieces)
    return found, Lack.NOTHING if found is not None else Lack.NO_WEIGHT


def _weighing(standing: Standing) -> Weighing | None:
    coin, standard = standing.coin, standing.place.standard
    if (
        coin.weight is None
        or coin.kind is not CoinKind.REGULAR
        or standard is None
        or standard.weight is None
    ):
        return None
    return Weighing(
        coin.id, coin.weight, standard.weight, standard.remedy, coin.grade, has_lost_metal(coin.problems)
    )


def _water(standing: Standing) -> WaterWeighing | None:
    """Set a weighing in water beside the alloy of the standard, also for a coin that only claims to be of it."""
    gravity, standard = standing.coin.gravity, standing.place.standard
    if gravity is None:
        return None
    expected = expected_density(standard) if standard is not None else None
    return weigh_in_water(standing.coin.id, gravity.dry, gravity.wet, gravity.reading, expected)


def lacking(holdings: Iterable[Holding], of: Iterable[Lack]) -> dict[Lack, tuple[Holding, ...]]:
    """Group the coins that lack something by what they lack, in the order asked."""
    found: dict[Lack, list[Holding]] = {each: [] for each in of}
    for holding in holdings:
        if holding.lack in found:
            found[holding.lack].append(holding)
    return {lack: tuple(each) for lack, each in found.items() if each}
