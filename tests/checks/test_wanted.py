from dataclasses import replace
from fractions import Fraction

import pytest
from aimed import graded

from daterun.checks.completeness import Filled, Rules, State
from daterun.checks.slots import Slot
from daterun.checks.wanted import by_scarcity, spare_everywhere, struck_for, upgrades
from daterun.records.aims import Problems
from daterun.records.coins import Strike
from daterun.records.struck import Figures
from daterun.trade.dates import parse_coin_date

FINE = Rules(at_least=Fraction(12), problems=Problems.REFUSED)


NONE_TOLD = Figures()


def slot(date, figures=NONE_TOLD, series="vessmark/ort"):
    return Slot(series, parse_coin_date(date), None, None, None, figures)


def missing(date, *mintage, series="vessmark/ort", **rest):
    return Filled(slot(date, Figures(mintage, **rest), series), State.MISSING, None, ())


def held(date, coin, state=State.BELOW, spares=()):
    return Filled(slot(date), state, coin, spares)


def dates(found):
    return [each.slot.date.key for each in found]


def test_the_scarcest_comes_first_by_ordinary_strikes():
    found = by_scarcity([missing("1891", 5000), missing("1892", 900), missing("1893", 1000, proofs=500)])
    assert dates(found) == ["1893", "1892", "1891"]


def test_a_number_that_is_not_known_comes_last_and_is_no_nought():
    found = by_scarcity([missing("1891"), missing("1892", 0), missing("1890"), missing("1893", 7)])
    assert dates(found) == ["1892", "1893", "1890", "1891"]
    assert struck_for(Figures()) == ()


def test_where_sources_disagree_the_lowest_figure_places_a_date():
    assert dates(by_scarcity([missing("1891", 800), missing("1892", 764, 1128)])) == ["1892", "1891"]


def test_of_one_number_the_earlier_date_comes_first_and_then_the_series():
    found = by_scarcity(
        [
            missing("1892", 5),
            missing("1891", 5, series="vessmark/ort"),
            missing("1891", 5, series="vessmark/daler"),
        ]
    )
    assert [(each.slot.date.key, each.slot.series) for each in found] == [
        ("1891", "vessmark/daler"),
        ("1891", "vessmark/ort"),
        ("1892", "vessmark/ort"),
    ]


def test_only_what_is_missing_is_wanted():
    assert (
        by_scarcity([held("1891", "a"), held("1892", "b", State.FILLED), held("1893", None, State.LEFT_OUT)])
        == ()
    )


@pytest.mark.parametrize(
    "figures, strikes, expected",
    [
        (Figures((100,), proofs=40), (Strike.ORDINARY,), (60,)),
        (Figures((100,), proofs=40, proofs_apart=True), (Strike.ORDINARY,), (100,)),
        (Figures((100,), proofs=40), (Strike.PROOF,), (40,)),
        (Figures((100,)), (Strike.PROOF,), ()),
        (Figures((100,), proofs=40), (Strike.ORDINARY, Strike.PROOF), (100,)),
        (Figures((), proofs=40, proofs_only=True), (Strike.ORDINARY, Strike.PROOF), (40,)),
        (Figures((), proofs=40), (Strike.ORDINARY,), ()),
        (Figures((100,), proofs=40), (Strike.SPECIMEN,), ()),
        (Figures((764, 1128), proofs=64), (Strike.ORDINARY,), (700, 1064)),
    ],
)
def test_the_number_that_counts_is_of_the_strikes_the_aim_asks_for(figures, strikes, expected):
    assert struck_for(figures, strikes) == expected


def test_upgrades_come_in_order_of_how_far_they_fall_short_and_the_ungraded_last():
    states = [held("1891", "bare"), held("1892", "good"), held("1893", "nearly"), held("1894", "cleaned")]
    grades = {"good": graded("G4"), "nearly": graded("VG10"), "cleaned": graded("EF45"), "bare": None}
    found = upgrades(states, FINE, grades, frozenset({"cleaned"}))
    # From G4 to F12 are the steps 6, 8, 10 and 12.
    assert [(each.filled.coin, each.steps, each.is_problem) for each in found] == [
        ("good", 4, False),
        ("nearly", 1, False),
        ("cleaned", 0, True),
        ("bare", None, False),
    ]


def test_a_problem_coin_that_the_aim_accepts_is_not_refused_for_it():
    accepting = replace(FINE, problems=Problems.ACCEPTED)
    (found,) = upgrades([held("1891", "a")], accepting, {"a": graded("G4")}, frozenset({"a"}))
    assert (found.steps, found.is_problem) == (4, False)


def test_what_fills_a_slot_is_no_upgrade():
    assert upgrades([held("1891", "a", State.FILLED)], FINE, {"a": graded("VF30")}, frozenset()) == ()


def test_a_coin_is_spare_only_where_it_stands_in_no_slot_of_any_aim():
    run = [held("1891", "best", State.FILLED, ("dot", "worn"))]
    by_variety = [held("1891", "dot", State.FILLED, ()), held("1892", "other", State.FILLED, ("worn",))]
    assert spare_everywhere([run, by_variety]) == ("worn",)
    assert spare_everywhere([run]) == ("dot", "worn")
    assert spare_everywhere([]) == ()
