from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from daterun.problems import Misread
from daterun.trade.grading import CORRESPONDENCE, STEPS, Grade, Habit, parse_grade

FACTS = Path(__file__).parents[1] / "facts"
GRADING = yaml.load((FACTS / "grading.yaml").read_text("utf-8"), yaml.BaseLoader)
SEVENTY, BRITISH = Habit.SEVENTY, Habit.BRITISH
BOTH = pytest.mark.parametrize("habit", [SEVENTY, BRITISH])


def interval(text, habit=SEVENTY):
    grade = parse_grade(text, habit)
    return grade.low, grade.high


def misread(text, habit=SEVENTY):
    with pytest.raises(Misread) as caught:
        parse_grade(text, habit)
    return caught.value.sentence, caught.value.hint


# --- numbers ---------------------------------------------------------------------


@BOTH
@pytest.mark.parametrize("step", STEPS, ids=str)
def test_every_step_is_read_by_its_word_and_number_in_either_habit(step, habit):
    for joint in ("", "-", " "):
        grade = parse_grade(f"{step.abbreviation}{joint}{step.number}", habit)
        assert (grade.low, grade.high, grade.habit) == (step.number, step.number, SEVENTY)
        assert not grade.approximate
    assert interval(str(step.number), habit) == (step.number, step.number)


@pytest.mark.parametrize("number", GRADING["written"])
def test_a_step_is_the_same_however_it_is_written(number):
    assert {interval(text) for text in GRADING["written"][number]} == {(int(number), int(number))}


def test_a_grade_is_shown_as_it_was_written():
    for text in ("XF 45", "vf-20", "gVF/EF", "EF45 details, cleaned", "VF30-EF40"):
        assert str(parse_grade(f" {text} ", SEVENTY)) == text


def test_a_plus_lies_between_its_step_and_the_next():
    grade = parse_grade("MS-64+", SEVENTY)
    assert grade.plus
    assert 64 < grade.low == grade.high < 65
    assert interval("64+") == interval("MS64+") == interval("MS 64 +")
    assert 45 < interval("EF45+")[0] < 50


@BOTH
def test_a_number_above_the_scale_is_misread_with_its_top(habit):
    assert misread("MS-72", habit) == (
        'grade "MS-72" is above the top of the 70-point scale',
        "the scale runs from 1 to 70; write MS-70 or lower",
    )


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("PF-72", "is above the top", "write PF-70 or lower"),
        ("XF72", "is above the top", "write MS70 or lower"),
        ("MS70+", "is above the top", "write MS70 or lower"),
        ("PO-0", "is below the bottom", "write PO-1 or higher"),
        ("0", "is below the bottom", "write PO1 or higher"),
    ],
)
def test_the_scale_runs_from_1_to_70(text, sentence, hint):
    assert misread(text) == (
        f'grade "{text}" {sentence} of the 70-point scale',
        f"the scale runs from 1 to 70; {hint}",
    )


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("VF22", "write VF20 or VF25"),
        ("vf-22", "write VF-20 or VF-25"),
        ("VF39", "write VF35 or EF40"),
        ("XF42", "write XF40 or XF45"),
        ("XF47", "write XF45 or AU50"),
        ("AU 51", "write AU 50 or AU 53"),
        ("MS64.5", "write MS64 or MS65"),
        ("PR64.5", "write PR64 or PR65"),
        ("22", "write VF20 or VF25"),
        ("G5", "write G4 or G6"),
    ],
)
def test_a_number_between_steps_is_misread_with_its_neighbours(text, hint):
    assert misread(text) == (f'grade "{text}" is between two steps of the 70-point scale', hint)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("EF20", "EF runs from 40 to 45; 20 is VF20"),
        ("MS58", "MS runs from 60 to 70; 58 is AU58"),
        ("AU60", "AU runs from 50 to 58; 60 is MS60"),
        ("AG4", "AG is 3; 4 is G4"),
        ("F2", "F runs from 12 to 15; 2 is FR2"),
    ],
)
def test_a_word_and_a_number_that_disagree_are_misread(text, hint):
    assert misread(text) == (f'grade "{text}" has a word and a number that disagree', hint)


@given(some.integers(-5, 200).filter(lambda number: number not in {step.number for step in STEPS}))
def test_only_the_steps_in_use_are_grades(number):
    with pytest.raises(Misread):
        parse_grade(f"MS{number}", SEVENTY)


# --- words -----------------------------------------------------------------------


@pytest.mark.parametrize("word", [word for word in GRADING["steps"] if word not in ("PO", "FR")])
def test_a_bare_word_takes_all_its_steps_in_the_seventy_point_habit(word):
    numbers = [int(number) for number in GRADING["steps"][word]]
    assert interval(word, SEVENTY) == (numbers[0], numbers[-1])


