"""Views: what a template sees, made of text, whole numbers, truth values, tuples and other views.

Everything in a view is already worded and sorted. An address is that of a page or picture from the root of the
edition, such as ``coins/ort/1899/index.html``; the template asks for it relative to its own page. An empty text
or tuple means that there is nothing to show.
"""

from dataclasses import dataclass

from daterun.pages.aimviews import ListingView
from daterun.pages.figureviews import BarChart, FiguresView, SideBySideView
from daterun.pages.findviews import CompareView, FindView
from daterun.pages.gridviews import GridSlot, GridView
from daterun.pages.partviews import Parts
from daterun.pages.pieces import (
    Card,
    CoinCard,
    Drawing,
    Fact,
    Link,
    Note,
    SideView,
    Table,
)
from daterun.pages.tagviews import Tags

_NOWHERE = Link("")


@dataclass(frozen=True, slots=True)
class NavigationLink:
    """A link of the head of every page."""

    link: Link
    is_current: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands round every page. The notice is what the edition says of itself, empty for the public.

    The trail leads from home down to the page, without the page itself. Parts are there for a page whose list is
    spread over several.
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
    tags: Tags | None = None
    parts: Parts | None = None


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
    aims: BarChart | None = None
    ways: tuple[Card, ...] = ()


@dataclass(frozen=True, slots=True)
class IndexView:
    """A list of pages of one kind, as cards."""

    heading: str
    lead: str
    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class MonarchView:
    """One monarch: the reign, the grid of its dates, the portraits and the coins shown.

    Counting is the lead with gaps for the slots {filled} and all {slots}, for a page that is counted again.
    """

    heading: str
    lead: str
    facts: tuple[Fact, ...]
    portraits: tuple[CoinCard, ...]
    grid: GridView | None
    coins: tuple[CoinCard, ...]
    neighbours: tuple[Link, Link]
    completeness: Table | None = None
    counting: str = ""


@dataclass(frozen=True, slots=True)
class TypeView:
    """A type as a denomination page shows it: both sides by its best coin, the designs and legends.

    Grades leads to its coins side by side.
    """

    id: str
    heading: str
    years: str
    sides: tuple[SideView, ...]
    facts: tuple[Fact, ...]
    grades: Link = _NOWHERE


@dataclass(frozen=True, slots=True)
class DenominationView:
    """One denomination: its tray, standards, types, varieties and dates, and what the keeper has of each.

    Counting is as on a monarch's page.
    """

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
    completeness: Table | None = None
    counting: str = ""


@dataclass(frozen=True, slots=True)
class DateRow:
    """One series on a date page: what was struck with the date, and the coins held.

    The size, in thousandths of the largest coin of the page, is that of the drawing.
    """

    link: Link
    state: str
    struck: str
    remark: str
    drawing: Drawing | None
    coins: tuple[CoinCard, ...]
    tone: str = "silver"
    is_scarce: bool = False
    size: int = 1000


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

    Plate leads to the picture to take away. Holding leads to where coins are compared, of which at most so many
    are held; its text has a gap for how many.

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
    holding: Link = _NOWHERE
    most_held: int = 0
    plate: Link = _NOWHERE


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
    """An essay, with its neighbours; where it is one of a set, the set's name and all its essays in order.

    In the contents the essay itself has no address.
    """

    heading: str
    summary: str
    written: str
    text: Note
    neighbours: tuple[Link, Link]
    set_name: str = ""
    contents: tuple[Link, ...] = ()


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
    | FindView
    | CompareView
    | FiguresView
    | SideBySideView
    | ListingView
    | NotFoundView
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page to be made: where it goes, which template makes it, and what it shows."""

    address: str
    template: str
    frame: Frame
    body: Body
