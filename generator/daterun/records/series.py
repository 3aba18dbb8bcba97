"""A series: one denomination of one issuer over a span of dates, with what was laid down for it and struck.

What was struck with each date is read in ``records/struck.py``.
"""

from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from daterun.problems import Misread
from daterun.records.fields import Field, Form, Kind, Reading, read_form, require_text
from daterun.records.kinds import axis as axis_kind
from daterun.records.kinds import (
    choice,
    decimal_number,
    fineness,
    identifier,
    length,
    like,
    list_of,
    mapping_of,
    of_text,
    record,
    span,
    text_kind,
    weight,
    whole_number,
    yes_no,
)
from daterun.records.located import Mapping, Node
from daterun.records.struck import DateIssue, Struck, read_struck
from daterun.trade.dates import CoinDate, Span, parse_span
from daterun.trade.measures import Axis, Length, Weight
from daterun.trade.metals import Fineness, Metal, parse_metal


class Side(StrEnum):
    """A side of a coin, or its edge."""

    OBVERSE = "obverse"
    REVERSE = "reverse"
    EDGE = "edge"


@dataclass(frozen=True, slots=True)
class Standard:
    """The weight, metal, fineness and size laid down by law for a span of dates.

    The remedy is the greatest difference from the weight that the law allowed in making. The alloy's parts
    add up to one; they are empty where the law's mixture is not told.
    """

    span: Span
    id: str
    metal: Metal
    fineness: Fineness | None
    alloy: dict[str, Fraction]
    weight: Weight | None
    remedy: Weight | None
    diameter: Length | None
    thickness: Length | None
    edge: str
    axis: Axis | None
    note: str
    source: str
    checked: bool
    at: Mapping = field(compare=False, repr=False)

    @property
    def name(self) -> str:
        """What a coin calls the standard by: its short name, else its span of dates."""
        return self.id or str(self.span)


@dataclass(frozen=True, slots=True)
class Face:
    """One side of a type: the legend round it, the design in it, and who made it."""

    legend: str
    design: str
    designer: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class CoinType:
    """A pair of designs for a span of dates under one monarch."""

    id: str
    name: str
    span: Span
    monarch: str
    obverse: Face | None
    reverse: Face | None
    note: str
    source: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Variety:
    """A difference in the dies of one side that collectors tell apart, and the dates it is known of."""

    id: str
    name: str
    spans: tuple[Span, ...]
    side: Side | None
    reading: str
    note: str
    source: str
    at: Mapping = field(compare=False, repr=False)

    def is_of(self, date: CoinDate) -> bool:
        return date.year is not None and any(date.year in each for each in self.spans)


@dataclass(frozen=True, slots=True)
class Series:
    """The schema of one series: its standards, types, varieties, and what was struck with each date.

    The face is as written; its value, for the order among denominations, is in the smallest unit of the
    issuer's money and is worked out with the issuer at hand. The labels are dates of another calendar with
    their sorting years.
    """

    id: str
    path: str
    name: str
    issuer: str
    face: str
    denomination: str
    labels: dict[str, int]
    standards: tuple[Standard, ...]
    types: tuple[CoinType, ...]
    varieties: tuple[Variety, ...]
    struck: Struck
    note: str
    at: Mapping = field(compare=False, repr=False)

    @property
    def key(self) -> str:
        """The series' whole name, ``<issuer>/<series>``, which is always unique."""
        return f"{self.issuer}/{self.id}"

    @property
    def issues(self) -> tuple[DateIssue, ...]:
        """The run: what was struck, in order of date."""
        return self.struck.issues

    def issue(self, date_key: str) -> DateIssue | None:
        return self.struck.issue(date_key)

    def type(self, type_id: str) -> CoinType | None:
        return next((each for each in self.types if each.id == type_id), None)

    def variety(self, variety_id: str) -> Variety | None:
        return next((each for each in self.varieties if each.id == variety_id), None)

    def standard(self, name: str) -> Standard | None:
        """Find a standard by what a coin calls it; any dash goes between its years."""
        return next((each for each in self.standards if _with_one_dash(name) == each.name), None)

    def standards_of(self, date: CoinDate) -> tuple[Standard, ...]:
        return tuple(each for each in self.standards if date.year is not None and date.year in each.span)

    def types_of(self, date: CoinDate) -> tuple[CoinType, ...]:
        """Find the types of a date: those the issue names, else those whose span holds its year."""
        issue = self.issue(date.key)
        if issue is not None and (named := issue.values_of("type")):
            return tuple(each for each in self.types if each.id in named)
        return tuple(each for each in self.types if date.year is not None and date.year in each.span)

    def varieties_of(self, date: CoinDate) -> tuple[Variety, ...]:
        """Find the varieties of a date: those whose dates hold it, and those the issue names."""
        issue = self.issue(date.key)
        named = issue.values_of("variety") if issue is not None else ()
        return tuple(each for each in self.varieties if each.is_of(date) or each.id in named)

    def mints_of(self, date: CoinDate) -> tuple[str, ...]:
        """Find the mint marks of a date; none at all where the schema does not speak of mints."""
        issue = self.issue(date.key)
        return issue.values_of("mint") if issue is not None else ()


def _with_one_dash(name: str) -> str:
    try:
        return str(parse_span(name))
    except Misread:
        return name


def _read_metal(text: str, _: Reading) -> Metal:
    return parse_metal(text)


def _read_alloy(node: Node, reading: Reading) -> dict[str, Fraction]:
    parts: dict[str, Decimal] = mapping_of(
        decimal_number, "metals with their parts", "{copper: 950, tin: 40, zinc: 10}"
    ).read(node, reading)
    for name in parts:
        parse_metal(name)
    whole = sum(parts.values())
    if whole not in (Decimal(1), Decimal(100), Decimal(1000)):
        raise Misread(f"the parts of the alloy add up to {whole}", "they must add up to 1, to 100 or to 1000")
    return {name: Fraction(part) / Fraction(whole) for name, part in parts.items()}


