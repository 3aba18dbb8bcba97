"""The table of all coins in a browser: its filters, its order, and the address that keeps them."""

import pytest

PAGE = "find/index.html"


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 1200, "height": 900})
    page = context.new_page()
    yield page
    context.close()


def open_at(page, demo, fragment=""):
    page.goto((demo.output / PAGE).as_uri() + fragment)
    return page


def names(page):
    return page.locator(".finding tbody th").all_inner_texts()


def cells(page, nth):
    return page.locator(f".finding tbody td:nth-child({nth})").all_inner_texts()


def test_at_first_the_table_stands_as_it_was_built(page, demo):
    open_at(page, demo)
    assert len(names(page)) == len(demo.pages[PAGE].elements("tr")) - 1
    assert page.url.endswith(PAGE)


def test_a_choice_of_monarch_and_metal_is_kept_in_the_address(page, demo):
    open_at(page, demo)
    page.get_by_label("Monarch").select_option("Sunniva")
    page.get_by_label("Metal").select_option("bronze")
    assert set(cells(page, 3)) == {"Sunniva"}
    assert set(cells(page, 4)) == {"bronze"}
    shown, address = names(page), page.url
    assert address.endswith("#monarch=Sunniva&metal=bronze")
    page.goto("about:blank")
    page.goto(address)
    assert names(page) == shown
    assert page.get_by_label("Monarch").input_value() == "Sunniva"


def test_words_are_looked_for_in_the_notes(page, demo):
    open_at(page, demo)
    page.get_by_label("Words in the notes").fill("lustre")
    found = names(page)
    assert 0 < len(found) < 100
    for link in page.locator(".finding tbody a").all()[:5]:
        address = link.evaluate("a => a.href").partition(demo.output.as_uri() + "/")[2]
        assert "lustre" in demo.pages[address].words.casefold()


def test_a_span_of_grades_and_a_problem(page, demo):
    open_at(page, demo, "#from=60&problem=none")
    assert page.get_by_label("from").input_value() == "60"
    assert names(page) and all(not each for each in cells(page, 6))
    open_at(page, demo, "#problem=any")
    page.reload()
    assert names(page) and all(cells(page, 6))


def test_a_heading_sorts_up_then_down_then_not_at_all(page, demo):
    open_at(page, demo, "#monarch=Sunniva")
    before = cells(page, 2)
    head = page.get_by_role("button", name="Date")
    head.click()
    up = cells(page, 2)
    assert up == sorted(before)
    assert page.locator("th[aria-sort=ascending]").inner_text().startswith("Date")
    head.click()
    assert cells(page, 2) == sorted(before, reverse=True)
    assert page.url.endswith("by=date-down")
    head.click()
    assert cells(page, 2) == before


def test_nothing_found_is_said(page, demo):
    open_at(page, demo, "#words=xyzzy")
    assert names(page) == []
    assert page.get_by_role("status").inner_text().startswith("None of ")


def test_the_table_is_reached_by_keyboard_and_more_rows_take_the_focus(page, demo):
    open_at(page, demo, "#by=date")
    assert len(names(page)) == 60
    more = page.get_by_role("button", name="Show more")
    more.focus()
    page.keyboard.press("Enter")
    assert len(names(page)) == 120
    focused = page.evaluate("document.activeElement.closest('tr').rowIndex")
    assert focused == 61


def test_without_scripts_there_is_a_table_and_no_form(browser, demo):
    context = browser.new_context(java_script_enabled=False)
    page = open_at(context.new_page(), demo)
    assert page.locator(".finding tbody tr").count() > 150
    assert not page.locator("form.find").is_visible()
    context.close()
