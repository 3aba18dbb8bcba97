"""The units of a money and the face values written in them, and what they became in decimal money.

Amounts that were paid are left to ``money.py``.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from daterun.problems import Misread, meant
from daterun.trade.dates import Day
from daterun.trade.numerals import NUMBER, parse_ratio

# name: (plural, signs before or behind the figure). The signs are the trade's own.
_USUAL = {
    "pound": ("pounds", ("£", "l")),
    "shilling": ("shillings", ("s",)),
    "penny": ("pence", ("d", "p", "pennies")),
    "farthing": ("farthings", ()),
    "dollar": ("dollars", ("$",)),
    "cent": ("cents", ("c", "¢")),
}
_AMOUNT = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>\D.*)")
_PART = re.compile(
    rf"(?P<sign>[£$¢])\s*(?P<signed>{NUMBER})|(?P<number>{NUMBER})\s*(?P<unit>[£$¢]|[^\W\d_]+(?:[-'’][^\W\d_]+)*\.?)"
)
_BETWEEN = re.compile(r"\s*(?:,|\band\b|&)?\s*")
_STROKE = re.compile(r"(?P<shillings>[0-9]+)/(?P<pence>[0-9]{1,2}|-)")
_POINTS = re.compile(r"£\s*(?P<pounds>[0-9]+)\.(?P<shillings>[0-9]+)\.(?P<pence>[0-9]+)")


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of a money, worth so many of the smallest; the forms are all the ways to write its name."""

    name: str
    plural: str
    value: Fraction
    forms: frozenset[str] = field(default=frozenset(), repr=False)

    def is_called(self, word: str) -> bool:
        return word.casefold().rstrip(".") in self.forms


@dataclass(frozen=True, slots=True)
class Face:
    """A face value as written, worth so many of the smallest unit of its money."""

    text: str
    value: Fraction

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class MoneySystem:
    """The units of one money, largest first."""

    units: tuple[Unit, ...]

    @classmethod
    def read(cls, pairs: Sequence[tuple[str, str]]) -> "MoneySystem":
        """Read the units from pairs such as ("pound", "20 shillings") and ("shilling", "12 pence").

        A money of one unit is that unit with nothing behind it. Raise Misread where the units do not hang
        together or are not written largest first.
        """
        if not pairs:
            raise Misread(
                "this money has no units", "write the largest first: {daler: 4 ort, ort: 24 skilling}"
            )
        if len(pairs) == 1 and pairs[0][1].strip() in ("", "1", pairs[0][0], f"1 {pairs[0][0]}"):
            return cls((_unit(pairs[0][0], pairs[0][0], Fraction(1)),))
        steps = [(_singular(name.strip()), *_read_amount(amount)) for name, amount in pairs]
        smallest = steps[-1][2]
        units = [_unit(_singular(smallest), smallest, Fraction(1))]
        plurals = {_singular(word): word for _, _, word in steps}
        for name, number, word in reversed(steps):
            parent = next((unit for unit in units if unit.is_called(word)), None)
            if parent is None:
                raise Misread(
                    f'"{word}" is not a unit of this money',
                    "write the largest first, each in the next: {daler: 4 ort, ort: 24 skilling}",
                )
            if any(unit.is_called(name) for unit in units):
                raise Misread(f'"{name}" is a unit of this money twice')
            plural = next(
                (plurals[form] for form in plurals if _unit(name, name, number).is_called(form)), name
            )
            units.append(_unit(name, plural, number * parent.value))
            if units[-1].value <= units[-2].value:
                raise Misread(f'"{name}" is worth no more than "{units[-2].name}"', "write the largest first")
        return cls(tuple(reversed(units)))

    @property
    def smallest(self) -> Unit:
        return self.units[-1]

    def unit(self, word: str) -> Unit:
        """Find the unit that a word or sign stands for; raise Misread naming the known units."""
        for unit in self.units:
            if unit.is_called(word):
                return unit
        names = [unit.name for unit in self.units]
        raise Misread(f'"{word}" is not a unit of this money', meant(word, names) or _list(names))

    def parse_face(self, text: str) -> Face:
        """Read a face value as the trade writes it, in the units of this money.

        1/2 skilling, 1 1/2 daler, 1/4d, 6d, 2s 6d, 2/6, 5/-, £1, 25c. A stroke with no unit parts shillings
        from pence, and with a unit makes a fraction. Raise Misread for a number without a unit, an unknown
        unit, or units that do not go from large to small.
        """
        typed = " ".join(text.split())
        if found := (_STROKE.fullmatch(typed) or _POINTS.fullmatch(typed)):
            if self._has("shilling") and self._has("penny"):
                return self._face(text, self._of_columns(text, found.groupdict()))
            raise Misread(f'"{text}" names no unit', _list([unit.name for unit in self.units]))
        total, below, at = Fraction(0), None, 0
        while at < len(typed):
            found = _PART.match(typed, at)
            if found is None:
                raise self._no_face(text, typed[at:])
            unit = self.unit(found["sign"] or found["unit"])
            if below is not None and unit.value >= below:
                raise Misread(f'"{text}" does not go from large units to small', "write 2s 6d, not 6d 2s")
            total += _read_number(text, found["signed"] or found["number"], unit) * unit.value
            below, at = unit.value, found.end()
            between = _BETWEEN.match(typed, at)
            at = between.end() if between else at
        return self._face(text, total)

    def _face(self, text: str, value: Fraction) -> Face:
        if value <= 0:
            raise Misread(f'"{text}" is no face value', "a face value is more than nothing")
        return Face(text.strip(), value)

    def _has(self, name: str) -> bool:
        return any(unit.name == name for unit in self.units)

    def _of_columns(self, text: str, columns: dict[str, str]) -> Fraction:
        units = {name: self.unit(name).value for name in ("shilling", "penny")}
        pence = Fraction(0 if columns["pence"] == "-" else int(columns["pence"])) * units["penny"]
        if pence >= units["shilling"]:
            raise Misread(
                f'"{text}" has more pence than a shilling',
                "a stroke parts shillings from pence, as in 2/6; write a fraction with its unit, as in 1/4d",
            )
        pounds = self.unit("pound").value * int(columns["pounds"]) if "pounds" in columns else Fraction(0)
        return pounds + int(columns["shillings"]) * units["shilling"] + pence

    def _no_face(self, text: str, rest: str) -> Misread:
        names = _list([unit.name for unit in self.units])
        if re.fullmatch(NUMBER, rest.strip()):
            return Misread(f'"{text}" names no unit', names)
        return Misread(f'"{text}" is not a face value', f"write a number and a unit; {names}")


