"""Every kind of page looked through by axe-core, at three widths, in the light, in the dark, and as printed.

axe-core is Deque Systems' checker of pages for barriers (MPL 2.0); the package that carries it brings the whole
script, so that nothing is fetched.
"""

from pathlib import Path

import axe_playwright_python
import kinds
import pytest

from daterun.readers.reader import Reader

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")

RUN = """
fingers => new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)))
.then(() => axe.run(document, {
  resultTypes: ["violations"], preload: false, rules: { "target-size": { enabled: fingers } }
})).then(found => found.violations.map(each =>
  `${each.id}: ${each.nodes.map(node => node.target.join(" ")).slice(0, 3).join("; ")}`))
"""

THIN = """
() => document.querySelectorAll(
  ".table tbody tr:nth-child(n+16), .coins > li:nth-child(n+10), .cards > li:nth-child(n+10)"
).forEach(each => each.remove())
"""
"""Rows and cards beyond so many are of a kind with those before them, and would take most of the time."""

LOOKS = (
    ("light, 1440 px", 1440, {"media": "screen", "color_scheme": "light"}, False),
    ("dark, 320 px", 320, {"media": "screen", "color_scheme": "dark"}, True),
    ("light, 768 px", 768, {"media": "screen", "color_scheme": "light"}, False),
    ("on paper", 1024, {"media": "print", "color_scheme": "light"}, False),
)
"""A name, the width, what the browser is to feign, and whether fingers must hit what is there: 24 pixels across,
as WCAG 2.2 has it, which axe asks only if it is told so."""

HELD = "#coins=ort/1897,4-skilling/1871,skilling/1875"
"""What stands behind the address of the page of comparison, so that there is something on it."""

EDITIONS = {Reader.PUBLIC: "demo", Reader.CLUB: "clubs_demo", Reader.KEEPER: "keepers_demo"}


@pytest.fixture(scope="module")
def chosen(request) -> dict[Reader, list[str]]:
    """The pages that stand for all, in each edition those of a kind that the ones before have not."""
    known: frozenset[tuple[str, ...]] = frozenset()
    found = {}
    for reader, name in EDITIONS.items():
        pages = kinds.planned_pages(request.getfixturevalue(name), reader)
        found[reader] = kinds.one_of_each(pages, known)
        known = known.union(*(kinds.parts_of(each) for each in pages))
    return found


def barriers(page):
    """Look a page through in every look; it is loaded once, and changed as a visitor would change it."""
    page.evaluate(THIN)
    page.evaluate(AXE)
    found = []
    for name, width, media, fingers in LOOKS:
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(**media)
        found += [f"{name}: {each}" for each in page.evaluate(RUN, fingers)]
    return found


def test_every_template_and_every_part_of_a_view_is_looked_through(chosen, demo):
    pages = {each.address: each for each in kinds.planned_pages(demo, Reader.PUBLIC)}
    seen = {pages[each].template for each in chosen[Reader.PUBLIC]}
    assert seen == {each.template for each in pages.values()}
    assert len(chosen[Reader.PUBLIC]) >= 40
    assert any(each.startswith("figures/") for each in chosen[Reader.KEEPER])
    assert "wanted/index.html" in chosen[Reader.CLUB]


@pytest.mark.parametrize("reader", list(Reader))
def test_axe_finds_nothing_in_any_kind_of_page(browser, request, chosen, reader):
    edition = request.getfixturevalue(EDITIONS[reader])
    context = browser.new_context(viewport={"width": 1440, "height": 900}, reduced_motion="reduce")
    page = context.new_page()
    found = {}
    for address in chosen[reader]:
        page.goto((edition.output / address).as_uri() + (HELD if address.startswith("compare/") else ""))
        if barred := barriers(page):
            found[address] = barred
    context.close()
    assert found == {}


def test_axe_finds_nothing_in_the_closer_look(browser, demo):
    context = browser.new_context(viewport={"width": 390, "height": 800}, reduced_motion="reduce")
    page = context.new_page()
    page.goto((demo.output / "coins/ort/1897/index.html").as_uri())
    page.locator("a.closer").first.click()
    page.locator(".stage img").wait_for()
    assert barriers(page) == []
    context.close()
