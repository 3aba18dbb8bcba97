"""How sums, shares and measures are worded: always with their unit, and never nought for want of a figure."""

from collections.abc import Iterable, Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from daterun.naming import listed
from daterun.pages.words import Words
from daterun.trade.faces import MoneySystem
from daterun.trade.measures import show_grams, show_troy_ounces
from daterun.trade.money import Money

_MINUS = "\u2212"


def say_money(money: Money, words: Words) -> str:
    """Word an amount as fine as it was told, with its thousands grouped: 1,250.00 VKR."""
    return f"{_grouped(f'{money.amount:f}', words)} {money.currency}"


def say_sum(totals: Sequence[Money], words: Words) -> str:
    """Word a sum in each of its currencies, to the hundredth; nothing at all where there is none."""
    return listed([say_amount(each, words) for each in totals], words.say("and"))


def say_amount(money: Money | None, words: Words) -> str:
    """Word an amount to the hundredth; nothing at all where it is not known."""
    if money is None:
        return ""
    return say_money(Money(money.amount.quantize(Decimal("0.01"), ROUND_HALF_UP), money.currency), words)


def say_grams(grams: Decimal, words: Words) -> str:
    """Word a weight of metal to the hundredth of a gram."""
    return _grouped(show_grams(grams.quantize(Decimal("0.01"), ROUND_HALF_UP)), words)


def say_ounces(ounces: Decimal, words: Words) -> str:
    """Word a weight of metal in troy ounces."""
    return _grouped(show_troy_ounces(ounces), words)


def say_share(part: Fraction | None, words: Words) -> str:
    """Word a part of a whole in hundredths."""
    return words.say("figures.none") if part is None else f"{float(part * 100):.0f} %"


def say_percent(part: Fraction) -> str:
    """Word a small part with two decimals and its sign: 0.33 %, −0.10 %."""
    return f"{_signed(f'{float(part * 100):.2f}')} %"


def say_steps(steps: Fraction | None, words: Words) -> str:
    """Word a number of steps of the scale with two decimals and its sign."""
    return words.say("figures.none") if steps is None else _signed(f"{float(steps):+.2f}")


def say_number(number: Fraction | None, words: Words) -> str:
    """Word a bare number with two decimals."""
    return words.say("figures.none") if number is None else _signed(f"{float(number):.2f}")


def say_face(value: Fraction, system: MoneySystem) -> str:
    """Word an amount of old money, given in its smallest unit: 12 daler 3 ort 5 1/2 skilling."""
    parts = []
    for unit in system.units:
        count: Fraction = value / unit.value
        if unit is not system.smallest:
            count = Fraction(count.numerator // count.denominator)
        value -= count * unit.value
        if count:
            parts.append(f"{say_fraction(count)} {unit.name if count == 1 else unit.plural}")
    return " ".join(parts)


def say_fraction(value: Fraction) -> str:
    """Word an exact amount: 12 1/2 rather than 12.5, for that is how such rates were told."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole} {part}" if whole else part


def thousandths(numbers: Iterable[Decimal | int]) -> tuple[int, ...]:
    """Scale numbers so that the largest is a thousand; what is more than nought is one at least."""
    found = [Fraction(each) for each in numbers]
    largest = max(found, default=Fraction(0))
    if largest <= 0:
        return (0,) * len(found)
    return tuple(max(round(each / largest * 1000), 1) if each > 0 else 0 for each in found)


def _signed(text: str) -> str:
    """Write a minus as the sign it is, and no sign before nought."""
    return text.lstrip("+-") if not text.strip("+-0.") else text.replace("-", _MINUS)


def _grouped(text: str, words: Words) -> str:
    if text[:1] != "-" and 0 < text.find(".") < 4:  # too small for thousands
        return text
    sign = _MINUS if text.startswith("-") else ""
    whole, point, rest = text.lstrip("-").partition(".")
    return f"{sign}{words.number(int(whole))}{point}{rest}" if whole.isdigit() else text