@pytest.mark.parametrize("word", CORRESPONDENCE)
def test_every_word_of_the_ladder_is_read_in_the_british_habit(word):
    grade = parse_grade(word, BRITISH)
    assert (grade.low, grade.high) == CORRESPONDENCE[word]
    assert grade.habit is BRITISH
    assert grade.approximate


def test_a_bare_word_of_both_scales_is_meant_as_the_habit_says():
    assert interval("EF", SEVENTY) == (40, 45)
    assert interval("EF", BRITISH) == (50, 55)
    assert interval("Fair", SEVENTY) == (2, 2)
    assert interval("Fair", BRITISH) == (2, 4)
    assert interval("P", SEVENTY) == (1, 1)
    assert interval("About Uncirculated", SEVENTY) == (50, 58)
    assert interval("About Uncirculated", BRITISH) == (58, 60)


@BOTH
@pytest.mark.parametrize(
    "word", ["GVF", "AEF", "NEF", "GEF", "NVF", "UNC", "BU", "FDC", "AUNC", "NUNC", "GF"]
)
def test_words_that_only_the_ladder_has_are_british_in_either_habit(word, habit):
    grade = parse_grade(word, habit)
    assert grade.habit is BRITISH
    assert (grade.low, grade.high) == CORRESPONDENCE[word]


@BOTH
@pytest.mark.parametrize("word", ["AU", "XF", "MS", "AG", "PO", "FR"])
def test_words_that_only_the_scale_has_are_the_scales_in_either_habit(word, habit):
    assert parse_grade(word, habit).habit is SEVENTY


@BOTH
def test_g_is_good_as_a_grade_and_better_than_before_one(habit):
    assert interval("G", habit) == interval("Good", habit) == (4, 6)
    assert interval("GF", habit) == interval("Good Fine", habit) == CORRESPONDENCE["GF"]
    assert interval("GVF", habit) > interval("VF", habit)


@BOTH
def test_f_is_fine_and_never_fair(habit):
    assert interval("F", habit) == (12, 15)
    assert interval("F", habit) == interval("Fine", habit)
    assert interval("F", habit) > interval("Fair", habit)


@BOTH
@pytest.mark.parametrize(
    ("long", "short"),
    [
        ("about EF", "AEF"),
        ("nearly ef", "NEF"),
        ("Good VF", "GVF"),
        ("good very fine", "GVF"),
        ("Nearly Extremely Fine", "NEF"),
        ("About Very Fine", "AVF"),
        ("a.EF", "AEF"),
        ("gVF", "GVF"),
        ("about Unc", "AUNC"),
        ("Uncirculated", "UNC"),
        ("Brilliant Uncirculated", "BU"),
        ("Fleur de coin", "FDC"),
        ("Very Fine", "VF"),
        ("Extremely Fine", "EF"),
        ("very good", "VG"),
        ("Choice Extremely Fine", "EF45"),
        ("Mint State", "MS"),
        ("Gem Mint State", "MS65–MS66"),
    ],
)
def test_long_names_are_their_short_forms(long, short, habit):
    assert interval(long, habit) == interval(short, habit)


def test_a_plus_behind_a_word_is_used_like_good_before_it():
    # From memory, not checked, for the ladder; for the scale, its upper steps are a choice made here.
    assert interval("VF+", BRITISH) == CORRESPONDENCE["GVF"]
    assert interval("VF+", SEVENTY) == (30, 35)
    assert interval("EF+", SEVENTY) == (45, 45)
    assert parse_grade("VF+", BRITISH).plus


def test_the_ladder_rises_when_its_words_are_read():
    grades = [parse_grade(word, BRITISH) for word in GRADING["ladder"]]
    for lower, higher in pairwise(grades):
        assert lower.counted("low") <= higher.counted("low")
        assert lower.counted("high") <= higher.counted("high")


# --- ranges and split grades -------------------------------------------------------


@pytest.mark.parametrize(
    "text", ["VF30–EF40", "VF30-EF40", "VF-30-EF-40", "VF 30 – EF 40", "VF30 to EF40", "VF30—40", "30-40"]
)
def test_a_range_runs_from_its_first_grade_to_its_last(text):
    grade = parse_grade(text, SEVENTY)
    assert (grade.low, grade.high) == (30, 40)
    assert [grade.counted(end) for end in ("low", "middle", "high")] == [30, 35, 40]
    assert grade.counted() == 30


def test_a_range_of_words_takes_the_whole_of_both():
    assert interval("VF-EF", SEVENTY) == (20, 45)
    assert interval("VF-EF", BRITISH) == (25, 55)


