"""Every kind of page looked through by axe-core, in the light, in the dark on a phone, and as it is printed.

axe-core is Deque Systems' checker of pages for barriers (MPL 2.0); the package that carries it brings the whole
script, so that nothing is fetched.
"""

from pathlib import Path

import axe_playwright_python
import pytest

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")

RUN = """
() => axe.run(document, { resultTypes: ["violations"] }).then(found => found.violations.map(each =>
  `${each.id}: ${each.nodes.map(node => node.target.join(" ")).slice(0, 3).join("; ")}`))
"""

KINDS = (
    "index.html",
    "denominations/index.html",
    "denominations/vessmark/ort/index.html",
    "monarchs/index.html",
    "dates/1899/index.html",
    "coins/index.html",
    "coins/ort/1897/index.html",
    "find/index.html",
    "compare/index.html#coins=ort/1897,4-skilling/1871",
    "essays/kaldhamn/index.html",
    "aims/index.html",
    "figures/index.html",
    "404.html",
)
ON_PAPER = ("index.html", "coins/ort/1897/index.html", "find/index.html", "dates/1899/index.html")


def barriers(page, demo, address):
    file, hash_sign, fragment = address.partition("#")
    page.goto((demo.output / file).as_uri() + hash_sign + fragment)
    page.evaluate(AXE)
    return page.evaluate(RUN)


@pytest.mark.parametrize(("scheme", "width"), [("light", 1440), ("dark", 320)])
def test_axe_finds_nothing_on_a_screen(browser, demo, scheme, width):
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page = context.new_page()
    found = {address: barriers(page, demo, address) for address in KINDS}
    context.close()
    assert {address: each for address, each in found.items() if each} == {}


def test_axe_finds_nothing_on_paper(browser, demo):
    context = browser.new_context(viewport={"width": 1024, "height": 700})
    page = context.new_page()
    page.emulate_media(media="print")
    found = {address: barriers(page, demo, address) for address in ON_PAPER}
    context.close()
    assert {address: each for address, each in found.items() if each} == {}


def test_axe_finds_nothing_in_the_closer_look(browser, demo):
    context = browser.new_context(viewport={"width": 390, "height": 800})
    page = context.new_page()
    page.goto((demo.output / "coins/ort/1897/index.html").as_uri())
    page.locator("a.closer").first.click()
    page.locator(".stage img").wait_for()
    page.evaluate(AXE)
    assert page.evaluate(RUN) == []
    context.close()
