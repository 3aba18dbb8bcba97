"""The kinds of value that fields can hold, each read by the trade's own rules or from the other kinds.

Single kinds first (text, days, weights), then those that hold others (lists, choices, mappings, records).
"""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from enum import StrEnum
from typing import Any, TypeVar

from daterun.problems import Misread, Severity, meant
from daterun.records.fields import MISREAD, Form, Kind, Reading, Shape, read_form, read_value, require_text
from daterun.records.located import Items, Mapping, Node, Text
from daterun.trade.dates import CoinDate, Day, Span, parse_coin_date, parse_day, parse_span
from daterun.trade.grading import Grade, parse_grade
from daterun.trade.measures import Axis, Length, Weight, parse_axis, parse_length, parse_weight
from daterun.trade.metals import Fineness, parse_fineness
from daterun.trade.mints import parse_mint_mark
from daterun.trade.money import Money, parse_money
from daterun.trade.numerals import parse_count

T = TypeVar("T")
R = TypeVar("R")
E = TypeVar("E", bound=StrEnum)


def of_text(name: str, example: str, parse: Callable[[str, Reading], T], rule: str = "value") -> Kind[T]:
    """Make a kind that is read from one text."""

    def read(node: Node, reading: Reading) -> T:
        return parse(require_text(node, name), reading)

    return Kind(name, example, read, rule)


def _line(text: str, _: Reading) -> str:
    return " ".join(text.split())


def _yes_or_no(text: str, _: Reading) -> bool:
    answers = {"yes": True, "no": False, "true": True, "false": False}
    if text.lower() not in answers:
        raise Misread(f'"{text}" is neither yes nor no')
    return answers[text.lower()]


def _whole_number(text: str, _: Reading) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise Misread(f'"{text}" is not a whole number', "write it in figures alone, such as 3")
    return int(text)


def _decimal(text: str, _: Reading) -> Decimal:
    cleaned = text.replace("_", "")
    if not (cleaned.isascii() and cleaned.replace(".", "", 1).isdigit() and len(cleaned) < 20):
        raise Misread(f'"{text}" is not a number', "write figures with a point, such as 812.5")
    return Decimal(cleaned)


def _file_name(text: str, _: Reading) -> str:
    parts = text.replace("\\", "/").split("/")
    if text.startswith(("/", "~")) or not {"", ".", ".."}.isdisjoint(parts) or ":" in text or "\0" in text:
        raise Misread(f'"{text}" leads out of the folder of photos', "name a file under content/photos")
    return "/".join(parts)


def _identifier(text: str, _: Reading) -> str:
    if not text or len(text) > 100 or not all(c.isalnum() or c in "-_" for c in text):
        raise Misread(f'"{text}" is not a short name', "use letters, figures and hyphens, as in old-spelling")
    return text


text_kind: Kind[str] = of_text("a text", "hair over the ear is flat", _line)
yes_no: Kind[bool] = replace(
    of_text("yes or no", "yes", _yes_or_no, "yes or no"), shape=Shape(words=("yes", "no"))
)
whole_number: Kind[int] = of_text("a whole number", "3", _whole_number, "number")
decimal_number: Kind[Decimal] = of_text("a number", "812.5", _decimal, "number")
identifier: Kind[str] = of_text("a short name", "old-spelling", _identifier, "short name")
file_name: Kind[str] = of_text("a file under content/photos", "ort/1899.obverse.jpg", _file_name, "path")
span: Kind[Span] = of_text("a year or a range of years", "1891–1903", lambda t, _: parse_span(t), "date")
day: Kind[Day] = of_text("a day, month or year", "2024-02-11", lambda t, _: parse_day(t), "day")
coin_date: Kind[CoinDate] = of_text(
    "the date on the coin", "1899", lambda t, r: parse_coin_date(t, r.labels), "date"
)
weight: Kind[Weight] = of_text("a weight with its unit", "8.97 g", lambda t, _: parse_weight(t), "measure")
length: Kind[Length] = of_text("a length with its unit", "26.5 mm", lambda t, _: parse_length(t), "measure")
axis: Kind[Axis] = of_text("a die axis in hours or degrees", "12h", lambda t, _: parse_axis(t), "measure")
fineness: Kind[Fineness] = of_text("a fineness", ".750", lambda t, _: parse_fineness(t), "metal")
mint_mark: Kind[str] = of_text("a mint mark, or none", "K", lambda t, _: parse_mint_mark(t).text, "mint mark")
fine_money: Kind[Money] = of_text(
    "an amount with its currency", "45.00 VKR", lambda t, r: parse_money(t, r.currency), "money"
)
"""Money of which three decimals are as meant: the price of a gram."""


