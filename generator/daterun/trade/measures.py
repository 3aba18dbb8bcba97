"""Weights, lengths and die axes, read with their units and kept in grams, millimetres and degrees.

What a coin ought to weigh is left to the series' standards, what its metal weighs to ``metals.py``.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal

from daterun.problems import Misread
from daterun.trade.numerals import LOOSE_NUMBER, as_decimal, parse_decimal, parse_ratio

LARGEST = 1_000_000
"""Grams or millimetres; no coin comes near a ton or a kilometre, and sums with what is below stay exact."""

# Exact by definition: the grain is 64.79891 mg, 480 make a troy ounce, 7000 a pound of 16 ounces.
# QUDT units vocabulary, unit GRAIN, https://qudt.org/vocab/unit/GRAIN
GRAIN_G = Decimal("0.06479891")
TROY_OUNCE_G = 480 * GRAIN_G
_OUNCE_G = 7000 * GRAIN_G / 16
INCH_MM = Decimal("25.4")

_WEIGHTS = {
    **dict.fromkeys(("g", "gram", "grams", "gm", "gms"), Decimal(1)),
    **dict.fromkeys(("mg", "milligram", "milligrams"), Decimal("0.001")),
    **dict.fromkeys(("kg", "kilogram", "kilograms"), Decimal(1000)),
    **dict.fromkeys(("gr", "grain", "grains"), GRAIN_G),
    **dict.fromkeys(("dwt", "pennyweight", "pennyweights"), 24 * GRAIN_G),
    **dict.fromkeys(("oz t", "ozt", "oz troy", "troy oz", "troy ounce", "troy ounces"), TROY_OUNCE_G),
    **dict.fromkeys(("oz av", "oz avdp"), _OUNCE_G),
}
_LENGTHS = {
    **dict.fromkeys(("mm", "millimetre", "millimetres"), Decimal(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres"), Decimal(10)),
    **dict.fromkeys(("in", "inch", "inches", '"', "″"), INCH_MM),
}
_MEASURE = re.compile(rf"(?P<number>{LOOSE_NUMBER})\s*(?P<unit>[^\d\s].*)?")
_HOURS = re.compile(r"(?P<hours>[0-9]{1,2}) ?(?:h|hours?|o['’]clock)", re.IGNORECASE)
_DEGREES = re.compile(r"(?P<degrees>[0-9]{1,3}) ?(?:°|deg\.?|degrees?)", re.IGNORECASE)
_ARROWS = {"↑↑": 0, "↑↓": 180}


@dataclass(frozen=True, slots=True, order=True)
class Weight:
    """A weight in grams, as exact as it was typed; weights compare by grams alone."""

    grams: Decimal
    text: str = field(compare=False)

    def __str__(self) -> str:
        return self.text

    @property
    def grains(self) -> Decimal:
        return self.grams / GRAIN_G

    @property
    def troy_ounces(self) -> Decimal:
        return self.grams / TROY_OUNCE_G

    @property
    def last_figure(self) -> Decimal:
        """One step of the last figure as typed, in grams: 0.01 for 8.97 g."""
        number, unit = _split(self.text)
        decimals = len(number.partition(".")[2])
        return Decimal(1).scaleb(-decimals) * _WEIGHTS[unit]


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length in millimetres, such as a diameter; lengths compare by millimetres alone."""

    mm: Decimal
    text: str = field(compare=False)

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Axis:
    """A die axis: how far the reverse is turned, clockwise, when the coin is swung about its upright line.

    The hours run from 1 to 12 and are None between two hours. Two axes of equal turn are equal.
    """

    degrees: int
    text: str = field(compare=False)

    def __str__(self) -> str:
        return f"{self.hours}h" if self.hours is not None else f"{self.degrees}°"

    @property
    def hours(self) -> int | None:
        return (self.degrees // 30 or 12) if self.degrees % 30 == 0 else None


def parse_weight(text: str) -> Weight:
    """Read a weight in g, mg, gr (grains), dwt or oz t (troy ounces); the unit must be there."""
    return Weight(_read(text, "weight", _WEIGHTS, "g, mg, gr or oz t", "8.97 g"), text.strip())


def parse_length(text: str) -> Length:
    """Read a length in mm, cm or in (inches); the unit must be there."""
    return Length(_read(text, "length", _LENGTHS, "mm, cm or in", "26.5 mm"), text.strip())


def parse_axis(text: str) -> Axis:
    """Read a die axis given in hours, in degrees or as arrows.

    "6h", "180°" and "↑↓" are the same axis. Hours run from 1 to 12, degrees from 0 to 359. Raise Misread
    for anything else.
    """
    typed = " ".join(text.split())
    if typed in _ARROWS:
        return Axis(_ARROWS[typed], text)
    if found := _HOURS.fullmatch(typed):
        if not 1 <= int(found["hours"]) <= 12:
            raise Misread(f'"{text}" is not a die axis', "hours run from 1 to 12")
        return Axis(int(found["hours"]) % 12 * 30, text)
    if found := _DEGREES.fullmatch(typed):
        if int(found["degrees"]) > 359:
            raise Misread(f'"{text}" is not a die axis', "degrees run from 0 to 359")
        return Axis(int(found["degrees"]), text)
    if re.fullmatch(r"[0-9]+", typed):
        raise Misread(f'"{text}" does not say whether it is hours or degrees', f"write {typed}h or {typed}°")
    raise Misread(
        f'"{text}" is not a die axis', "write it in hours, such as 12h, or in degrees, such as 180°"
    )


def show_grams(grams: Decimal) -> str:
    """Word a weight with two decimals, or three where it is given finer."""
    return f"{_rounded(grams, 2, 3)} g"


def show_millimetres(mm: Decimal) -> str:
    """Word a length with one decimal, or two where it is given finer."""
    return f"{_rounded(mm, 1, 2)} mm"


def show_troy_ounces(ounces: Decimal) -> str:
    """Word a weight of metal in troy ounces with three decimals, as fine as a coin is weighed."""
    return f"{_rounded(ounces, 3, 3)} oz t"


_PLACES = tuple(Decimal(1).scaleb(-nth) for nth in range(4))


def _rounded(value: Decimal, least: int, most: int) -> Decimal:
    exponent = value.as_tuple().exponent
    decimals = -exponent if isinstance(exponent, int) else least
    return value.quantize(_PLACES[min(max(decimals, least), most)], ROUND_HALF_UP)


def _split(text: str) -> tuple[str, str]:
    found = _MEASURE.fullmatch(text.strip())
    if found is None:
        return "", ""
    return found["number"].strip(), " ".join((found["unit"] or "").split()).rstrip(".").casefold()


def _read(text: str, kind: str, factors: Mapping[str, Decimal], units: str, example: str) -> Decimal:
    number, unit = _split(text)
    if not number:
        raise Misread(f'"{text}" is not a {kind}', f"write a number and its unit, such as {example}")
    if not unit:
        raise Misread(f'"{text}" has no unit', f"write {units} behind the number, such as {example}")
    if unit not in factors:
        if unit in ("oz", "ounce", "ounces"):
            raise Misread(
                f'"{text}" does not say which ounce',
                f"write {number} oz t for troy, {number} oz av otherwise",
            )
        raise Misread(f'"{unit}" is not a unit of {kind} known here', f"write {units}, as in {example}")
    value = as_decimal(parse_ratio(number)) if re.search(r"[^0-9.,_ ]", number) else parse_decimal(number)
    if value == 0:
        raise Misread(f'"{text}" is not a {kind}', "it is more than nothing")
    if value * factors[unit] > LARGEST:
        raise Misread(f'"{text}" is not the {kind} of a coin', "look at the number and its unit again")
    return value * factors[unit]
