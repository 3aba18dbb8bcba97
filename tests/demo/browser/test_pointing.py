"""What a cell of a grid is, told to the eye: by the mouse, the keyboard and a touch; and the sheet of rooms."""

import pytest


def opened(browser, demo, address, width, **how):
    context = browser.new_context(viewport={"width": width, "height": 800}, **how)
    page = context.new_page()
    page.goto((demo.output / address).as_uri())
    return context, page


def test_a_mouse_over_a_cell_is_told_what_it_is(browser, demo):
    context, page = opened(browser, demo, "index.html", 1440)
    gap = page.locator(".grid a.slot.missing").first
    name = gap.inner_text()
    gap.hover()
    assert page.locator(".told").inner_text() == name
    page.locator("h1").hover()
    assert page.locator(".told").text_content() == ""
    context.close()


def test_the_keyboard_is_told_and_led_from_cell_to_cell_by_arrows(browser, demo):
    context, page = opened(browser, demo, "denominations/vessmark/ort/index.html", 1440)
    first = page.locator(".grid tbody tr").nth(1).locator("a.slot").first
    first.focus()
    here = page.locator(".told").inner_text()
    page.keyboard.press("ArrowRight")
    beside = page.locator(".told").inner_text()
    page.keyboard.press("ArrowDown")
    below = page.locator(".told").inner_text()
    assert len({here, beside, below}) == 3
    assert page.url.endswith("denominations/vessmark/ort/index.html")
    focused = page.evaluate("document.activeElement.closest('tr').rowIndex")
    assert focused == 3
    context.close()


def test_a_first_touch_names_a_coin_and_a_second_opens_it(browser, demo):
    context, page = opened(browser, demo, "index.html", 390, has_touch=True)
    coin = page.locator(".grid a.slot:has(img)").first
    name = coin.locator("img").get_attribute("alt")
    coin.tap()
    assert page.url.endswith("index.html")
    assert page.locator(".told a").inner_text() == f"{name} →"
    assert page.locator(".told").is_visible()
    coin.tap()
    page.wait_for_url("**/coins/**")
    context.close()


def test_a_slot_that_falls_is_told_so(browser, demo):
    context, page = opened(browser, demo, "index.html", 1440)
    page.get_by_label("Counting coins graded").fill("8")
    page.locator(".grid a.slot:has(.falls)").first.focus()
    assert page.locator(".told").inner_text().endswith(", below the grade counted")
    context.close()


def test_a_grid_can_be_passed_by_the_keyboard(browser, demo):
    context, page = opened(browser, demo, "index.html", 1440)
    past = page.get_by_role("link", name="Past the grid")
    assert past.bounding_box()["width"] <= 1
    past.focus()
    assert past.bounding_box()["width"] > 60
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('.grid')") is None
    context.close()


@pytest.mark.parametrize("width", [320, 390])
def test_a_cell_with_the_focus_is_not_hidden_by_the_heads_of_rows(browser, demo, width):
    context, page = opened(browser, demo, "index.html", width)
    region = page.locator(".grid .region")
    slots = page.locator(".grid tbody tr").nth(2).locator("a.slot")
    slots.last.focus()
    slots.nth(4).focus()
    head = page.locator(".grid tbody th").nth(2).bounding_box()
    cell = slots.nth(4).bounding_box()
    assert cell["x"] >= head["x"] + head["width"]
    assert region.evaluate("region => region.scrollLeft") >= 0
    context.close()


@pytest.mark.parametrize("scripts", [True, False])
def test_the_rooms_are_a_sheet_on_a_phone_that_opens_without_scripts(browser, demo, scripts):
    context, page = opened(browser, demo, "index.html", 360, java_script_enabled=scripts)
    rooms = page.get_by_role("navigation", name="Main")
    assert not rooms.is_visible()
    assert page.locator("header").bounding_box()["height"] < 90
    page.get_by_role("button", name="Contents").focus()
    page.keyboard.press("Enter")
    assert rooms.get_by_role("link").count() == 9
    assert rooms.is_visible()
    page.keyboard.press("Escape")
    assert not rooms.is_visible()
    page.get_by_role("button", name="Contents").click()
    rooms.get_by_role("link", name="Essays").click()
    page.wait_for_url("**/essays/index.html")
    context.close()


@pytest.mark.parametrize("width", [768, 1440])
def test_the_rooms_stand_in_one_line_where_there_is_room(browser, demo, width):
    context, page = opened(browser, demo, "index.html", width)
    tops = page.locator(".rooms a").evaluate_all("links => links.map(a => a.getBoundingClientRect().top)")
    assert len(set(tops)) == 1
    assert not page.get_by_role("button", name="Contents").is_visible()
    context.close()
