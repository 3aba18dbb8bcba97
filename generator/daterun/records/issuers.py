"""An issuer: the country or realm that struck the coins, with its money, mints, and monarchs."""

from dataclasses import dataclass, field

from daterun.problems import Misread
from daterun.records.fields import MISREAD, Field, Form, Kind, Reading, read_form, read_value, require_text
from daterun.records.kinds import by_mint_mark, day, like, mapping_of, record, text_kind
from daterun.records.located import Mapping, Node, Text
from daterun.trade.dates import Day
from daterun.trade.faces import DecimalMoney, MoneySystem


@dataclass(frozen=True, slots=True)
class Reign:
    """A reign from its first day to its last; the last is None while it goes on, or where no end is told."""

    first: Day
    last: Day | None
    at: Mapping = field(compare=False, repr=False)

    def covers_year(self, year: int, lag: int = 0) -> bool:
        """Tell whether any day of a year lies in the reign, or within so many years after it."""
        return self.first.year <= year and (self.last is None or year <= self.last.year + lag)

    @property
    def years(self) -> str:
        return f"{self.first.year}–{self.last.year}" if self.last else f"{self.first.year}–"


@dataclass(frozen=True, slots=True)
class Monarch:
    """A monarch, or another head whose type the coins bear; a republic is entered the same way."""

    id: str
    name: str
    reign: Reign
    note: str
    source: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Issuer:
    """An issuer; mints go from mint mark (``none`` for the one without) to name, monarchs in their order."""

    id: str
    path: str
    name: str
    money: MoneySystem | None
    decimal: DecimalMoney | None
    mints: dict[str, str]
    monarchs: tuple[Monarch, ...]
    note: str
    source: str
    at: Mapping = field(compare=False, repr=False)

    def monarch(self, monarch_id: str) -> Monarch | None:
        return next((each for each in self.monarchs if each.id == monarch_id), None)


REIGN = Form(
    "a reign",
    (
        Field("from", day, "the first day of the reign", required=True, attribute="first"),
        Field("to", day, "the last day of the reign; left out while it goes on", attribute="last"),
    ),
)

MONARCH = Form(
    "a monarch",
    (
        Field("name", like(text_kind, "Torvald III"), "the name with its number", required=True),
        Field(
            "reign", record(REIGN, Reign, "{from: 1893-11-20, to: 1908-02-03}"), "the reign", required=True
        ),
        Field("note", like(text_kind, "regent until 1896"), "a remark", default=""),
        Field(
            "source", like(text_kind, "Court almanac of 1900"), "where the reign is taken from", default=""
        ),
    ),
)


def _read_monarchs(node: Node, reading: Reading) -> tuple[Monarch, ...]:
    if not isinstance(node, Mapping):
        raise Misread("monarchs are written as short names with what belongs to each")
    monarchs = []
    for key, entry in node.entries.items():
        if not isinstance(entry.value, Mapping):
            reading.report("value", f'"{key}" needs a name and a reign', entry.place)
            continue
        values = read_form(MONARCH, entry.value, reading)
        if values is not None:
            monarchs.append(Monarch(id=key, **values))
    return tuple(monarchs)


def _read_money(node: Node, reading: Reading) -> MoneySystem:
    if not isinstance(node, Mapping):
        raise Misread(
            "money is written from the largest unit down",
            "for example {pound: 20 shillings, shilling: 12 pence}",
        )
    pairs = []
    for key, entry in node.entries.items():
        if not isinstance(entry.value, Text):
            raise Misread(f'"{key}" needs the number of the next smaller unit')
        pairs.append((key, entry.value.value))
    reading.money = MoneySystem.read(pairs)
    return reading.money


def _read_decimal(node: Node, reading: Reading) -> DecimalMoney:
    if not isinstance(node, Mapping):
        raise Misread(
            "decimal money is written as its day and a rate", "for example {on: 1919-01-01, daler: 4 kron}"
        )
    if (said := node.get("on")) is None:
        raise Misread("the day from which decimal money counted is missing", "for example on: 1919-01-01")
    on = read_value(day, said, reading, "on")
    if not isinstance(on, Day):
        return MISREAD  # type: ignore[return-value]
    if reading.money is None:
        raise Misread("decimal money needs the money that it followed", "write money: above decimal:")
    rates = []
    for key, entry in node.entries.items():
        if key != "on":
            rates.append((key, require_text(entry.value, f"what a {key} became")))
    return DecimalMoney.read(on, rates, reading.money)


ISSUER = Form(
    "an issuer",
    (
        Field("name", like(text_kind, "Kingdom of Vessmark"), "the country or realm", required=True),
        Field(
            "money",
            Kind(
                "the units of money, largest first", "{daler: 4 ort, ort: 24 skilling}", _read_money, "money"
            ),
            "the units of its money",
        ),
        Field(
            "decimal",
            Kind("a day and a rate", "{on: 1919-01-01, daler: 4 kron}", _read_decimal, "money"),
            "the decimal money in which its coins lived on",
        ),
        Field(
            "mints",
            by_mint_mark(mapping_of(text_kind, "mint marks with names", "{none: Vessborg, K: Kaldhamn}")),
            "the mints by their marks",
            default={},
        ),
        Field(
            "monarchs",
            Kind("monarchs by short name", "{ingrith: {name: Ingrith, reign: {…}}}", _read_monarchs),
            "the monarchs in their order",
            default=(),
        ),
        Field("note", like(text_kind, "regent until 1896"), "a remark", default=""),
        Field("source", like(text_kind, "Court almanac of 1900"), "where this is taken from", default=""),
    ),
)


def read_issuer(issuer_id: str, node: Mapping, reading: Reading) -> Issuer | None:
    """Read an issuer from its file; None where it has no name."""
    values = read_form(ISSUER, node, reading)
    return Issuer(id=issuer_id, path=reading.path, **values) if values is not None else None
