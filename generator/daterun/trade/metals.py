"""Metals of coins: their names, fineness, density and the fine metal in a weight.

What the metal is worth is left to the pages; nothing here proves a coin genuine.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from daterun.problems import Misread, meant
from daterun.trade.measures import Weight
from daterun.trade.numerals import as_decimal, parse_ratio

# g/cm3 near 20 C. Silver, nickel, zinc, tin and gold: https://www.periodic-table.org/Silver-density/ and its
# sister pages; copper: http://tmtpages.com/specific-gravity.htm. Newer values (silver 10.503, copper 8.935,
# nickel 8.907, zinc 7.140, tin 7.289, gold 19.283; from memory, not checked) differ in the third or fourth
# figure, less than the weighing of one coin in water can tell apart.
ELEMENT_DENSITIES: Mapping[str, Decimal] = MappingProxyType(
    {
        "silver": Decimal("10.49"),
        "copper": Decimal("8.96"),
        "nickel": Decimal("8.908"),
        "zinc": Decimal("7.14"),
        "tin": Decimal("7.31"),
        "gold": Decimal("19.3"),
    }
)
_THOUSANDTH = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class Metal:
    """A metal by its trade name; ``fine`` is the precious metal its fineness counts, None for base metals."""

    name: str
    fine: str | None = None
    element: bool = False

    def __str__(self) -> str:
        return self.name

    @property
    def precious(self) -> bool:
        return self.fine is not None


KNOWN_METALS: Mapping[str, Metal] = MappingProxyType(
    {
        metal.name: metal
        for metal in (
            Metal("gold", "gold", element=True),
            Metal("silver", "silver", element=True),
            Metal("platinum", "platinum", element=True),
            Metal("billon", "silver"),
            Metal("copper", element=True),
            Metal("bronze"),
            Metal("brass"),
            Metal("nickel", element=True),
            Metal("cupro-nickel"),
            Metal("nickel-brass"),
            Metal("aluminium", element=True),
            Metal("aluminium-bronze"),
            Metal("zinc", element=True),
            Metal("tin", element=True),
            Metal("lead", element=True),
            Metal("iron", element=True),
            Metal("steel"),
            Metal("white metal"),
        )
    }
)
_OTHER_SPELLINGS = {
    "cupronickel": "cupro-nickel",
    "copper-nickel": "cupro-nickel",
    "aluminum": "aluminium",
    "aluminum-bronze": "aluminium-bronze",
    "white-metal": "white metal",
}


def parse_metal(text: str) -> Metal:
    """Read the name of a metal; raise Misread with the nearest known one."""
    name = " ".join(text.split()).casefold()
    hyphened = name.replace(" ", "-")
    for each in (name, hyphened, _OTHER_SPELLINGS.get(hyphened, "")):
        if each in KNOWN_METALS:
            return KNOWN_METALS[each]
    known = ", ".join(KNOWN_METALS)
    raise Misread(f'"{text}" is not a metal known here', meant(name, KNOWN_METALS) or f"known here: {known}")


@dataclass(frozen=True, slots=True, order=True)
class Fineness:
    """The part of a coin's weight that is fine metal, more than 0 and at most 1."""

    value: Fraction
    text: str = field(compare=False)

    def __str__(self) -> str:
        """Write it the trade's way, as thousandths after a point: .750, .9167."""
        if self.value == 1:
            return "1.000"
        decimal = as_decimal(self.value)
        three = decimal.quantize(_THOUSANDTH)
        return f"{three if three == decimal else decimal.quantize(Decimal('0.0001'))}".removeprefix("0")


def parse_fineness(text: str) -> Fineness:
    """Read a fineness: .925, 0.925, 925 (thousandths), 925/1000 or 37/40."""
    typed = text.strip()
    try:
        value = parse_ratio(typed)
    except Misread:
        raise Misread(f'"{text}" is not a fineness', "write .925, 925 or 37/40") from None
    if re.fullmatch(r"[0-9]{3,4}(?:\.[0-9]+)?", typed):
        value /= 1000
    if not 0 < value <= 1:
        raise Misread(f'"{text}" is not a fineness', "fineness is more than 0 and at most 1, such as .925")
    return Fineness(value, typed)


@dataclass(frozen=True, slots=True)
class Alloy:
    """What a coin is made of, by weight; the parts are empty where they are not known."""

    name: str
    parts: tuple[tuple[str, Fraction], ...] = ()

    @property
    def density(self) -> Decimal | None:
        return density(dict(self.parts))


def alloy_of(metal: Metal, fineness: Fineness | None = None) -> Alloy:
    """Say what a metal of a fineness is made of, with copper for all that is not fine.

    That is common practice and not always so: some .500 silver has nickel and zinc beside the copper. The
    parts are empty for bronze and other names that do not fix them, and for precious metal of unstated
    fineness.
    """
    if metal.fine is not None:
        if fineness is None:
            return Alloy(metal.name)
        rest = 1 - fineness.value
        parts = ((metal.fine, fineness.value), ("copper", rest)) if rest else ((metal.fine, Fraction(1)),)
        return Alloy(f"{metal.name} {fineness}", parts)
    return Alloy(metal.name, ((metal.name, Fraction(1)),) if metal.element else ())


def density(parts: Mapping[str, Fraction]) -> Decimal | None:
    """Reckon the density of an alloy in g/cm3 from its parts by weight, to three decimals.

    Volumes are taken to add: 1 / sum(part / density). Published figures for coin silver and bronze stay
    within about 1 per cent of that. None where a part's density is not known here, or there are no parts.
    """
    whole = sum(parts.values(), Fraction(0))
    if whole == 0 or not all(name in ELEMENT_DENSITIES for name in parts):
        return None
    volume = sum(
        (part / whole / Fraction(ELEMENT_DENSITIES[name]) for name, part in parts.items()), Fraction(0)
    )
    return as_decimal(1 / volume).quantize(_THOUSANDTH)


def fine_weight(weight: Weight, fineness: Fineness) -> Decimal:
    """Reckon the grams of fine metal in a weight."""
    return weight.grams * fineness.value.numerator / fineness.value.denominator


class Gravity(NamedTuple):
    """A specific gravity with the lowest and highest that the balance's reading allows."""

    value: Decimal
    low: Decimal
    high: Decimal


def specific_gravity(dry: Weight, wet: Weight, reading: Weight | None = None) -> Gravity:
    """Reckon specific gravity from a weighing in air and one in water: dry / (dry - wet).

    The reading is the balance's smallest step; each weighing may be off by half of it. Unless said, it is
    the last figure that was written of the coarser weighing. Raise Misread where the coin does not weigh
    less in water, or where the balance is too coarse to tell.
    """
    if wet.grams >= dry.grams:
        raise Misread(
            f'"{wet}" in water is not less than "{dry}" in air', "the weight in water is the smaller"
        )
    step = reading.grams if reading is not None else max(dry.last_figure, wet.last_figure)
    half = step / 2
    loss = dry.grams - wet.grams
    if loss <= step:
        raise Misread(f"a reading of {step.normalize():f} g is too coarse for a loss of {loss} g in water")
    value, low, high = ((dry.grams + off) / (loss + 2 * off) for off in (Decimal(0), half, -half))
    return Gravity(*(each.quantize(_THOUSANDTH) for each in (value, low, high)))
