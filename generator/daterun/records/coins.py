"""A coin: one piece that the keeper has or had, as its file tells it.

What follows from its series (standard, type, monarch) is worked out in ``records/attribution.py``.
"""

import datetime
from dataclasses import dataclass, field
from enum import StrEnum

from daterun.records.fields import Field, Form, Kind, Reading, read_form
from daterun.records.frontmatter import PartedText
from daterun.records.kinds import axis as axis_kind
from daterun.records.kinds import (
    choice,
    coin_date,
    day,
    identifier,
    length,
    like,
    list_of,
    mint_mark,
    record,
    text_kind,
    weight,
    whole_number,
)
from daterun.records.located import Mapping
from daterun.records.opinions import CERTIFICATE, VALUE, Certificate, OwnGrade, Value, _own_grade
from daterun.records.ownership import (
    ACQUIRED,
    OWNER,
    PARTED,
    Acquired,
    Owner,
    Parted,
)
from daterun.records.photographed import (
    NamedPhoto,
    _read_photos,
)
from daterun.records.series import Side
from daterun.trade.dates import CoinDate, Day
from daterun.trade.grading import Grade
from daterun.trade.measures import Axis, Length, Weight


class Strike(StrEnum):
    """How a coin was made: for use, or with care for collectors and presentation."""

    ORDINARY = "ordinary"
    PROOF = "proof"
    SPECIMEN = "specimen"


class CoinKind(StrEnum):
    """What a coin is beside the regular issue."""

    REGULAR = "regular"
    ERROR = "error"
    MULE = "mule"
    OFF_METAL = "off metal"
    PATTERN = "pattern"
    COUNTERSTAMPED = "counterstamped"
    FORGERY = "forgery"
    DOUBTFUL = "doubtful"


@dataclass(frozen=True, slots=True)
class Gravity:
    """A weighing in air and in water, with the smallest step of the balance (None where not told)."""

    dry: Weight
    wet: Weight
    reading: Weight | None
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Coin:
    """One piece. The id is its path under ``content/coins`` without ``.md``.

    The notes are Markdown as written; the notes' line is where they begin in the file. Mint, type and
    standard are None where the file leaves them to follow from the date. Own grades are in the order of the
    file, newest last.
    """

    id: str
    path: str
    series: str
    date: CoinDate
    varieties: tuple[str, ...]
    mint: str | None
    type: str | None
    standard: str | None
    strike: Strike
    kind: CoinKind
    departs: str
    struck_in: str
    own_grades: tuple[OwnGrade, ...]
    problems: tuple[str, ...]
    certificates: tuple[Certificate, ...]
    weight: Weight | None
    diameter: Length | None
    thickness: Length | None
    axis: Axis | None
    gravity: Gravity | None
    design: str
    references: tuple[str, ...]
    quantity: int
    set: str
    lot: str
    added: Day | None
    acquired: Acquired | None
    parted: Parted | None
    provenance: tuple[Owner, ...]
    kept: str
    value: Value | None
    private: str
    photos: dict[Side, NamedPhoto]
    notes: str
    notes_line: int
    matter_digest: str = field(compare=False, repr=False)
    at: Mapping = field(compare=False, repr=False)

    @property
    def sealed_certificate(self) -> Certificate | None:
        """The newest certificate, while the coin is sealed in its holder; None otherwise.

        A certificate without a day counts as older than one with a day; among equals the later in the file.
        """
        if not self.certificates:
            return None
        in_order = sorted(
            enumerate(self.certificates),
            key=lambda each: (each[1].on.first if each[1].on else datetime.date.min, each[0]),
        )
        newest = in_order[-1][1]
        return newest if newest.sealed else None

    @property
    def newest_own_grade(self) -> OwnGrade | None:
        return self.own_grades[-1] if self.own_grades else None

    @property
    def grade(self) -> Grade | None:
        """The grade in force: the sealed certificate's, else the keeper's newest; None where there is none.

        A coin taken out of its holder, with no grade of the keeper's, has none in force.
        """
        if (certificate := self.sealed_certificate) is not None:
            return certificate.grade
        own = self.newest_own_grade
        return own.grade if own else None

    @property
    def is_problem(self) -> bool:
        """Tell whether the coin is a problem coin, by the keeper's word or by the grade in force."""
        certificate = self.sealed_certificate
        own_word = bool(self.problems)
        by_certificate = certificate is not None and (bool(certificate.problem) or certificate.grade.details)
        return own_word or by_certificate or (self.grade is not None and self.grade.details)

    @property
    def is_held(self) -> bool:
        return self.parted is None


GRAVITY = Form(
    "a weighing in water",
    (
        Field("dry", weight, "the weight in air", required=True),
        Field("wet", weight, "the weight in water", required=True),
        Field("reading", weight, "the smallest step of the balance"),
    ),
)


_PRICE = "what was paid for the coin stands under acquired:, as price:"
_SELLER = "who the coin came from stands under acquired:, as from:"
_DAY = "the day that the coin came stands under acquired:, as on:"
_WAY = "how the coin came stands under acquired:, as how:"
_NOTES = "notes stand below the second row of hyphens, without a key"

