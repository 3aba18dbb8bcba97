from pathlib import Path

import pytest
import yaml

from daterun.trade.scales import (
    BRITISH_NAMES,
    CORRESPONDENCE,
    STEP_BY_NUMBER,
    STEPS,
    Step,
    nearest_step,
    neighbours,
    steps_of,
)

FACTS = Path(__file__).parents[1] / "facts"
GRADING = yaml.load((FACTS / "grading.yaml").read_text("utf-8"), yaml.BaseLoader)


def test_the_seventy_point_scale_has_thirty_steps_in_use():
    listed = [(word, int(number)) for word, numbers in GRADING["steps"].items() for number in numbers]
    assert [(step.abbreviation, step.number) for step in STEPS] == listed
    assert len(STEPS) == len(STEP_BY_NUMBER) == 30


def test_nineteen_steps_lie_below_mint_state_and_eleven_in_it():
    counts = GRADING["count"]
    assert sum(step.number < 60 for step in STEPS) == int(counts["below mint state"])
    assert sum(step.abbreviation == "MS" for step in STEPS) == int(counts["mint state"])


@pytest.mark.parametrize("word", GRADING["steps"])
def test_a_word_runs_from_its_lowest_step_to_its_highest(word):
    numbers = [int(number) for number in GRADING["steps"][word]]
    assert steps_of(word) == (numbers[0], numbers[-1])


@pytest.mark.parametrize("word", GRADING["correspondence"])
def test_the_british_ladder_lies_on_the_scale_as_common_practice_has_it(word):
    low, high = GRADING["correspondence"][word]
    assert CORRESPONDENCE[word] == (int(low), int(high))


def test_the_british_ladder_never_falls_from_one_word_to_the_next():
    places = [CORRESPONDENCE[word] for word in GRADING["ladder"]]
    assert places == sorted(places)
    assert [high for _, high in places] == sorted(high for _, high in places)


def test_every_word_between_two_of_the_ladder_lies_between_them():
    assert list(CORRESPONDENCE.values()) == sorted(CORRESPONDENCE.values())
    assert set(GRADING["ladder"]) | {"NVG", "AVG", "GVG", "NFDC", "AFDC"} == set(CORRESPONDENCE)


def test_a_british_word_lies_no_lower_than_the_same_word_of_the_scale():
    # A British grade is stricter: common practice, no published source.
    for word in ("F", "VF", "EF"):
        assert CORRESPONDENCE[word] >= steps_of(word)
    assert CORRESPONDENCE["EF"][0] > steps_of("EF")[1]


def test_every_bare_word_of_the_ladder_has_its_name_in_full():
    assert BRITISH_NAMES["GVF"[1:]] == "Very Fine"
    assert set(BRITISH_NAMES) <= set(CORRESPONDENCE)


@pytest.mark.parametrize(
    ("number", "step"), [(22, 20), (23, 25), (42.5, 40), (0, 1), (71, 70), (5, 4), (64, 64)]
)
def test_the_nearest_step_is_the_lower_of_two_equally_near(number, step):
    assert nearest_step(number).number == step


def test_the_neighbours_of_a_number_are_the_steps_about_it():
    assert neighbours(48) == (Step(45, "EF", "Choice Extremely Fine"), Step(50, "AU", "About Uncirculated"))
    assert [str(step) for step in neighbours(2.5)] == ["FR2", "AG3"]
