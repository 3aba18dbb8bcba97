"""The sample pages in a browser, from a folder: their width, their scripts, and their looks."""

import look
import pytest
import samples


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site")
    look.main(folder, None)
    return folder


def open_page(context, folder, address):
    page = context.new_page()
    page.goto((folder / address).as_uri())
    return page


@pytest.mark.parametrize(("width", "scripts"), [(320, True), (320, False), (768, True), (1440, True)])
def test_no_page_scrolls_sideways(browser, folder, width, scripts):
    with browser.new_context(
        viewport={"width": width, "height": 800}, java_script_enabled=scripts
    ) as context:
        for page in samples.all_pages():
            shown = open_page(context, folder, page.address)
            # The protocol evaluates in a page whose own scripts are off as well.
            assert shown.evaluate("document.documentElement.scrollWidth") <= width, page.address
            shown.close()


def test_the_letters_of_the_theme_are_read_from_the_folder(browser, folder):
    with browser.new_context() as context:
        shown = open_page(context, folder, "coins/ort/1897/index.html")
        shown.evaluate("document.fonts.ready.then(() => true)")
        loaded = shown.evaluate("[...document.fonts].filter(f => f.status === 'loaded').map(f => f.family)")
        families = {family.strip('"') for family in loaded}
        stand_ins = {each for each in families if each.startswith("Stand-in")}
        assert families - stand_ins == {"EB Garamond", "EB Garamond Small"}


def test_a_grid_is_counted_again_at_a_grade(browser, folder):
    with browser.new_context() as context:
        shown = open_page(context, folder, "index.html")
        row = shown.locator("tbody tr").nth(2)
        at_rest = row.locator("td.tally").text_content()
        (grid,) = samples.home_page().body.grids
        assert at_rest == grid.rows[2].tally
        control = shown.get_by_label("Counting coins graded")
        control.fill("5")
        slots = [slot for cell in grid.rows[2].cells for slot in cell.slots]
        held = sum(slot.state == "filled" and slot.rank >= 4000 for slot in slots)
        assert held < grid.rows[2].filled
        assert row.locator("td.tally").text_content() == f"{held} of {grid.rows[2].slots}"
        assert control.get_attribute("aria-valuetext") == "Extremely Fine or better"
        assert row.locator(".falls").count() == grid.rows[2].filled - held
        control.fill("0")
        assert row.locator("td.tally").text_content() == at_rest
        assert row.locator(".falls").count() == 0


def test_without_scripts_no_control_is_shown_that_would_do_nothing(browser, folder):
    with browser.new_context(java_script_enabled=False) as context:
        shown = open_page(context, folder, "index.html")
        assert not shown.locator(".count").is_visible()
        assert not shown.locator("button.look").is_visible()
        assert shown.locator("tbody tr").count() > 9


def test_a_region_takes_the_focus_only_while_it_scrolls(browser, folder):
    for width, tabindex in ((320, "0"), (1440, None)):
        with browser.new_context(viewport={"width": width, "height": 800}) as context:
            shown = open_page(context, folder, "index.html")
            assert shown.locator(".grid .region").first.get_attribute("tabindex") == tabindex
            assert shown.locator(".hint").is_visible() == (tabindex == "0")


def test_row_heads_stay_while_a_grid_scrolls(browser, folder):
    with browser.new_context(viewport={"width": 320, "height": 800}) as context:
        shown = open_page(context, folder, "index.html")
        head = shown.locator("tbody th").first
        before = head.bounding_box()["x"]
        shown.locator(".grid .region").evaluate("region => { region.scrollLeft = 300; }")
        assert head.bounding_box()["x"] == before


def test_a_chosen_look_is_remembered_on_the_next_page(browser, folder):
    paper = "getComputedStyle(document.body).backgroundColor"
    with browser.new_context(color_scheme="light") as context:
        shown = open_page(context, folder, "index.html")
        light = shown.evaluate(paper)
        shown.get_by_role("button", name="Light or dark").click()
        dark = shown.evaluate(paper)
        assert dark != light
        following = open_page(context, folder, "coins/ort/1897/index.html")
        assert following.evaluate(paper) == dark
        following.emulate_media(media="print")
        assert following.evaluate(paper) == "rgb(255, 255, 255)"


def test_a_system_in_the_dark_is_followed(browser, folder):
    paper = "getComputedStyle(document.body).backgroundColor"
    looks = []
    for scheme in ("light", "dark"):
        with browser.new_context(color_scheme=scheme) as context:
            looks.append(open_page(context, folder, "404.html").evaluate(paper))
    assert looks == ["rgb(250, 248, 242)", "rgb(23, 21, 17)"]


def test_paper_carries_no_navigation(browser, folder):
    with browser.new_context() as context:
        shown = open_page(context, folder, "coins/ort/1897/index.html")
        shown.emulate_media(media="print")
        for part in (".rooms", ".trail", ".neighbours", ".skip", ".run"):
            assert not shown.locator(part).is_visible()
        assert shown.locator("h1").is_visible()


def test_the_grid_of_a_coinage_fits_a_landscape_sheet(browser, folder):
    with browser.new_context(viewport={"width": 1024, "height": 700}) as context:
        shown = open_page(context, folder, "index.html")
        shown.emulate_media(media="print")
        # A4 on its side without its margins of 13 mm is 271 mm, or 1024 px, wide.
        assert shown.locator(".grid table").bounding_box()["width"] <= 1024


def test_a_pages_scripts_raise_nothing(browser, folder):
    with browser.new_context() as context:
        for page in samples.all_pages():
            shown = context.new_page()
            said: list[str] = []
            shown.on("pageerror", lambda error, said=said: said.append(str(error)))
            shown.on("console", lambda message, said=said: said.append(message.text))
            shown.goto((folder / page.address).as_uri())
            assert said == []
            shown.close()
