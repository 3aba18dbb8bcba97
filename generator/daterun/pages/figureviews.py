"""Views of the pages of figures: bars, plots, and coins side by side in order of grade.

Where a mark or line of a plot stands is told in units of the plot's own width and height, from its upper left.
"""

from dataclasses import dataclass

from daterun.pages.gridviews import LegendItem
from daterun.pages.pieces import Card, Fact, Link, SideView, Table

_NOWHERE = Link("")


@dataclass(frozen=True, slots=True)
class Bar:
    """A row of a bar chart: its name, its number, and how long it is, in thousandths of the longest.

    Filled is how much of the length is solid; the rest is an outline. Again is how much of it is solid where
    coins are counted from a step of the scale on.
    """

    link: Link
    number: Link
    length: int
    filled: int
    again: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class BarChart:
    """A table with a bar in each row; the headings are those of the name and of the number, with its unit.

    Whole is a line under it for all rows together.
    """

    caption: str
    headings: tuple[str, str]
    bars: tuple[Bar, ...]
    notes: tuple[str, ...] = ()
    whole: Link = _NOWHERE


@dataclass(frozen=True, slots=True)
class Tick:
    """A named place on an axis."""

    at: int
    text: str


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark of a plot, a dot, ring, cross or lozenge, with what it stands for and where that is told.

    One that shows a slot filled has the rank of its coin, as in a grid; None for any other.
    """

    x: int
    y: int
    kind: str
    text: str
    address: str
    rank: int | None = None


@dataclass(frozen=True, slots=True)
class Guide:
    """A line across a plot to measure marks by."""

    x1: int
    y1: int
    x2: int
    y2: int


@dataclass(frozen=True, slots=True)
class Plot:
    """A plot in its frame: axes with their units, marks and guides. The summary says in words what it shows.

    Again is what the summary says where coins are counted from a step of the scale on.
    """

    caption: str
    summary: str
    width: int
    height: int
    left: int
    top: int
    right: int
    bottom: int
    x_title: str
    y_title: str
    x_ticks: tuple[Tick, ...]
    y_ticks: tuple[Tick, ...]
    guides: tuple[Guide, ...]
    marks: tuple[Mark, ...]
    legend: tuple[LegendItem, ...]
    again: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class FigureSection:
    """One part of a page of figures, in the order in which it is read.

    Behind is the table from which the plot was drawn. The names are of coins that are left out, and why. It is
    counted where its figures are counted again at a grade.
    """

    id: str
    heading: str
    lines: tuple[str, ...] = ()
    facts: tuple[Fact, ...] = ()
    bars: tuple[BarChart, ...] = ()
    plot: Plot | None = None
    behind: Table | None = None
    tables: tuple[Table, ...] = ()
    names: tuple[Fact, ...] = ()
    is_counted: bool = False


@dataclass(frozen=True, slots=True)
class FiguresView:
    """A page of figures, and the pages of figures under it."""

    heading: str
    lead: str
    sections: tuple[FigureSection, ...]
    cards: tuple[Card, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GradedCoin:
    """A coin among its fellows in order of grade: both sides, and what shows the grade.

    The scale is where a grade of the British habit lies on the 70-point scale, said to be approximate. By is who
    certified it, empty where the grade is the keeper's.
    """

    link: Link
    grade: str
    scale: str
    by: str
    marks: tuple[str, ...]
    obverse: SideView
    reverse: SideView
    reasons: str


@dataclass(frozen=True, slots=True)
class Strip:
    """Coins that stand side by side, the best first."""

    caption: str
    coins: tuple[GradedCoin, ...]


@dataclass(frozen=True, slots=True)
class SideBySideView:
    """The coins of one type in order of grade."""

    heading: str
    lead: str
    strips: tuple[Strip, ...]
    neighbours: tuple[Link, Link]
    cautions: tuple[str, ...]
