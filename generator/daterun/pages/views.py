"""Views: what a template sees, made of text, whole numbers, truth values, tuples and other views.

Everything in a view is already worded and sorted. An address is that of a page or picture from the root of the
edition, such as ``coins/ort/1899/index.html``; the template asks for it relative to its own page. An empty text
or tuple means that there is nothing to show.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead somewhere; an empty address means words alone."""

    text: str
    address: str = ""


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
    """A row of a record: its name, its value, and a quieter remark beside it."""

    name: str
    value: str
    remark: str = ""
    links: tuple[Link, ...] = ()


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
class GridSlot:
    """One slot of a grid: what fills it, or that it is a gap.

    The state is filled, below, missing or left-out. The size is in thousandths of the grid's largest coin.
    The rank is the grade that counts, in hundredths of a step of the 70-point scale, 0 without one.
    """

    state: str
    is_scarce: bool
    label: str
    address: str
    picture: Picture | None
    tone: str
    size: int
    pieces: int
    rank: int


@dataclass(frozen=True, slots=True)
class GridCell:
    """One cell of a grid: its slots, or the reason there is none.

    The reason is not-struck, proofs-only, not-known or outside where there is no slot, else empty.
    """

    date: str
    slots: tuple[GridSlot, ...]
    reason: str
    label: str


@dataclass(frozen=True, slots=True)
class GridColumn:
    """A column of a grid: its heading in full and in short, and the page of its date."""

    label: str
    short: str
    address: str
    starts_group: bool


@dataclass(frozen=True, slots=True)
class GridGroup:
    """A heading over several columns, such as a monarch over the dates of the reign."""

    link: Link
    years: str
    columns: int


@dataclass(frozen=True, slots=True)
class GridRow:
    """A row of a grid with its count of slots filled."""

    link: Link
    cells: tuple[GridCell, ...]
    tally: str
    filled: int
    slots: int


@dataclass(frozen=True, slots=True)
class LegendItem:
    """A sign of the grid and what it means; the kind is a state, a reason, or scarce."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class GridView:
    """A grid as a table: headings over headings over rows, and a legend of the signs that stand in it.

    The shape is run (a column a date) or tray (a row a decade, a column a year of it).
    """

    shape: str
    caption: str
    corner: str
    groups: tuple[GridGroup, ...]
    columns: tuple[GridColumn, ...]
    rows: tuple[GridRow, ...]
    legend: tuple[LegendItem, ...]


@dataclass(frozen=True, slots=True)
class CoinCard:
    """A coin as it stands among others: one side, its name and a line under it."""

    link: Link
    side: SideView
    line: str
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """A page as it stands among others, with a side of a coin or two to show it by."""

    link: Link
    line: str
    tally: str
    sides: tuple[SideView, ...]


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


@dataclass(frozen=True, slots=True)
class NavigationLink:
    """A link of the head of every page."""

    link: Link
    is_current: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands round every page. The notice is what the edition says of itself, empty for the public.

    The trail leads from home down to the page, without the page itself.
    """

    site_title: str
    title: str
    description: str
    language: str
    navigation: tuple[NavigationLink, ...]
    trail: tuple[Link, ...]
    notice: str
    keeps_robots_out: bool
    foot: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class HomeView:
    """The first page: the whole coinage as one grid for each issuer, and what is new."""

    heading: str
    lead: str
    grids: tuple[GridView, ...]
    scarcest: Table | None
    latest: tuple[CoinCard, ...]
    monarchs: tuple[Card, ...]
    essays: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class IndexView:
    """A list of pages of one kind, as cards."""

    heading: str
    lead: str
    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class MonarchView:
    """One monarch: the reign, the grid of its dates, the portraits and the coins shown."""

    heading: str
    lead: str
    facts: tuple[Fact, ...]
    portraits: tuple[CoinCard, ...]
    grid: GridView | None
    coins: tuple[CoinCard, ...]
    neighbours: tuple[Link, Link]


@dataclass(frozen=True, slots=True)
class TypeView:
    """A type as a denomination page shows it: both sides by its best coin, the designs and legends."""

    id: str
    heading: str
    years: str
    sides: tuple[SideView, ...]
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class DenominationView:
    """One denomination: its tray, standards, types, varieties and dates, and what the keeper has of each."""

    heading: str
    lead: str
    grids: tuple[GridView, ...]
    standards: Table | None
    types: tuple[TypeView, ...]
    varieties: Table | None
    dates: tuple[Table, ...]
    others: tuple[CoinCard, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    neighbours: tuple[Link, Link]


@dataclass(frozen=True, slots=True)
class DateRow:
    """One series on a date page: what was struck with the date, and the coins held."""

    link: Link
    state: str
    struck: str
    remark: str
    drawing: Drawing | None
    coins: tuple[CoinCard, ...]


@dataclass(frozen=True, slots=True)
class DateView:
    """One date across the denominations."""

    heading: str
    lead: str
    monarchs: tuple[Link, ...]
    rows: tuple[DateRow, ...]
    neighbours: tuple[Link, Link]


@dataclass(frozen=True, slots=True)
class RunPlace:
    """A coin's place in its run: one slot of the strip above its page."""

    slot: GridSlot
    date: str
    is_current: bool


@dataclass(frozen=True, slots=True)
class CoinView:
    """One coin. The diameter is its width at actual size, in hundredths of a millimetre, 0 where not known.

    Private facts are there for the keeper alone. Photo remarks say where a disc could not be found.
    """

    id: str
    heading: str
    lead: str
    kind: str
    departs: str
    sides: tuple[SideView, ...]
    run: tuple[RunPlace, ...]
    run_name: Link
    record: tuple[Fact, ...]
    measured: Table | None
    measured_remark: str
    opinions: Table | None
    opinions_remark: str
    provenance: tuple[str, ...]
    notes: Note | None
    references: tuple[str, ...]
    photo_remarks: tuple[str, ...]
    diameter: int
    actual_size: str
    companions: tuple[CoinCard, ...]
    private: tuple[Fact, ...]
    cautions: tuple[str, ...]
    neighbours: tuple[Link, Link]


@dataclass(frozen=True, slots=True)
class CoinListView:
    """Coins in order, under headings."""

    heading: str
    lead: str
    groups: tuple["CoinGroup", ...]


@dataclass(frozen=True, slots=True)
class CoinGroup:
    """Some coins under one heading."""

    heading: Link
    line: str
    coins: tuple[CoinCard, ...]


@dataclass(frozen=True, slots=True)
class EssayView:
    """An essay, with its neighbours."""

    heading: str
    summary: str
    written: str
    text: Note
    neighbours: tuple[Link, Link]


@dataclass(frozen=True, slots=True)
class NotFoundView:
    """The page for an address that leads nowhere; it is served from any depth, so its links are whole."""

    heading: str
    lead: str
    links: tuple[Link, ...]


Body = (
    HomeView
    | IndexView
    | MonarchView
    | DenominationView
    | DateView
    | CoinView
    | CoinListView
    | EssayView
    | NotFoundView
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page to be made: where it goes, which template makes it, and what it shows."""

    address: str
    template: str
    frame: Frame
    body: Body
