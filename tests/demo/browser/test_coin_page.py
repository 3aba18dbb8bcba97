"""The page of a coin in a browser: the closer look, turning over, the neighbours, actual size, and comparison."""

import pytest

COIN = "coins/ort/1897/index.html"


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 1200, "height": 900})
    page = context.new_page()
    yield page
    context.close()


@pytest.fixture
def phone(browser):
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    page = context.new_page()
    yield page
    context.close()


def open_coin(page, demo, address=COIN):
    page.goto((demo.output / address).as_uri())
    return page


def scale(page):
    return page.evaluate("new DOMMatrix(getComputedStyle(document.querySelector('.stage img')).transform).a")


def middle_of(page):
    box = page.locator(".stage").bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def touch(page, kind, *points):
    page.evaluate(
        """([kind, points]) => {
          const stage = document.querySelector(".stage");
          stage.setPointerCapture = () => {};
          points.forEach(([id, x, y]) => stage.dispatchEvent(new PointerEvent(kind,
            { pointerId: id, clientX: x, clientY: y, bubbles: true, pointerType: "touch" })));
        }""",
        [kind, [list(point) for point in points]],
    )


def test_the_largest_picture_is_not_asked_for_before_the_closer_look_is(page, demo):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    open_coin(page, demo)
    largest = page.locator("a.closer").first.evaluate("a => a.href")
    assert largest not in asked
    page.locator("a.closer").first.click()
    page.locator(".stage img").wait_for()
    assert largest in asked


def test_a_closer_look_by_keyboard(page, demo):
    open_coin(page, demo)
    link = page.locator("a.closer").first
    link.focus()
    page.keyboard.press("Enter")
    assert page.locator("dialog.closer-look").get_attribute("open") is not None
    assert scale(page) == 1
    page.keyboard.press("+")
    page.keyboard.press("+")
    assert scale(page) == pytest.approx(2.25)
    before = page.locator(".stage img").bounding_box()["x"]
    page.keyboard.press("ArrowRight")
    assert page.locator(".stage img").bounding_box()["x"] < before
    page.keyboard.press("0")
    assert scale(page) == 1
    page.keyboard.press("t")
    assert page.locator(".stage img").get_attribute("alt").endswith("reverse")
    page.keyboard.press("t")
    page.keyboard.press("Escape")
    assert page.locator("dialog.closer-look").get_attribute("open") is None
    assert link.evaluate("link => link === document.activeElement")
    assert page.url.endswith(COIN)


def test_the_wheel_keeps_the_point_under_the_pointer(page, demo):
    open_coin(page, demo)
    page.locator("a.closer").first.click()
    page.locator(".stage img").wait_for()
    x, y = middle_of(page)
    x, y = x + 60, y - 40
    where = """([x, y]) => { const box = document.querySelector('.stage img').getBoundingClientRect();
      return [(x - box.left) / box.width, (y - box.top) / box.height]; }"""
    before = page.evaluate(where, [x, y])
    page.mouse.move(x, y)
    page.mouse.wheel(0, -300)
    page.wait_for_function("() => document.querySelector('.stage img').style.transform.includes('scale(1.8')")
    assert page.evaluate(where, [x, y]) == pytest.approx(before, abs=0.01)


def test_two_fingers_bring_the_coin_nearer(phone, demo):
    open_coin(phone, demo)
    phone.locator("a.closer").first.click()
    x, y = middle_of(phone)
    touch(phone, "pointerdown", (1, x - 40, y), (2, x + 40, y))
    touch(phone, "pointermove", (1, x - 80, y), (2, x + 80, y))
    touch(phone, "pointerup", (1, x - 80, y), (2, x + 80, y))
    assert scale(phone) == pytest.approx(2, rel=0.1)


def test_a_small_screen_shows_one_side_and_turns_the_coin_over(phone, demo):
    open_coin(phone, demo)
    sides = phone.locator(".sides .side")
    assert [sides.nth(n).is_visible() for n in range(2)] == [True, False]
    phone.get_by_role("button", name="Turn over").first.click()
    assert [sides.nth(n).is_visible() for n in range(2)] == [False, True]


