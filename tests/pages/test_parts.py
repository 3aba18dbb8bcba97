"""Lists that are spread over several pages: what each holds, how they lead on, and that none is too long."""

import dataclasses
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.bundled import content_folder
from daterun.pages.gridviews import GridView
from daterun.pages.heaps import deal
from daterun.pages.parts import number_pages, spread
from daterun.pages.pieces import CoinCard, Link, Table
from daterun.pages.plan import plan_pages
from daterun.pages.tags import MOST_ARRIVALS
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue


def coins(many, *lines, date="1891", folder="ort"):
    head = "\n".join(("---", "series: ort", f"date: {date}", "added: 2020-01-02", *lines, "---", ""))
    return {f"content/coins/{folder}/{nth:04}.md": head for nth in range(many)}


@pytest.fixture
def plan_whole(catalogue_folder, words):
    """Plan a small catalogue with pages of so many rows."""

    def make(files, most, reader=Reader.PUBLIC):
        catalogue, problems = read_catalogue(catalogue_folder(files))
        assert [each for each in problems if each.is_error] == []
        return plan_pages(close_catalogue(catalogue, {}, reader), words, most)

    return make


@pytest.fixture
def plan(plan_whole):
    """Give the pages of such a plan by address."""

    def make(files, most, reader=Reader.PUBLIC):
        return {each.address: each for each in plan_whole(files, most, reader).pages}

    return make


def names(page):
    return [card.link.text for group in page.body.groups for card in group.coins]


def test_a_list_that_fits_stays_one_page(plan):
    pages = plan(coins(5), 10)
    assert pages["coins/index.html"].frame.parts is None
    assert "coins/page-2.html" not in pages


def test_a_long_list_is_spread_in_its_order_and_the_first_part_keeps_the_address(plan):
    whole = plan(coins(7), 1000)["coins/index.html"]
    pages = plan(coins(7), 6)
    addresses = ["coins/index.html", "coins/page-2.html", "coins/page-3.html"]
    assert [len(names(pages[each])) for each in addresses] == [3, 3, 1]
    linked = [card.link for each in addresses for group in pages[each].body.groups for card in group.coins]
    assert linked == [card.link for group in whole.body.groups for card in group.coins]
    assert "coins/page-4.html" not in pages


def test_each_part_says_which_it_is_and_leads_to_the_others(plan):
    pages = plan(coins(7), 6)
    first, second, last = (
        pages[f"coins/{each}"].frame for each in ("index.html", "page-2.html", "page-3.html")
    )
    assert [each.parts.name for each in (first, second, last)] == [
        "Page 1 of 3",
        "Page 2 of 3",
        "Page 3 of 3",
    ]
    assert (first.title, second.title) == ("Coins", "Coins, page 2 of 3")
    assert second.description.startswith("Coins, page 2 of 3")
    assert (first.parts.previous, first.parts.next) == (Link(""), Link("Next", "coins/page-2.html"))
    assert second.parts.previous == Link("Previous", "coins/index.html")
    assert last.parts.next == Link("")
    assert second.parts.numbers == (
        Link("1", "coins/index.html"),
        Link("2", ""),
        Link("3", "coins/page-3.html"),
    )
    assert second.trail[-1] == Link("Coins", "coins/index.html")
    assert [each.is_current for each in second.navigation] == [each.is_current for each in first.navigation]


def test_headings_lead_to_the_part_on_which_they_begin(plan, series):
    files = {
        **coins(4),
        **{path.replace("/ort/", "/daler/"): text.replace("ort", "daler") for path, text in coins(4).items()},
        "content/series/vessmark/daler.yaml": series("1891: 5", "face: 1 daler", name="Daler"),
    }
    pages = plan(files, 6)
    assert pages["coins/page-2.html"].frame.parts.contents == (
        Link("Daler", "coins/index.html"),
        Link("Ort", "coins/page-2.html"),
    )


