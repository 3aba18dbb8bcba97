"""What a higher or lower ``at least`` would do to an aim: the slots filled at each step of the scale."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from daterun.checks.completeness import Fitting, Rules, coins_by_slot, is_left_out
from daterun.checks.slots import Slot
from daterun.trade.scales import STEPS


@dataclass(frozen=True, slots=True)
class Point:
    """How many slots would be filled if the aim asked for at least a number of the scale, or for any grade."""

    at_least: int | None
    filled: int


def grade_curve(
    slots: Sequence[Slot],
    coins: Iterable[Fitting],
    rules: Rules,
    left_out: frozenset[tuple[str, str]] = frozenset(),
    dated: bool = True,
) -> tuple[Point, ...]:
    """Count, for any grade and each of the thirty steps, the slots that would be filled, all else being equal.

    It is what filling the aim again would give: a refused problem coin counts nowhere, whatever its grade, and
    a coin that fits two slots counts in one.
    """
    anyhow = replace(rules, at_least=None)
    found = [
        [coin for coin in fitting if anyhow.accept(coin)]
        for slot, fitting in zip(slots, coins_by_slot(slots, coins, rules, dated), strict=True)
        if not is_left_out(slot, left_out)
    ]
    ranks = {coin.id: _rank(coin, rules) for fitting in found for coin in fitting}
    claims = sum(len(fitting) for fitting in found)
    thresholds = [None, *(step.number for step in STEPS)]
    if claims == len(ranks):  # no coin fits two slots, so the best coin of each settles it
        best = [max((ranks[coin.id] for coin in fitting), default=None) for fitting in found]
        return tuple(
            Point(least, sum(1 for each in best if each is not None and each >= (least or -1)))
            for least in thresholds
        )
    return tuple(Point(least, _most_filled(found, ranks, least)) for least in thresholds)


def _rank(coin: Fitting, rules: Rules) -> Fraction:
    return coin.grade.counted(rules.counts.value) if coin.grade is not None else Fraction(-1)


def _most_filled(found: Sequence[Sequence[Fitting]], ranks: dict[str, Fraction], least: int | None) -> int:
    """Count the most slots that can be filled together by coins of a grade or better (Kuhn's algorithm)."""
    choices = [[coin.id for coin in fitting if least is None or ranks[coin.id] >= least] for fitting in found]
    holder: dict[str, int] = {}

    def place(nth: int, seen: set[str]) -> bool:
        for coin in choices[nth]:
            if coin not in seen:
                seen.add(coin)
                if coin not in holder or place(holder[coin], seen):
                    holder[coin] = nth
                    return True
        return False

    return sum(place(nth, set()) for nth in range(len(choices)))
