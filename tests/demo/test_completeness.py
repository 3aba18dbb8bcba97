"""The demo's figures reckoned a second way: a few lines of plain Python over the records, by other means."""

import io
import json
from argparse import Namespace
from collections import Counter
from fractions import Fraction

import pytest

from daterun.bundled import content_folder
from daterun.command.gaps import run
from daterun.records.catalogue import read_catalogue


@pytest.fixture(scope="module")
def catalogue():
    found, problems = read_catalogue(content_folder().parent)
    assert not [each for each in problems if each.is_error]
    return found


@pytest.fixture(scope="module")
def told():
    out = io.StringIO()
    assert run(Namespace(folder=content_folder().parent, json=True), out) == 0
    return json.loads(out.getvalue())


def in_force(coin):
    """The newest certificate while it is sealed, and the grade that counts: its own, else the keeper's newest."""
    dated = [(str(each.on or ""), nth, each) for nth, each in enumerate(coin.certificates)]
    certificate = max(dated)[2] if dated and max(dated)[2].sealed else None
    own = coin.own_grades[-1] if coin.own_grades else None
    opinion = certificate or own
    return certificate, opinion.grade if opinion else None


def counts(coin):
    """The low end of the grade in force, the worse side of a split one; None without a grade."""
    _, grade = in_force(coin)
    if grade is None:
        return None
    return min(each.low for each in grade.sides) if grade.sides else grade.low


def is_problem(coin):
    certificate, grade = in_force(coin)
    return bool(coin.problems or (certificate and certificate.problem) or (grade and grade.details))


def ordinary_dates(series):
    """The dates of which anything but proofs was struck."""
    found = []
    for issue in series.issues:
        parts = [part.figures for part in issue.parts] or [issue.figures]
        if not all(each.proofs_only for each in parts):
            found.append(issue)
    return found


def held(catalogue, series, date_key):
    return [
        each
        for each in catalogue.coins
        if each.series == series.id
        and each.date.key == date_key
        and each.parted is None
        and each.kind.value == "regular"
        and each.strike.value == "ordinary"
    ]


def test_the_runs_are_as_full_as_a_plain_count_says(catalogue, told):
    by_id = {each["id"]: each for each in told["series"]}
    assert len(by_id) == len(catalogue.series)
    for series in catalogue.series.values():
        dates = [each.date.key for each in ordinary_dates(series)]
        missing = [each for each in dates if not held(catalogue, series, each)]
        assert by_id[series.id]["slots"] == len(dates)
        assert by_id[series.id]["missing_dates"] == missing
        assert by_id[series.id]["filled"] == len(dates) - len(missing)


def test_the_mean_of_each_run_is_that_of_the_best_coin_of_each_date(catalogue, told):
    for series in catalogue.series.values():
        best = []
        for issue in ordinary_dates(series):
            grades = [counts(each) for each in held(catalogue, series, issue.date.key)]
            known = [each for each in grades if each is not None]
            best += [max(known)] if known else []
        mean = sum(best, Fraction(0)) / len(best)
        shown = next(each["mean_grade"] for each in told["series"] if each["id"] == series.id)
        assert abs(Fraction(str(shown)) - mean) <= Fraction(1, 200)


def test_the_longest_unbroken_stretch_of_each_run_is_as_a_string_of_signs_shows(catalogue, told):
    for series in catalogue.series.values():
        signs = "".join(
            "x" if held(catalogue, series, each.date.key) else " " for each in ordinary_dates(series)
        )
        shown = next(each["longest_stretch"] for each in told["series"] if each["id"] == series.id)
        assert shown["slots"] == max(len(each) for each in signs.split())


