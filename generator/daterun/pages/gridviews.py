"""The views of grids: slots in cells in rows, under columns in groups, with a legend of the signs."""

from dataclasses import dataclass

from daterun.pages.pieces import Link, Picture


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
    """A sign of the grid and what it means; the kind is a state, a reason, or scarce, the tone that of a disc."""

    kind: str
    text: str
    tone: str = "silver"


@dataclass(frozen=True, slots=True)
class GridView:
    """A grid as a table: headings over headings over rows, and a legend of the signs that stand in it.

    The shape is run (a column a date) or tray (a row a decade, a column a year of it). Counting is the caption
    with gaps, {filled} and {slots}, for a grid that is counted again; empty where the caption tells no count.
    """

    shape: str
    caption: str
    corner: str
    groups: tuple[GridGroup, ...]
    columns: tuple[GridColumn, ...]
    rows: tuple[GridRow, ...]
    legend: tuple[LegendItem, ...]
    counting: str = ""
