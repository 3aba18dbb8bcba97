"""The curve of what another lowest grade would do, held against filling the aim again at every step."""

from dataclasses import replace
from fractions import Fraction

from aimed import graded, piece
from hypothesis import given, settings
from hypothesis import strategies as st

from daterun.checks.completeness import Rules, State, fill
from daterun.checks.curve import grade_curve
from daterun.checks.slots import Slot
from daterun.records.aims import End, Problems
from daterun.records.struck import Figures
from daterun.trade.dates import parse_coin_date
from daterun.trade.scales import STEPS

VARIETIES = ("plain", "dot", "star")
SLOTS = tuple(
    Slot("vessmark/ort", parse_coin_date(date), None, variety, None, Figures())
    for date in ("1891", "1892")
    for variety in VARIETIES
)
GRADES = ("G4", "F12", "VF30–EF40", "EF45/AU55", "MS64+")

pieces = st.lists(
    st.builds(
        piece,
        st.integers(0, 99).map("coin-{}".format),
        st.just("vessmark/ort"),
        st.sampled_from(("1891", "1892")),
        st.sampled_from((None, *GRADES)),
        varieties=st.sets(st.sampled_from(VARIETIES)).map(lambda each: tuple(sorted(each))),
        problems=st.sampled_from(((), ("cleaned",))),
    ),
    max_size=9,
    unique_by=lambda each: each.id,
)
rules = st.builds(
    Rules,
    at_least=st.sampled_from((None, Fraction(20))),
    counts=st.sampled_from(End),
    problems=st.sampled_from(Problems),
)
left_out = st.sets(st.sampled_from([("vessmark/ort", each.name) for each in SLOTS])).map(frozenset)


def filled_at(least, found, asked, out):
    again = fill(SLOTS, found, replace(asked, at_least=least), out)
    return sum(1 for each in again if each.state is State.FILLED)


@given(pieces, rules, left_out)
@settings(deadline=None, max_examples=60)
def test_each_point_is_what_filling_the_aim_again_would_give(found, asked, out):
    curve = grade_curve(SLOTS, found, asked, out)
    assert [each.at_least for each in curve] == [None, *(step.number for step in STEPS)]
    for point in curve:
        least = None if point.at_least is None else Fraction(point.at_least)
        assert point.filled == filled_at(least, found, asked, out), point


@given(pieces, rules)
@settings(deadline=None)
def test_a_higher_grade_never_fills_more(found, asked):
    counts = [each.filled for each in grade_curve(SLOTS, found, asked)]
    assert counts == sorted(counts, reverse=True)


def test_a_refused_problem_coin_counts_nowhere_and_an_ungraded_one_at_any_grade_alone():
    slots = SLOTS[:1]
    cleaned = piece("cleaned", "vessmark/ort", "1891", "MS64+", varieties=("plain",), problems=("cleaned",))
    bare = piece("bare", "vessmark/ort", "1891", varieties=("plain",))
    refusing = Rules(problems=Problems.REFUSED)
    assert [each.filled for each in grade_curve(slots, [cleaned], refusing)] == [0] * 31
    assert [each.filled for each in grade_curve(slots, [bare], refusing)] == [1] + [0] * 30


def test_the_end_of_a_range_that_the_aim_counts_shapes_the_curve():
    ranging = piece("ranging", "vessmark/ort", "1891", "VF30–EF40", varieties=("plain",))
    low, high = (
        {each.at_least: each.filled for each in grade_curve(SLOTS[:1], [ranging], Rules(counts=end))}
        for end in (End.LOW, End.HIGH)
    )
    assert (low[30], low[35], high[40], high[45]) == (1, 0, 1, 0)
    assert graded("VF30–EF40").counted() == 30