STANDARD = Form(
    "a standard",
    (
        Field("dates", span, "the years for which it was laid down", required=True, attribute="span"),
        Field("id", like(identifier, "light"), "a short name, where two standards share a date", default=""),
        Field(
            "metal", of_text("a metal", "silver", _read_metal, "metal"), "the metal or alloy", required=True
        ),
        Field("fineness", fineness, "the part of fine metal"),
        Field(
            "alloy",
            Kind("metals with their parts", "{copper: 950, tin: 40, zinc: 10}", _read_alloy, "metal"),
            "the parts of the mixture by weight",
            default={},
        ),
        Field("weight", weight, "the standard weight"),
        Field("remedy", weight, "the greatest difference from it allowed in making"),
        Field("diameter", length, "the diameter"),
        Field("thickness", length, "the thickness at the rim"),
        Field("edge", like(text_kind, "milled"), "the edge: plain, milled, lettered", default=""),
        Field("axis", axis_kind, "the die axis laid down"),
        Field("note", like(text_kind, "the dies were made abroad"), "a remark", default=""),
        Field("source", like(text_kind, "Law of 1870"), "the law or book it is taken from", default=""),
        Field("checked", yes_no, "no where it is from memory", default=True),
    ),
)

FACE = Form(
    "a side of a type",
    (
        Field(
            "legend", like(text_kind, "TORVALD III KING"), "the lettering, as it is on the coin", default=""
        ),
        Field("design", like(text_kind, "A spruce above three waves"), "the design in words", default=""),
        Field("designer", like(text_kind, "Marten Oskell"), "who made it", default=""),
    ),
)

_FACE_EXAMPLE = "{legend: INGRITH QUEEN OF VESSMARK, design: Crowned head to the left}"

COIN_TYPE = Form(
    "a type",
    (
        Field("id", like(identifier, "torvald"), "its short name", required=True),
        Field("name", like(text_kind, "Torvald, second head"), "what it is called on the pages", default=""),
        Field("dates", span, "the years of the type", required=True, attribute="span"),
        Field("monarch", like(identifier, "torvald-iii"), "its monarch's short name", default=""),
        Field("obverse", record(FACE, Face, _FACE_EXAMPLE), "the obverse"),
        Field("reverse", record(FACE, Face, _FACE_EXAMPLE), "the reverse"),
        Field("note", like(text_kind, "the dies were made abroad"), "a remark", default=""),
        Field("source", like(text_kind, "Report of 1899"), "where it is taken from", default=""),
    ),
)

VARIETY = Form(
    "a variety",
    (
        Field("id", identifier, "its short name", required=True),
        Field("name", like(text_kind, "old spelling"), "what it is called on the pages", default=""),
        Field("dates", list_of(span), "the years it is known of", required=True, attribute="spans"),
        Field("side", choice(Side, "a side of a coin", "reverse"), "the side it is on"),
        Field("reading", like(text_kind, "value spelt OORT"), "what tells it apart", default=""),
        Field("note", like(text_kind, "the dies were made abroad"), "a remark", default=""),
        Field("source", like(text_kind, "Report of 1899"), "where it is taken from", default=""),
    ),
)


def _face_text(node: Node, reading: Reading) -> str:
    return require_text(node, "a face value")


SERIES = Form(
    "a series",
    (
        Field("name", like(text_kind, "Ort"), "the name of the series", required=True),
        Field("issuer", like(identifier, "vessmark"), "the issuer's short name", required=True),
        Field(
            "face", Kind("a face value", "1/2 skilling", _face_text, "money"), "the face value", default=""
        ),
        Field("denomination", like(text_kind, "4 skilling"), "a name that several series share", default=""),
        Field(
            "labels",
            mapping_of(whole_number, "dates of another calendar with their years", "{AH 1320: 1902}"),
            "dates of another calendar, each with the year it is sorted by",
            default={},
        ),
        Field(
            "standards",
            list_of(
                record(STANDARD, Standard, "{dates: 1891–1903, metal: silver, …}"), "a list of standards"
            ),
            "the standards",
            default=(),
        ),
        Field(
            "types",
            list_of(record(COIN_TYPE, CoinType, "{id: ingrith, dates: 1891–1893, …}"), "a list of types"),
            "the types",
            default=(),
        ),
        Field(
            "varieties",
            list_of(
                record(VARIETY, Variety, "{id: old-spelling, dates: 1891–1899, …}"), "a list of varieties"
            ),
            "the varieties",
            default=(),
        ),
        Field(
            "issues",
            Kind("what was struck", "{source: …, struck: {1891: 341,000}}", read_struck),
            "what was struck with each date",
            required=True,
            attribute="struck",
        ),
        Field("note", like(text_kind, "the dies were made abroad"), "a remark", default=""),
    ),
)


def read_labels(node: Mapping, reading: Reading) -> None:
    """Take the labels of a series into the reading, so that its dates can be read by them."""
    given = node.get("labels")
    if isinstance(given, Mapping):
        for key, entry in given.entries.items():
            year = getattr(entry.value, "value", "")
            if isinstance(year, str) and year.isascii() and year.isdigit() and len(year) <= 4:
                reading.labels = {**reading.labels, key: int(year)}


def read_series(series_id: str, node: Mapping, reading: Reading) -> Series | None:
    """Read a series from its file; None where its name, issuer or issues are missing."""
    read_labels(node, reading)
    values = read_form(SERIES, node, reading)
    if values is None:
        return None
    return Series(id=series_id, path=reading.path, **values)
