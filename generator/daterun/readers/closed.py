"""The closed records: what one reader may see, and nothing else, for what a reader may not see is not there.

How they are made is left to ``closing.py``, who may see what to ``table.py``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from daterun.photos.photo import Disc
from daterun.readers.reader import Reader
from daterun.records.aims import Divider, End, Problems
from daterun.records.catalogue import find_series
from daterun.records.coins import CoinKind, Strike
from daterun.records.issuers import Issuer
from daterun.records.lots import Lot
from daterun.records.opinions import Value
from daterun.records.ownership import Acquired, Parted
from daterun.records.series import Series
from daterun.records.settings import Pictures
from daterun.trade.dates import CoinDate, Day, Span
from daterun.trade.grading import Grade, Habit
from daterun.trade.measures import Axis, Length, Weight
from daterun.trade.money import Money


@dataclass(frozen=True, slots=True)
class ClosedPhoto:
    """A photo of one side. The key is the hash of the file, by which its pictures are named.

    The disc is the keeper's where there is one, else that found; None where none was, and the fallback says
    why.
    """

    key: str
    width_px: int
    height_px: int
    disc: Disc | None
    fallback: str


@dataclass(frozen=True, slots=True)
class ClosedGrade:
    """One opinion of the keeper's on the grade."""

    grade: Grade
    on: Day | None
    reasons: str


@dataclass(frozen=True, slots=True)
class ClosedCertificate:
    """A grading firm's opinion; the number is "" where the reader may not see it."""

    by: str
    grade: Grade
    number: str
    on: Day | None
    sealed: bool
    problem: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ClosedGravity:
    """A weighing in air and in water, with the smallest step of the balance (None where not told)."""

    dry: Weight
    wet: Weight
    reading: Weight | None


@dataclass(frozen=True, slots=True)
class ClosedOwner:
    """A former owner; those not published are there for the keeper alone."""

    owner: str
    since: Day | None
    until: Day | None
    sale: str
    lot: str
    note: str
    publish: bool


@dataclass(frozen=True, slots=True)
class KeeperFields:
    """What of a coin only the keeper sees.

    The cost is the coin's own price, else its part of the lot's; None where neither is told. The photo files
    go by side.
    """

    acquired: Acquired | None
    parted: Parted | None
    kept: str
    value: Value | None
    cost: Money | None
    note: str
    lot: str
    set: str
    quantity: int
    photo_files: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ClosedCoin:
    """One piece as a reader may see it. The series goes by its whole name.

    The grade is the one in force. Graded by is the firm, "" where the grade is the keeper's own or there is
    none; its reasons are the keeper's. Problems are the keeper's, the sealed certificate's and those that the
    grade itself names. Own grades and the certificates not in force are there for club and keeper, and the
    private fields for the keeper. Photos go by side: obverse, reverse, edge.
    """

    id: str
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
    grade: Grade | None
    graded_by: str
    graded_on: Day | None
    grade_reasons: str
    problems: tuple[str, ...]
    is_problem: bool
    certificate_number: str
    certificates: tuple[ClosedCertificate, ...]
    own_grades: tuple[ClosedGrade, ...]
    weight: Weight | None
    diameter: Length | None
    thickness: Length | None
    axis: Axis | None
    gravity: ClosedGravity | None
    design: str
    references: tuple[str, ...]
    added: Day | None
    provenance: tuple[ClosedOwner, ...]
    notes: str
    photos: Mapping[str, ClosedPhoto]
    private: KeeperFields | None

    @property
    def is_held(self) -> bool:
        """Tell whether the coin is still the keeper's; the parted are there only for the keeper."""
        return self.private is None or self.private.parted is None


@dataclass(frozen=True, slots=True)
class ClosedMetalPrice:
    """A price of fine metal, per gram or troy ounce, of a day and from a source."""

    price: Money
    per: str
    on: Day
    source: str


@dataclass(frozen=True, slots=True)
class ClosedAim:
    """A set that the keeper is trying to complete.

    Left out are slots by series as written; the reasons are empty texts for others than the keeper.
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
    leave_out: Mapping[str, Mapping[str, str]]
    across_series: bool


@dataclass(frozen=True, slots=True)
class ClosedWant:
    """A slot on the want list; the most to pay and the remark are there for the keeper alone."""

    slot: str
    at_most: Money | None
    remark: str


@dataclass(frozen=True, slots=True)
class ClosedSettings:
    """What of the settings a reader's edition needs.

    As-of is the settings' own day, else the latest that the reader may see; None where there is none. Wants
    are shown tells of the ranked want list and the spares, which an edition leaves out where they are not.
    """

    title: str
    keeper: str
    summary: str
    language: str
    grading: Habit
    theme: str
    web: str
    currency: str
    as_of: Day | None
    metals: Mapping[str, ClosedMetalPrice]
    pictures: Pictures
    shows_wants: bool
    shows_certificate_numbers: bool
    aims: tuple[ClosedAim, ...]
    wants: tuple[ClosedWant, ...]


@dataclass(frozen=True, slots=True)
class ClosedEssay:
    """An essay; its text is Markdown as written."""

    id: str
    title: str
    summary: str
    on: Day | None
    order: int
    part_of: str
    text: str


@dataclass(frozen=True, slots=True)
class ClosedCatalogue:
    """All that one reader may see, sorted as the catalogue is; the lots are there for the keeper alone.

    Issuers and series hold nothing private and are the records themselves. Every coin's series is there.
    """

    reader: Reader
    settings: ClosedSettings
    issuers: Mapping[str, Issuer]
    series: Mapping[str, Series]
    coins: tuple[ClosedCoin, ...]
    essays: tuple[ClosedEssay, ...]
    lots: Mapping[str, Lot]
    _by_id: Mapping[str, ClosedCoin] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_id", {each.id: each for each in self.coins})

    def coin(self, coin_id: str) -> ClosedCoin | None:
        """Find a coin; None where there is none of that id that the reader may see."""
        return self._by_id.get(coin_id)

    def find_series(self, name: str) -> Series | None:
        """Find a series by its whole name, or by its short id while that is unique."""
        return find_series(self.series, name)
