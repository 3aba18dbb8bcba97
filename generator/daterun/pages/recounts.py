"""Counting again at a grade: what a figure says where only coins of a grade or better count.

It is worked out and worded here, for each step of the pages' control, so that a page only chooses what to show.
What a figure says stands with the step from which it says so.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from daterun.checks.completeness import Filled, State
from daterun.pages.cabinet import Cabinet
from daterun.pages.pieces import Link, Recounted
from daterun.pages.slots import rank_of
from daterun.records.aims import End

T = TypeVar("T")

STEPS = (4, 8, 12, 20, 40, 50, 60, 65)
"""The steps of the control on the 70-point scale, beside that at which every grade counts."""


def fall(states: Iterable[Filled], cabinet: Cabinet, least: int, counts: End = End.LOW) -> tuple[Filled, ...]:
    """Let the slots fall whose coin is below a step; as many stay filled as if they were filled again.

    For the best coins that can be placed together are placed, and of these those above any step are the most that
    can be (as in every matroid: Edmonds, Mathematical Programming 1, 1971).
    """
    return tuple(
        Filled(each.slot, State.BELOW, each.coin, each.spares)
        if each.state is State.FILLED
        and rank_of(cabinet.by_id[each.coin] if each.coin else None, counts) < least * 100
        else each
        for each in states
    )


def at_steps(now: T, say: Callable[[int], T]) -> tuple[tuple[int, T], ...]:
    """List what is said at each step, but only where it is not what was said before it."""
    found: list[tuple[int, T]] = []
    before = now
    for step in STEPS:
        said = say(step)
        if said != before:
            found.append((step, said))
            before = said
    return tuple(found)


def recounted(now: Link, later: Sequence[Link]) -> Link:
    """Let a link say what it says at every step, as it is given for each in order."""
    by_step = dict(zip(STEPS, later, strict=True))
    again = at_steps(now, by_step.__getitem__)
    return Recounted(now.text, now.address, again) if again else now
