"""Counting again at a grade, in the page, held equal to the rule by which Python fills slots."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from daterun.bundled import content_folder
from daterun.checks.aims import rules_of, slots_of_aim
from daterun.checks.completeness import Rules, State, fill, tally
from daterun.checks.slots import slots_of
from daterun.pages.cabinet import arrange
from daterun.pages.recounts import STEPS
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.aims import Divider
from daterun.records.catalogue import read_catalogue

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


def aims_by_python(cabinet, least):
    """Fill every aim anew with the grade as its lowest, unless it asks for more itself."""
    found = {}
    for aim, state in zip(cabinet.catalogue.settings.aims, cabinet.aims, strict=True):
        rules = rules_of(aim)
        rules = replace(rules, at_least=max(Fraction(least), rules.at_least or Fraction(0)))
        left_out = frozenset(
            (series, each.slot.name)
            for each in state.states
            if each.state is State.LEFT_OUT
            for series in each.slot.all_series
        )
        coins = [each.coin for each in cabinet.coins]
        dated = Divider.DATE in aim.one_per
        counted = tally(fill(slots_of_aim(aim, cabinet.catalogue.series), coins, rules, left_out, dated))
        found[aim.name] = (counted.filled, counted.slots - counted.left_out)
    return found


def all_series(cabinet):
    return [each for denomination in cabinet.denominations for each in denomination.series]


def rows_of(table):
    """Read a table by its first column, the second as a whole."""
    rows = table.locator("tbody tr")
    names = rows.locator("th").all_inner_texts()
    return dict(zip(names, rows.locator("td:nth-child(2)").all_inner_texts(), strict=True))


@pytest.mark.parametrize("least", STEPS)
def test_every_row_of_the_whole_coinage_is_counted_as_python_counts_it(page, demo, cabinet, least):
    open_at(page, demo, "index.html", f"#count={least}")
    rows = page.locator(".grid tbody tr")
    shown = dict(
        zip(rows.locator("th").all_inner_texts(), rows.locator("td.tally").all_inner_texts(), strict=True)
    )
    held = slots = 0
    for series in all_series(cabinet):
        filled, total = by_python(cabinet, series, least)
        assert shown[series.name] == f"{filled} of {total}", series.name
        held, slots = held + filled, slots + total
    assert page.locator(".grid .sum").inner_text() == f"{held} of {slots}"
    assert f"{held} of {slots}" in page.locator(".grid caption").inner_text()


@pytest.mark.parametrize("least", STEPS)
def test_the_aims_of_the_first_page_are_counted_as_python_fills_them(page, demo, cabinet, least):
    open_at(page, demo, "index.html", f"#count={least}")
    shown = rows_of(page.locator(".bars"))
    bars = page.locator(".bars rect.filled")
    lengths = bars.evaluate_all("bars => bars.map(bar => Number(bar.getAttribute('width')))")
    expected = aims_by_python(cabinet, least)
    assert shown == {name: f"{filled} of {slots}" for name, (filled, slots) in expected.items()}
    assert lengths == [filled * 1000 // slots for filled, slots in expected.values()]


@pytest.mark.parametrize("least", STEPS)
def test_the_tables_of_completeness_are_counted_as_python_counts_them(page, demo, cabinet, least):
    open_at(page, demo, "completeness/index.html", f"#count={least}")
    expected = {each.name: by_python(cabinet, each, least) for each in all_series(cabinet)}
    shown = rows_of(page.locator(".table").first)
    assert shown == {name: f"{filled} of {slots}" for name, (filled, slots) in expected.items()}
    held = sum(filled for filled, _ in expected.values())
    assert f"Dates in the cabinet: {held} of " in page.locator(".lead").inner_text()
    for nth in (2, 3):  # by decade and by year, which part all slots with a year
        parts = rows_of(page.locator(".table").nth(nth))
        assert sum(int(each.split()[0]) for each in parts.values()) == held


@pytest.mark.parametrize("least", (20, 60))
def test_the_bars_of_the_figures_are_counted_as_python_counts_them(page, demo, cabinet, least):
    open_at(page, demo, "figures/index.html", f"#count={least}")
    shown = rows_of(page.locator(".bars").first)
    bars = page.locator(".bars").first.locator("rect.filled")
    lengths = bars.evaluate_all("bars => bars.map(bar => Number(bar.getAttribute('width')))")
    expected = [by_python(cabinet, each, least) for each in all_series(cabinet)]
    tallies = [re.match(r"(\d+) of (\d+)", each).groups() for each in shown.values()]
    assert [(int(filled), int(slots)) for filled, slots in tallies] == expected
    most = max(slots for _, slots in expected)
    assert lengths == [round(Fraction(filled, most) * 1000) for filled, _ in expected]
    held = sum(filled for filled, _ in expected)
    assert f"dates held: {held} of " in page.locator(".bars .remark").first.inner_text()


def test_the_plot_of_numbers_struck_shows_the_coins_that_fall_as_rings(page, demo):
    open_at(page, demo, "figures/struck/index.html", "#count=20")
    summary = page.locator(".plot figcaption").inner_text()
    standing = page.locator(".plot .drawn .dot:not(.falls)").count()
    assert page.locator(".plot .drawn .dot.falls").count() > 0
    assert f"{standing} of them held" in summary
    in_table = page.locator(".behind td.number").all_text_contents()
    assert sum(int(each.split()[0]) for each in in_table if each) >= standing


def test_an_aims_page_says_again_what_it_says_of_its_grades(page, demo, cabinet):
    address = "aims/silver-by-date/index.html"
    open_at(page, demo, address)
    lead, facts = page.locator(".lead").inner_text(), page.locator(".facts").inner_text()
    open_at(page, demo, address, "#count=40")
    filled, slots = aims_by_python(cabinet, 40)["Silver by date, Fine or better"]
    assert page.locator(".lead").inner_text().startswith(f"{filled} of {slots} filled, ")
    assert page.locator(".grid .sum").inner_text() == f"{filled} of {slots}"
    assert page.locator(".facts").inner_text() != facts
    page.get_by_label(LABEL).fill("0")
    assert page.locator(".lead").inner_text() == lead
    assert page.locator(".facts").inner_text() == facts


def test_an_aim_without_dates_marks_the_cards_that_fall(page, demo, cabinet):
    open_at(page, demo, "aims/one-of-each-type/index.html", "#count=40")
    filled, slots = aims_by_python(cabinet, 40)["One of each type, Very Fine or better"]
    cards = page.locator(".coin[data-rank]")
    assert cards.count() - page.locator(".coin .falls").count() == filled
    lines = page.locator(".group > .line").all_inner_texts()
    assert sum(int(each.split()[0]) for each in lines) == filled
    assert sum(int(each.split()[-1]) for each in lines) == slots


def test_the_tables_of_a_monarch_follow_the_grid(page, demo):
    open_at(page, demo, "monarchs/vessmark/ingrith/index.html", "#count=20")
    by_grid = page.locator(".grid tbody td.tally").all_inner_texts()
    by_table = page.locator(".table").first.locator("tbody td:nth-child(2)").all_inner_texts()
    assert by_table == [each for each in by_grid if each]


def test_the_figures_of_a_denomination_follow_its_grid(page, demo, cabinet):
    (ort,) = (each for each in all_series(cabinet) if each.id == "ort")
    open_at(page, demo, "denominations/vessmark/ort/index.html", "#count=40")
    filled, slots = by_python(cabinet, ort, 40)
    assert f"{filled} of {slots}" in page.locator(".lead").first.inner_text()
    assert f"{filled} of {slots}" in page.locator(".grid caption").inner_text()
    assert rows_of(page.locator(".table").first) == {"Ort": f"{filled} of {slots}"}


@pytest.mark.parametrize("address", ["denominations/index.html", "monarchs/index.html", "aims/index.html"])
def test_a_list_of_pages_is_counted_again_too(page, demo, address):
    open_at(page, demo, address)
    said = page.locator(".card .tally, .card .line[data-again]")
    before = said.all_inner_texts()
    page.get_by_label(LABEL).fill("6")
    after = said.all_inner_texts()
    assert sum(int(each.split()[0]) for each in after) < sum(int(each.split()[0]) for each in before)
    page.get_by_label(LABEL).fill("0")
    assert said.all_inner_texts() == before


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


def test_the_control_has_the_steps_by_which_python_counts(page, demo):
    open_at(page, demo, "index.html")
    least = page.locator(".count .step").evaluate_all(
        "steps => steps.map(step => Number(step.dataset.least))"
    )
    assert least == [0, *(each * 100 for each in STEPS)]


def test_the_sign_of_a_coin_that_falls_is_told_while_one_counts(page, demo):
    open_at(page, demo, "denominations/vessmark/ort/index.html")
    told = page.locator(".signs").get_by_text("below the grade counted")
    assert not told.is_visible()
    page.get_by_label(LABEL).fill("5")
    assert told.is_visible()
    page.get_by_label(LABEL).fill("0")
    assert not told.is_visible()


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
