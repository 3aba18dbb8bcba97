"""Pages printed to PDF by the browser, as a visitor would."""

import io

import pypdf
import pytest


def printed(browser, demo, address, sheet):
    context = browser.new_context()
    page = context.new_page()
    page.goto((demo.output / address).as_uri())
    # Pictures further down load only when seen; paper sees all of them.
    page.evaluate("[...document.images].forEach(image => { image.loading = 'eager'; })")
    pdf = page.pdf(format=sheet, prefer_css_page_size=False, landscape=address == "index.html")
    context.close()
    return [" ".join(each.extract_text().split()) for each in pypdf.PdfReader(io.BytesIO(pdf)).pages]


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
def test_the_grid_of_the_whole_coinage_stands_on_one_sheet(browser, demo, sheet):
    sheets = printed(browser, demo, "index.html", sheet)
    whole = [each for each in sheets if "Half daler" in each and "Quarter skilling" in each]
    assert whole == [sheets[0]]
    rows = demo.pages["index.html"].elements("tbody")[0]
    names = ["".join(row.find("th").itertext()) for row in rows]
    assert [each for each in names if each not in sheets[0]] == []


def test_the_controls_of_the_screen_stay_off_paper(browser, demo):
    for address in ("index.html", "coins/ort/1897/index.html", "find/index.html"):
        text = " ".join(printed(browser, demo, address, "A4"))
        for control in (
            "Counting coins graded",
            "Hold for comparison",
            "Measure this screen",
            "Words in the notes",
        ):
            assert control not in text, (address, control)


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("coin", ["12-skilling/1885-mule", "skilling/1912-pattern", "ort/1897"])
def test_a_coin_with_all_that_is_told_of_it_stands_on_one_sheet(browser, demo, coin, sheet):
    (only,) = printed(browser, demo, f"coins/{coin}/index.html", sheet)
    assert "The collection of Ida Quennell." in only


def test_the_foot_takes_no_sheet_of_its_own(browser, demo):
    for address in ("dates/1887/index.html", "aims/a-coin-of-every-year/index.html", "figures/index.html"):
        *_, last = printed(browser, demo, address, "A4")
        assert len(last.replace("The collection of Ida Quennell.", "").split()) > 12, address
