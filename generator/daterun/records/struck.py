"""What was struck with each date: mintages, proofs, and how an issue divides by mint, variety and type.

A date that was struck has one issue. An issue divides into parts where mint mark, variety or type count.
"""

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from daterun.problems import Misread, Place
from daterun.records.fields import MISREAD, Field, Form, Kind, Reading, read_form, read_value, require_text
from daterun.records.kinds import (
    by_mint_mark,
    count,
    identifier,
    like,
    list_of,
    mapping_of,
    mint_mark,
    text_kind,
    yes_no,
)
from daterun.records.located import Items, Mapping, Node, Text
from daterun.trade.dates import CoinDate, Span, parse_coin_date, parse_span

DIVIDERS = ("mint", "variety", "type")
"""What can divide an issue, in the order in which its parts are named."""


@dataclass(frozen=True, slots=True)
class Figures:
    """How many were struck, by the sources.

    The mintage is empty where the number is not known and holds several figures where sources disagree. It
    includes the proofs unless they are said to be apart. None for proofs or melted means nothing is told.
    Proofs told without any mintage mean that nothing else was struck; where their number is not known, the
    keeper says that they are all there is.
    """

    mintage: tuple[int, ...] = ()
    proofs: int | None = None
    proofs_only: bool = False
    proofs_apart: bool = False
    melted: int | None = None
    scarce: bool = False
    note: str = ""
    source: str = ""
    checked: bool = True

    @property
    def ordinary(self) -> tuple[int, ...]:
        """The numbers of ordinary strikes; empty where not known, and never nought for want of a figure."""
        if self.proofs_only:
            return (0,)
        less = 0 if self.proofs_apart or self.proofs is None else self.proofs
        return tuple(max(each - less, 0) for each in self.mintage)


@dataclass(frozen=True, slots=True)
class Part:
    """One part of an issue; None for what the issue does not divide by."""

    mint: str | None
    variety: str | None
    type: str | None
    figures: Figures
    at: Node = field(compare=False, repr=False)

    def value_of(self, divider: str) -> str | None:
        return {"mint": self.mint, "variety": self.variety, "type": self.type}[divider]


@dataclass(frozen=True, slots=True)
class DateIssue:
    """All that was struck with one date, and the parts it divides into, none where it does not."""

    date: CoinDate
    figures: Figures
    parts: tuple[Part, ...]
    place: Place = field(compare=False)
    at: Node = field(compare=False, repr=False)

    def values_of(self, divider: str) -> tuple[str, ...]:
        """List the mint marks, varieties or types that the parts name, each once, in their order."""
        found = (each.value_of(divider) for each in self.parts)
        return tuple(dict.fromkeys(each for each in found if each is not None))


@dataclass(frozen=True, slots=True)
class Struck:
    """The table of issues of a series, with the years in which none was struck or nothing is known."""

    issues: tuple[DateIssue, ...]
    not_struck: tuple[Span, ...]
    not_known: tuple[Span, ...]
    source: str
    checked: bool
    note: str
    at: Mapping = field(compare=False, repr=False)
    _by_key: dict[str, DateIssue] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_key", {each.date.key: each for each in reversed(self.issues)})

    def issue(self, date_key: str) -> DateIssue | None:
        return self._by_key.get(date_key)

    @property
    def years(self) -> Span | None:
        """The span from the first year of the run to its last; None for a run without a year."""
        years = [each.date.year for each in self.issues if each.date.year is not None]
        return Span(min(years), max(years)) if years else None

    def is_not_struck(self, year: int) -> bool:
        return any(year in each for each in self.not_struck)

    def is_not_known(self, year: int) -> bool:
        return any(year in each for each in self.not_known)


def _read_mintage(node: Node, reading: Reading) -> tuple[int, ...]:
    """Read one figure, several that disagree, or the word unknown, which is the empty tuple."""
    if isinstance(node, Text) and node.value.lower() == "unknown":
        return ()
    figures = node.items if isinstance(node, Items) else ()
    for first, second in pairwise(each for each in figures if isinstance(each, Text)):
        if _is_cut_off(first, second):
            raise Misread(
                f'inside brackets a comma ends a figure, so "{first.value},{second.value}" is two of them',
                f"write {first.value}{second.value} for one, or a space after the comma for two",
            )
    return list_of(count).read(node, reading)


