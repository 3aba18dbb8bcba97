"""Every kind of page of the demo, opened from a folder: narrow and wide, with and without scripts."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
from playwright.sync_api import ConsoleMessage, Page, Request

from daterun.bundled import content_folder
from daterun.records.catalogue import read_catalogue

WIDTHS = (320, 768, 1440)
HEIGHT = 900

# Asks for every picture at once, also those further down, and names those that do not show.
UNSEEN_PICTURES = """
async () => {
  const images = [...document.images];
  for (const image of images) image.loading = "eager";
  // One that is on its way when another size of it is chosen is given up, and asked for again.
  const show = async (image, tries) => {
    await image.decode().catch(() => null);
    if (!image.naturalWidth && tries) await show(image, tries - 1);
  };
  await Promise.all(images.map(image => show(image, 3)));
  return images.filter(image => !image.naturalWidth).map(image => image.currentSrc || image.src);
}
"""

OVERHANG = "() => document.scrollingElement.scrollWidth - document.scrollingElement.clientWidth"

BACKGROUND = "() => [document.documentElement, document.body].map(it => getComputedStyle(it).backgroundColor)"

ABANDONED = "net::ERR_ABORTED"
"""What is still on its way when the next page is asked for; a file that is not there fails otherwise."""


@dataclass
class Walk:
    """A page of the browser, and what went wrong on the way."""

    page: Page
    faults: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.on("console", self._hear)
        self.page.on("pageerror", lambda error: self.faults.append(f"error: {error}"))
        self.page.on("request", self._see)
        self.page.on("requestfailed", self._miss)

    def _hear(self, said: ConsoleMessage) -> None:
        if said.type == "error":
            self.faults.append(f"console: {said.text}")

    def _see(self, request: Request) -> None:
        if not request.url.startswith(("file://", "data:")):
            self.faults.append(f"elsewhere: {request.url}")

    def _miss(self, request: Request) -> None:
        if request.failure != ABANDONED:
            self.faults.append(f"failed: {request.url} {request.failure}")

    def open(self, demo, address: str) -> None:
        self.faults.clear()
        self.page.goto((demo.output / address).as_uri(), wait_until="load")

    def lines(self) -> Counter[str]:
        """The lines of text that can be seen."""
        text = self.page.inner_text("body")
        return Counter(line.strip() for line in text.splitlines() if line.strip())


@dataclass(frozen=True)
class Seen:
    """What was seen of one page: its faults, how far it overhangs at each width, and its lines of text."""

    faults: list[str]
    overhang: dict[int, int]
    lines: Counter[str]


@pytest.fixture(scope="module")
def walk(browser) -> Iterator[Walk]:
    context = browser.new_context(viewport={"width": WIDTHS[-1], "height": HEIGHT})
    yield Walk(context.new_page())
    context.close()


@pytest.fixture(scope="module")
def seen(demo, walk) -> dict[str, Seen]:
    """Walk every kind of page once."""
    found = {}
    for address in addresses_of(demo):
        overhang = {}
        for width in WIDTHS:
            walk.page.set_viewport_size({"width": width, "height": HEIGHT})
            if width == WIDTHS[0]:
                walk.open(demo, address)
            overhang[width] = walk.page.evaluate(OVERHANG)
        unseen = walk.page.evaluate(UNSEEN_PICTURES)
        faults = [*walk.faults, *(f"not shown: {each}" for each in unseen)]
        found[address] = Seen(faults, overhang, walk.lines())
    return found


def kinds_of_coins() -> list[str]:
    """Choose a coin of each kind, strike, kind of date and way of grading, and one without photos."""
    catalogue, _ = read_catalogue(content_folder().parent)
    root = content_folder() / "photos"
    photographed = {each.relative_to(root).as_posix().split(".")[0] for each in root.rglob("*.jpg")}
    chosen: dict[object, str] = {}
    for coin in catalogue.coins:
        if not coin.is_held:
            continue
        for trait in (
            coin.kind,
            coin.strike,
            coin.date.kind,
            ("split", bool(coin.grade and coin.grade.sides)),
            ("certified", coin.sealed_certificate is not None),
            ("problem", coin.is_problem),
            ("gravity", coin.gravity is not None),
            ("provenance", bool(coin.provenance)),
            ("photographed", coin.id in photographed),
            ("notes", bool(coin.notes.strip())),
        ):
            chosen.setdefault(trait, coin.id)
    return [f"coins/{each}/index.html" for each in dict.fromkeys(chosen.values())]


def addresses_of(demo) -> list[str]:
    every = sorted(each for each in demo.files if each.endswith(".html"))
    dates = [each for each in every if each.startswith("dates/")]
    lists = [each for each in every if each.count("/") < 2]
    others = [each for each in every if each.startswith(("monarchs/", "denominations/", "essays/"))]
    figures = [each for each in every if each.startswith("figures/")]
    drawn = [each for each in figures if each.count("/") == 2] + figures[:: len(figures) // 4]
    types = [each for each in every if each.startswith("grades/")]
    some = [*dates[:: len(dates) // 6], *drawn, *types[:: len(types) // 3]]
    return list(dict.fromkeys([*lists, *others, *some, *kinds_of_coins()]))


def test_every_kind_of_page_is_walked(demo):
    kinds = Counter(each.split("/")[0] for each in addresses_of(demo))
    assert kinds["index.html"] == kinds["404.html"] == 1
    assert kinds["monarchs"] >= 4
    assert kinds["denominations"] >= 10
    assert kinds["dates"] >= 6
    assert kinds["coins"] >= 12
    assert kinds["essays"] >= 6
    assert kinds["figures"] >= 7
    assert kinds["grades"] >= 3


def test_every_kind_of_page_opens_from_a_folder_without_a_fault(seen):
    assert {address: each.faults for address, each in seen.items() if each.faults} == {}


@pytest.mark.parametrize("width", WIDTHS)
def test_no_page_has_to_be_pushed_sideways(seen, width):
    assert {address: each.overhang[width] for address, each in seen.items() if each.overhang[width]} == {}


def test_the_pages_say_the_same_without_scripts(browser, demo, seen):
    context = browser.new_context(viewport={"width": WIDTHS[-1], "height": HEIGHT}, java_script_enabled=False)
    walk = Walk(context.new_page())
    lost = {}
    for address, with_scripts in seen.items():
        walk.open(demo, address)
        lines = walk.lines()
        assert sum(lines.values()) > 5, address
        assert walk.faults == [], address
        if gone := lines - with_scripts.lines:
            lost[address] = gone
    context.close()
    assert lost == {}


def test_the_pages_are_dark_where_the_reader_asks_for_it(demo, walk):
    walk.open(demo, "index.html")
    walk.page.emulate_media(color_scheme="light")
    light = walk.page.evaluate(BACKGROUND)
    walk.page.emulate_media(color_scheme="dark")
    dark = walk.page.evaluate(BACKGROUND)
    walk.page.emulate_media(color_scheme="light")
    assert light != dark


def test_the_first_stop_of_the_keyboard_leads_past_the_navigation(demo, walk):
    walk.open(demo, "index.html")
    walk.page.keyboard.press("Tab")
    target = walk.page.evaluate("() => document.activeElement.getAttribute('href')")
    assert target is not None
    assert target.startswith("#")
    assert walk.page.locator(f"main{target}").count() == 1


def test_a_link_of_the_first_grid_leads_to_a_coin_and_its_page_back(demo, walk):
    walk.open(demo, "index.html")
    walk.page.locator("main table a[href*='coins/']").first.click()
    walk.page.wait_for_load_state("load")
    assert "/coins/" in walk.page.url
    walk.page.locator("header a").first.click()
    walk.page.wait_for_load_state("load")
    assert walk.page.url == (demo.output / "index.html").as_uri()
    assert walk.faults == []
