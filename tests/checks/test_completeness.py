"""Filling slots with coins, held against trying every way there is of filling them."""

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from daterun.checks.completeness import (
    PLAIN,
    Rules,
    State,
    fill,
    missing_dates,
    quality,
    tally,
)
from daterun.checks.slots import Slot
from daterun.records.aims import End, Problems
from daterun.records.coins import CoinKind, Strike
from daterun.records.struck import Figures
from daterun.trade.dates import CoinDate, parse_coin_date
from daterun.trade.grading import Grade, Habit, parse_grade
from daterun.trade.measures import Weight

STANDARD_G = Decimal("9.000")
GRADES = ("G4", "F12", "VF30", "VF30–EF40", "EF45", "AU55")
A_DATE = parse_coin_date("1899")
VARIETIES = ("plain", "dot", "star", "bar")


@dataclass(frozen=True)
class Piece:
    id: str
    date: CoinDate = A_DATE
    varieties: tuple[str, ...] = ()
    series: str = "vessmark/ort"
    mint: str | None = None
    type: str | None = None
    strike: Strike = Strike.ORDINARY
    kind: CoinKind = CoinKind.REGULAR
    grade: Grade | None = None
    graded_by: str = ""
    problems: tuple[str, ...] = ()
    weight: Weight | None = None
    is_held: bool = True

    @property
    def is_problem(self):
        return bool(self.problems)


def graded(text):
    return parse_grade(text, Habit.SEVENTY)


def weighing(grams):
    return Weight(Decimal(grams), f"{grams} g")


def standard(_):
    return STANDARD_G


def slot(date="1899", variety=None, mint=None, coin_type=None, series="vessmark/ort"):
    return Slot(series, parse_coin_date(date), mint, variety, coin_type, Figures())


def states(filled):
    return [each.state for each in filled]


def coins(filled):
    return [each.coin for each in filled]


BY_VARIETY = tuple(slot(variety=each) for each in VARIETIES)

pieces = st.lists(
    st.builds(
        Piece,
        id=st.integers(0, 30).map("coin-{:02}".format),
        varieties=st.sets(st.sampled_from(VARIETIES)).map(lambda found: tuple(sorted(found))),
        strike=st.sampled_from((Strike.ORDINARY, Strike.ORDINARY, Strike.ORDINARY, Strike.PROOF)),
        grade=st.one_of(st.none(), st.sampled_from(GRADES).map(graded)),
        graded_by=st.sampled_from(("", "North Pier Grading")),
        problems=st.sampled_from(((), (), ("cleaned",), ("cleaned", "bent"))),
        weight=st.one_of(st.none(), st.sampled_from(("8.90", "9.00", "9.05")).map(weighing)),
        is_held=st.sampled_from((True, True, True, False)),
    ),
    max_size=5,
    unique_by=lambda each: each.id,
)
rules = st.builds(
    Rules,
    strikes=st.sampled_from(((Strike.ORDINARY,), (Strike.ORDINARY, Strike.PROOF))),
    at_least=st.sampled_from((None, Fraction(12), Fraction(30), Fraction(45))),
    counts=st.sampled_from(End),
    problems=st.sampled_from(Problems),
)
some_slots = st.lists(st.sampled_from(BY_VARIETY), unique=True, max_size=4).map(tuple)
left_outs = st.sets(st.sampled_from([(each.series, each.name) for each in BY_VARIETY]), max_size=2).map(
    frozenset
)


def fits_by_hand(piece, wanted, asked):
    return piece.is_held and piece.strike in asked.strikes and wanted.variety in piece.varieties


def accepted_by_hand(piece, asked):
    if asked.problems is Problems.REFUSED and piece.problems:
        return False
    if asked.at_least is None:
        return True
    if piece.grade is None:
        return False
    low, high = piece.grade.low, piece.grade.high
    counted = {End.LOW: low, End.HIGH: high, End.MIDDLE: (low + high) / 2}[asked.counts]
    return counted >= asked.at_least