def _is_cut_off(first: Text, second: Text) -> bool:
    """Tell whether a figure looks like the rest of the one before: three figures right behind its comma."""
    touching = first.place.line == second.place.line and (
        first.place.column + first.place.length + 1 == second.place.column
    )
    return touching and len(second.value) == 3 and (first.value + second.value).isdigit()


_MINTAGE: Kind[tuple[int, ...]] = Kind(
    "a number struck, a list of disputed ones, or unknown", "341,000", _read_mintage, "number"
)

_FIGURE_FIELDS = (
    Field("mintage", _MINTAGE, "the number struck"),
    Field("proofs", count, "how many of them were proofs"),
    Field("proofs only", yes_no, "yes where only proofs were struck, of a number not known", default=False),
    Field("proofs apart", yes_no, "yes where the mintage does not include the proofs", default=False),
    Field("melted", count, "how many were melted again"),
    Field("scarce", yes_no, "whether the date is scarce", default=False),
    Field("note", like(text_kind, "two reports disagree"), "a remark", default=""),
    Field("source", like(text_kind, "Report of 1899"), "where the figure is taken from", default=""),
    Field("checked", yes_no, "no where it is from memory", default=True),
)
_FIGURE_NAMES = tuple(each.name for each in _FIGURE_FIELDS)

PART = Form(
    "a part of an issue",
    (
        Field("mint", mint_mark, "its mint mark"),
        Field("variety", like(identifier, "old-spelling"), "its variety"),
        Field("type", like(identifier, "torvald"), "its type"),
        *_FIGURE_FIELDS,
    ),
)


def _read_part_figures(node: Node, reading: Reading) -> Figures:
    if not isinstance(node, Mapping):
        return Figures(mintage=_read_mintage(node, reading))
    values = read_form(_FIGURES_ALONE, node, reading) or {}
    return _figures(values)


_FIGURES_ALONE = Form("the figures of a part", _FIGURE_FIELDS)

_DIVISION: Kind[dict[str, Figures]] = mapping_of(
    Kind("a number struck", "210000", _read_part_figures, "number"), "parts with their numbers", "{K: 40000}"
)


def _read_parts(node: Node, reading: Reading) -> tuple[Part, ...]:
    parts = []
    for each in node.items if isinstance(node, Items) else (node,):
        if not isinstance(each, Mapping):
            raise Misread(
                "the parts of an issue are a list of mappings", "for example [{mint: K, mintage: 100}]"
            )
        values = read_form(PART, each, reading)
        if values is not None:
            parts.append(Part(values["mint"], values["variety"], values["type"], _figures(values), each))
    return tuple(parts)


DATE_ISSUE = Form(
    "an issue",
    (
        *_FIGURE_FIELDS,
        Field("by mint", by_mint_mark(_DIVISION), "the numbers of each mint"),
        Field("by variety", _DIVISION, "the numbers of each variety"),
        Field("by type", _DIVISION, "the numbers of each type"),
        Field(
            "issues",
            Kind("a list of parts", "[{mint: K, variety: old-spelling, mintage: 1000}]", _read_parts),
            "the parts, where two things divide one date",
            default=(),
        ),
    ),
)


def _figures(values: dict[str, Any]) -> Figures:
    figures = {name: values[name] for name in _FIGURE_NAMES if name in values}
    mintage = figures.pop("mintage", None)
    said = figures.pop("proofs_only", False)
    proofs_only = mintage is None and (said or figures.get("proofs") is not None)
    return Figures(mintage=mintage or (), proofs_only=proofs_only, **figures)


def _read_issue(date: CoinDate, place: Place, node: Node, reading: Reading) -> DateIssue | None:
    if not isinstance(node, Mapping):
        mintage = read_value(_MINTAGE, node, reading, date.key)
        return None if mintage is MISREAD else DateIssue(date, Figures(mintage=mintage), (), place, node)
    values = read_form(DATE_ISSUE, node, reading)
    if values is None:
        return None
    figures, parts = _figures(values), _divide(values, node, reading)
    if not values["proofs_only"] and any(part.figures.mintage for part in parts):
        figures = replace(figures, proofs_only=False)  # its parts tell what the whole leaves out
    return DateIssue(date, figures, parts, place, node)