def test_a_page_of_a_date_goes_on_with_the_same_row(plan):
    pages = plan(coins(7), 6)
    rows = [pages[f"dates/1891/{each}"].body.rows for each in ("index.html", "page-2.html", "page-3.html")]
    assert [[len(each.coins) for each in part] for part in rows] == [[3], [3], [1]]
    assert {each.link.text for part in rows for each in part} == {"Ort"}


def test_what_stands_beside_a_list_stands_on_its_first_part_alone(plan):
    pages = plan(coins(7), 6)
    first, second = (
        pages["monarchs/vessmark/ingrith/index.html"],
        pages["monarchs/vessmark/ingrith/page-2.html"],
    )
    assert first.body.grid is not None and first.body.facts
    assert second.body.grid is None and not second.body.facts and not second.body.portraits
    assert second.body.coins


def test_spares_are_listed_to_the_last(plan, base_files):
    settings = base_files["content/catalogue.yaml"] + "readers: {public: {wants: yes}}\n"
    pages = plan({"content/catalogue.yaml": settings, **coins(40)}, 20)
    spares = [
        row[0].address
        for address, page in pages.items()
        if address.startswith("wanted/")
        for table in page.body.tables
        if table.caption == "Spare in every run and aim"
        for row in table.rows
    ]
    assert len(spares) == len(set(spares)) == 39


GROWING = {
    "kind: mule": ("coins/", "unusual/", "denominations/vessmark/ort/", "dates/1891/"),
    "provenance: [{owner: Hallin, publish: yes}]": ("coins/", "former/", "monarchs/vessmark/ingrith/"),
    "acquired: {on: 2019-04-03}": ("coins/", "figures/acquired/2019/", "wanted/"),
    "grade: VF30": ("coins/", "figures/grades/30/", "grades/vessmark/ort/ingrith/"),
    "gravity: {dry: 8.97 g, wet: 8.08 g, reading: 0.01 g}": ("coins/", "figures/weights/"),
    "parted: {on: 2020-01-01, how: sold, price: 4 VKR}": ("coins/", "figures/acquired/undated/"),
    "weight: 8.97 g": ("coins/", "figures/series/vessmark/ort/"),
}


def entries(value):
    """Count the rows of tables and the coins shown anywhere in a view."""
    if isinstance(value, CoinCard):
        return 1
    if isinstance(value, Table):
        return len(value.rows)
    if dataclasses.is_dataclass(value):
        return sum(entries(getattr(value, each.name)) for each in dataclasses.fields(value))
    if isinstance(value, tuple):
        return sum(entries(each) for each in value)
    return 0


def longest(value):
    """Find the longest tuple of a view, but for the ranks and marks of dates, which coins do not add to."""
    if dataclasses.is_dataclass(value):
        return max((longest(getattr(value, each.name)) for each in dataclasses.fields(value)), default=0)
    if isinstance(value, tuple):
        return max([len(value), *(longest(each) for each in value)])
    return 0


@pytest.mark.parametrize("line", GROWING)
def test_no_page_grows_with_the_coins(plan, line):
    most = 24
    few, many = (plan(coins(each, line), most, Reader.KEEPER) for each in (60, 300))
    for start in GROWING[line]:
        assert f"{start}page-2.html" in many, f"{start} is spread"
        assert sum(each.startswith(start) for each in many) > sum(each.startswith(start) for each in few)
    bound = max(longest(each.body) for each in few.values() if each.template != "find")
    for address, page in many.items():
        if page.template not in ("find", "compare"):
            assert entries(page.body) <= max(most + 40, 64), address
            assert longest(page.body) <= max(bound, 64), address


@given(
    st.lists(st.tuples(st.integers(0, 60), st.sampled_from([1, 2, 4, 40])), max_size=8), st.integers(8, 60)
)
def test_dealing_keeps_every_entry_once_and_in_order_and_fills_no_page_too_far(weights, most):
    pages = deal(weights, most)
    pieces = [piece for page in pages for piece in page]
    for nth, (many, _) in enumerate(weights):
        own = [each for each in pieces if each.nth == nth]
        assert [n for each in own for n in range(each.first, each.end)] == list(range(many))
        assert own
    assert [each.nth for each in pieces] == sorted(each.nth for each in pieces)
    for page in pages:
        weight = sum((each.end - each.first) * weights[each.nth][1] for each in page)
        entries = sum(each.end - each.first for each in page)
        assert weight <= most or entries == 1
        assert entries or len(pages) == 1 or all(not weights[each.nth][0] for each in page)


