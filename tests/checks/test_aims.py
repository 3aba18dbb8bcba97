from dataclasses import replace

import pytest
from aimed import Aimed, graded, piece, read
from hypothesis import given, settings
from hypothesis import strategies as st

from daterun.checks.aims import fill_aim, left_out_slots, rules_of, slots_of_aim
from daterun.checks.completeness import State
from daterun.records.aims import Divider, End, Problems
from daterun.records.coins import Strike
from daterun.trade.dates import Span
from daterun.trade.grading import Habit, parse_grade

ORT = """
name: Ort
issuer: vessmark
types: [{id: ingrith, dates: 1891–1893}, {id: torvald, dates: 1894–1906}]
issues:
  struck: {1891: 341000, 1892: 2310, 1893: unknown, 1894: {proofs: 60}, 1895-96: 120000, 1897: 98000}
"""
DALER = "name: Daler\nissuer: vessmark\nissues: {struck: {1892: 500, 1897: {by mint: {none: 1, K: 2}}}}\n"
KRON = "name: Kron\nissuer: nordhavn\nissues: {struck: {1892: 500}}\n"


SERIES = {each.key: each for each in (read("ort", ORT), read("daler", DALER), read("kron", KRON))}


def filled_by(aim, *pieces, left_out=frozenset()):
    return fill_aim(aim, SERIES, pieces, left_out, lambda _: None)


def named(aim):
    return [f"{each.series} {each.name}" for each in slots_of_aim(aim, SERIES)]


def test_the_slots_of_an_aim_follow_its_series_and_then_their_runs():
    assert named(Aimed(series=("daler", "ort"), span=Span(1892, 1895))) == [
        "vessmark/daler 1892",
        "vessmark/ort 1892",
        "vessmark/ort 1893",
        "vessmark/ort 1895-96",
    ]


def test_a_series_named_twice_is_asked_for_once():
    assert named(Aimed(series=("daler", "vessmark/daler"))) == ["vessmark/daler 1892", "vessmark/daler 1897"]


def test_a_series_that_is_not_there_gives_no_slots():
    assert named(Aimed(series=("gulden", "kron"))) == ["nordhavn/kron 1892"]


def test_the_rules_count_the_lowest_point_of_the_grade_asked_for():
    assert rules_of(Aimed(at_least=graded("VF30"))).at_least == 30
    assert rules_of(Aimed(at_least=parse_grade("EF", Habit.BRITISH))).at_least == 50
    assert rules_of(Aimed()).at_least is None


def test_the_missing_dates_of_an_aim_name_their_series():
    state = filled_by(Aimed(series=("daler", "ort")), piece("a", "vessmark/ort", "1892"))
    assert state.missing_dates == (
        "daler 1892",
        "daler 1897",
        "ort 1891",
        "ort 1893",
        "ort 1895-96",
        "ort 1897",
    )


def test_an_aim_tells_filled_below_missing_and_left_out_apart():
    state = filled_by(
        Aimed(at_least=graded("F12"), problems=Problems.REFUSED),
        piece("good", "vessmark/ort", "1891", "VF30"),
        piece("worn", "vessmark/ort", "1892", "G4"),
        piece("cleaned", "vessmark/ort", "1893", "EF45", problems=("cleaned",)),
        left_out=left_out_slots({"ort": {"1895-96": "beyond my means"}}, SERIES),
    )
    assert [each.state for each in state.states] == [
        State.FILLED,
        State.BELOW,
        State.BELOW,
        State.LEFT_OUT,
        State.MISSING,
    ]
    count = state.tally
    assert (count.slots, count.filled, count.below, count.missing, count.left_out) == (5, 1, 2, 1, 1)


def test_what_is_left_out_is_found_by_either_name_of_the_series():
    either = {("vessmark/daler", "1897 K")}
    assert left_out_slots({"daler": {"1897  K": ""}}, SERIES) == either
    assert left_out_slots({"vessmark/daler": ["1897 K"]}, SERIES) == either
    assert left_out_slots({"gulden": ["1897"]}, SERIES) == frozenset()


def test_a_coin_of_another_series_with_the_same_date_fills_nothing():
    state = filled_by(Aimed(series=("daler",)), piece("a", "nordhavn/kron", "1892"))
    assert state.tally.filled == 0


