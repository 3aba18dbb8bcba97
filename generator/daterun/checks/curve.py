"""What a higher or lower ``at least`` would do to an aim: the slots filled at each step of the scale."""

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from daterun.checks.completeness import Fitting, Rules, coins_by_slot, is_left_out
from daterun.checks.slots import Slot
from daterun.trade.scales import STEPS

_NUMBERS = tuple(step.number for step in STEPS)


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
    return curve_from(slots, coins_by_slot(slots, coins, rules, dated), rules, left_out)


def curve_from(
    slots: Sequence[Slot],
    by_slot: Sequence[Sequence[Fitting]],
    rules: Rules,
    left_out: frozenset[tuple[str, str]] = frozenset(),
) -> tuple[Point, ...]:
    """Draw the curve from the coins that fit each slot, as ``coins_by_slot`` lists them."""
    anyhow = replace(rules, at_least=None)
    found = [
        [coin for coin in fitting if anyhow.accept(coin)]
        for slot, fitting in zip(slots, by_slot, strict=True)
        if not is_left_out(slot, left_out)
    ]
    ranks = {coin.id: _steps_reached(coin, rules) for fitting in found for coin in fitting}
    claims = sum(len(fitting) for fitting in found)
    thresholds = (None, *_NUMBERS)
    if claims == len(ranks):  # no coin fits two slots, so the best coin of each settles it
        best = Counter(max(ranks[coin.id] for coin in fitting) for fitting in found if fitting)
        return tuple(
            Point(least, sum(best[reached] for reached in range(nth, len(thresholds))))
            for nth, least in enumerate(thresholds)
        )
    return tuple(Point(least, _most_filled(found, ranks, nth)) for nth, least in enumerate(thresholds))


def _steps_reached(coin: Fitting, rules: Rules) -> int:
    """Count the steps of the scale that a coin reaches; none without a grade."""
    if coin.grade is None:
        return 0
    counted = coin.grade.counted(rules.counts.value)
    return bisect_right(_NUMBERS, counted.numerator / counted.denominator)


def _most_filled(found: Sequence[Sequence[Fitting]], ranks: dict[str, int], least: int) -> int:
    """Count the most slots that can be filled together by coins that reach a step (Kuhn's algorithm)."""
    choices = [[coin.id for coin in fitting if ranks[coin.id] >= least] for fitting in found]
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