def test_decades_and_years_add_up_to_the_runs_but_for_what_has_no_year(catalogue, told):
    slots = Counter()
    filled = Counter()
    for series in catalogue.series.values():
        for issue in ordinary_dates(series):
            if issue.date.year is not None:
                slots[issue.date.year] += 1
                filled[issue.date.year] += bool(held(catalogue, series, issue.date.key))
    assert {each["year"]: (each["slots"], each["filled"]) for each in told["years"]} == {
        year: (slots[year], filled[year]) for year in slots
    }
    for each in told["decades"]:
        years = range(each["decade"], each["decade"] + 10)
        assert each["slots"] == sum(slots[year] for year in years)
        assert each["filled"] == sum(filled[year] for year in years)


def aim(told, name):
    return next(each for each in told["aims"] if each["id"] == name)


def silver(catalogue):
    (asked,) = (each for each in catalogue.settings.aims if each.id == "silver-by-date")
    return asked, [catalogue.find_series(each) for each in asked.series]


def test_the_silver_aim_is_as_full_as_a_plain_count_says(catalogue, told):
    asked, series = silver(catalogue)
    found = Counter()
    for one in series:
        for issue in ordinary_dates(one):
            coins = held(catalogue, one, issue.date.key)
            good = [each for each in coins if (counts(each) or 0) >= 12 and not is_problem(each)]
            if issue.date.key in asked.leave_out.get(one.id, {}):
                found["left_out"] += 1
            else:
                found["filled" if good else "below" if coins else "missing"] += 1
    shown = aim(told, "silver-by-date")
    assert {key: shown[key] for key in ("filled", "below", "missing", "left_out")} == dict(found)


@pytest.mark.parametrize("least", [None, 4, 12, 20, 40, 63])
def test_the_curve_of_the_silver_aim_is_as_a_plain_count_at_that_grade_says(catalogue, told, least):
    asked, series = silver(catalogue)
    filled = 0
    for one in series:
        for issue in ordinary_dates(one):
            if issue.date.key not in asked.leave_out.get(one.id, {}):
                coins = [each for each in held(catalogue, one, issue.date.key) if not is_problem(each)]
                filled += any(least is None or (counts(each) or 0) >= least for each in coins)
    curve = {each["at_least"]: each["filled"] for each in aim(told, "silver-by-date")["curve"]}
    assert curve[least] == filled


def test_the_scarcest_of_the_silver_aim_come_in_order_of_mintage_less_proofs(catalogue, told):
    _, series = silver(catalogue)
    by_name = {f"{one.id} {issue.date.key}": issue for one in series for issue in one.issues}
    numbers = []
    for each in aim(told, "silver-by-date")["scarcest"]:
        figures = by_name[each["slot"]].figures
        less = 0 if figures.proofs_apart else figures.proofs or 0
        if not by_name[each["slot"]].parts:
            assert each["struck"] == [number - less for number in figures.mintage]
        numbers.append(min(each["struck"], default=None))
    known = [each for each in numbers if each is not None]
    assert known == sorted(known)
    assert numbers == known + [None] * (len(numbers) - len(known))


def test_the_demos_aims_show_every_state_and_every_way_of_asking(catalogue, told):
    for state in ("filled", "below", "missing", "left_out"):
        assert any(each[state] for each in told["aims"]), state
    aims = catalogue.settings.aims
    assert {divider.value for each in aims for divider in each.one_per} == {
        *("date", "mint", "variety", "type", "monarch")
    }
    assert any(each.across_series for each in aims)
    assert {each.problems.value for each in aims} == {"accepted", "refused"}
    assert told["not_counted"] == []


def test_every_year_across_series_is_filled_where_any_denomination_of_it_is_good_enough(catalogue, told):
    (asked,) = (each for each in catalogue.settings.aims if each.id == "a-coin-of-every-year")
    dates: dict[str, bool] = {}
    for name in asked.series:
        one = catalogue.find_series(name)
        for issue in ordinary_dates(one):
            coins = held(catalogue, one, issue.date.key)
            good = any((counts(each) or 0) >= 20 and not is_problem(each) for each in coins)
            dates[issue.date.key] = dates.get(issue.date.key, False) or good
    shown = aim(told, "a-coin-of-every-year")
    assert (shown["slots"], shown["filled"]) == (len(dates), sum(dates.values()))
