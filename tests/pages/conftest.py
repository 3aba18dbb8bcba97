"""Small catalogues planned into pages, and ways of looking into a plan."""

import dataclasses
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from daterun.bundled import themes_folder
from daterun.pages.binder import Binder
from daterun.pages.cabinet import arrange
from daterun.pages.grids import Grids
from daterun.pages.gridviews import GridCell, GridRow, GridView
from daterun.pages.notes import Notes
from daterun.pages.plan import Plan, plan_pages
from daterun.pages.sides import Sides
from daterun.pages.views import Page
from daterun.photos.photo import Disc, Photo
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue
from daterun.records.series import Side

FOUND = Disc(900.0, 600.0, 800.0)


class Planned:
    """A plan with its pages by address."""

    def __init__(self, plan: Plan, binder: Binder) -> None:
        self.plan = plan
        self.binder = binder
        self.pages: dict[str, Page] = {each.address: each for each in plan.pages}

    def body(self, address: str):
        """Give the view of a page; the address may leave out its index.html."""
        whole = address if address in self.pages else f"{address.rstrip('/')}/index.html".lstrip("/")
        return self.pages[whole].body

    def coin(self, coin_id: str):
        return self.body(f"coins/{coin_id}")

    def fact(self, coin_id: str, name: str):
        """Give one row of a coin's record; None where it has none of that name."""
        return next((each for each in self.coin(coin_id).record if each.name == name), None)

    def private(self, coin_id: str) -> dict[str, tuple[str, str]]:
        return {each.name: (each.value, each.remark) for each in self.coin(coin_id).private}


@pytest.fixture(scope="session")
def words():
    with tempfile.TemporaryDirectory() as nothing:
        theme = find_theme(DEFAULT, Path(nothing), themes_folder(), Place(""))
        return read_words(theme, "en-GB")


@pytest.fixture
def planned(catalogue_folder, words):
    """Plan a small catalogue for a reader; photos go by coin id and side, a name for what each holds."""

    def plan(
        files: Mapping[str, str | None] = {},
        reader: Reader = Reader.PUBLIC,
        photos: Mapping[tuple[str, str], Photo] = {},
    ) -> Planned:
        catalogue, problems = read_catalogue(catalogue_folder(files))
        assert [each for each in problems if each.is_error] == []
        found = {(coin, Side(side)): photo for (coin, side), photo in photos.items()}
        closed = close_catalogue(catalogue, found, reader)
        cabinet = arrange(closed)
        sides = Sides(closed.settings.pictures, words)
        binder = Binder(cabinet, words, sides, Grids(cabinet, sides, words), Notes(cabinet, sides, words))
        return Planned(plan_pages(closed, words), binder)

    return plan


@pytest.fixture
def photo():
    """Make a photo 1800 pixels wide and 1200 high, with a disc unless it is said that none was found."""

    def make(key="a" * 32, disc=FOUND, fallback="", width_px=1800, height_px=1200):
        return Photo(key, f"content/photos/{key}.jpg", width_px, height_px, disc, fallback)

    return make


@pytest.fixture
def series():
    """Word the file of the series ort of vessmark from its table of issues, and further lines."""

    def word(struck: str, *lines: str, name: str = "Ort", issuer: str = "vessmark") -> str:
        rows = "\n".join(f"    {each}" for each in struck.split("; "))
        more = "\n".join(lines)
        return f"name: {name}\nissuer: {issuer}\n{more}\nissues:\n  source: Mint reports\n  struck:\n{rows}\n"

    return word


def leaves(value: object) -> Iterator[object]:
    """Walk everything reachable from a view down to what is no view and no tuple."""
    if dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from leaves(getattr(value, each.name))
    elif isinstance(value, tuple):
        for each in value:
            yield from leaves(each)
    else:
        yield value


def within(value: object, kind: type) -> Iterator:
    """Find every view of a kind inside another."""
    if isinstance(value, kind):
        yield value
    if dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from within(getattr(value, each.name), kind)
    elif isinstance(value, tuple):
        for each in value:
            yield from within(each, kind)


def row(grid: GridView, name: str) -> GridRow:
    return next(each for each in grid.rows if each.link.text == name)


def cell(grid: GridView, name: str, column: str) -> GridCell:
    """Give the cell of a grid that stands in the row and the column of these headings."""
    nth = [each.label for each in grid.columns].index(column)
    return row(grid, name).cells[nth]


@pytest.fixture(name="leaves")
def leaves_of_a_view():
    return leaves


@pytest.fixture(name="within")
def views_within():
    return within


@pytest.fixture(name="cell")
def cell_of_a_grid():
    return cell


@pytest.fixture(name="row")
def row_of_a_grid():
    return row
