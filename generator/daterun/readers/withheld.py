"""What a reader may not see, value by value with whose it is and where it is written, by the one table.

How each is sought in what is about to be published is left to ``press/searching.py``.
"""

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from daterun.photos.photo import Photo
from daterun.problems import Place
from daterun.readers.closing import costs_of
from daterun.readers.reader import Reader
from daterun.readers.table import TABLE, Access, may_see
from daterun.records.aims import Aim, Want
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.issuers import Issuer
from daterun.records.located import Mapping as Located
from daterun.records.lots import Lot
from daterun.records.opinions import Certificate, OwnGrade
from daterun.records.ownership import Owner
from daterun.records.series import Series, Side
from daterun.records.settings import Permissions
from daterun.trade.dates import Day
from daterun.trade.money import Money

Value = str | Money | Day


@dataclass(frozen=True, slots=True)
class Withheld:
    """One value that a reader may not see.

    The field is named by the keys that lead to it, and its record in whose. It is written in a mapping under a
    key, "" for all of the mapping. One that is strict is never for others; the rest is hidden only because a
    coin has left, or is no longer the grade in force.
    """

    value: Value
    field: str
    whose: str
    is_strict: bool
    at: Located = dataclasses.field(compare=False)
    key: str = dataclasses.field(compare=False)

    @property
    def place(self) -> Place:
        """Find where it is written."""
        return self.at.place_of(self.key) if self.key else self.at.place


_NOT_SECRET: Mapping[tuple[type, str], str] = {
    (Coin, "id"): "it is made of words that stand in every grid; no page lies at it, which is checked apart",
    (Coin, "series"): "every grid names it",
    (Want, "slot"): "every grid shows the gap",
}
"""Fields that are not sought, each with the reason."""

_COIN_IDS = ("exchanged_for",)
"""Fields that name coins by their ids, which are not sought for the same reason."""

_KEYS = {
    "source": "from",
    "exchanged_for": "for",
    "own_grades": "grades",
    "shares": "share",
    "varieties": "variety",
    "certificate_numbers": "certificate numbers",
}
"""The keys under which attributes are written, where they are other words."""


def gather_withheld(
    catalogue: Catalogue, photos: Mapping[tuple[str, Side], Photo], reader: Reader
) -> tuple[Withheld, ...]:
    """Gather every value in a catalogue that a reader may not see, also in fields that the table does not list.

    Grades, measures, dates on coins, counts and the program's own words (bought, sold) are no values that
    could be told from public ones, and are left out. For the keeper there is nothing.
    """
    if reader is Reader.KEEPER:
        return ()
    walk = _Walk(reader, catalogue.settings.readers)
    found = list(walk.record(catalogue, "the catalogue", "", _Hidden.NOT, catalogue.settings.at))
    start = {each.id: each.at for each in catalogue.coins}
    for coin_id, cost in costs_of(catalogue).items():
        found.append(Withheld(cost, "cost", f"coin {coin_id}", True, start[coin_id], ""))
    found = [each for each in found if each.field != "photos file" or not _is_after(each.value, each.whose)]
    for (coin_id, side), photo in sorted(photos.items()):
        if _is_after(photo.path, f"coin {coin_id}"):
            continue
        at = start.get(coin_id) or Located({}, Place(photo.path))
        name = photo.path.rpartition("/")[2]
        found.append(Withheld(name, f"photo file of the {side.value}", f"coin {coin_id}", True, at, ""))
    return tuple(dict.fromkeys(found))


def _is_after(file: Value, whose: str) -> bool:
    """Tell whether a photo is called after its coin, as the pictures of it are that anyone may take down."""
    named = re.findall(r"\w+", str(file).removeprefix("content/photos/").rpartition(".")[0].casefold())
    return named == re.findall(r"\w+", whose.casefold())[-len(named) :]


class _Hidden:
    """How a record is hidden that is being walked: not at all, with leniency, or for good."""

    NOT, LENIENT, STRICT = 0, 1, 2


@dataclass(frozen=True, slots=True)
class _Step:
    """What is done with one field of a kind of record: its key, and how its value is hidden by itself."""

    name: str
    key: str
    access: Access | None
    hidden: int


