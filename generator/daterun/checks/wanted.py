"""What to look for next: the missing in order of scarcity, what is to be upgraded, and what is spare.

How the lists are worded is left to the pages.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from daterun.checks.completeness import Filled, Rules, State
from daterun.records.coins import Strike
from daterun.records.struck import Figures
from daterun.trade.grading import Grade
from daterun.trade.scales import STEPS


def struck_for(figures: Figures, strikes: Sequence[Strike] = (Strike.ORDINARY,)) -> tuple[int, ...]:
    """Give the number of pieces from which a slot can be filled, or those that sources disagree on.

    Ordinary strikes are the mintage less its proofs, proofs the proofs alone. Empty where the number is not
    known, which is never nought.
    """
    proofs = (figures.proofs,) if figures.proofs is not None else ()
    if Strike.ORDINARY not in strikes:
        return proofs if Strike.PROOF in strikes else ()
    if Strike.PROOF not in strikes:
        return figures.ordinary
    if figures.proofs_only:
        return proofs
    return tuple(each + sum(proofs) for each in figures.ordinary)


def by_scarcity(
    states: Iterable[Filled], strikes: Sequence[Strike] = (Strike.ORDINARY,)
) -> tuple[Filled, ...]:
    """List what is missing, the scarcest first and those of unknown number last, these in order of date.

    Where sources disagree, the lowest figure places a slot.
    """

    def place(each: Filled) -> tuple[bool, int, tuple[int, int, int, str], str, str]:
        struck = struck_for(each.slot.figures, strikes)
        slot = each.slot
        return not struck, min(struck, default=0), slot.date.sort, slot.series, slot.name

    return tuple(sorted((each for each in states if each.state is State.MISSING), key=place))


@dataclass(frozen=True, slots=True)
class Upgrade:
    """A slot below its aim, and how many steps of the scale its coin falls short.

    Nought steps mean that the coin is refused as a problem coin alone; None that it has no grade.
    """

    filled: Filled
    steps: int | None
    is_problem: bool


def upgrades(
    states: Iterable[Filled], rules: Rules, grades: Mapping[str, Grade | None], problem_coins: frozenset[str]
) -> tuple[Upgrade, ...]:
    """List the slots below an aim, those that fall furthest short first and the ungraded last."""
    found = []
    for each in states:
        if each.state is State.BELOW and each.coin is not None:
            refused = not rules.accepts_problems and each.coin in problem_coins
            found.append(Upgrade(each, _steps_below(grades.get(each.coin), rules), refused))
    return tuple(
        sorted(
            found,
            key=lambda each: (
                each.steps is None,
                -(each.steps or 0),
                each.filled.slot.date.sort,
                each.filled.slot.series,
                each.filled.slot.name,
            ),
        )
    )


def _steps_below(grade: Grade | None, rules: Rules) -> int | None:
    if rules.at_least is None:
        return 0
    if grade is None:
        return None
    counted: Fraction = grade.counted(rules.counts.value)
    return sum(1 for step in STEPS if counted < step.number <= rules.at_least)


def spare_everywhere(several: Iterable[Sequence[Filled]]) -> tuple[str, ...]:
    """List the coins that are spare of some slot and stand in none, over several aims and runs."""
    lists = list(several)
    standing = {each.coin for states in lists for each in states if each.coin is not None}
    spares = [coin for states in lists for each in states for coin in each.spares]
    return tuple(dict.fromkeys(coin for coin in spares if coin not in standing))
