"""How a coin changed hands: how it came to the keeper, how it left, and who owned it before."""

from dataclasses import dataclass, field, replace
from enum import StrEnum

from daterun.problems import Misread, meant
from daterun.records.fields import Field, Form, Kind, Reading, require_text
from daterun.records.kinds import (
    choice,
    day,
    like,
    list_of,
    money,
    text_kind,
    yes_no,
)
from daterun.records.located import Mapping, Node
from daterun.trade.dates import Day
from daterun.trade.money import Money


class How(StrEnum):
    """How a coin came to the keeper, or left."""

    BOUGHT = "bought"
    EXCHANGED = "exchanged"
    GIVEN = "given"
    INHERITED = "inherited"
    FOUND = "found"
    SOLD = "sold"
    LOST = "lost"
    STOLEN = "stolen"


WAYS_IN = (How.BOUGHT, How.EXCHANGED, How.GIVEN, How.INHERITED, How.FOUND)


WAYS_OUT = (How.SOLD, How.EXCHANGED, How.GIVEN, How.LOST, How.STOLEN)


@dataclass(frozen=True, slots=True)
class Acquired:
    """How the coin came to the keeper; the ids are those of the coins given for it in an exchange."""

    on: Day | None
    source: str
    how: How | None
    price: Money | None
    exchanged_for: tuple[str, ...]
    note: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Parted:
    """How the coin left; it stays on record and fills no slot."""

    on: Day | None
    to: str
    how: How | None
    price: Money | None
    exchanged_for: tuple[str, ...]
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Owner:
    """A former owner; published only where the keeper says so."""

    owner: str
    since: Day | None
    until: Day | None
    sale: str
    lot: str
    note: str
    publish: bool
    at: Mapping = field(compare=False, repr=False)


_ids: Kind[tuple[str, ...]] = list_of(like(text_kind, "ort/1897"), "ids of coins")


def _way(ways: tuple[How, ...], name: str, example: str) -> Kind[How]:
    """Make the kind of a way in or out: any way is read, for a rule to tell of, and only these are offered."""
    any_way = choice(How, name, example)

    def read(node: Node, reading: Reading) -> How:
        try:
            return any_way.read(node, reading)
        except Misread as misread:
            words = [each.value for each in ways]
            raise Misread(misread.sentence, meant(require_text(node, name), words)) from None

    return replace(any_way, read=read)


way_in = _way(WAYS_IN, "a way of coming by a coin", "bought")
way_out = _way(WAYS_OUT, "a way of parting with a coin", "sold")


ACQUIRED = Form(
    "an acquisition",
    (
        Field("on", day, "the day"),
        Field("from", like(text_kind, "R. Tarn"), "the seller or giver", attribute="source", default=""),
        Field(
            "how",
            way_in,
            "bought, exchanged, given, inherited or found",
        ),
        Field("price", money, "the price paid"),
        Field("for", _ids, "the coins given in exchange", attribute="exchanged_for", default=()),
        Field("note", like(text_kind, "with its old ticket"), "a remark", default=""),
    ),
)


PARTED = Form(
    "a parting",
    (
        Field("on", day, "the day"),
        Field("to", like(text_kind, "R. Tarn"), "the buyer or receiver", default=""),
        Field(
            "how",
            way_out,
            "sold, exchanged, given, lost or stolen",
        ),
        Field("price", money, "the price received"),
        Field("for", _ids, "the coins received in exchange", attribute="exchanged_for", default=()),
    ),
)


OWNER = Form(
    "a former owner",
    (
        Field("owner", like(text_kind, "Hallin collection"), "the person or collection", required=True),
        Field("since", day, "from when"),
        Field("until", day, "until when"),
        Field("sale", like(text_kind, "Kaldhamn autumn sale"), "the sale", default=""),
        Field("lot", like(text_kind, "212"), "the lot number in it", default=""),
        Field("note", like(text_kind, "with its old ticket"), "a remark", default=""),
        Field("publish", yes_no, "yes where every reader may see it", default=False),
    ),
)
