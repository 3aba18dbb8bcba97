"""How numbers are written: grouped by threes, with decimals, as fractions.

What is counted or measured with them is left to the modules on money, measures and metals.
"""

import re
from decimal import Decimal
from fractions import Fraction

from daterun.problems import Misread

MOST_FIGURES = 16
"""Figures of one number. No coinage is counted in more, and sums of such numbers stay exact."""

_SPACES = str.maketrans({"\N{NO-BREAK SPACE}": " ", "\N{THIN SPACE}": " ", "\N{NARROW NO-BREAK SPACE}": " "})
_PLAIN = re.compile(r"[0-9]+")
_GROUPED = re.compile(r"[0-9]{1,3}(?:(?P<mark>[, _])[0-9]{3})(?:(?P=mark)[0-9]{3})*")
_GROUPING = re.compile(r"[, _]")
_VULGAR = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅛": Fraction(1, 8),
}
_VULGAR_FORM = re.compile(rf"(?P<whole>[0-9]*)\s*(?P<part>[{''.join(_VULGAR)}])")
_RATIO_FORM = re.compile(r"(?:(?P<whole>[0-9]+)[ -])?(?P<over>[0-9]+)[/⁄](?P<under>[0-9]+)")

# Patterns for any number the readers below accept, for use inside larger patterns; the loose one also takes
# bad grouping, so that the reader can say what is wrong with it.
_FRACTIONS = rf"[0-9]+[ -][0-9]+[/⁄][0-9]+|[0-9]+[/⁄][0-9]+|[0-9]*[{''.join(_VULGAR)}]"
NUMBER = rf"(?:{_FRACTIONS}|(?:[0-9]{{1,3}}(?:[, _][0-9]{{3}})+|[0-9]+)(?:\.[0-9]+)?|\.[0-9]+)"
LOOSE_NUMBER = rf"(?:{_FRACTIONS}|[0-9][0-9,_ ]*(?:\.[0-9]+)?|\.[0-9]+)"


def _refuse_endless(text: str) -> None:
    if sum(each.isdigit() for each in text) > MOST_FIGURES:
        shown = text if len(text) <= 30 else f"{text[:30]}…"
        raise Misread(f'"{shown}" has more than {MOST_FIGURES} figures', "look at the number again")


def parse_count(text: str) -> int:
    """Read a whole number of coins, such as 2310, 341,000, 341 000 or 341_000.

    Raise Misread for anything that is not a whole number or is not grouped by threes.
    """
    _refuse_endless(text)
    typed = text.strip().translate(_SPACES)
    if _PLAIN.fullmatch(typed) or _GROUPED.fullmatch(typed):
        return int(_GROUPING.sub("", typed))
    if re.fullmatch(r"[0-9]+(?:[, _][0-9]*)+", typed):
        raise Misread(f'"{text}" is not grouped by threes', "write 341,000, 341 000 or 341000")
    if re.fullmatch(r"[0-9]{1,3}(?:\.[0-9]{3})+", typed):
        raise Misread(f'"{text}" is not a whole number', "group by comma, space or underscore: 341,000")
    raise Misread(f'"{text}" is not a whole number', "write figures alone, such as 341,000")


def parse_decimal(text: str) -> Decimal:
    """Read a number with or without decimals; only the whole part may be grouped.

    The figures behind the point are kept as typed, so "9.000" has three. Raise Misread for a sign, an
    exponent, a comma before decimals or a grouping that is not by threes.
    """
    _refuse_endless(text)
    typed = text.strip().translate(_SPACES)
    whole, point, decimals = typed.partition(".")
    if point and not _PLAIN.fullmatch(decimals):
        raise Misread(f'"{text}" is not a number', "write figures with a point, such as 26.5")
    if not whole and point:
        return Decimal("0." + decimals)
    if not (_PLAIN.fullmatch(whole) or _GROUPED.fullmatch(whole)):
        if re.fullmatch(r"[0-9]+,[0-9]+", typed):
            raise Misread(
                f'"{text}" has a comma where a point is wanted',
                f"decimals follow a point: write {typed.replace(',', '.')}",
            )
        raise Misread(f'"{text}" is not a number', "write figures with a point, such as 26.5")
    return Decimal(_GROUPING.sub("", whole) + point + decimals)


def parse_ratio(text: str) -> Fraction:
    """Read a number that may be a fraction: 6, 2.5, 1/4, 1 1/2, 1-1/2 or 1½."""
    _refuse_endless(text)
    typed = text.strip().translate(_SPACES)
    if found := _RATIO_FORM.fullmatch(typed):
        if int(found["under"]) == 0:
            raise Misread(f'"{text}" divides by nothing', "the lower figure of a fraction is 2 or more")
        return int(found["whole"] or 0) + Fraction(int(found["over"]), int(found["under"]))
    if found := _VULGAR_FORM.fullmatch(typed):
        return int(found["whole"] or 0) + _VULGAR[found["part"]]
    return Fraction(parse_decimal(text))


def as_decimal(value: Fraction) -> Decimal:
    """Write a fraction as a decimal, exactly where it ends and to 28 figures where it does not."""
    return Decimal(value.numerator) / Decimal(value.denominator)
