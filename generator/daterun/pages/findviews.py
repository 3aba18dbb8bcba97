"""The views of the pages on which coins are found and compared, and the data that their scripts read."""

from dataclasses import dataclass

from daterun.pages.pieces import Link, Picture

Cell = str | int | tuple[str, ...] | tuple[str, int]
"""What stands in a row of data: a text, a number, texts, or a picture: its address, and whether it is round."""

Rows = tuple[tuple[Cell, ...], ...] | tuple[str, ...] | tuple[int, ...]


@dataclass(frozen=True, slots=True)
class DataFile:
    """A script that lays down one part of the rows that go by a name, for the scripts of pages.

    Parts are counted from 0. The address changes with what the script holds.
    """

    address: str
    name: str
    part: int
    rows: Rows


@dataclass(frozen=True, slots=True)
class FindData:
    """The data of all coins held, in parts.

    Coins, orders and texts are in the order of the cabinet: the rows of the table, four ranks for each coin, and
    the words by which it is found. Records are in the order of the coins' ids.
    """

    coins: tuple[DataFile, ...]
    orders: tuple[DataFile, ...]
    texts: tuple[DataFile, ...]
    records: tuple[DataFile, ...]

    @property
    def files(self) -> tuple[DataFile, ...]:
        return (*self.coins, *self.orders, *self.texts, *self.records)


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

    id: str
    link: Link
    picture: Picture | None
    tone: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FindView:
    """All coins as a table to sort and filter.

    A column's address is the word by which the table is sorted. The rows are what stands there without scripts;
    the rest leads on where they are not all. Data are the addresses of the scripts with all rows, texts those
    that are read only when words are looked for. Holding is as on a coin's page.
    """

    heading: str
    lead: str
    choices: tuple[Choice, ...]
    columns: tuple[Link, ...]
    rows: tuple[FindRow, ...]
    remark: str
    rest: Link
    data: tuple[str, ...]
    texts: tuple[str, ...]
    holding: Link
    most_held: int


@dataclass(frozen=True, slots=True)
class CompareView:
    """Up to so many coins side by side. A column's address is its place in a record.

    Coins are the addresses of the scripts by which a coin is found by its name, read when one is looked for. The
    records lead to the scripts with the coins' records, each by the id of its first; those of the coins held are
    read alone.
    """

    heading: str
    lead: str
    most: int
    columns: tuple[Link, ...]
    links: tuple[Link, ...]
    coins: tuple[str, ...]
    records: tuple[Link, ...]
