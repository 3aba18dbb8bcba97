"""The links between the pages of one list, in every template that may be spread, and in a browser."""

import shutil
from pathlib import Path

import axe_playwright_python
import html5lib
import pytest
import rendering
import samples

SPREAD = ("coins", "date", "denomination", "figures", "index", "listing", "monarch", "sidebyside")


@pytest.fixture(scope="module")
def made():
    """Render a sample of each of these templates as the eighth page of twenty-one."""
    environment = rendering.theme_environment()
    found = {}
    for page in samples.all_pages():
        if page.template in SPREAD and page.frame.parts is None:
            part = samples.in_parts(page)
            found[page.template] = (part, rendering.render(environment, part))
    assert set(found) == set(SPREAD)
    return found


def tree_of(html):
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)


def words_in(element):
    return " ".join("".join(element.itertext()).split())


@pytest.mark.parametrize("template", SPREAD)
def test_a_page_says_which_of_its_list_it_is_and_leads_on(made, template):
    _, html = made[template]
    tree = tree_of(html)
    assert [words_in(each) for each in tree.findall(".//p[@class='part']")] == ["Page 8 of 21"]
    (paging,) = tree.findall(".//nav[@class='paging']")
    assert paging.get("aria-label") == "Pages of this list"
    assert paging.find(".//a[@rel='prev']").get("href") == "page-7.html"
    assert paging.find(".//a[@rel='next']").get("href") == "page-9.html"
    (here,) = paging.findall(".//*[@aria-current='page']")
    assert (here.tag, words_in(here)) == ("span", "Page 8")
    links = [each.get("href") for each in paging.findall(".//ol//a")]
    assert links == ["index.html", *(f"page-{nth}.html" for nth in (6, 7, 9, 10, 21))]
    (contents,) = tree.findall(".//nav[@class='headings']")
    assert [words_in(each) for each in contents.findall(".//a")][:2] == ["Daler", "Half daler"]


def test_a_page_whose_list_is_whole_has_none_of_it():
    environment = rendering.theme_environment()
    for page in samples.all_pages():
        if page.frame.parts is None:
            html = rendering.render(environment, page)
            assert 'class="paging"' not in html and 'class="part"' not in html, page.address


@pytest.mark.parametrize("template", SPREAD)
def test_the_links_between_pages_bar_nobody_and_stay_off_paper(browser, made, template, tmp_path):
    script = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
    page, html = made[template]
    shutil.copytree(rendering.THEME / "assets", tmp_path / "assets")
    path = tmp_path / page.address
    path.parent.mkdir(parents=True)
    path.write_text(html, encoding="utf-8")
    with browser.new_context() as context:
        shown = context.new_page()
        shown.goto(path.as_uri())
        shown.evaluate(script)
        for scheme, width in (("light", 1440), ("dark", 320)):
            shown.emulate_media(color_scheme=scheme, media="screen")
            shown.set_viewport_size({"width": width, "height": 800})
            found = shown.evaluate(
                """async () => (await axe.run({ include: [[".paging"], [".headings"]] }, {
                  resultTypes: ["violations"], rules: { "target-size": { enabled: true } }
                })).violations.map(each => each.id)"""
            )
            assert found == []
            assert shown.evaluate("document.documentElement.scrollWidth") <= width
            link = shown.locator(".paging ol a").first
            link.focus()
            assert link.evaluate("each => getComputedStyle(each).outlineStyle") != "none"
        shown.emulate_media(media="print")
        assert not shown.locator(".paging").is_visible() and not shown.locator(".headings").is_visible()
        assert shown.locator(".part").is_visible()
