"""The metal in coins and what it comes to at a price, and sums of money that never mix currencies.

Metal worth is arithmetic, not an offer. What has no figure is named, never taken for nought.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Generic, TypeVar

from daterun.trade.dates import Day
from daterun.trade.measures import TROY_OUNCE_G, Weight
from daterun.trade.metals import Fineness, fine_weight
from daterun.trade.money import Money
from daterun.trade.numerals import as_decimal

K = TypeVar("K")


@dataclass(frozen=True, slots=True)
class Content:
    """The fine metal in one coin, in grams; measured where the coin was weighed, else by the standard.

    The pieces are more than one where the record stands for several alike.
    """

    coin: str
    metal: str
    fineness: Fineness
    fine_g: Decimal
    is_measured: bool
    pieces: int = 1

    @property
    def troy_ounces(self) -> Decimal:
        return self.fine_g / TROY_OUNCE_G


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
    fine_g = fine_weight(weight, fineness) * pieces
    return Content(coin, metal, fineness, fine_g, measured is not None, pieces)


@dataclass(frozen=True, slots=True)
class ContentSum:
    """The fine metal in coins of one metal and fineness; measured is the part of it from coins weighed."""

    metal: str
    fineness: Fineness
    fine_g: Decimal
    measured_g: Decimal
    coins: tuple[str, ...]
    pieces: int

    @property
    def troy_ounces(self) -> Decimal:
        return self.fine_g / TROY_OUNCE_G


def sum_content(contents: Iterable[Content]) -> tuple[ContentSum, ...]:
    """Add up contents by metal and fineness: metals in the order of their names, the finest first."""
    groups: dict[tuple[str, Fraction], list[Content]] = {}
    for each in contents:
        groups.setdefault((each.metal, -each.fineness.value), []).append(each)
    return tuple(
        ContentSum(
            metal,
            group[0].fineness,
            sum((each.fine_g for each in group), Decimal(0)),
            sum((each.fine_g for each in group if each.is_measured), Decimal(0)),
            tuple(each.coin for each in group),
            sum(each.pieces for each in group),
        )
        for (metal, _), group in sorted(groups.items())
    )


@dataclass(frozen=True, slots=True)
class Price:
    """A price of fine metal: so much a gram or a troy ounce, of a day."""

    price: Money
    per: str
    on: Day

    def worth(self, fine_g: Decimal) -> Money:
        """Work out what fine metal comes to, unrounded, so that the sum of the parts is that of the whole."""
        exact = Fraction(fine_g) * Fraction(self.price.amount)
        if self.per == "oz t":
            exact /= Fraction(TROY_OUNCE_G)
        return Money(as_decimal(exact), self.price.currency)

    def is_old(self, as_of: Day | None) -> bool:
        """Tell whether the price is older than a year at a day; never where no day is given."""
        return is_old(self.on, as_of)


def is_old(on: Day, as_of: Day | None) -> bool:
    """Tell whether a day lies, or may lie, more than a year before another; never where there is no other."""
    if as_of is None:
        return False
    first, last = on.first, as_of.last
    return (first.year + 1, first.month, first.day) < (last.year, last.month, last.day)


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


def premium(value: Money | None, metal: Money | None) -> Money | None:
    """Work out by how much a value exceeds what the metal comes to; None where either is not known.

    None too where they are in two currencies, for no rate between them is on record.
    """
    if value is None or metal is None or value.currency != metal.currency:
        return None
    return value - metal
