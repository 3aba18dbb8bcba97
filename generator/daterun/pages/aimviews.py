"""Views of the pages of aims, completeness and wants, and of coins gathered by what they share."""

from dataclasses import dataclass

from daterun.pages.figureviews import BarChart
from daterun.pages.gridviews import GridView
from daterun.pages.pieces import CoinCard, Fact, Link, Table


@dataclass(frozen=True, slots=True)
class Gathered:
    """Some coins, or slots shown as coins, under a heading of their own.

    Again is what the line says where coins are counted from a step of the scale on.
    """

    heading: Link
    line: str
    coins: tuple[CoinCard, ...]
    again: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class ListingView:
    """A page of lists, in the order in which it is read: facts, grids, coins gathered, bars and tables.

    Again is what the lead says where coins are counted from a step of the scale on.
    """

    heading: str
    lead: str
    facts: tuple[Fact, ...] = ()
    grids: tuple[GridView, ...] = ()
    gathered: tuple[Gathered, ...] = ()
    bars: tuple[BarChart, ...] = ()
    tables: tuple[Table, ...] = ()
    cautions: tuple[str, ...] = ()
    neighbours: tuple[Link, Link] = (Link(""), Link(""))
    again: tuple[tuple[int, str], ...] = ()
