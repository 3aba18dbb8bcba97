"""Where things stand in a plot: its frame, its axes and their ticks, in the units of the plot's own size."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from daterun.pages.figureviews import Guide, Mark, Plot, Tick
from daterun.pages.gridviews import LegendItem
from daterun.trade.scales import STEPS

WIDTH = 720
LETTER = 7
"""The widest that a letter of a tick is reckoned to be: the names of rows need so much room on the left."""

MOST_MARKS = 1500
"""With more marks than this, those about one place are drawn as one, or a page would be too heavy to open."""

_ASIDE = ((0, 0), (7, 0), (-7, 0), (0, 7), (0, -7), (7, 7), (-7, -7), (7, -7), (-7, 7))
"""Where marks go that would lie upon each other, in the order in which they come."""


@dataclass(frozen=True, slots=True)
class Paper:
    """The frame of a plot: its edges, within so much width and height."""

    width: int
    height: int
    left: int
    top: int
    right: int
    bottom: int

    def x(self, part: float) -> int:
        """Place a part of the way from the left edge to the right."""
        return round(self.left + (self.right - self.left) * part)

    def y(self, part: float) -> int:
        """Place a part of the way from the bottom edge to the top."""
        return round(self.bottom - (self.bottom - self.top) * part)


def paper(height: int, names: Iterable[str] = (), width: int = WIDTH) -> Paper:
    """Lay out a frame with room on the left for the names of its rows or the numbers of its axis."""
    left = 34 + LETTER * max((len(each) for each in names), default=5)
    return Paper(width, height, min(left, 240), 14, width - 44, height - 56)


@dataclass(frozen=True, slots=True)
class GradeAxis:
    """The steps of the scale, evenly set, from one under the lowest grade shown to one over the highest."""

    first: int
    last: int

    def part(self, step: int) -> float:
        return (step - self.first + 0.5) / (self.last - self.first + 1)

    def ticks(self) -> tuple[tuple[float, str], ...]:
        """Name the step at which each word of the scale begins, and every fifth of a long one."""
        named = []
        for nth in range(self.first, self.last + 1):
            step = STEPS[nth]
            begins = nth == self.first or STEPS[nth - 1].abbreviation != step.abbreviation
            if begins or step.number in (65, 70):
                named.append((self.part(nth), str(step)))
        return tuple(named)


def grade_axis(steps: Iterable[int]) -> GradeAxis:
    """Lay out an axis of grades for places among the thirty steps."""
    found = list(steps)
    return GradeAxis(max(min(found) - 1, 0), min(max(found) + 1, len(STEPS) - 1))


@dataclass(frozen=True, slots=True)
class EvenAxis:
    """An axis of numbers between two round ones, a tick at each step."""

    first: Fraction
    last: Fraction
    step: Fraction

    def part(self, number: Fraction) -> float:
        return float((number - self.first) / (self.last - self.first))

    def ticks(self) -> tuple[Fraction, ...]:
        count = (self.last - self.first) / self.step
        return tuple(self.first + self.step * nth for nth in range(int(count) + 1))


def even_axis(numbers: Iterable[Fraction], most_ticks: int = 8) -> EvenAxis:
    """Lay out an axis for numbers, nought among them, with round steps of 1, 2 or 5."""
    found = [Fraction(0), *numbers]
    low, high = min(found), max(found)
    if low == high:
        high = low + 1
    step = _round_step((high - low) / most_ticks)
    first = low // step * step
    last = -(-high // step) * step
    return EvenAxis(Fraction(first), Fraction(last), step)


def _round_step(least: Fraction) -> Fraction:
    """Find the smallest of 1, 2, 5 and their tenfolds and tenths that is no less."""
    power = Fraction(1)
    while power > least:
        power /= 10
    while power * 10 <= least:
        power *= 10
    return next(power * each for each in (1, 2, 5, 10) if power * each >= least)


@dataclass(frozen=True, slots=True)
class LogAxis:
    """An axis on which each power of ten is as far from the next."""

    first: int
    last: int

    def part(self, number: int) -> float:
        return (math.log10(number) - self.first) / (self.last - self.first)

    @property
    def powers(self) -> tuple[int, ...]:
        return tuple(10**each for each in range(self.first, self.last + 1))


def log_axis(numbers: Iterable[int]) -> LogAxis:
    """Lay out a logarithmic axis for whole numbers of one and more."""
    found = list(numbers)
    first = len(str(min(found))) - 1
    return LogAxis(first, max(len(str(max(found) - 1)) if max(found) > 1 else 0, first + 1))


def draw_together(
    marks: Sequence[Mark], say: Callable[[int], str], address: str, most: int = MOST_MARKS
) -> tuple[Mark, ...]:
    """Make one mark of all of a kind that lie about the same place, where there are too many to tell apart.

    Each then says how many it stands for, and leads to the address of their list; where there are few, all stay.
    """
    if len(marks) <= most:
        return tuple(marks)
    groups = Counter((each.x, each.y // 4 * 4, each.kind) for each in marks)
    return tuple(Mark(x, y, kind, say(count), address) for (x, y, kind), count in groups.items())


def spread_out(marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Move marks that would lie upon each other a little aside, so that each can be seen."""
    taken: dict[tuple[int, int], int] = {}
    found = []
    for each in marks:
        nth = taken.get((each.x, each.y), 0)
        taken[each.x, each.y] = nth + 1
        aside_x, aside_y = _ASIDE[nth % len(_ASIDE)]
        found.append(replace(each, x=each.x + aside_x, y=each.y + aside_y))
    return tuple(found)


def draw_plot(
    on: Paper,
    caption: str,
    summary: str,
    titles: tuple[str, str],
    x_ticks: Iterable[tuple[float, str]],
    y_ticks: Iterable[tuple[float, str]],
    guides: Iterable[Guide],
    marks: Sequence[Mark],
    legend: Iterable[LegendItem],
) -> Plot:
    """Put a plot together; of the legend only what stands in it is kept."""
    kinds = {each.kind for each in marks}
    return Plot(
        caption,
        summary,
        on.width,
        on.height,
        on.left,
        on.top,
        on.right,
        on.bottom,
        titles[0],
        titles[1],
        tuple(Tick(on.x(part), text) for part, text in x_ticks),
        tuple(Tick(on.y(part), text) for part, text in y_ticks),
        tuple(guides),
        spread_out(marks),
        tuple(each for each in legend if each.kind in kinds),
    )