def best_by_trying_all(open_slots, found, asked):
    """Try every way of filling: the first slots before the later, then the better coins before the worse."""
    in_order = sorted(found, key=lambda each: quality(each, asked, STANDARD_G))
    choices = [[None, *(each for each in in_order if fits_by_hand(each, one, asked))] for one in open_slots]
    best = None
    for way in product(*choices):
        used = [each.id for each in way if each is not None]
        if len(used) != len(set(used)):
            continue
        worth = ([each is not None for each in way], [each.id in used for each in in_order])
        if best is None or worth > best[0]:
            best = (worth, [each is not None for each in way], set(used))
    return best[1], best[2]


@given(some_slots, pieces, rules)
@settings(deadline=None)
def test_the_slots_and_coins_chosen_are_the_best_of_all_ways(slots, found, asked):
    result = fill(slots, found, asked, standard=standard)
    good = [each for each in found if accepted_by_hand(each, asked)]
    is_filled, used = best_by_trying_all(slots, good, asked)
    assert [each.state is State.FILLED for each in result] == is_filled
    assert {each.coin for each in result if each.state is State.FILLED} == used
    still_open = [each for each, done in zip(slots, is_filled, strict=True) if not done]
    rest = [each for each in found if each.id not in used]
    is_below, below = best_by_trying_all(still_open, rest, asked)
    others = [each for each in result if each.state is not State.FILLED]
    assert [each.state is State.BELOW for each in others] == is_below
    assert {each.coin for each in others if each.state is State.BELOW} == below
    assert all(each.coin is None for each in others if each.state is State.MISSING)


@given(some_slots, pieces, rules, left_outs)
@settings(deadline=None)
def test_no_coin_fills_two_slots_and_none_is_spare_while_it_fills_one(slots, found, asked, left_out):
    result = fill(slots, found, asked, left_out, standard=standard)
    used = [each.coin for each in result if each.coin is not None]
    assert len(used) == len(set(used))
    assert all(set(each.spares).isdisjoint(used) for each in result)


@given(some_slots, pieces, rules, left_outs)
@settings(deadline=None)
def test_every_coin_of_a_slot_fits_it_and_every_fitting_coin_is_used_or_spare(slots, found, asked, left_out):
    by_id = {each.id: each for each in found}
    result = fill(slots, found, asked, left_out, standard=standard)
    used = {each.coin for each in result}
    for each in result:
        fitting = {piece.id for piece in found if fits_by_hand(piece, each.slot, asked)}
        assert {*each.spares, *([each.coin] if each.coin else [])} <= fitting
        assert fitting <= used | set(each.spares)
        if each.state is State.FILLED:
            assert accepted_by_hand(by_id[each.coin], asked)


@given(some_slots, pieces, rules, left_outs)
@settings(deadline=None)
def test_filled_below_missing_and_left_out_add_up_to_the_slots(slots, found, asked, left_out):
    result = fill(slots, found, asked, left_out, standard=standard)
    count = tally(result)
    assert [each.slot for each in result] == list(slots)
    assert count.filled + count.below + count.missing + count.left_out == count.slots == len(slots)
    assert count.left_out == sum((each.series, each.name) in left_out for each in slots)
    assert len(missing_dates(result)) == count.missing


WORTH = {State.LEFT_OUT: 0, State.MISSING: 0, State.BELOW: 1, State.FILLED: 2}


@given(some_slots, pieces, rules, left_outs, st.data())
@settings(deadline=None)
def test_one_more_coin_never_empties_a_slot(slots, found, asked, left_out, data):
    if not found:
        return
    without = data.draw(st.sampled_from(found))
    fewer = [each for each in found if each.id != without.id]
    before = fill(slots, fewer, asked, left_out, standard=standard)
    after = fill(slots, found, asked, left_out, standard=standard)
    for one, other in zip(before, after, strict=True):
        assert WORTH[other.state] >= WORTH[one.state]


