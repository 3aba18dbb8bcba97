from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as some

from daterun.pages.figureviews import Mark
from daterun.pages.gridviews import LegendItem
from daterun.pages.plots import draw_plot, even_axis, grade_axis, log_axis, paper, spread_out
from daterun.trade.scales import STEPS

STEP = some.integers(0, len(STEPS) - 1)


@given(some.lists(some.fractions(-20, 40, max_denominator=500), min_size=1, max_size=20))
def test_an_even_axis_holds_every_number_and_nought_between_round_ticks(numbers):
    axis = even_axis(numbers)
    ticks = axis.ticks()
    assert ticks[0] == axis.first and ticks[-1] == axis.last
    assert Fraction(0) in ticks
    assert 2 <= len(ticks) <= 12
    assert all(axis.first <= each <= axis.last for each in numbers)
    assert all(0 <= axis.part(each) <= 1 for each in numbers)
    power = Fraction(10) ** 6
    assert str(axis.step * power).rstrip("0") in ("1", "2", "5")


@given(some.lists(some.integers(1, 10**9), min_size=1, max_size=20))
def test_a_logarithmic_axis_holds_every_number_between_powers_of_ten(numbers):
    axis = log_axis(numbers)
    assert axis.powers[0] <= min(numbers) and max(numbers) <= axis.powers[-1]
    assert all(-1e-9 <= axis.part(each) <= 1 + 1e-9 for each in numbers)
    steps = [
        axis.part(high) - axis.part(low) for low, high in zip(axis.powers, axis.powers[1:], strict=False)
    ]
    assert max(steps) - min(steps) < 1e-9


@given(some.lists(STEP, min_size=1, max_size=20))
def test_grades_lie_evenly_in_their_order(steps):
    axis = grade_axis(steps)
    assert all(0 < axis.part(each) < 1 for each in steps)
    assert sorted(steps) == sorted(steps, key=axis.part)
    assert all(0 < part < 1 for part, _ in axis.ticks())


def test_an_axis_of_grades_names_the_step_where_each_word_begins():
    axis = grade_axis([8, 16])
    assert [text for _, text in axis.ticks()] == ["F12", "VF20", "EF40", "AU50"]


def test_a_plot_leaves_room_for_the_names_of_its_rows():
    narrow, wide = paper(300, ["Ort"]), paper(300, ["Quarter skilling"])
    assert narrow.left < wide.left
    assert (wide.x(0), wide.x(1)) == (wide.left, wide.right)
    assert (wide.y(0), wide.y(1)) == (wide.bottom, wide.top)


def test_marks_that_would_lie_upon_each_other_are_moved_aside():
    marks = [Mark(10, 10, "dot", f"coin {nth}", "") for nth in range(5)]
    moved = spread_out(marks)
    assert len({(each.x, each.y) for each in moved}) == 5
    assert [each.text for each in moved] == [each.text for each in marks]


def test_the_legend_tells_only_what_stands_in_the_plot():
    legend = [LegendItem("dot", "held"), LegendItem("ring", "missing")]
    plot = draw_plot(
        paper(300),
        "A plot",
        "One mark.",
        ("x", "y"),
        [(0.5, "half")],
        [],
        [],
        [Mark(100, 100, "ring", "a gap", "")],
        legend,
    )
    assert [each.kind for each in plot.legend] == ["ring"]