def _read_money(node: Node, reading: Reading) -> Money:
    amount = fine_money.read(node, reading)
    whole, _, decimals = str(amount.amount).partition(".")
    if len(decimals) == 3 and whole != "0" and len(whole) <= 3:  # 1.250 is far more often 1,250
        reading.report(
            "money",
            f"{amount} is read with three decimals",
            node.place,
            f"if thousands are meant, write {whole}{decimals} {amount.currency}",
            Severity.ADVICE,
        )
    return amount


money: Kind[Money] = replace(fine_money, read=_read_money)
grade: Kind[Grade] = of_text("a grade", "VF30–EF40", lambda t, r: parse_grade(t, r.habit), "grade")
count: Kind[int] = of_text("a number of pieces", "341,000", lambda t, _: parse_count(t), "number")


def like(kind: Kind[T], example: str) -> Kind[T]:
    """Make the same kind with an example of its own, for a field that the kind's does not suit."""
    return replace(kind, example=example)


def choice(enum: type[E], name: str, example: str) -> Kind[E]:
    """Make the kind of one word out of a fixed few."""

    def parse(text: str, _: Reading) -> E:
        words = [each.value for each in enum]
        if text.lower() not in words:
            raise Misread(f'"{text}" is not {name}', meant(text, words))
        return enum(text.lower())

    shape = Shape(words=tuple(each.value for each in enum))
    return replace(of_text(name, example, parse, "choice"), shape=shape)


def list_of(kind: Kind[T], name: str = "", at_least: int = 0, example: str = "") -> Kind[tuple[T, ...]]:
    """Make the kind of a list; one value standing alone is a list of one. Items misread are left out."""
    shown = example or f"[{', '.join([kind.example] * max(1, at_least))}]"

    def read(node: Node, reading: Reading) -> tuple[T, ...]:
        nodes = node.items if isinstance(node, Items) else (node,)
        values = [read_value(kind, each, reading) for each in nodes]
        if len(values) < at_least:
            raise Misread(f"at least {at_least} of these must be given", f"write them in brackets: {shown}")
        return tuple(each for each in values if each is not MISREAD)

    return Kind(name or f"one or several: {kind.name}", shown, read, kind.rule, Shape(items=kind))


def mapping_of(kind: Kind[T], name: str, example: str) -> Kind[dict[str, T]]:
    """Make the kind of a mapping with free keys; entries misread are left out."""

    def read(node: Node, reading: Reading) -> dict[str, T]:
        if not isinstance(node, Mapping):
            raise Misread(f"{name} is asked for here")
        values = {key: read_value(kind, entry.value, reading, key) for key, entry in node.entries.items()}
        return {key: value for key, value in values.items() if value is not MISREAD}

    return Kind(name, example, read, shape=Shape(values=kind))


def by_mint_mark(kind: Kind[dict[str, T]]) -> Kind[dict[str, T]]:
    """Make the kind of a mapping whose keys are mint marks; one bad mark has the whole misread."""

    def read(node: Node, reading: Reading) -> dict[str, T]:
        marks, sound = {}, True
        for typed, value in kind.read(node, reading).items():
            try:
                marks[parse_mint_mark(typed).text] = value
            except Misread as error:
                assert isinstance(node, Mapping), "only a mapping has keys"
                reading.report("mint mark", error.sentence, node.place_of_key(typed), error.hint)
                sound = False
        return marks if sound else MISREAD  # type: ignore[return-value]

    return replace(kind, read=read, rule="mint mark")


def record(form: Form, make: Callable[..., R], example: str = "{…}") -> Kind[R]:
    """Make the kind of a record inside another."""

    def read(node: Node, reading: Reading) -> R:
        if not isinstance(node, Mapping):
            raise Misread(
                f"{form.name} is written as keys with values here", reading.example(f"for example {example}")
            )
        values = read_form(form, node, reading)
        return make(**values) if values is not None else MISREAD  # type: ignore[return-value]

    return Kind(form.name, example, read, shape=Shape(form=form))


def either(first: Kind[Any], lift: Callable[[Any, Node], R], full: Kind[R]) -> Kind[R]:
    """Make the kind that is written short as one text, or in full as a mapping."""

    def read(node: Node, reading: Reading) -> R:
        if isinstance(node, Text):
            return lift(first.read(node, reading), node)
        return full.read(node, reading)

    form = full.shape.form if full.shape else None
    return Kind(
        f"{first.name}, or {full.name}", first.example, read, first.rule, Shape(short=first, form=form)
    )


def empty_at(node: Node) -> Mapping:
    """Stand in for the mapping of a record written short: every place in it is the text's own."""
    return Mapping({}, node.place)
