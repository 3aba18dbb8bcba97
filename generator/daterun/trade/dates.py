"""The dates that coins bear, spans of years, and days of the calendar.

Which dates a series has, and the calendar behind a label such as AH 1320, is left to the records.
"""

import calendar
import datetime
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import total_ordering
from types import MappingProxyType

from daterun.problems import Misread

_DASHES = "-–—‐‑"
_YEAR = re.compile(r"[0-9]{4}")
_SPAN = re.compile(rf"([0-9]{{4}})\s*[{_DASHES}]\s*([0-9]{{4}})")
_SHORT_SPAN = re.compile(rf"([0-9]{{4}})\s*[{_DASHES}/]\s*([0-9]{{1,3}})")
_DOUBLE = re.compile(
    rf"(?P<first>[0-9]{{4}})\s*(?:[{_DASHES}]\s*(?P<short>[0-9]{{2}})|/\s*(?P<any>[0-9]{{4}}|[0-9]{{2}}))"
)
_WORN = re.compile(r"[0-9?]{4}")
_DAY = re.compile(r"(?P<year>[0-9]{4})(?:-(?P<month>[0-9]{2})(?:-(?P<day>[0-9]{2}))?)?")
_WIDEST_DOUBLE = 9  # years from the first to the last of a double date; more is a slip or an overdate
_NO_YEAR = 10_000  # sorts coins of no known year after every year
_NO_LABELS: Mapping[str, int] = MappingProxyType({})


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """Years from the first to the last, both included."""

    first: int
    last: int

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise Misread(f'"{self.first}–{self.last}" runs backward', f"write {self.last}–{self.first}")

    def __contains__(self, year: int) -> bool:
        return self.first <= year <= self.last

    def __iter__(self) -> Iterator[int]:
        return iter(self.years)

    def __len__(self) -> int:
        return self.last - self.first + 1

    def __str__(self) -> str:
        return f"{self.first:04}" if self.first == self.last else f"{self.first:04}–{self.last:04}"

    @property
    def years(self) -> range:
        return range(self.first, self.last + 1)

    def overlaps(self, other: "Span") -> bool:
        return self.first <= other.last and other.first <= self.last


def parse_span(text: str) -> Span:
    """Read a span of years, four figures at both ends: 1871–1903, 1871-1903 or 1899 alone."""
    typed = text.strip()
    if _YEAR.fullmatch(typed):
        return Span(int(typed), int(typed))
    if found := _SPAN.fullmatch(typed):
        first, last = int(found[1]), int(found[2])
        if last < first:
            raise Misread(f'"{text}" runs backward', f"write {found[2]}–{found[1]}")
        return Span(first, last)
    if found := _SHORT_SPAN.fullmatch(typed):
        whole = found[1][: 4 - len(found[2])] + found[2]
        raise Misread(
            f'"{text}" is not a range of years',
            f"a range has four figures at both ends, such as {found[1]}–{whole}",
        )
    raise Misread(f'"{text}" is not a range of years', "write 1871–1903, or 1899 for one year")


class DateKind(StrEnum):
    """How a coin bears its date."""

    YEAR = "year"
    DOUBLE = "double"
    WORN = "worn"
    UNDATED = "undated"
    LABEL = "label"


@dataclass(frozen=True, slots=True)
class CoinDate:
    """The date that a coin bears, equal to another however it was typed.

    The year is that of a plain date, the first of a double date or the sorting year of a label; None where
    the date is worn or absent. The last year is the second of a double date, else the same as the year.
    """

    text: str = field(compare=False)
    year: int | None
    last_year: int | None
    kind: DateKind
    key: str

    def __str__(self) -> str:
        return self.key

    @property
    def sort(self) -> tuple[int, int, int, str]:
        """A key for the order of a run.

        By first year, a double date after its first year alone; worn and undated coins come last.
        """
        if self.year is None or self.last_year is None:
            return _NO_YEAR, int(self.kind is DateKind.UNDATED), 0, self.key
        return self.year, int(self.kind is DateKind.DOUBLE), self.last_year, self.key

    def possible(self, year: int) -> bool:
        """Say whether a coin with this date could belong to a year: 18?2 to 1802, 1812 and so on.

        An undated coin could belong to any, a double date to each of its years.
        """
        match self.kind:
            case DateKind.UNDATED:
                return True
            case DateKind.WORN:
                return all(mark in ("?", figure) for mark, figure in zip(self.key, f"{year:04}", strict=True))
            case _:
                assert self.year is not None and self.last_year is not None
                return self.year <= year <= self.last_year


