"""Counting again at a grade, in the page, held equal to the rule by which Python fills slots."""

from fractions import Fraction

import pytest

from daterun.bundled import content_folder
from daterun.checks.completeness import Rules, fill, tally
from daterun.checks.slots import slots_of
from daterun.pages.cabinet import arrange
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import read_catalogue

STEPS = (4, 8, 12, 20, 40, 50, 60, 65)
LABEL = "Counting coins graded"


@pytest.fixture(scope="module")
def cabinet():
    catalogue, _ = read_catalogue(content_folder().parent)
    return arrange(close_catalogue(catalogue, {}, Reader.PUBLIC))


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    yield page
    context.close()


def open_at(page, demo, address, fragment=""):
    page.goto("about:blank")
    page.goto((demo.output / address).as_uri() + fragment)


def by_python(cabinet, series, least):
    """Fill a run with coins of the grade or better by the rule of the checks."""
    coins = [each.coin for each in cabinet.of_series(series)]
    states = fill(slots_of(series), coins, Rules(at_least=Fraction(least)))
    counted = tally(states)
    return counted.filled, counted.slots


@pytest.mark.parametrize("least", STEPS)
def test_every_row_of_the_whole_coinage_is_counted_as_python_counts_it(page, demo, cabinet, least):
    open_at(page, demo, "index.html", f"#count={least}")
    rows = page.locator(".grid tbody tr")
    shown = dict(
        zip(rows.locator("th").all_inner_texts(), rows.locator("td.tally").all_inner_texts(), strict=True)
    )
    held = slots = 0
    for denomination in cabinet.denominations:
        for series in denomination.series:
            filled, total = by_python(cabinet, series, least)
            assert shown[series.name] == f"{filled} of {total}", series.name
            held, slots = held + filled, slots + total
    assert page.locator(".grid .sum").inner_text() == f"{held} of {slots}"
    assert f"{held} of {slots}" in page.locator(".grid caption").inner_text()


def test_the_figures_of_a_denomination_follow_its_grid(page, demo, cabinet):
    (ort,) = (each for one in cabinet.denominations for each in one.series if each.id == "ort")
    open_at(page, demo, "denominations/vessmark/ort/index.html", "#count=40")
    filled, slots = by_python(cabinet, ort, 40)
    assert f"{filled} of {slots}" in page.locator(".lead").first.inner_text()
    assert f"{filled} of {slots}" in page.locator(".grid caption").inner_text()


def test_the_tallies_of_cards_are_counted_again_with_the_grid(page, demo):
    open_at(page, demo, "index.html")
    tallies = page.locator(".card .tally")
    before = tallies.all_inner_texts()
    assert before
    page.get_by_label(LABEL).fill("8")
    after = tallies.all_inner_texts()
    assert after != before
    assert sum(int(each.split()[0]) for each in after) < sum(int(each.split()[0]) for each in before)
    page.get_by_label(LABEL).fill("0")
    assert tallies.all_inner_texts() == before


def test_the_address_keeps_the_grade(page, demo):
    open_at(page, demo, "index.html")
    page.get_by_label(LABEL).focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    assert page.url.endswith("#count=12")
    shown = page.locator(".grid .sum").inner_text()
    open_at(page, demo, "index.html", "#count=12")
    assert page.get_by_label(LABEL).input_value() == "3"
    assert page.locator(".grid .sum").inner_text() == shown
    page.get_by_label(LABEL).fill("0")
    assert page.url.endswith("index.html")


def test_a_grade_that_is_no_step_counts_as_any(page, demo):
    open_at(page, demo, "index.html", "#count=13")
    assert page.get_by_label(LABEL).input_value() == "0"
    assert page.locator(".grid .sum").inner_text() == ""
