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
_BEHIND = re.compile(rf"(?P<amount>{NUMBER})\s*(?P<currency>[A-Z]{{3}})(?![A-Za-z])")
_BEFORE = re.compile(rf"(?P<currency>[A-Za-z]{{3}})\s*(?P<amount>{NUMBER})")
SIGNS = {"GBP": "£", "USD": "$", "EUR": "€", "JPY": "¥"}
"""The usual signs of currencies, each in the place of three letters that it most often stands for."""

_BY_SIGN = {sign: currency for currency, sign in SIGNS.items()}
_EXAMPLES = re.compile(r"\bVKR\b")


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
    if typed[:1] in _BY_SIGN or typed[-1:] in _BY_SIGN:
        raise _signed(text, typed)
    figures = typed.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz")
    letters = typed[len(figures) :]
    not_money = f'"{text}" is not an amount of money'
    example = in_currency("write it as 45.00 VKR", default_currency)
    if not figures.strip():
        raise Misread(not_money, example)
    if (found := _BEFORE.fullmatch(typed)) is not None:
        raise Misread(
            f'"{text}" has its currency before the amount',
            f"write {found['amount']} {found['currency'].upper()}",
        )
    if (found := _BEHIND.match(typed)) is not None and found.end() < len(typed):
        raise Misread(
            f'"{text}" says more than an amount and its currency',
            f"write {found['amount']} {found['currency']} alone",
        )
    if letters and any(each.isalpha() for each in figures):
        raise Misread(not_money, example)
    if letters:
        currency = parse_currency(letters)
    elif default_currency is not None:
        currency = default_currency
    else:
        amount = typed if _AMOUNT.fullmatch(typed) else "45.00"
        raise Misread(f'"{text}" names no currency', f"write three capital letters behind it: {amount} VKR")
    try:
        return Money(parse_decimal(figures), currency)
    except Misread as misread:
        if "figures" in misread.sentence:
            raise
        hint = in_currency("write it as 45.00 VKR or 1,250 VKR", default_currency)
        raise Misread(not_money, misread.hint if "point:" in misread.hint else hint) from None


def _signed(text: str, typed: str) -> Misread:
    """Say how an amount with a sign for its currency is written; a dollar is that of many countries."""
    sign = typed[0] if typed[0] in _BY_SIGN else typed[-1]
    amount = typed.strip(f"{sign} ")
    if not _AMOUNT.fullmatch(amount):
        amount = "45.00"
    hint = f"write {amount} {_BY_SIGN[sign]}"
    if sign == "$":
        hint = f"write the three letters of its currency, as in {amount} USD"
    return Misread(f'"{text}" has a sign for its currency', hint)


def in_currency(example: str, currency: str | None) -> str:
    """Word an example of amounts in a currency, where that is known and is one."""
    if currency is None or not _CURRENCY.fullmatch(currency):
        return example
    return _EXAMPLES.sub(currency, example)


def totals(amounts: Iterable[Money]) -> tuple[Money, ...]:
    """Add up amounts, one total for each currency, in order of the currency's letters."""
    sums: dict[str, Money] = {}
    for each in amounts:
        sums[each.currency] = sums[each.currency] + each if each.currency in sums else each
    return tuple(sums[currency] for currency in sorted(sums))