@given(some_slots, pieces, rules, left_outs, st.sampled_from((Fraction(13), Fraction(31), Fraction(60))))
@settings(deadline=None)
def test_a_stricter_aim_never_fills_a_slot(slots, found, asked, left_out, at_least):
    if asked.at_least is not None and at_least <= asked.at_least:
        return
    before = fill(slots, found, asked, left_out, standard=standard)
    after = fill(slots, found, replace(asked, at_least=at_least), left_out, standard=standard)
    for one, other in zip(before, after, strict=True):
        assert one.state is State.FILLED or other.state is not State.FILLED


@given(some_slots, pieces, rules, st.randoms(use_true_random=False))
@settings(deadline=None)
def test_the_order_in_which_coins_are_given_changes_nothing(slots, found, asked, random):
    shuffled = list(found)
    random.shuffle(shuffled)
    assert fill(slots, found, asked, standard=standard) == fill(slots, shuffled, asked, standard=standard)


def ranked(found, asked=PLAIN, standard_g=STANDARD_G):
    return [each.id for each in sorted(found, key=lambda each: quality(each, asked, standard_g))]


def test_what_the_aim_accepts_comes_before_a_higher_grade_that_it_refuses():
    sound = Piece("sound", grade=graded("VF30"))
    cleaned = Piece("cleaned", grade=graded("EF45"), problems=("cleaned",))
    assert ranked([cleaned, sound], Rules(problems=Problems.REFUSED)) == ["sound", "cleaned"]
    assert ranked([cleaned, sound]) == ["cleaned", "sound"]


def test_the_higher_grade_comes_first_and_no_grade_last():
    found = [Piece("none"), Piece("fine", grade=graded("F12")), Piece("extremely", grade=graded("EF45"))]
    assert ranked(found) == ["extremely", "fine", "none"]


def test_the_end_of_a_range_that_the_aim_counts_settles_the_order():
    single, ranging = Piece("single", grade=graded("VF35")), Piece("ranging", grade=graded("VF30–EF45"))
    assert ranked([single, ranging], Rules(counts=End.LOW)) == ["single", "ranging"]
    assert ranked([single, ranging], Rules(counts=End.MIDDLE)) == ["ranging", "single"]
    assert ranked([single, ranging], Rules(counts=End.HIGH)) == ["ranging", "single"]


def test_at_one_grade_a_certificate_comes_before_an_opinion():
    opinion = Piece("a-opinion", grade=graded("EF45"))
    certified = Piece("certified", grade=graded("EF45"), graded_by="North Pier Grading")
    assert ranked([opinion, certified]) == ["certified", "a-opinion"]


def test_fewer_problems_come_before_more():
    bent = Piece("a-bent", grade=graded("EF45"), problems=("bent", "cleaned"))
    cleaned = Piece("b-cleaned", grade=graded("EF45"), problems=("cleaned",))
    sound = Piece("c-sound", grade=graded("EF45"))
    assert ranked([bent, cleaned, sound]) == ["c-sound", "b-cleaned", "a-bent"]


def test_the_weight_closest_to_the_standard_comes_first_and_no_weight_last():
    heavy, light = Piece("heavy", weight=weighing("9.03")), Piece("light", weight=weighing("8.98"))
    assert ranked([Piece("a-unweighed"), heavy, light]) == ["light", "heavy", "a-unweighed"]


def test_where_all_else_is_equal_the_id_settles_the_order():
    light, heavy = Piece("b", weight=weighing("8.98")), Piece("a", weight=weighing("9.10"))
    assert ranked([Piece("d"), Piece("c")]) == ["c", "d"]
    assert ranked([light, heavy], standard_g=None) == ["a", "b"]


def test_the_best_of_several_coins_fills_the_slot_and_the_others_are_spare_in_order():
    found = [Piece("fine", grade=graded("F12")), Piece("best", grade=graded("AU55")), Piece("none")]
    (filled,) = fill([slot()], found)
    assert (filled.state, filled.coin, filled.spares) == (State.FILLED, "best", ("fine", "none"))