@dataclass(frozen=True, slots=True)
class _Walk:
    """A walk over records; the steps of each kind are worked out once."""

    reader: Reader
    readers: Mapping[str, Permissions]
    known: dict[type, tuple[_Step, ...]] = field(default_factory=dict)

    def steps(self, kind: Any) -> tuple[_Step, ...]:
        """List the fields of a kind of record that are looked at."""
        if kind not in self.known:
            self.known[kind] = tuple(
                _Step(name, _KEYS.get(name, name.replace("_", " ")), access, self._of(access, kind, name))
                for name in (each.name for each in dataclasses.fields(kind))
                if (access := TABLE.get(kind, {}).get(name)) is not Access.NOT_A_FACT
                and (kind, name) not in _NOT_SECRET
                and name not in _COIN_IDS
                and (kind, name) != (Coin, "notes_line")
            )
        return self.known[kind]

    def record(self, record: object, whose: str, under: str, hidden: int, at: Located) -> Iterator[Withheld]:
        """Walk a record's fields; under are the keys that led to it, and at is where it is written."""
        if named := _name(record):
            whose, under = named, ""
        own = getattr(record, "at", None)
        at = own if isinstance(own, Located) else at
        kind: Any = type(record)
        if isinstance(record, Coin) and not record.is_held:
            hidden = max(hidden, _Hidden.LENIENT)
        elif isinstance(record, Owner) and not record.publish:
            hidden = _Hidden.STRICT
        for step in self.steps(kind):
            value = getattr(record, step.name)
            if value is None or value == () or value == "" or isinstance(value, bool | int):
                continue
            access = step.access
            if not (hidden or step.hidden) and type(value) is str:
                continue
            label = f"{under} {step.key}".strip()
            if access is Access.WITHOUT_REASONS:
                for reasons in value.values():
                    yield from self.value(tuple(reasons.values()), whose, label, _Hidden.STRICT, at, step.key)
            elif access is Access.IN_FORCE:
                for each in value:
                    passed = step.hidden and not _in_force(record, each)
                    inside = max(hidden, _Hidden.LENIENT if passed else _Hidden.NOT)
                    yield from self.record(each, whose, label, inside, at)
            else:
                below = max(hidden, step.hidden)
                yield from self.value(value, whose, label, below, at, step.key)

    def _of(self, access: Access | None, kind: type, name: str) -> int:
        if access in (Access.EVERYONE, Access.WHERE_PUBLISHED) or may_see(
            self.reader, kind, name, self.readers
        ):
            return _Hidden.NOT
        return _Hidden.LENIENT if access is Access.CLUB_AND_KEEPER else _Hidden.STRICT

    def value(
        self, value: object, whose: str, label: str, hidden: int, at: Located, key: str
    ) -> Iterator[Withheld]:
        if type(value) in TABLE:
            if hidden or not isinstance(value, Series | Issuer):
                yield from self.record(value, whose, label, hidden, at)
        elif isinstance(value, Mapping):
            for each in value.values():
                yield from self.value(each, whose, label, hidden, at, key)
        elif isinstance(value, tuple | list):
            for each in value:
                yield from self.value(each, whose, label, hidden, at, key)
        elif hidden and type(value) is str:
            if value.strip():
                yield Withheld(value, label, whose, hidden == _Hidden.STRICT, at, key)
        elif hidden and isinstance(value, Money | Day):
            yield Withheld(value, label, whose, hidden == _Hidden.STRICT, at, key)


def _name(record: object) -> str:
    """Name a record that stands for itself in the keeper's files; "" for a part of another."""
    if isinstance(record, Coin):
        return f"coin {record.id}"
    if isinstance(record, Lot):
        return f"lot {record.id}"
    if isinstance(record, Aim):
        return f"aim {record.id}"
    if isinstance(record, Want):
        return f"want {record.slot}"
    return ""


def _in_force(coin: object, opinion: object) -> bool:
    """Tell whether an opinion is the one that every reader sees of a coin."""
    assert isinstance(coin, Coin), "only coins have opinions"
    if isinstance(opinion, Certificate):
        return opinion is coin.sealed_certificate
    assert isinstance(opinion, OwnGrade), "an opinion is a grade of one's own or a certificate"
    return coin.sealed_certificate is None and opinion is coin.newest_own_grade
