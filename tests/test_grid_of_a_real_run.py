"""A published run, the florins of Australia, from its file to the grid and the list of what is missing.

The dates are those of Wikipedia, Florin (Australian coin), https://en.wikipedia.org/wiki/Florin_(Australian_coin);
the double date is that of Museums Victoria Collections, item 55697,
https://collections.museumsvictoria.com.au/items/55697. The pattern of 1920 is from memory, not checked. The coins
are invented.
"""

from pathlib import Path

import pytest

from daterun.bundled import themes_folder
from daterun.checks.catalogue import check_catalogue
from daterun.checks.completeness import State, fill_series, missing_dates
from daterun.checks.slots import slots_of
from daterun.pages.cabinet import arrange
from daterun.pages.grids import Grids, Run
from daterun.pages.sides import Sides
from daterun.press.theme import DEFAULT, find_theme
from daterun.press.words import read_words
from daterun.problems import Place
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.aims import Divider
from daterun.records.catalogue import read_catalogue

FACTS = Path(__file__).parent / "facts" / "australian-florin"

# The runs of the source, written out: 10 + 8 + 6 + 10 + 4 + 8 dates.
STRUCK = [
    *range(1910, 1920),
    *range(1921, 1929),
    *range(1931, 1937),
    *range(1938, 1948),
    *range(1951, 1955),
    *range(1956, 1964),
]
NOT_STRUCK = [1920, 1929, 1930, 1937, 1948, 1949, 1950, 1955]
DOUBLE = "1934-35"
BY_TYPE = (Divider.DATE, Divider.TYPE)
TWO_TYPES = {"1927": "george-v", "1951": "george-vi", "1954": "elizabeth-ii"}

COINS = {
    "florin/1910": "date: 1910\ngrade: VF30",
    "florin/1914": "date: 1914\ngrade: F12",
    "florin/1914-better": "date: 1914\ngrade: EF45",
    "florin/1920-pattern": "date: 1920\nkind: pattern\ndeparts: struck to show a design",
    "florin/1927": "date: 1927\ntype: commemorative-1927\ngrade: AU55",
    "florin/1934-35": "date: 1934/35\ngrade: MS63",
    "florin/1951": "date: 1951\ntype: george-vi\ngrade: EF40",
    "florin/1951-commemorative": "date: 1951\ntype: commemorative-1951\ngrade: MS62",
    "florin/1963": "date: 1963\ngrade: MS64",
}
HELD = {"1910", "1914", "1927", DOUBLE, "1951", "1963"}
HELD_BY_TYPE = {
    "1910 edward-vii",
    "1914 george-v",
    "1927 commemorative-1927",
    "1934-35 commemorative-1934-35",
    "1951 george-vi",
    "1951 commemorative-1951",
    "1963 elizabeth-ii",
}


@pytest.fixture
def catalogue(catalogue_folder):
    facts = {
        each.relative_to(FACTS).as_posix(): each.read_text(encoding="utf-8") for each in FACTS.rglob("*.yaml")
    }
    coins = {
        f"content/coins/{coin_id}.md": f"---\nseries: florin\n{matter}\n---\n"
        for coin_id, matter in COINS.items()
    }
    read, problems = read_catalogue(catalogue_folder({**facts, **coins}, base={}))
    assert problems == []
    return read


@pytest.fixture
def florin(catalogue):
    return catalogue.series["australia/florin"]


@pytest.fixture
def cabinet(catalogue):
    return arrange(close_catalogue(catalogue, {}, Reader.PUBLIC))


@pytest.fixture
def grids(cabinet):
    theme = find_theme(DEFAULT, FACTS, themes_folder(), Place("content/catalogue.yaml"))
    words = read_words(theme, "en-GB")
    return Grids(cabinet, Sides(cabinet.catalogue.settings.pictures, words), words)


def names(states):
    return [each.slot.name for each in states]


def test_the_run_passes_every_check_with_the_reported_figures_and_its_coins(catalogue):
    assert check_catalogue(catalogue, None) == ()


def test_the_run_has_46_dates_and_a_double_date_that_stands_beside_1934(florin):
    assert len(STRUCK) == 46
    by_date = [slot.name for slot in slots_of(florin)]
    assert by_date == sorted([*map(str, STRUCK), DOUBLE])
    assert len(by_date) == 47


