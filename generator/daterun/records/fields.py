"""A record's table of fields, and how a mapping of located text is read by it.

The table is the one description of a record: what is read, what is asked for, what the documentation and an
editor are told. Every set of keys is closed: an unknown key is a problem with the nearest known one as hint.
"""

from collections.abc import Callable
from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from daterun.problems import Misread, Place, Problem, Severity, meant
from daterun.records.located import Items, Mapping, Node, Text
from daterun.trade.faces import MoneySystem
from daterun.trade.money import in_currency
from daterun.trade.scales import Habit

T = TypeVar("T")


@dataclass(slots=True)
class Reading:
    """What reading one file needs to know, and the problems met on the way.

    The habit says how a bare grade word is meant, the currency is that of an amount without one, the labels
    are a series' dates in other calendars with their sorting years, and the money is the issuer's once read.
    """

    path: str
    habit: Habit = Habit.SEVENTY
    currency: str | None = None
    labels: AnyMapping[str, int] = field(default_factory=dict)
    money: MoneySystem | None = None
    problems: list[Problem] = field(default_factory=list)

    def example(self, text: str) -> str:
        """Word an example with amounts in the catalogue's own currency, where it has one."""
        return in_currency(text, self.currency)

    def report(
        self,
        rule: str,
        sentence: str,
        place: Place,
        hint: str = "",
        severity: Severity = Severity.ERROR,
        others: tuple[Place, ...] = (),
    ) -> None:
        self.problems.append(Problem(rule, sentence, place, hint, severity, others))


@dataclass(frozen=True, slots=True)
class Kind(Generic[T]):
    """A kind of value: what it is called in the documentation, an example, and how it is read.

    The reader raises Misread for a text that is not of the kind; places are added here, not there. The shape
    says what a kind is made of, where it is more than a text.
    """

    name: str
    example: str
    read: Callable[[Node, Reading], T]
    rule: str = "value"
    shape: "Shape | None" = None


@dataclass(frozen=True, slots=True)
class Shape:
    """What a kind is made of: one of some words, a record, or the kind of its items, values or short form."""

    words: tuple[str, ...] = ()
    form: "Form | None" = None
    items: "Kind[Any] | None" = None
    values: "Kind[Any] | None" = None
    short: "Kind[Any] | None" = None


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a record: its key in the file, its attribute, its kind and what it says.

    A field that several attributes share under another key (`grade` for `grades`) names that as its `short`.
    The default stands where the field is not written, and where what is written cannot be read. The name is
    that of the attribute, and keys are those under which the field may stand.
    """

    key: str
    kind: Kind[Any]
    about: str
    required: bool = False
    default: Any = None
    attribute: str = ""
    short: str = ""
    name: str = field(init=False)
    keys: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        # Worked out once: it is asked for with every field of every coin.
        object.__setattr__(self, "name", self.attribute or self.key.replace(" ", "_").replace("-", "_"))
        object.__setattr__(self, "keys", (self.key, self.short) if self.short else (self.key,))


@dataclass(frozen=True, slots=True)
class Form:
    """A record's whole table of fields.

    Elsewhere holds what a keeper may well write as a key of the record, in small letters, with the hint that
    says where it stands or what its key is.
    """

    name: str
    fields: tuple[Field, ...]
    elsewhere: AnyMapping[str, str] = field(default_factory=dict, hash=False)
    keys: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "keys", tuple(key for each in self.fields for key in each.keys))

    def field(self, key: str) -> Field:
        return next(each for each in self.fields if key in (each.key, each.short))


def read_form(form: Form, node: Mapping, reading: Reading) -> dict[str, Any] | None:
    """Read a mapping by its form into attribute values; None where a required field is missing or misread.

    Every problem of the mapping is reported, whatever comes back.
    """
    report_unknown_keys(form, node, reading)
    values: dict[str, Any] = {}
    sound = True
    for each in form.fields:
        found = [key for key in each.keys if key in node.entries]
        if len(found) == 2:
            first, second = (node.place_of_key(key) for key in found)
            reading.report(
                "repeated key",
                f'"{each.short}" is the short form of "{each.key}"; only one of them can stand',
                second,
                others=(first,),
            )
        if not found:
            values[each.name] = each.default
            if each.required:
                reading.report(
                    "missing field",
                    f'{form.name} needs "{each.key}": {each.about}',
                    _heading(node),
                    reading.example(f"for example {each.key}: {each.kind.example}"),
                )
                sound = False
            continue
        value_node = node.entries[found[0]].value
        value = read_value(each.kind, value_node, reading, found[0], each.required)
        if value is MISREAD:
            node.misread |= {found[0]}
            sound = sound and not each.required
            value = each.default
        values[each.name] = value
    values["at"] = node
    return values if sound else None


def report_unknown_keys(form: Form, node: Mapping, reading: Reading) -> None:
    """Report every key that the form does not know, with where it belongs or the nearest one that it does."""
    known = form.keys
    for key, entry in node.entries.items():
        if key in known:
            continue
        hint = form.elsewhere.get(key.casefold()) or meant(key, known)
        reading.report("unknown key", f'{form.name} has no "{key}"', entry.place, hint)


class _Misread:
    """The mark of a value that could not be read, for None can be a value."""


MISREAD = _Misread()


def read_value(kind: Kind[T], node: Node, reading: Reading, key: str = "", required: bool = False) -> T | Any:
    """Read one node as a kind; MISREAD, with its problem reported, where it is not of that kind.

    A text in quotes may be empty, unless it is required.
    """
    if isinstance(node, Text) and not node.value.strip() and (required or not node.quoted):
        reading.report(
            "empty field",
            f'"{key}" is written without a value' if key else "a value is missing here",
            node.place,
            reading.example(f"take the key out, or write {kind.name}, for example {kind.example}"),
        )
        return MISREAD
    try:
        return kind.read(node, reading)
    except Misread as error:
        reading.report(kind.rule, error.sentence, node.place, error.hint)
        return MISREAD


def _heading(node: Mapping) -> Place:
    if not node.entries:
        return node.place
    return next(iter(node.entries.values())).place


def require_text(node: Node, what: str) -> str:
    """Take a node's text; raise Misread where it is a list or a mapping."""
    if isinstance(node, Text):
        return node.value
    found = "a list" if isinstance(node, Items) else "a mapping"
    raise Misread(f"{found} stands here where {what} is asked for")