@given(st.integers(1, 500), st.integers(1, 500))
def test_the_numbers_of_pages_have_the_first_the_last_and_no_gap_of_one(nth, more):
    many = nth + more - 1
    numbers = number_pages(nth, many)
    assert numbers[0] == 1 and numbers[-1] == many and nth in numbers
    assert len(numbers) <= 9
    for before, here, after in zip(numbers, numbers[1:], numbers[2:], strict=False):
        if here == 0:
            assert after - before > 2
        elif before:
            assert here == before + 1


def test_a_page_that_has_no_list_is_left_alone(plan, words):
    pages = plan(coins(7), 6)
    page = pages["index.html"]
    assert spread(page, words, 1) == [page]


def test_the_feed_tells_the_newest_alone_however_many_there_are(plan_whole, base_files):
    settings = base_files["content/catalogue.yaml"] + "web: https://example.org/coins/\n"
    told = plan_whole({"content/catalogue.yaml": settings, **coins(60)}, 24).announcements
    assert len(told.arrivals) == MOST_ARRIVALS < 60
    assert "https://example.org/coins/coins/page-2.html" in told.pages


def test_each_part_is_canonical_at_its_own_address(plan_whole, base_files):
    settings = base_files["content/catalogue.yaml"] + "web: https://example.org/coins/\n"
    whole = plan_whole({"content/catalogue.yaml": settings, **coins(60)}, 24)
    said = {each.address: each.frame.tags.canonical for each in whole.pages if each.frame.parts is not None}
    assert said["coins/index.html"] == "https://example.org/coins/coins/"
    assert said["coins/page-2.html"] == "https://example.org/coins/coins/page-2.html"
    assert len(set(said.values())) == len(said)


def addresses_in(value):
    """Find every address that a view names."""
    if isinstance(value, Link):
        yield value.address
    if dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from addresses_in(getattr(value, each.name))
    elif isinstance(value, tuple):
        for each in value:
            yield from addresses_in(each)


@pytest.mark.parametrize("reader", list(Reader))
def test_the_demo_in_small_parts_has_all_that_it_has_in_large_ones_and_no_link_is_lost(words, reader):
    catalogue, _ = read_catalogue(content_folder().parent)
    closed = close_catalogue(catalogue, {}, reader)
    small, whole = plan_pages(closed, words, 16), plan_pages(closed, words, 10**9)
    there = {each.address for each in (*small.pages, *small.data)}
    for page in small.pages:
        if page.template not in ("find", "compare"):
            lost = {each.partition("#")[0] for each in addresses_in((page.frame, page.body))} - there - {""}
            assert lost == set(), page.address
    assert not [each for each in whole.pages if each.frame.parts is not None]
    for page in whole.pages:
        parts = [each for each in small.pages if each.address == page.address or is_part(each, page)]
        assert len(parts) == 1 or [each.frame.parts.name for each in parts] == [
            f"Page {nth} of {len(parts)}" for nth in range(1, len(parts) + 1)
        ]
        shown = Counter(each for part in parts for each in shown_in(part.body))
        assert shown == Counter(shown_in(page.body)), page.address


def is_part(page, whole):
    folder = whole.address.removesuffix("index.html")
    return page.address.startswith(f"{folder}page-") and "/" not in page.address.removeprefix(folder)


def shown_in(value):
    """List the coins and rows of a view; of a table all rows, and of a grid none."""
    if isinstance(value, CoinCard):
        return [value.link]
    if isinstance(value, Table):
        return list(value.rows)
    if dataclasses.is_dataclass(value) and not isinstance(value, GridView):
        return [one for each in dataclasses.fields(value) for one in shown_in(getattr(value, each.name))]
    if isinstance(value, tuple):
        return [one for each in value for one in shown_in(each)]
    return []
