"""Opinions on a coin: the grades that the keeper and grading firms gave it, and what it is held to be worth."""

from dataclasses import dataclass, field

from daterun.records.fields import Field, Form, Kind
from daterun.records.kinds import (
    day,
    either,
    empty_at,
    grade,
    like,
    list_of,
    money,
    record,
    text_kind,
    yes_no,
)
from daterun.records.located import Mapping
from daterun.trade.dates import Day
from daterun.trade.grading import Grade
from daterun.trade.money import Money


@dataclass(frozen=True, slots=True)
class OwnGrade:
    """One opinion of the keeper's on the grade; the day is None where it is not told."""

    grade: Grade
    on: Day | None
    reasons: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Certificate:
    """A grading firm's opinion. It counts while the coin is sealed in the firm's holder."""

    by: str
    grade: Grade
    number: str
    on: Day | None
    sealed: bool
    problem: tuple[str, ...]
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Value:
    """What the keeper holds the coin to be worth, on a day, and on what that rests."""

    amount: Money
    on: Day | None
    basis: str
    at: Mapping = field(compare=False, repr=False)


OWN_GRADE = Form(
    "a grade of one's own",
    (
        Field("grade", grade, "the grade", required=True),
        Field("on", day, "the day of the opinion"),
        Field("reasons", text_kind, "what shows the grade", default=""),
    ),
)


CERTIFICATE = Form(
    "a certificate",
    (
        Field("by", like(text_kind, "North Pier Grading"), "the grading firm", required=True),
        Field("grade", grade, "the grade given", required=True),
        Field("number", like(text_kind, "4417-0092"), "the number on the certificate", default=""),
        Field("on", day, "its day"),
        Field("sealed", yes_no, "no once the coin is out of the holder", default=True),
        Field(
            "problem",
            list_of(like(text_kind, "cleaned")),
            "why it was certified as a problem coin",
            default=(),
        ),
    ),
)


VALUE = Form(
    "a value",
    (
        Field("amount", money, "the amount", required=True),
        Field("on", day, "the day of the opinion"),
        Field("basis", like(text_kind, "two sales in 2025"), "what it rests on", default=""),
    ),
)


_own_grade: Kind[OwnGrade] = either(
    grade,
    lambda value, node: OwnGrade(value, None, "", empty_at(node)),
    record(OWN_GRADE, OwnGrade, "{grade: VF30–EF40, on: 2024-02-11}"),
)