def _read_number(text: str, number: str, unit: Unit) -> Fraction:
    value = parse_ratio(number)
    if (found := re.fullmatch(r"([0-9]+)/([0-9]+)", number)) and Fraction(value).denominator != int(found[2]):
        hint = f"write {value} {unit.name} for the fraction"
        if unit.name == "penny":
            hint += f", {number} or {found[1]}s {found[2]}d for shillings and pence"
        raise Misread(f'"{text}" can be read in two ways', hint)
    return value


@dataclass(frozen=True, slots=True)
class Rate:
    """One old unit is worth so many of a new one."""

    old: str
    value: Fraction
    new: str


@dataclass(frozen=True, slots=True)
class DecimalMoney:
    """The decimal money in which old coins lived on, from a day; its rates are written largest unit first."""

    on: Day
    units: tuple[Rate, ...]

    @classmethod
    def read(cls, on: Day, pairs: Iterable[tuple[str, str]], system: MoneySystem) -> "DecimalMoney":
        """Read rates such as ("daler", "4 kron") or ("pound", "200 cents") for units of an old money."""
        rates = tuple(
            Rate(system.unit(old).name, number, _singular(new))
            for old, amount in pairs
            for number, new in (_read_amount(amount),)
        )
        if not rates:
            raise Misread("the decimal money has no rate", "say what an old unit became: daler: 4 kron")
        return cls(on, rates)

    def equivalent(self, face: Face, system: MoneySystem) -> tuple[Fraction, str]:
        """Reckon what a face value became, exactly, and in which unit.

        Where several rates are given, the one for the largest old unit that the face reaches is used.
        """
        rates = sorted(self.units, key=lambda rate: system.unit(rate.old).value, reverse=True)
        rate = next((each for each in rates if system.unit(each.old).value <= face.value), rates[-1])
        return face.value / system.unit(rate.old).value * rate.value, rate.new


def _read_amount(text: str) -> tuple[Fraction, str]:
    found = _AMOUNT.fullmatch(text.strip())
    if found is None:
        raise Misread(f'"{text}" is not a number of units', "write it as 4 ort or 20 shillings")
    number = parse_ratio(found["number"])
    if number <= 0:
        raise Misread(f'"{text}" is not a number of units', "the number is more than nothing")
    return number, found["unit"].strip()


def _singular(word: str) -> str:
    for name, (plural, signs) in _USUAL.items():
        if word.casefold() in (name, plural, *signs):
            return name
    return word


def _unit(name: str, plural: str, value: Fraction) -> Unit:
    usual, signs = _USUAL.get(name, (plural, ()))
    forms = {name, usual, *signs, name + "s", name + "es", plural}
    if name.endswith("y"):
        forms.add(name[:-1] + "ies")
    if name.endswith("s"):
        forms.add(name[:-1])
    return Unit(name, usual, value, frozenset(form.casefold() for form in forms))


def _list(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"the unit is {names[0]}"
    return f"the units are {', '.join(names[:-1])} and {names[-1]}"