def test_a_coin_under_the_grade_leaves_its_slot_below_the_aim():
    (filled,) = fill([slot()], [Piece("filler", grade=graded("G4"))], Rules(at_least=Fraction(12)))
    assert (filled.state, filled.coin) == (State.BELOW, "filler")


def test_a_coin_without_a_grade_does_not_reach_one():
    (filled,) = fill([slot()], [Piece("ungraded")], Rules(at_least=Fraction(1)))
    assert filled.state is State.BELOW


def test_a_coin_that_was_parted_with_fills_nothing():
    assert states(fill([slot()], [Piece("gone", is_held=False)])) == [State.MISSING]


def test_a_coin_of_two_varieties_fills_one_of_their_slots():
    both = Piece("both", varieties=("dot", "star"))
    only = Piece("only", varieties=("dot",))
    assert states(fill(BY_VARIETY[1:3], [both])) == [State.FILLED, State.MISSING]
    assert coins(fill(BY_VARIETY[1:3], [both, only])) == ["only", "both"]


def test_two_coins_that_fit_the_same_two_slots_stand_with_the_better_in_the_first():
    better = Piece("better", varieties=("dot", "star"), grade=graded("EF45"))
    worse = Piece("worse", varieties=("dot", "star"), grade=graded("F12"))
    assert coins(fill(BY_VARIETY[1:3], [worse, better])) == ["better", "worse"]


def test_a_slot_left_out_shows_the_coin_that_would_fill_it_but_takes_none_from_another():
    both, only = Piece("both", varieties=("dot", "star")), Piece("only", varieties=("dot",))
    left_out = frozenset({("vessmark/ort", "1899 dot")})
    assert coins(fill(BY_VARIETY[1:3], [both], left_out=left_out)) == [None, "both"]
    result = fill(BY_VARIETY[1:3], [both, only], left_out=left_out)
    assert states(result) == [State.LEFT_OUT, State.FILLED]
    assert coins(result) == ["only", "both"]


def test_another_series_date_mint_or_type_does_not_fit():
    piece = Piece("piece", mint="K", type="torvald")
    assert states(fill([slot(mint="K", coin_type="torvald")], [piece])) == [State.FILLED]
    for other in (
        slot(series="vessmark/daler"),
        slot("1900"),
        slot(mint="none"),
        slot(coin_type="ingrith"),
        slot(variety="dot"),
    ):
        assert states(fill([other], [piece])) == [State.MISSING]


def test_a_coin_that_is_not_regular_fills_only_where_the_aim_says_so():
    mule = Piece("mule", kind=CoinKind.MULE)
    assert states(fill([slot()], [mule])) == [State.MISSING]
    assert states(fill([slot()], [mule], Rules(kinds=(CoinKind.REGULAR, CoinKind.MULE)))) == [State.FILLED]


def test_a_proof_does_not_fill_a_slot_of_ordinary_strikes():
    proof = Piece("proof", strike=Strike.PROOF)
    assert states(fill([slot()], [proof])) == [State.MISSING]
    assert states(fill([slot()], [proof], Rules(strikes=(Strike.PROOF,)))) == [State.FILLED]


def test_a_double_date_and_its_first_year_are_two_slots():
    result = fill([slot("1934"), slot("1934-35")], [Piece("both-years", parse_coin_date("1934/35"))])
    assert missing_dates(result) == ("1934",)
    assert coins(result) == [None, "both-years"]


def test_where_dates_do_not_count_any_date_of_a_type_fills_its_slot():
    piece = Piece("piece", parse_coin_date("1904"), type="torvald")
    assert states(fill([slot("1894", coin_type="torvald")], [piece], dated=False)) == [State.FILLED]


def test_no_slots_and_no_coins_are_a_tally_of_nought():
    count = tally(fill([], []))
    assert (count.slots, count.filled, count.below, count.missing, count.left_out) == (0, 0, 0, 0, 0)