def test_a_range_that_runs_downward_is_misread():
    assert misread("EF40-VF30") == ('grade "EF40-VF30" runs downward', "write VF30–EF40")


def test_a_wrong_number_inside_a_range_is_still_told():
    assert misread("VF22-EF40") == (
        'grade "VF22" is between two steps of the 70-point scale',
        "write VF20 or VF25",
    )


def test_a_split_grade_counts_its_lower_side():
    grade = parse_grade("EF45/VF30", SEVENTY)
    assert (grade.low, grade.high) == (30, 45)
    assert [grade.counted(end) for end in ("low", "middle", "high")] == [30, 30, 30]
    assert (grade.on("obverse").text, grade.on("reverse").text) == ("EF45", "VF30")


def test_a_grade_that_is_not_split_is_the_same_on_both_sides():
    grade = parse_grade("EF45", SEVENTY)
    assert grade.on("obverse") is grade.on("reverse") is grade


def test_a_split_of_ranges_counts_the_wanted_end_of_its_lower_side():
    grade = parse_grade("VF20-VF30/EF40", SEVENTY)
    assert [grade.counted(end) for end in ("low", "middle", "high")] == [20, 25, 30]


def test_a_british_word_tells_how_the_word_beside_it_is_meant():
    assert parse_grade("GVF/EF", SEVENTY) == parse_grade("GVF/EF", BRITISH)
    assert interval("GVF–EF", SEVENTY) == (35, 55)
    assert parse_grade("GVF/EF", SEVENTY).approximate


def test_uncirculated_is_said_in_both_habits_and_tells_neither():
    assert parse_grade("EF/UNC", SEVENTY).on("obverse").low == 40
    assert parse_grade("EF/UNC", BRITISH).on("obverse").low == 50


@pytest.mark.parametrize("text", ["EF/", "/EF", "VF/EF/AU"])
def test_a_split_grade_has_two_sides(text):
    assert misread(text) == (
        f'grade "{text}" is not two sides',
        "write obverse and reverse with one stroke: GVF/EF",
    )


@given(some.sampled_from(STEPS), some.sampled_from(STEPS), some.sampled_from(["–", "-", " to ", "/"]))
def test_any_two_steps_in_order_make_a_range_and_any_two_a_split(one, two, joint):
    text = f"{one}{joint}{two}"
    if joint != "/" and two < one:
        assert misread(text)[0] == f'grade "{text}" runs downward'
    else:
        grade = parse_grade(text, SEVENTY)
        assert {grade.low, grade.high} == {one.number, two.number}
        assert grade.counted() == min(one.number, two.number)


# --- strike, colour, cameo, lustre ---------------------------------------------------


@pytest.mark.parametrize(
    ("text", "strike", "number"),
    [
        ("PF65", "proof", 65),
        ("PR-65", "proof", 65),
        ("PRF 65", "proof", 65),
        ("Proof 65", "proof", 65),
        ("SP64", "specimen", 64),
        ("PF58", "proof", 58),
    ],
)
def test_a_prefix_says_how_the_coin_was_struck_and_takes_any_step(text, strike, number):
    # PF58 is an impaired proof: an unimpaired one does not fall under 60.
    # Pacific Northwest Numismatic Association, http://www.pnna.org/reference/grading.html
    grade = parse_grade(text, SEVENTY)
    assert (grade.strike, grade.low, grade.high) == (strike, number, number)


def test_an_unimpaired_proof_does_not_fall_under_sixty():
    grade = parse_grade("proof", BRITISH)
    assert (grade.strike, grade.low) == ("proof", int(GRADING["lowest unimpaired proof"]))


def test_a_proof_may_have_a_grade_in_words():
    for text in ("Proof FDC", "FDC proof", "PF FDC"):
        grade = parse_grade(text, BRITISH)
        assert (grade.strike, grade.low, grade.text) == ("proof", CORRESPONDENCE["FDC"][0], text)
    assert parse_grade("PF64/65", SEVENTY).on("reverse").strike == "proof"


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("MS64 RB", "colour", "RB"),
        ("MS65RD", "colour", "RD"),
        ("UNC BN", "colour", "BN"),
        ("VF-EF RB", "colour", "RB"),
        ("MS64 RB–MS65 RB", "colour", "RB"),
        ("PF66DCAM", "cameo", "DCAM"),
        ("PF-66 UCAM", "cameo", "UCAM"),
        ("PR65 cam", "cameo", "CAM"),
        ("MS64PL", "prooflike", True),
        ("UNC, 50% lustre", "lustre", "50% lustre"),
        ("EF, traces of lustre", "lustre", "traces of lustre"),
    ],
)
def test_what_follows_a_grade_is_kept_beside_it(text, field, value):
    grade = parse_grade(text, SEVENTY)
    assert getattr(grade, field) == value
    assert grade.text == text