def parse_coin_date(text: str, labels: Mapping[str, int] = _NO_LABELS) -> CoinDate:
    """Read the date that one coin bears.

    "1899" is a year; "1887-88", "1887–88" and "1887/88" are one double date, and "1899-00" ends in 1900;
    "18?2" is worn; "undated" has none. The labels are the series' own, each with its sorting year, and are
    matched without regard to case. Raise Misread for ranges, overdates and anything else.
    """
    typed = " ".join(text.split())
    for label, year in labels.items():
        if typed.casefold() == " ".join(label.split()).casefold():
            return CoinDate(text, year, year, DateKind.LABEL, label)
    if _YEAR.fullmatch(typed):
        return CoinDate(text, int(typed), int(typed), DateKind.YEAR, typed)
    if typed.casefold() == "undated":
        return CoinDate(text, None, None, DateKind.UNDATED, "undated")
    if found := _DOUBLE.fullmatch(typed):
        return _double_date(text, int(found["first"]), found["short"] or found["any"])
    if _WORN.fullmatch(typed):
        if typed == "????":
            raise Misread(f'"{text}" shows no figure of the date', "write undated")
        return CoinDate(text, None, None, DateKind.WORN, typed)
    raise _not_a_date(text, typed)


def _double_date(text: str, first: int, written: str) -> CoinDate:
    last = int(written) if len(written) == 4 else first + (int(written) - first) % 100
    if not first < last <= first + _WIDEST_DOUBLE:
        raise Misread(
            f'"{text}" is not a double date',
            f"its second year follows its first, as in {first}-{(first + 1) % 100:02}; "
            f"for an overdate write {first} and name the variety",
        )
    return CoinDate(text, first, last, DateKind.DOUBLE, f"{first:04}-{last % 100:02}")


def _not_a_date(text: str, typed: str) -> Misread:
    if found := _SPAN.fullmatch(typed):
        return Misread(
            f'"{text}" is a range of years, not the date of one coin',
            f"write one year; a double date on one coin is written {found[1]}-{found[2][2:]}",
        )
    if found := re.fullmatch(r"([0-9]{4})/[0-9]", typed):
        return Misread(
            f'"{text}" is not a date',
            f"an overdate is a variety: write {found[1]} and name the variety",
        )
    if re.fullmatch(r"[0-9]{1,3}|[0-9]{5,}", typed):
        return Misread(f'"{text}" is not a year', "a year has four figures")
    return Misread(
        f'"{text}" is not a date',
        "write 1899, 1887-88, 18?2 or undated; the series names dates of other calendars under labels",
    )


@total_ordering
@dataclass(frozen=True, slots=True)
class Day:
    """A day of the calendar, or a month or year where no more is known; ordered by its earliest day."""

    text: str = field(compare=False)
    year: int
    month: int | None = None
    day: int | None = None

    def __lt__(self, other: "Day") -> bool:
        return self._order < other._order

    def __str__(self) -> str:
        return "-".join(f"{part:0{width}}" for part, width in self._parts)

    @property
    def _order(self) -> tuple[int, int, int]:
        return self.year, self.month or 0, self.day or 0

    @property
    def _parts(self) -> list[tuple[int, int]]:
        return [(part, 4 if nth == 0 else 2) for nth, part in enumerate(self._order) if part]

    @property
    def first(self) -> datetime.date:
        """The earliest day it can be."""
        return datetime.date(self.year, self.month or 1, self.day or 1)

    @property
    def last(self) -> datetime.date:
        """The latest day it can be."""
        month = self.month or 12
        return datetime.date(self.year, month, self.day or calendar.monthrange(self.year, month)[1])


def parse_day(text: str) -> Day:
    """Read a day as 2024-02-11, a month as 2024-02 or a year as 2024; raise Misread for impossible days."""
    found = _DAY.fullmatch(text.strip())
    if not found or found["year"] == "0000":
        raise Misread(f'"{text}" is not a day', "write year, month and day: 2024-02-11, 2024-02 or 2024")
    year = int(found["year"])
    month = int(found["month"]) if found["month"] else None
    day = int(found["day"]) if found["day"] else None
    if month is not None and not 1 <= month <= 12:
        raise Misread(
            f'"{text}" is not a day: there is no month {found["month"]}', "months run from 01 to 12"
        )
    if month is not None and day is not None:
        longest = calendar.monthrange(year, month)[1]
        if not 1 <= day <= longest:
            name = calendar.month_name[month]
            raise Misread(f'"{text}" is not a day: {name} {year} has {longest} days')
    return Day(text, year, month, day)
