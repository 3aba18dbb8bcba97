"""The pieces that views are made of: links, pictures, drawings, facts, notes, cards and tables.

An address is that of a page or picture from the root of the edition; an empty text or tuple is nothing to show.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead somewhere; an empty address means words alone."""

    text: str
    address: str = ""


@dataclass(frozen=True, slots=True)
class Recounted(Link):
    """A figure that is counted again: what it says, and where that leads, each from a step of the scale on."""

    again: tuple[tuple[int, Link], ...] = ()


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a picture, in pixels."""

    address: str
    width_px: int
    height_px: int


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of one side of a coin, in several sizes, smallest first.

    A round one is cropped to the coin's disc and may be shown as a circle; one that is not has its reason.
    """

    sizes: tuple[Size, ...]
    text: str
    is_round: bool
    reason: str = ""

    @property
    def smallest(self) -> Size:
        return self.sizes[0]

    @property
    def largest(self) -> Size:
        return self.sizes[-1]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A coin without a photo, drawn as a plain outline with its legend round the rim.

    The tone is gold, silver, copper or white, after the metal. The middle is what stands in the field, such as
    the date or the value.
    """

    legend: str
    middle: str
    tone: str
    text: str


@dataclass(frozen=True, slots=True)
class SideView:
    """One side of a coin to show: a picture, or a drawing where there is none."""

    name: str
    picture: Picture | None
    drawing: Drawing | None
    design: str


@dataclass(frozen=True, slots=True)
class Fact:
    """A row of a record: its name, its value, and a quieter remark beside it.

    Again is what stands in its place where coins are counted from a step of the scale on.
    """

    name: str
    value: str
    remark: str = ""
    links: tuple[Link, ...] = ()
    again: tuple[tuple[int, "Fact"], ...] = ()


@dataclass(frozen=True, slots=True)
class NoteLink:
    """Where one link of a note leads, as ``written`` between double brackets.

    A plate has its sides; a link in running text has at most one small side.
    """

    written: str
    text: str
    address: str
    is_plate: bool
    sides: tuple[SideView, ...]
    caption: str


@dataclass(frozen=True, slots=True)
class Note:
    """A text in Markdown, with where its links lead. It is made into HTML by the press alone."""

    markdown: str
    links: tuple[NoteLink, ...]


@dataclass(frozen=True, slots=True)
class CoinCard:
    """A coin as it stands among others: one side, its name and a line under it.

    The size is in thousandths of the largest coin beside it. A card that shows a slot filled has the rank of its
    coin, as in a grid; None where it shows no such slot.
    """

    link: Link
    side: SideView
    line: str
    marks: tuple[str, ...]
    size: int = 1000
    rank: int | None = None


@dataclass(frozen=True, slots=True)
class Card:
    """A page as it stands among others, with a side of a coin or two to show it by.

    Where the tally counts slots, there is the rank of each that is filled, as in a grid, and how many there are.
    Again is what the line says where coins are counted from a step of the scale on.
    """

    link: Link
    line: str
    tally: str
    sides: tuple[SideView, ...]
    ranks: tuple[int, ...] = ()
    slots: int = 0
    again: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A plain table: its caption, its headings, and rows of cells, each perhaps a link.

    The numeric are the columns, counted from 0, that hold numbers.
    """

    caption: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Link, ...], ...]
    numeric: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()