def test_colour_and_cameo_may_stand_together_and_do_not_move_the_grade():
    grade = parse_grade("PF66+ RD CAM", SEVENTY)
    assert (grade.colour, grade.cameo, grade.strike, grade.plus) == ("RD", "CAM", "proof", True)
    assert (grade.low, grade.high) == interval("PF66+")


def test_each_side_may_have_its_own_colour():
    grade = parse_grade("MS64 RB/MS65 RD", SEVENTY)
    assert (grade.on("obverse").colour, grade.on("reverse").colour) == ("RB", "RD")


def test_a_grade_has_one_colour_and_only_a_proof_a_cameo():
    assert misread("EF40 RD RB") == ('grade "EF40 RD RB" has two colours', "keep RD or RB")
    assert misread("MS63 RB–MS64 RD") == ('grade "MS63 RB–MS64 RD" has two colours', "keep RB or RD")
    assert misread("MS65 DCAM") == (
        'grade "MS65 DCAM" has a cameo but is no proof',
        "write it as a proof: PF65 DCAM",
    )


# --- problem coins -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "low", "reason"),
    [
        ("EF details", 40, ""),
        ("EF45 details, cleaned", 45, "cleaned"),
        ("EF45 Details (cleaned)", 45, "cleaned"),
        ("EF-45 details: cleaned and scratched", 45, "cleaned and scratched"),
        ("UNC details – polished", 60, "polished"),
        ("PF details, hairlines", 60, "hairlines"),
        ("VF20-VF30 details, ex-jewellery", 20, "ex-jewellery"),
    ],
)
def test_a_problem_coin_keeps_its_grade_and_says_why(text, low, reason):
    grade = parse_grade(text, SEVENTY)
    assert (grade.details, grade.reason, grade.low, grade.text) == (True, reason, low, text)


def test_both_sides_of_a_problem_coin_are_problem_sides():
    grade = parse_grade("VF30/EF40 details, cleaned", SEVENTY)
    assert grade.on("obverse").details and grade.on("reverse").reason == "cleaned"
    assert not parse_grade("VF30/EF40", SEVENTY).details


def test_a_problem_beside_the_grade_is_sent_to_its_place():
    assert misread("EF45, cleaned") == (
        'grade "EF45, cleaned" has more in it than a grade',
        "for a problem coin write EF45 details, cleaned; put the rest under reasons",
    )
    assert misread("details, cleaned") == (
        'grade "details, cleaned" does not say how worn the coin is',
        "write EF details, cleaned",
    )


# --- what no scale has -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "sentence", "hint"),
    [
        ("", "the grade is empty", "write a grade such as VF30 or GVF"),
        (
            "worn out",
            'grade "worn out" is on no scale',
            "write a grade such as VF30, EF, GVF or MS-64",
        ),
        ("UNX", 'grade "UNX" is on no scale', 'did you mean "UNC"?'),
        ("GXF", 'grade "GXF" is on no scale', 'did you mean "XF"?'),
        ("EF-", 'grade "EF-" ends in a dash', "write about EF, or both ends of a range"),
        ("VFF20", 'grade "VFF20" begins with no word of the 70-point scale', 'did you mean "VF"?'),
    ],
)
def test_what_no_scale_has_is_misread(text, sentence, hint):
    assert misread(text) == (sentence, hint)


@given(some.text(max_size=20), some.sampled_from(Habit))
def test_any_text_is_either_a_grade_on_the_scale_or_misread(text, habit):
    try:
        grade = parse_grade(text, habit)
    except Misread as caught:
        assert caught.sentence
    else:
        assert 1 <= grade.low <= grade.high <= 70


@given(
    some.lists(
        some.sampled_from(
            [
                "EF",
                "GVF",
                "VF",
                "45",
                "70",
                "+",
                "-",
                "–",
                "/",
                " ",
                "details",
                ",",
                "RD",
                "CAM",
                "PF",
                "about",
                "MS",
            ]
        ),
        max_size=7,
    ),
    some.sampled_from(Habit),
)
def test_any_heap_of_the_words_of_grading_is_either_a_grade_or_misread(pieces, habit):
    try:
        grade = parse_grade("".join(pieces), habit)
    except Misread as caught:
        assert caught.sentence
    else:
        assert isinstance(grade, Grade)
        assert Fraction(1) <= grade.counted("low") <= grade.counted("middle") <= grade.counted("high") <= 70
