"""Amounts of money with their currency; the units that coins name on their faces are left to ``faces.py``."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from daterun.problems import Misread
from daterun.trade.numerals import NUMBER, parse_decimal

_AMOUNT = re.compile(NUMBER)
_CURRENCY = re.compile(r"[A-Z]{3}")


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in one currency; amounts of two currencies are never added."""

    amount: Decimal
    currency: str

    def __str__(self) -> str:
        return f"{self.amount:f} {self.currency}"

    def __add__(self, other: "Money") -> "Money":
        return Money(self.amount + self._same(other), self.currency)

    def __sub__(self, other: "Money") -> "Money":
        return Money(self.amount - self._same(other), self.currency)

    def _same(self, other: "Money") -> Decimal:
        if other.currency != self.currency:
            raise ValueError(f"{self} and {other} are of two currencies and make no sum")
        return other.amount

    def share(self, parts: Sequence[Fraction]) -> "tuple[Money, ...]":
        """Divide in proportion to the parts so that the shares add up to the whole.

        Shares come in hundredths, or finer where the amount itself is finer; what is left over goes, one
        smallest piece each, to the shares that rounding down has cut the most. Raise ValueError when the
        parts come to nothing.
        """
        whole = sum(parts, Fraction(0))
        if whole <= 0 or min(parts) < 0:
            raise ValueError("the parts come to nothing")
        exponent = self.amount.as_tuple().exponent
        assert isinstance(exponent, int)
        piece = Decimal(1).scaleb(min(exponent, -2))
        pieces = int(self.amount / piece)
        exact = [pieces * part / whole for part in parts]
        counts = [int(each) for each in exact]
        by_loss = sorted(range(len(parts)), key=lambda nth: (counts[nth] - exact[nth], nth))
        for nth in by_loss[: pieces - sum(counts)]:
            counts[nth] += 1
        return tuple(Money(count * piece, self.currency) for count in counts)


def parse_currency(text: str) -> str:
    """Read a currency, any three capital letters."""
    typed = text.strip()
    if _CURRENCY.fullmatch(typed):
        return typed
    hint = f"write {typed.upper()}" if _CURRENCY.fullmatch(typed.upper()) else "write three capital letters"
    raise Misread(f'"{text}" is not a currency', hint)


def parse_money(text: str, default_currency: str | None = None) -> Money:
    """Read an amount with its currency behind it, such as 45.00 VKR or 1,250 VKR.

    The currency may be left out where there is a default. Raise Misread for anything else, negative
    amounts included.
    """
    typed = text.strip()
    figures = typed.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz")
    letters = typed[len(figures) :]
    if not figures.strip():
        raise Misread(f'"{text}" is not an amount of money', "write it as 45.00 VKR")
    if letters:
        currency = parse_currency(letters)
    elif default_currency is not None:
        currency = default_currency
    else:
        example = typed if _AMOUNT.fullmatch(typed) else "45.00"
        raise Misread(f'"{text}" names no currency', f"write three capital letters behind it: {example} VKR")
    try:
        amount = parse_decimal(figures)
    except Misread as misread:
        if "figures" in misread.sentence:
            raise
        hint = misread.hint if "point:" in misread.hint else "write it as 45.00 VKR or 1,250 VKR"
        raise Misread(f'"{text}" is not an amount of money', hint) from None
    return Money(amount, currency)


def totals(amounts: Iterable[Money]) -> tuple[Money, ...]:
    """Add up amounts, one total for each currency, in order of the currency's letters."""
    sums: dict[str, Money] = {}
    for each in amounts:
        sums[each.currency] = sums[each.currency] + each if each.currency in sums else each
    return tuple(sums[currency] for currency in sorted(sums))
