"""The pieces that printed sheets are made of, beside those that they share with the site.

Lengths are whole hundredths of a millimetre, or thousandths of a coin's diameter where that is said. Pictures
go by their address below the folder in which the pictures for print lie.
"""

from dataclasses import dataclass

from daterun.pages.gridviews import GridView
from daterun.pages.pieces import Fact, Note, Table


@dataclass(frozen=True, slots=True)
class PrintedSide:
    """One side at a size: a picture, or a drawing where the picture is empty.

    The picture is ``width`` thousandths of the diameter wide, and its corner lies ``left`` and ``top``
    thousandths from that of the square round the coin. One that is not round is shown uncut.
    """

    side: str
    picture: str
    text: str
    diameter: int
    width: int
    left: int
    top: int
    is_round: bool
    legend: str
    middle: str
    tone: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One coin of the printed catalogue, in the order of parts that museum catalogues use.

    The number runs through the whole catalogue. The address is that of the coin's page on the site, by which
    links within notes find the entry. The head is the monarch over the coin. The size is a remark where the
    pictures are not at the coin's own size. A short entry is kept on one page.
    """

    number: int
    name: str
    address: str
    head: str
    sides: tuple[PrintedSide, ...]
    size: str
    facts: tuple[Fact, ...]
    notes: Note | None
    is_short: bool


@dataclass(frozen=True, slots=True)
class PrintedType:
    """A type as the catalogue words it, with its designs and legends.

    The years are empty where the heading has them.
    """

    heading: str
    years: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A denomination: what is told of it, then its coins; one cut over volumes goes on with coins alone."""

    heading: str
    lead: str
    grids: tuple[GridView, ...]
    standards: Table | None
    types: tuple[PrintedType, ...]
    varieties: Table | None
    dates: tuple[Table, ...]
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Plate:
    """A coin shown enlarged."""

    number: int
    caption: str
    sides: tuple[PrintedSide, ...]


@dataclass(frozen=True, slots=True)
class Collection:
    """A former collection, with what is told of each coin that came from it."""

    owner: str
    coins: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class IndexTerm:
    """A term of the index with the numbers of the entries that it leads to."""

    term: str
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class IndexPart:
    """A part of the index under its heading."""

    heading: str
    terms: tuple[IndexTerm, ...]


@dataclass(frozen=True, slots=True)
class Essay:
    """A text that stands before the coins."""

    heading: str
    text: Note


@dataclass(frozen=True, slots=True)
class Title:
    """What every printed thing says of itself. The day is year, month and day, empty where none is told."""

    title: str
    kind: str
    summary: str
    keeper: str
    notice: str
    as_of: str
    day: tuple[int, ...]
    language: str


@dataclass(frozen=True, slots=True)
class CatalogueSheets:
    """The printed catalogue, or one volume of it; wide grids come already cut into parts that fit a page.

    The first number is that of the first entry of the volume; the others follow without a gap.
    """

    title: Title
    volume: str
    first_number: int
    choice: str
    cover: tuple[PrintedSide, ...]
    introduction: Essay | None
    grids: tuple[GridView, ...]
    sections: tuple[Section, ...]
    plates: tuple[Plate, ...]
    collections: tuple[Collection, ...]
    sources: tuple[str, ...]
    index: tuple[IndexPart, ...]
    reading: tuple[str, ...]
    cautions: tuple[str, ...]
    colophon: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WantLine:
    """One thing to look for. The marks are the letters of the aims that ask for it."""

    name: str
    struck: str
    need: str
    have: str
    most: str
    remark: str
    marks: str
    is_scarce: bool


@dataclass(frozen=True, slots=True)
class WantGroup:
    """What is wanted of one series."""

    heading: str
    size: str
    lines: tuple[WantLine, ...]


@dataclass(frozen=True, slots=True)
class WantSheets:
    """The want list."""

    title: Title
    tally: str
    aims: tuple[tuple[str, str], ...]
    groups: tuple[WantGroup, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """One label: lines of text, the first of them the coin's name, and what its code says."""

    id: str
    name: str
    lines: tuple[str, ...]
    code: str


@dataclass(frozen=True, slots=True)
class LabelSheets:
    """Labels in the order in which they are stuck on."""

    title: Title
    labels: tuple[Label, ...]


@dataclass(frozen=True, slots=True)
class ScheduleItem:
    """One coin of the schedule by the categories of Object ID, with its value and certificate.

    The notes are the short description that the categories end in.
    """

    number: int
    name: str
    sides: tuple[PrintedSide, ...]
    facts: tuple[Fact, ...]
    value: str
    basis: str
    notes: Note | None


@dataclass(frozen=True, slots=True)
class ScheduleSheets:
    """The private schedule for the insurer, or one volume of it; the blanks are lines to be filled in by hand."""

    title: Title
    volume: str
    facts: tuple[Fact, ...]
    totals: Table
    blanks: tuple[str, ...]
    items: tuple[ScheduleItem, ...]
    cautions: tuple[str, ...]


Sheets = CatalogueSheets | WantSheets | LabelSheets | ScheduleSheets