def _divide(values: dict[str, Any], node: Mapping, reading: Reading) -> tuple[Part, ...]:
    """Make the parts of an issue out of its divisions.

    A division with one key alone says which of several the whole issue was. Two divisions that both divide
    cannot say which part of the one is which part of the other, so a list is asked for.
    """
    divisions: dict[str, dict[str, Figures]] = {
        divider: values[f"by_{divider}"] for divider in DIVIDERS if values[f"by_{divider}"]
    }
    if values["issues"]:
        if divisions:
            reading.report(
                "division",
                'an issue is divided by a list of "issues" or by its mints, varieties or types, not by both',
                node.place_of_key("issues"),
                others=(node.place_of_key(f"by {next(iter(divisions))}"),),
            )
        return tuple(values["issues"])
    dividing = [divider for divider, parts in divisions.items() if len(parts) > 1]
    if len(dividing) > 1:
        reading.report(
            "division",
            f"this date is divided by {dividing[0]} and by {dividing[1]}: that does not say how they combine",
            node.place_of_key(f"by {dividing[1]}"),
            "write a list: issues: [{mint: …, variety: …, mintage: …}, …]",
        )
    alone = {divider: next(iter(parts)) for divider, parts in divisions.items() if len(parts) == 1}
    if not divisions:
        return ()
    main = dividing[0] if dividing else next(iter(divisions))
    parts = []
    for key, figures in divisions[main].items():
        coordinates: dict[str, str] = {**alone, main: key}
        entry = node.get(f"by {main}")
        at = entry.entries[key].value if isinstance(entry, Mapping) and key in entry.entries else node
        parts.append(
            Part(coordinates.get("mint"), coordinates.get("variety"), coordinates.get("type"), figures, at)
        )
    return tuple(parts)


def _read_table(node: Node, reading: Reading) -> tuple[DateIssue, ...]:
    if not isinstance(node, Mapping):
        raise Misread("what was struck is written as dates with their numbers", "for example {1891: 341,000}")
    found: dict[str, DateIssue] = {}
    for key, entry in node.entries.items():
        for date in dates_of(key, entry.place, reading):
            issue = _read_issue(date, entry.place, entry.value, reading)
            if issue is None:
                continue
            if date.key in found:
                reading.report(
                    "repeated key",
                    f"{date.key} is struck twice in this table",
                    entry.place,
                    others=(found[date.key].place,),
                )
                continue
            found[date.key] = issue
    return tuple(sorted(found.values(), key=lambda each: each.date.sort))


def dates_of(key: str, place: Place, reading: Reading) -> tuple[CoinDate, ...]:
    """Read a key of the table: one date, or a range of years that each had an issue."""
    try:
        if key not in reading.labels:
            try:
                years = parse_span(key)
            except Misread:
                pass
            else:
                return tuple(parse_coin_date(str(year)) for year in years.years)
        return (parse_coin_date(key, reading.labels),)
    except Misread as error:
        reading.report("date", error.sentence, place, error.hint)
        return ()


_SPAN_OR_DATE: Kind[Span] = Kind(
    "a year or a range of years", "1898", lambda node, _: parse_span(require_text(node, "a year")), "date"
)

STRUCK = Form(
    "the table of issues",
    (
        Field("source", like(text_kind, "Report of 1899"), "where the figures are taken from", default=""),
        Field("checked", yes_no, "no where they are from memory", default=True),
        Field(
            "struck",
            Kind("dates with the numbers struck", "{1891: 341,000, 1893: unknown}", _read_table),
            "the dates that were struck",
            required=True,
            attribute="issues",
        ),
        Field("not struck", list_of(_SPAN_OR_DATE), "the years in which none was struck", default=()),
        Field(
            "not known", list_of(_SPAN_OR_DATE), "the years of which no source says either way", default=()
        ),
        Field("note", like(text_kind, "two reports disagree"), "a remark", default=""),
    ),
)


def read_struck(node: Node, reading: Reading) -> Struck:
    """Read the table of issues of a series; its labels must be in the reading by then."""
    if not isinstance(node, Mapping):
        raise Misread("issues are written as a source and what was struck")
    values = read_form(STRUCK, node, reading)
    return Struck(**values) if values is not None else MISREAD  # type: ignore[return-value]
