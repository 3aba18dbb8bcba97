"""Aims that ask for one coin per monarch or per type, within each series and across them."""

import pytest
from aimed import Aimed, piece, read

from daterun.checks.aims import fill_aim, left_out_slots, slots_of_aim
from daterun.checks.completeness import State
from daterun.records.aims import Divider
from daterun.trade.dates import Span

ORT = """
name: Ort
issuer: vessmark
types:
  - {id: young, dates: 1891–1892, monarch: ingrith}
  - {id: veiled, dates: 1893–1894, monarch: ingrith}
  - {id: bearded, dates: 1894–1897, monarch: torvald}
issues:
  struck: {1891: 100, 1893: 20, 1894: {by type: {veiled: 3, bearded: 4}}, 1896: unknown, 1897: 7}
"""
DALER = """
name: Daler
issuer: vessmark
types: [{id: young, dates: 1891–1892, monarch: ingrith}, {id: bearded, dates: 1895–1897, monarch: torvald}]
issues: {struck: {1892: 500, 1897: 40}}
"""
KRON = """
name: Kron
issuer: nordhavn
types: [{id: young, dates: 1892–1892, monarch: ingrith}]
issues: {struck: {1892: 500}}
"""


@pytest.fixture
def series():
    return {each.key: each for each in (read("ort", ORT), read("daler", DALER), read("kron", KRON))}


def aim(*one_per, series=("daler", "ort"), across=True, **rest):
    return Aimed(series=series, one_per=one_per, across_series=across, **rest)


def slots(series, asked):
    return slots_of_aim(asked, series)


def test_an_aim_for_one_of_each_monarch_has_a_slot_for_each_within_each_series(series):
    found = slots(series, aim(Divider.MONARCH, across=False))
    assert [(each.series, each.name) for each in found] == [
        ("vessmark/daler", "ingrith"),
        ("vessmark/daler", "torvald"),
        ("vessmark/ort", "ingrith"),
        ("vessmark/ort", "torvald"),
    ]


def test_across_series_one_slot_stands_for_a_monarch_in_all_of_them(series):
    found = slots(series, aim(Divider.MONARCH))
    assert [(each.name, each.all_series) for each in found] == [
        ("ingrith", ("vessmark/daler", "vessmark/ort")),
        ("torvald", ("vessmark/daler", "vessmark/ort")),
    ]


@pytest.mark.parametrize(
    "coin, states",
    [
        (piece("a", "vessmark/ort", "1893", type="veiled"), [State.FILLED, State.MISSING]),
        (piece("a", "vessmark/daler", "1892", type="young"), [State.FILLED, State.MISSING]),
        (piece("a", "vessmark/daler", "1897", type="bearded"), [State.MISSING, State.FILLED]),
        (piece("a", "nordhavn/kron", "1892", type="young"), [State.MISSING, State.MISSING]),
        (piece("a", "vessmark/ort", "1894"), [State.MISSING, State.MISSING]),
    ],
)
def test_a_monarchs_slot_is_filled_by_a_coin_known_to_be_of_the_reign(series, coin, states):
    state = fill_aim(aim(Divider.MONARCH), series, [coin], frozenset(), lambda _: None)
    assert [each.state for each in state.states] == states


def test_two_issuers_keep_their_monarchs_apart_though_they_be_called_alike(series):
    found = slots(series, aim(Divider.MONARCH, series=("ort", "kron")))
    assert [(each.series, each.name) for each in found] == [
        ("vessmark/ort", "ingrith"),
        ("vessmark/ort", "torvald"),
        ("nordhavn/kron", "ingrith"),
    ]


def test_a_type_across_series_is_filled_once_and_the_best_coin_stands_in_it(series):
    pieces = [
        piece("worn", "vessmark/daler", "1892", "G4", type="young"),
        piece("fine", "vessmark/ort", "1891", "F12", type="young"),
    ]
    state = fill_aim(aim(Divider.TYPE), series, pieces, frozenset(), lambda _: None)
    assert [each.slot.name for each in state.states] == ["young", "bearded", "veiled"]
    assert (state.states[0].coin, state.states[0].spares) == ("fine", ("worn",))


def test_a_date_across_series_asks_for_one_coin_of_any_denomination_in_order_of_date(series):
    found = slots(series, aim(Divider.DATE))
    assert [each.name for each in found] == ["1891", "1892", "1893", "1894", "1896", "1897"]
    assert found[-1].all_series == ("vessmark/daler", "vessmark/ort")
    state = fill_aim(
        aim(Divider.DATE), series, [piece("a", "vessmark/ort", "1897")], frozenset(), lambda _: None
    )
    assert [each.slot.name for each in state.states if each.state is State.FILLED] == ["1897"]


def test_the_figures_of_a_slot_of_many_dates_are_added_up_unless_one_is_not_known(series):
    by_monarch = {each.name: each.figures.mintage for each in slots(series, aim(Divider.MONARCH))}
    assert by_monarch == {"ingrith": (100 + 20 + 3 + 500,), "torvald": ()}
    in_span = slots(series, aim(Divider.MONARCH, span=Span(1897, 1897)))
    assert [each.figures.mintage for each in in_span] == [(47,)]


def test_a_date_of_two_monarchs_is_a_slot_of_each_with_its_own_part(series):
    found = slots(series, aim(Divider.DATE, Divider.MONARCH, series=("ort",), across=False))
    shared = [each for each in found if each.date.key == "1894"]
    assert [(each.name, each.figures.mintage) for each in shared] == [
        ("1894 ingrith", (3,)),
        ("1894 torvald", (4,)),
    ]
    assert [each.figures.mintage for each in found if each.date.key == "1893"] == [(20,)]


def test_a_slot_across_series_is_left_out_by_either_of_its_series(series):
    for name in ("ort", "daler"):
        left_out = left_out_slots({name: ["torvald"]}, series)
        state = fill_aim(aim(Divider.MONARCH), series, [], left_out, lambda _: None)
        assert [each.state for each in state.states] == [State.MISSING, State.LEFT_OUT]


def test_the_missing_of_an_aim_across_series_are_named_without_one(series):
    state = fill_aim(aim(Divider.MONARCH), series, [], frozenset(), lambda _: None)
    assert state.missing_dates == ("ingrith", "torvald")


def test_an_aim_across_one_series_is_the_same_as_within_it(series):
    for divider in Divider:
        within = fill_aim(
            aim(divider, series=("ort",), across=False), series, [], frozenset(), lambda _: None
        )
        across = fill_aim(aim(divider, series=("ort",)), series, [], frozenset(), lambda _: None)
        assert [each.slot.name for each in within.states] == [each.slot.name for each in across.states]


def test_asking_across_series_never_asks_for_more(series):
    for divider in Divider:
        across, within = (slots(series, aim(divider, across=each)) for each in (True, False))
        assert 0 < len(across) <= len(within)
