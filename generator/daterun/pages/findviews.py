"""The views of the pages on which coins are found and compared, and the data that their scripts read."""

from dataclasses import dataclass

from daterun.pages.pieces import Link, Picture

Cell = str | int | tuple[str, ...] | tuple[str, str, int]
"""What stands in a row of data: a text, a number, texts, or a picture: two addresses, and whether round."""


@dataclass(frozen=True, slots=True)
class DataFile:
    """A script that lays down rows under a name, for the scripts of pages; named by what it holds."""

    address: str
    name: str
    rows: tuple[tuple[Cell, ...], ...] | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose coins by. An option's value is its text, unless it has an address."""

    name: str
    label: str
    any: str
    options: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class FindRow:
    """A coin in the table: its page, its picture or the tone of a disc, and the cells beside its name."""

    link: Link
    picture: Picture | None
    tone: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FindView:
    """All coins as a table to sort and filter.

    A column's address is the word by which the table is sorted. The rows are what stands there without scripts;
    the rest leads on where they are not all. Data are the addresses of the scripts with all rows.
    """

    heading: str
    lead: str
    choices: tuple[Choice, ...]
    columns: tuple[Link, ...]
    rows: tuple[FindRow, ...]
    remark: str
    rest: Link
    data: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CompareView:
    """Up to so many coins side by side. A column's address is its place in a row of data.

    The largest diameter is in hundredths of a millimetre.
    """

    heading: str
    lead: str
    most: int
    columns: tuple[Link, ...]
    links: tuple[Link, ...]
    data: tuple[str, ...]