_ELSEWHERE = {
    "price": _PRICE,
    "paid": _PRICE,
    "cost": _PRICE,
    "from": _SELLER,
    "seller": _SELLER,
    "dealer": _SELLER,
    "source": _SELLER,
    "bought": _DAY,
    "purchased": _DAY,
    "on": _DAY,
    "how": _WAY,
    "sold": "how the coin left stands under parted:, with on:, to: and price:",
    "notes": _NOTES,
    "note": _NOTES,
    "remark": _NOTES,
    "remarks": _NOTES,
    "year": 'did you mean "date"?',
    "condition": 'did you mean "grade"?',
    "quality": 'did you mean "grade"?',
    "cert": 'did you mean "certificate"?',
    "owner": 'did you mean "provenance"?',
    "owners": 'did you mean "provenance"?',
    "location": 'did you mean "kept"?',
    "where": 'did you mean "kept"?',
}


COIN = Form(
    "a coin",
    (
        Field("series", like(text_kind, "ort"), "the short id of its series", required=True),
        Field("date", coin_date, "the date on the coin", required=True),
        Field("variety", list_of(identifier), "its variety or varieties", attribute="varieties", default=()),
        Field("mint", mint_mark, "its mint mark, none for the mint without one"),
        Field("type", like(identifier, "torvald"), "its type, where the date has more than one"),
        Field("standard", like(text_kind, "1891–1903"), "its standard, where the date has more than one"),
        Field(
            "strike",
            choice(Strike, "a way of striking", "proof"),
            "ordinary, proof or specimen",
            default=Strike.ORDINARY,
        ),
        Field(
            "kind",
            choice(CoinKind, "a kind of coin", "mule"),
            "regular, error, mule, off metal, pattern, counterstamped, forgery or doubtful",
            default=CoinKind.REGULAR,
        ),
        Field(
            "departs",
            like(text_kind, "struck with the obverse of the daler"),
            "how a coin that is not regular departs from the rule",
            default="",
        ),
        Field(
            "struck in", like(text_kind, "1908"), "when it was struck, where that is not its date", default=""
        ),
        Field(
            "grades",
            list_of(_own_grade, "the keeper's opinions on the grade, newest last"),
            "the keeper's opinions on the grade, newest last",
            attribute="own_grades",
            short="grade",
            default=(),
        ),
        Field(
            "problem",
            list_of(like(text_kind, "cleaned")),
            "why it is a problem coin",
            attribute="problems",
            default=(),
        ),
        Field(
            "certificates",
            list_of(
                record(CERTIFICATE, Certificate, "{by: North Pier Grading, grade: AU55}"), "certificates"
            ),
            "the certificates",
            short="certificate",
            default=(),
        ),
        Field("weight", weight, "the weight as measured"),
        Field("diameter", length, "the diameter as measured"),
        Field("thickness", length, "the thickness as measured"),
        Field("axis", axis_kind, "the die axis as measured"),
        Field(
            "gravity",
            record(GRAVITY, Gravity, "{dry: 8.97 g, wet: 8.08 g}"),
            "a weighing in air and in water",
        ),
        Field(
            "design", like(text_kind, "weak on the date"), "notes on the strike and the design", default=""
        ),
        Field(
            "references", list_of(like(text_kind, "Report of 1899 plate 3")), "books and reports", default=()
        ),
        Field("quantity", whole_number, "how many alike the file stands for", default=1),
        Field("set", like(identifier, "year-set-1899"), "the set of pieces it belongs to", default=""),
        Field("lot", like(identifier, "fair-2019"), "the lot it was bought in", default=""),
        Field("added", day, "when it entered the catalogue"),
        Field(
            "acquired",
            record(ACQUIRED, Acquired, "{on: 2019-04-03, how: bought}"),
            "how it came to the keeper",
        ),
        Field("parted", record(PARTED, Parted, "{on: 2024-05-01, how: sold}"), "how it left"),
        Field(
            "provenance",
            list_of(record(OWNER, Owner, "{owner: Hallin collection, until: 1988}"), "former owners"),
            "the former owners",
            default=(),
        ),
        Field("kept", like(text_kind, "cabinet 2, tray 4"), "where it is kept", default=""),
        Field(
            "value", record(VALUE, Value, "{amount: 80 VKR, on: 2026-01-10}"), "what it is held to be worth"
        ),
        Field(
            "private",
            like(text_kind, "the seller hinted at a hoard"),
            "a note for the keeper alone",
            default="",
        ),
        Field(
            "photos",
            Kind("photos by side", "{obverse: a.jpg}", _read_photos, "path"),
            "the photos, where their names do not say it",
            default={},
        ),
    ),
    _ELSEWHERE,
)


def read_coin(coin_id: str, node: Mapping, parted: PartedText, reading: Reading) -> Coin | None:
    """Read a coin from its front matter, and the text in which that stands with the notes.

    None where series or date are missing or misread.
    """
    values = read_form(COIN, node, reading)
    if values is None:
        return None
    return Coin(
        id=coin_id,
        path=reading.path,
        notes=parted.text,
        notes_line=parted.text_line,
        matter_digest=parted.digest,
        **values,
    )