def test_by_type_the_run_has_50_slots_with_two_in_1927_1951_and_1954(florin):
    by_type = [slot.name for slot in slots_of(florin, one_per=BY_TYPE)]
    assert len(by_type) == 50
    of_dates: dict[str, list[str]] = {}
    for name in by_type:
        date, coin_type = name.split()
        of_dates.setdefault(date, []).append(coin_type)
    assert list(of_dates) == sorted([*map(str, STRUCK), DOUBLE])
    assert {date: types for date, types in of_dates.items() if len(types) > 1} == {
        date: [usual, f"commemorative-{date}"] for date, usual in TWO_TYPES.items()
    }
    assert of_dates["1934"] == ["george-v"]
    assert of_dates[DOUBLE] == ["commemorative-1934-35"]


def test_exactly_the_dates_without_a_coin_are_missing(cabinet):
    states = cabinet.runs["australia/florin"]
    every = sorted([*map(str, STRUCK), DOUBLE])
    assert missing_dates(states) == tuple(date for date in every if date not in HELD)
    assert {each.slot.name: each.coin for each in states if each.coin}["1914"] == "florin/1914-better"


def test_by_type_a_commemorative_does_not_fill_the_slot_of_the_usual_coin(cabinet, florin):
    coins = [each.coin for each in cabinet.coins]
    states = fill_series(florin, coins, BY_TYPE)
    assert {name for name, each in zip(names(states), states, strict=True) if each.coin} == HELD_BY_TYPE
    missing = missing_dates(states)
    assert len(missing) == 50 - len(HELD_BY_TYPE)
    assert "1927 george-v" in missing
    assert "1954 elizabeth-ii" in missing
    assert "1954 commemorative-1954" in missing


def shown(cell):
    """What a cell of a grid shows: the states of its slots, or why it has none."""
    return [each.state for each in cell.slots] or cell.reason


def expected(year):
    if year in NOT_STRUCK:
        return "not-struck"
    dates = [str(year), DOUBLE] if year == 1934 else [str(year)]
    return [State.FILLED if date in HELD else State.MISSING for date in dates]


def test_the_grid_of_years_shows_exactly_the_run(cabinet, grids, florin):
    issuer = cabinet.catalogue.issuers["australia"]
    view = grids.whole(issuer, [Run(florin, cabinet.runs[florin.key], florin.name)], "Florins")
    assert [column.label for column in view.columns] == [str(year) for year in range(1910, 1964)]
    (row,) = view.rows
    assert [shown(cell) for cell in row.cells] == [expected(year) for year in range(1910, 1964)]
    assert sum(bool(cell.slots) for cell in row.cells) == 46
    assert (row.filled, row.slots) == (len(HELD), 47)
    assert [(group.link.text, group.columns) for group in view.groups] == [
        ("Edward VII", 1),
        ("George V", 26),
        ("George VI", 16),
        ("Elizabeth II", 11),
    ]


def test_the_tray_shows_the_same_run_a_decade_a_row(cabinet, grids, florin):
    view = grids.tray(Run(florin, cabinet.runs[florin.key], florin.name), "Florins")
    found = {}
    for decade, row in zip(range(1910, 1970, 10), view.rows, strict=True):
        for last, cell in enumerate(row.cells):
            found[decade + last] = shown(cell)
    assert {year: what for year, what in found.items() if year <= 1963} == {
        year: expected(year) for year in range(1910, 1964)
    }
    assert {what for year, what in found.items() if year > 1963} == {"outside"}


def test_a_grid_by_type_shows_two_slots_in_the_years_of_two_types(cabinet, grids, florin):
    states = fill_series(florin, [each.coin for each in cabinet.coins], BY_TYPE)
    issuer = cabinet.catalogue.issuers["australia"]
    view = grids.whole(issuer, [Run(florin, states, florin.name)], "Florins by type")
    slots = {column.label: shown(cell) for column, cell in zip(view.columns, view.rows[0].cells, strict=True)}
    assert sum(len(what) for what in slots.values() if isinstance(what, list)) == 50
    assert slots["1927"] == [State.MISSING, State.FILLED]
    assert slots["1934"] == [State.MISSING, State.FILLED]
    assert slots["1951"] == [State.FILLED, State.FILLED]
    assert slots["1954"] == [State.MISSING, State.MISSING]
    assert {year for year, what in slots.items() if what == "not-struck"} == set(map(str, NOT_STRUCK))
