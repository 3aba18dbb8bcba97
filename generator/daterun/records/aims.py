"""Aims and wants: the sets that the keeper is trying to complete, and notes on slots still to be found."""

from dataclasses import dataclass, field
from enum import StrEnum

from daterun.records.coins import CoinKind, Strike
from daterun.records.fields import Field, Form, Kind, Reading
from daterun.records.kinds import (
    choice,
    grade,
    identifier,
    like,
    list_of,
    mapping_of,
    money,
    span,
    text_kind,
    yes_no,
)
from daterun.records.located import Mapping, Node
from daterun.trade.dates import Span
from daterun.trade.grading import Grade
from daterun.trade.money import Money


class Divider(StrEnum):
    """What an aim asks one coin for."""

    DATE = "date"
    MINT = "mint"
    VARIETY = "variety"
    TYPE = "type"
    MONARCH = "monarch"


class End(StrEnum):
    """Which end of a range of grades counts."""

    LOW = "low"
    MIDDLE = "middle"
    HIGH = "high"


class Problems(StrEnum):
    """Whether a problem coin may fill a slot."""

    ACCEPTED = "accepted"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Aim:
    """A set that the keeper is trying to complete.

    Dates of None mean the whole run. Across series means that one coin of any of the series fills a slot that
    several of them have. At least of None means any grade. Left out are reasons, by series as
    written and then by slot as written.
    """

    id: str
    name: str
    series: tuple[str, ...]
    span: Span | None
    one_per: tuple[Divider, ...]
    strikes: tuple[Strike, ...]
    at_least: Grade | None
    counts: End
    problems: Problems
    kinds: tuple[CoinKind, ...]
    leave_out: dict[str, dict[str, str]]
    across_series: bool
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Want:
    """A keeper's note on a slot for the want list; private."""

    slot: str
    at_most: Money | None
    remark: str
    at: Mapping = field(compare=False, repr=False)


def _read_leave_out(node: Node, reading: Reading) -> dict[str, dict[str, str]]:
    dates: Kind[dict[str, str]] = mapping_of(text_kind, "dates with reasons", "{1892: beyond my means}")
    return mapping_of(dates, "series with dates and reasons", "{ort: {1892: beyond my means}}").read(
        node, reading
    )


AIM = Form(
    "an aim",
    (
        Field("id", like(identifier, "silver-by-date"), "its short name", required=True),
        Field(
            "name",
            like(text_kind, "Silver by date, Fine or better"),
            "what it is called on the pages",
            required=True,
        ),
        Field(
            "series", list_of(like(text_kind, "ort, half-daler")), "the series it is made of", required=True
        ),
        Field("dates", span, "the years, where it is not the whole run", attribute="span"),
        Field(
            "one per",
            list_of(choice(Divider, "something an aim can ask one coin for", "date")),
            "date, mint, variety, type, monarch: a slot for each combination",
            default=(Divider.DATE,),
        ),
        Field(
            "across series",
            yes_no,
            "whether one slot stands for all the series of an issuer, not one for each",
            default=False,
        ),
        Field(
            "strikes",
            list_of(choice(Strike, "a way of striking", "ordinary")),
            "the ways of striking that count",
            default=(Strike.ORDINARY,),
        ),
        Field("at least", grade, "the lowest grade that fills a slot"),
        Field(
            "counts",
            choice(End, "an end of a range", "low"),
            "the end of a range that counts",
            default=End.LOW,
        ),
        Field(
            "problems",
            choice(Problems, "accepted or refused", "refused"),
            "whether problem coins fill slots",
            default=Problems.ACCEPTED,
        ),
        Field(
            "kinds",
            list_of(choice(CoinKind, "a kind of coin", "regular")),
            "the kinds of coin that count",
            default=(CoinKind.REGULAR,),
        ),
        Field(
            "leave out",
            Kind("series with dates and reasons", "{ort: {1892: beyond my means}}", _read_leave_out),
            "slots left out, with the reason",
            default={},
        ),
    ),
)


WANT = Form(
    "a want",
    (
        Field("slot", like(text_kind, "ort 1892"), "the series and date, as in ort 1892", required=True),
        Field("at most", money, "the most to pay"),
        Field("remark", like(text_kind, "ask at the spring fair"), "a remark", default=""),
    ),
)
