"""Where the bounds of weights lie, to the last figure."""

import pytest

COIN = "content/coins/one.md"


@pytest.mark.parametrize(
    ("weight", "rules"),
    [
        ("9.451 g", ["far over the standard"]),
        ("9.450 g", ["over the remedy"]),  # 5 % over the 9.000 g, and no more
        ("9.051 g", ["over the remedy"]),
        ("9.041 g", []),  # over by the remedy of 0.040 g and a last figure of 0.001 g
        ("9.05 g", []),  # the same to a last figure of 0.01 g
        ("9.06 g", ["over the remedy"]),
        ("9.1 g", []),  # a last figure of 0.1 g tells no more
        ("8.00 g", ["far under the standard"]),
        ("8.550 g", []),  # 5 % under, and no more
        ("8.549 g", ["far under the standard"]),
        ("139 gr", []),  # 9.007 g
    ],
)
def test_a_weight_is_held_to_standard_remedy_and_reading(rules_of, coin, weight, rules):
    assert rules_of({COIN: coin("1891", "grade: VF20", f"weight: {weight}")}) == rules


@pytest.mark.parametrize(
    ("grade", "rules"),
    [
        ("EF40", ["under the remedy"]),
        ("MS64", ["under the remedy"]),
        ("VF35", []),
        ("VF35–EF40", []),  # the low end counts
        ("VF30/EF45", []),  # and the lower side
        ("GVF", []),  # 35 to 45 by common practice
    ],
)
def test_a_sharp_coin_is_held_to_the_remedy_below_too(rules_of, coin, grade, rules):
    assert rules_of({COIN: coin("1891", f"grade: {grade}", "weight: 8.959 g")}) == rules
    assert rules_of({COIN: coin("1891", f"grade: {grade}", "weight: 8.960 g")}) == []


def test_a_coin_with_metal_gone_may_be_light(rules_of, coin):
    assert rules_of({COIN: coin("1891", "grade: EF45", "problem: holed", "weight: 8.10 g")}) == []


def test_without_a_remedy_only_a_slip_of_the_pen_is_told(rules_of, coin, base_files):
    path = "content/series/vessmark/ort.yaml"
    series = base_files[path].replace(" remedy: 0.040 g,", "")
    assert rules_of({path: series, COIN: coin("1891", "grade: EF45", "weight: 9.20 g")}) == []
    assert rules_of({path: series, COIN: coin("1891", "grade: EF45", "weight: 9.46 g")}) == [
        "far over the standard"
    ]


def test_the_standard_that_the_coin_names_is_the_one_it_is_held_to(rules_of, coin, base_files):
    path = "content/series/vessmark/ort.yaml"
    light = "  - {dates: 1891–1892, id: light, metal: silver, weight: 6.000 g, source: a decree}\n"
    series = base_files[path].replace("types:\n", light + "types:\n")
    files = {path: series, COIN: coin("1891", "standard: light", "weight: 6.00 g")}
    assert rules_of(files) == []
    assert rules_of({**files, COIN: coin("1891", "standard: 1891-1903", "weight: 6.00 g")}) == [
        "far under the standard"
    ]
