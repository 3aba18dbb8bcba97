"""The metal in coins and what it comes to at a price, and sums of money that never mix currencies.

Metal worth is arithmetic, not an offer. What has no figure is named, never taken for nought.
"""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Generic, TypeVar

from daterun.trade.dates import Day
from daterun.trade.measures import Weight
from daterun.trade.metals import Fineness, fine_weight
from daterun.trade.money import Money

TROY_OUNCE_G = Decimal("31.1034768")
"""Exactly 480 grains of 0.06479891 g (QUDT units vocabulary, GRAIN)."""

OLD_AFTER_DAYS = 366
"""A price older than a year at the day that ages are reckoned to is said to be old."""

K = TypeVar("K")


@dataclass(frozen=True, slots=True)
class Content:
    """The fine metal in one piece, in grams; measured where the piece was weighed, else by the standard."""

    coin: str
    metal: str
    fineness: Fineness
    fine_g: Decimal
    is_measured: bool


def content_of(
    coin: str,
    metal: str,
    fineness: Fineness,
    measured: Weight | None,
    standard: Weight | None,
    pieces: int = 1,
) -> Content | None:
    """Work out the fine metal of a coin, or of so many alike; None where no weight is known."""
    weight = measured or standard
    if weight is None:
        return None
    return Content(coin, metal, fineness, fine_weight(weight, fineness) * pieces, measured is not None)


@dataclass(frozen=True, slots=True)
class Price:
    """A price of fine metal: so much a gram or a troy ounce, of a day."""

    price: Money
    per: str
    on: Day

    @property
    def per_gram(self) -> Decimal:
        return self.price.amount / (TROY_OUNCE_G if self.per == "oz t" else 1)

    def worth(self, fine_g: Decimal) -> Money:
        """Work out what fine metal comes to, to the hundredth."""
        return Money((fine_g * self.per_gram).quantize(Decimal("0.01")), self.price.currency)

    def is_old(self, as_of: Day | None) -> bool:
        """Tell whether the price is older than a year at a day; never where no day is given."""
        return as_of is not None and as_of.last - self.on.first > datetime.timedelta(days=OLD_AFTER_DAYS)


@dataclass(frozen=True, slots=True)
class Sum(Generic[K]):
    """A sum in each currency, with what it was made of and what was left out for want of a figure."""

    totals: tuple[Money, ...]
    counted: tuple[K, ...]
    lacking: tuple[K, ...]


def sum_money(amounts: Iterable[tuple[K, Money | None]]) -> Sum[K]:
    """Add amounts by currency, in order of currency; those of None are named as lacking."""
    totals: dict[str, Decimal] = {}
    counted: list[K] = []
    lacking: list[K] = []
    for key, money in amounts:
        if money is None:
            lacking.append(key)
            continue
        counted.append(key)
        totals[money.currency] = totals.get(money.currency, Decimal(0)) + money.amount
    return Sum(
        tuple(Money(totals[currency], currency) for currency in sorted(totals)),
        tuple(counted),
        tuple(lacking),
    )
