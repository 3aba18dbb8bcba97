from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from sklearn.metrics import cohen_kappa_score

from daterun.checks.agreement import (
    Certified,
    Opinion,
    Pair,
    Unpaired,
    Why,
    agree,
    last_before,
    pair_up,
    quadratic_kappa,
    reasons_of,
    step_of,
)
from daterun.trade.dates import parse_day
from daterun.trade.grading import STEPS, Habit, parse_grade


def grade(text):
    return parse_grade(text, Habit.SEVENTY)


def day(text):
    return parse_day(text) if text else None


def opinions(*pairs):
    return [Opinion(grade(text), day(on)) for text, on in pairs]


def pair(own, certified, *problems):
    return Pair("a", grade(own), grade(certified), "North Pier Grading", problems)


STEP = some.integers(0, len(STEPS) - 1)
PAIRS = some.lists(some.tuples(STEP, STEP), min_size=2, max_size=40)


@given(PAIRS)
def test_kappa_is_what_scikit_learn_finds(steps):
    first, second = [each[0] for each in steps], [each[1] for each in steps]
    assume(len(set(first) | set(second)) > 1)
    expected = cohen_kappa_score(first, second, labels=list(range(len(STEPS))), weights="quadratic")
    assert float(quadratic_kappa(first, second)) == pytest.approx(float(expected), abs=1e-9)


@given(some.lists(some.tuples(some.sampled_from(STEPS), some.sampled_from(STEPS)), min_size=1, max_size=30))
def test_the_figures_are_what_a_sum_over_the_pairs_gives(steps):
    places = {step: nth for nth, step in enumerate(STEPS)}
    off = [places[own] - places[certified] for own, certified in steps]
    found = agree(pair(str(own), str(certified)) for own, certified in steps)
    assert found.bias == Fraction(sum(off), len(off))
    assert found.spread == Fraction(sum(map(abs, off)), len(off))
    assert found.exact == Fraction(off.count(0), len(off))
    assert found.within_one == Fraction(sum(-1 <= each <= 1 for each in off), len(off))


def test_kappa_is_one_where_all_agree_and_none_where_nothing_could_differ():
    assert quadratic_kappa([3, 9, 12], [3, 9, 12]) == 1
    assert quadratic_kappa([5, 5], [5, 5]) is None
    assert quadratic_kappa([], []) is None


def test_kappa_is_under_nought_where_grades_run_against_each_other():
    assert quadratic_kappa([0, 10], [10, 0]) == -1


def test_every_step_of_the_scale_has_its_place():
    assert [step_of(grade(str(step))) for step in STEPS] == list(range(30))


def test_a_range_counts_its_low_end_and_a_split_grade_its_lower_side():
    assert step_of(grade("VF30–EF40")) == step_of(grade("VF30"))
    assert step_of(grade("EF40/VF20")) == step_of(grade("VF20"))
    assert step_of(grade("MS64+")) == step_of(grade("MS64"))


def test_the_last_grade_before_the_certificate_stands_beside_it():
    own = opinions(("VF30", "2009-02-08"), ("EF40", "2019-10-20"), ("VF35", "2023-01-01"))
    assert last_before(own, day("2021-06-15")) == grade("EF40")


def test_a_grade_of_the_day_of_the_certificate_or_after_it_is_not_before_it():
    assert last_before(opinions(("VF30", "2021-06-15")), day("2021-06-15")) is Why.NONE_BEFORE
    assert last_before(opinions(("VF30", "2022"), ("EF40", "2023")), day("2021-06-15")) is Why.NONE_BEFORE


def test_a_coin_without_an_own_grade_makes_no_pair():
    assert last_before([], day("2021-06-15")) is Why.NO_OWN


def test_a_lone_grade_without_a_day_goes_with_the_certificate():
    assert last_before(opinions(("VF30", "")), day("2021-06-15")) == grade("VF30")
    assert last_before(opinions(("VF30", "2020")), None) == grade("VF30")


@pytest.mark.parametrize(
    ("own", "certified_on"),
    [
        ([("VF30", "2009"), ("EF40", "")], "2021-06-15"),
        ([("VF30", "2009"), ("EF40", "2019")], ""),
        ([("VF30", "2021")], "2021-06-15"),
        ([("VF30", "2021-05-01")], "2021"),
        ([("VF30", "2021-06"), ("EF40", "2022")], "2021-06-15"),
    ],
)
def test_what_may_lie_on_either_side_of_the_certificate_is_not_guessed(own, certified_on):
    assert last_before(opinions(*own), day(certified_on)) is Why.ORDER_NOT_TOLD


def test_an_older_grade_without_a_day_does_not_matter():
    own = opinions(("MS63", ""), ("MS64", "2021-02-07"))
    assert last_before(own, day("2023-01-30")) == grade("MS64")


def test_a_certificate_without_a_grade_before_it_is_named_with_the_reason():
    own = opinions(("VF30", "2015"), ("EF40", "2018"))
    first = Certified("Aldersand Assay Rooms", grade("EF40"), day("2014"))
    second = Certified("North Pier Grading", grade("EF45"), day("2017"))
    pairs, unpaired = pair_up("ort/1899", own, [first, second])
    assert pairs == (Pair("ort/1899", grade("VF30"), grade("EF45"), "North Pier Grading", ()),)
    assert unpaired == (Unpaired("ort/1899", first, Why.NONE_BEFORE),)


def test_the_reasons_of_a_problem_coin_come_from_beside_the_grade_and_from_within_it():
    certified = Certified("North Pier Grading", grade("VF details, cleaned, scratched"), None, ("Cleaned",))
    assert reasons_of(certified) == ("Cleaned", "scratched")
    assert reasons_of(Certified("North Pier Grading", grade("VF30"), None)) == ()


def test_a_problem_coin_counts_in_the_problem_share_and_in_nothing_else():
    sound = [pair("EF40", "VF35"), pair("EF40", "EF40"), pair("MS63", "MS63")]
    found = agree([*sound, pair("VF30", "VF details, cleaned", "cleaned")])
    assert found.problem_share == Fraction(1, 4)
    assert found.reasons == (("cleaned", 1),)
    assert found.compared == tuple(sound)
    assert found.bias == Fraction(1, 3)
    assert [each.own.text for each in found.returned] == ["VF30"]


def test_a_details_grade_without_a_reason_is_a_problem_coin_too():
    found = agree([pair("VF30", "VF details")])
    assert found.problem_share == 1
    assert found.reasons == ()
    assert found.bias is None and found.kappa is None


def test_reasons_are_counted_the_most_frequent_first():
    cleaned, holed = pair("VF30", "VF details", "cleaned"), pair("VF30", "VF details", "holed")
    assert agree([holed, cleaned, cleaned]).reasons == (("cleaned", 2), ("holed", 1))


def test_under_ten_pairs_compared_the_figures_are_weak():
    nine = [pair("EF40", "EF45")] * 9
    assert agree([*nine, pair("VF30", "VF details", "cleaned")]).is_weak
    assert not agree([*nine, pair("VF20", "VF20")]).is_weak


def test_no_pairs_have_no_figures():
    found = agree([])
    assert (found.bias, found.spread, found.exact, found.within_one, found.kappa) == (None,) * 5
    assert found.problem_share is None and found.differences is None and found.is_weak
