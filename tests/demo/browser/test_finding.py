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


def texts_read(page):
    """Wait until the texts of the coins, which are asked for when words are, have been read."""
    page.wait_for_function("window.daterunTexts && !document.querySelector('form.find[aria-busy]')")


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
    page.get_by_label("Monarch", exact=True).select_option("Sunniva")
    page.get_by_label("Metal", exact=True).select_option("bronze")
    assert set(cells(page, 3)) == {"Sunniva"}
    assert set(cells(page, 4)) == {"bronze"}
    shown, address = names(page), page.url
    assert address.endswith("#monarch=Sunniva&metal=bronze")
    page.goto("about:blank")
    page.goto(address)
    assert names(page) == shown
    assert page.get_by_label("Monarch", exact=True).input_value() == "Sunniva"


def test_words_are_looked_for_in_the_notes(page, demo):
    open_at(page, demo)
    page.get_by_label("Words in the notes").fill("lustre")
    texts_read(page)
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
    texts_read(page)
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


def test_the_texts_of_coins_are_read_only_when_words_are_looked_for(page, demo):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    open_at(page, demo)
    page.get_by_label("Monarch", exact=True).select_option("Sunniva")
    assert not [each for each in asked if "/find/texts-" in each]
    page.get_by_label("Words in the notes").focus()
    texts_read(page)
    assert [each for each in asked if "/find/texts-" in each]


@pytest.mark.parametrize(("head", "place"), [("Coin", 1), ("Monarch", 5), ("Metal", 6), ("Problem", 10)])
def test_a_column_of_words_is_sorted_as_a_browser_would_but_without_its_help(page, demo, head, place):
    page.add_init_script("Intl.Collator = undefined")
    open_at(page, demo)
    page.get_by_role("button", name=head, exact=True).click()
    texts = page.evaluate(f"[].concat(...daterunCoins).map(row => row[{place}])")
    for _ in range(-(-len(texts) // 60) - 1):
        page.get_by_role("button", name="Show more").click()
    context = page.context.browser.new_context()
    other = context.new_page()
    expected = other.evaluate(
        "texts => texts.map((text, n) => [text, n])"
        ".sort((a, b) => new Intl.Collator('en-GB', {numeric: true}).compare(a[0], b[0]) || a[1] - b[1])"
        ".map(each => each[0])",
        texts,
    )
    context.close()
    columns = {1: "th", 5: "td:nth-child(3)", 6: "td:nth-child(4)", 10: "td:nth-child(6)"}
    assert page.locator(f".finding tbody {columns[place]}").all_inner_texts() == expected


def test_a_coin_is_held_for_comparison_from_its_row(page, demo):
    open_at(page, demo, "#by=date")
    rows = page.locator(".finding tbody tr")
    names = [rows.nth(n).locator("th").inner_text() for n in (0, 3)]
    for n in (0, 3):
        rows.nth(n).get_by_role("button", name=f"Hold for comparison: {names[0 if n == 0 else 1]}").click()
    assert rows.nth(3).locator("button").get_attribute("aria-pressed") == "true"
    page.get_by_label("Monarch", exact=True).select_option("Sunniva")
    page.get_by_label("Monarch", exact=True).select_option("any")
    assert rows.nth(0).locator("button").get_attribute("aria-pressed") == "true"
    page.locator(".holding a").click()
    page.wait_for_url("**/compare/index.html#coins=*")
    page.locator(".bench a").nth(1).wait_for()
    assert page.locator(".bench a").all_inner_texts() == names


def test_no_more_are_held_from_the_table_than_can_be_compared(page, demo):
    open_at(page, demo, "#by=date")
    buttons = page.locator(".finding tbody button.hold")
    for n in range(4):
        buttons.nth(n).click()
    assert buttons.nth(4).is_disabled() and not buttons.nth(0).is_disabled()
    buttons.nth(0).click()
    assert not buttons.nth(4).is_disabled()