def test_both_sides_go_on_paper(phone, demo):
    open_coin(phone, demo)
    phone.emulate_media(media="print")
    assert phone.locator(".sides .side").nth(1).is_visible()


def test_arrow_keys_lead_to_the_neighbours_and_back(page, demo):
    open_coin(page, demo)
    following = page.locator("a[rel=next]").evaluate("a => a.href")
    page.keyboard.press("ArrowRight")
    page.wait_for_url(following)
    page.keyboard.press("ArrowLeft")
    page.wait_for_url("**/" + COIN)


def test_a_swipe_leads_to_the_next_coin(phone, demo):
    open_coin(phone, demo)
    following = phone.locator("a[rel=next]").evaluate("a => a.href")
    phone.evaluate(
        """() => {
          const target = document.querySelector(".sides");
          const at = x => [new Touch({ identifier: 1, target, clientX: x, clientY: 300 })];
          const say = (kind, x, held) => target.dispatchEvent(new TouchEvent(kind,
            { bubbles: true, touches: held ? at(x) : [], changedTouches: at(x) }));
          say("touchstart", 300, true);
          say("touchend", 120, false);
        }"""
    )
    phone.wait_for_url(following)


def test_a_screen_measured_with_a_card_shows_coins_at_their_size_from_then_on(page, demo):
    open_coin(page, demo)
    coin = page.locator(".true .faces svg").first
    millimetres = float(coin.get_attribute("width").removesuffix("mm"))
    page.get_by_text("Measure this screen").click()
    page.get_by_label("Length of the bar").fill("5")
    assert coin.bounding_box()["width"] == pytest.approx(millimetres * 5, abs=0.5)
    outline = page.locator(".ruler .outline").bounding_box()["width"]
    assert outline == pytest.approx(53.98 * 5, abs=0.5) or outline == pytest.approx(85.6 * 5, abs=0.5)
    open_coin(page, demo, "coins/ort/1899/index.html")
    other = page.locator(".true .faces svg").first
    assert other.bounding_box()["width"] == pytest.approx(millimetres * 5, rel=0.05)
    assert page.locator(".measured-screen").is_visible()


def test_coins_held_are_laid_side_by_side_at_their_relative_size(page, demo):
    for address in ("coins/daler/1872/index.html", COIN):
        if address in demo.pages:
            open_coin(page, demo, address)
            page.get_by_role("button", name="Hold for comparison").click()
    page.locator(".holding a").click()
    page.wait_for_url("**/compare/index.html#coins=*")
    page.get_by_label("Add a coin by its name").fill("daler 18")
    page.locator(".offers button").first.click()
    names = page.locator(".bench a").all_inner_texts()
    assert len(names) >= 2 and "Ort 1897" in names
    address = page.url
    faces = page.locator(".bench figure > *")
    widths = {name: faces.nth(n).bounding_box()["width"] for n, name in enumerate(names)}
    shown = {
        column: float(text.split()[0])
        for column, text in zip(names, page.locator("tr[data-column='12'] td").all_inner_texts(), strict=True)
    }
    largest = max(shown, key=shown.__getitem__)
    for name in names:
        assert widths[name] / widths[largest] == pytest.approx(shown[name] / shown[largest], rel=0.02)
    assert page.locator("tr[data-column='2'].differs").count() == 1
    page.goto("about:blank")
    page.goto(address)
    assert page.locator(".bench a").all_inner_texts() == names
    page.get_by_label("reverse").check()
    assert page.url.endswith("&side=reverse")
    page.get_by_role("button", name="Put back").first.click()
    assert page.locator(".bench a").all_inner_texts() == names[1:]


def test_no_more_than_four_are_held(page, demo):
    ids = [
        each.removeprefix("coins/").removesuffix("/index.html")
        for each in demo.pages
        if each[:10] == "coins/ort/"
    ]
    page.goto((demo.output / "compare/index.html").as_uri() + "#coins=" + ",".join(ids[:6]))
    assert page.locator(".bench li").count() == 4
    assert page.get_by_label("Add a coin by its name").is_disabled()