def test_an_aim_for_one_of_each_type_is_filled_by_any_date_of_it():
    aim = Aimed(one_per=(Divider.TYPE,))
    assert [each.type for each in slots_of_aim(aim, SERIES)] == ["ingrith", "torvald"]
    state = filled_by(aim, piece("late", "vessmark/ort", "1897", type="torvald"))
    assert [each.coin for each in state.states] == [None, "late"]


def test_an_aim_of_proofs_is_filled_by_proofs_alone():
    aim = Aimed(strikes=(Strike.PROOF,))
    assert named(aim) == ["vessmark/ort 1894"]
    assert filled_by(aim, piece("ordinary", "vessmark/ort", "1894")).tally.filled == 0
    proof = piece("proof", "vessmark/ort", "1894", strike=Strike.PROOF)
    assert filled_by(aim, proof).tally.filled == 1


GRADES = ("G4", "F12", "VF30–EF40", "EF45", "AU55")
some_pieces = st.lists(
    st.builds(
        piece,
        st.integers(0, 99).map("coin-{}".format),
        st.sampled_from(tuple(SERIES)),
        st.sampled_from(("1891", "1892", "1893", "1895-96", "1897")),
        st.sampled_from((None, *GRADES)),
        mint=st.sampled_from(("none", "K")),
        problems=st.sampled_from(((), ("cleaned",))),
    ),
    max_size=12,
    unique_by=lambda each: each.id,
)
some_aims = st.builds(
    Aimed,
    series=st.sets(st.sampled_from(("ort", "daler", "kron")), min_size=1).map(
        lambda each: tuple(sorted(each))
    ),
    span=st.sampled_from((None, Span(1892, 1897))),
    one_per=st.sampled_from(((Divider.DATE,), (Divider.DATE, Divider.MINT), (Divider.MINT,))),
    at_least=st.sampled_from((None, *GRADES)).map(lambda each: graded(each) if each else None),
    problems=st.sampled_from(Problems),
)


@given(some_aims, some_pieces, st.sampled_from(("1892", "1897 K", "1893")))
@settings(deadline=None)
def test_the_states_of_any_aim_add_up_and_no_coin_stands_twice(aim, pieces, date):
    left_out = left_out_slots({name: [date] for name in aim.series}, SERIES)
    state = filled_by(aim, *pieces, left_out=left_out)
    count = state.tally
    assert count.slots == count.filled + count.below + count.missing + count.left_out
    assert len(state.missing_dates) == count.missing
    used = [each.coin for each in state.states if each.coin]
    assert len(used) == len(set(used))


@given(some_aims, some_pieces, st.sampled_from(GRADES))
@settings(deadline=None)
def test_asking_for_a_higher_grade_never_fills_a_slot_of_any_aim(aim, pieces, text):
    lower, higher = sorted((aim.at_least or graded("PO1"), graded(text)), key=lambda each: each.counted())
    easy = filled_by(replace(aim, at_least=lower), *pieces)
    hard = filled_by(replace(aim, at_least=higher), *pieces)
    for before, after in zip(easy.states, hard.states, strict=True):
        assert before.state is State.FILLED or after.state is not State.FILLED


@given(some_aims, some_pieces)
@settings(deadline=None)
def test_a_wider_aim_holds_every_slot_of_a_narrower_one(aim, pieces):
    wide = filled_by(replace(aim, span=None), *pieces)
    narrow = filled_by(replace(aim, span=Span(1892, 1897)), *pieces)
    if Divider.DATE in aim.one_per:
        by_slot = {each.slot: each.state for each in wide.states}
        assert all(by_slot[each.slot] is each.state for each in narrow.states)
    else:
        assert narrow.tally.slots <= wide.tally.slots


@pytest.mark.parametrize("at_least, is_filled", [("VF30", True), ("EF40", False)])
def test_a_range_counts_its_low_end_unless_the_aim_says_otherwise(at_least, is_filled):
    ranging = piece("ranging", "vessmark/ort", "1891", "VF30–EF40")
    aim = Aimed(at_least=graded(at_least), span=Span(1891, 1891))
    assert (filled_by(aim, ranging).tally.filled == 1) is is_filled
    assert filled_by(replace(aim, counts=End.HIGH), ranging).tally.filled == 1
