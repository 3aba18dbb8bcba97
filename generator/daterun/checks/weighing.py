"""How weights lie against the standard and its remedy, what wear has taken by grade, and weighings in water.

No weight and no gravity proves a coin genuine, nor a light one false; whether a weight can be at all is checked
in ``weights.py``.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from daterun.checks.agreement import step_of
from daterun.checks.quantiles import Quartiles, quartiles
from daterun.checks.weights import METAL_GONE
from daterun.problems import Misread
from daterun.trade.grading import Grade
from daterun.trade.measures import Weight
from daterun.trade.metals import Gravity, specific_gravity
from daterun.trade.scales import STEPS

ALLOY_ALLOWANCE = Fraction(1, 100)
"""How far an alloy may lie from what its parts give: published figures for coin silver and bronze stay within
about 1 per cent of that rule, which takes volumes to add (see ``trade/metals.py``)."""


class AgainstRemedy(StrEnum):
    """Where a weight lies against the standard: within the remedy or beyond it, or no remedy is laid down."""

    WITHIN = "within"
    LIGHT = "light"
    HEAVY = "heavy"
    NOT_LAID_DOWN = "not-laid-down"


@dataclass(frozen=True, slots=True)
class Weighing:
    """A coin's weight beside its standard; the remedy is None where none is laid down.

    Altered are coins that have lost metal otherwise than by wear: holed, clipped, filed. The loss is the part of
    the standard weight that is gone, below nought where the coin is heavier. Against the remedy says where the
    weight lies; it is over only by more than the last figure as it was written.
    """

    coin: str
    measured: Weight
    standard: Weight
    remedy: Weight | None
    grade: Grade | None
    is_altered: bool = False
    loss: Fraction = field(init=False)
    against_remedy: AgainstRemedy = field(init=False)

    def __post_init__(self) -> None:
        loss = Fraction(self.standard.grams - self.measured.grams) / Fraction(self.standard.grams)
        object.__setattr__(self, "loss", loss)
        object.__setattr__(self, "against_remedy", self._against())

    def _against(self) -> AgainstRemedy:
        over = self.measured.grams - self.standard.grams
        if self.remedy is None:
            return AgainstRemedy.NOT_LAID_DOWN
        if over > self.remedy.grams and over > self.remedy.grams + self.measured.last_figure:
            return AgainstRemedy.HEAVY
        return AgainstRemedy.LIGHT if -over > self.remedy.grams else AgainstRemedy.WITHIN


def has_lost_metal(problems: Iterable[str]) -> bool:
    """Tell whether any problem of a coin means that metal is gone otherwise than by wear."""
    return not METAL_GONE.isdisjoint(each.casefold() for each in problems)


@dataclass(frozen=True, slots=True)
class Losses:
    """What coins of one word of the 70-point scale have lost, as parts of the standard weight."""

    word: str
    lowest: int
    coins: tuple[str, ...]
    quartiles: Quartiles


def losses_by_word(weighings: Iterable[Weighing]) -> tuple[Losses, ...]:
    """Work out the losses by the word that each grade counts as, lowest first.

    Coins without a grade, and those that have lost metal otherwise, are in none.
    """
    groups: dict[str, list[Weighing]] = {}
    for each in weighings:
        if each.grade is not None and not each.is_altered:
            groups.setdefault(word_of(each.grade), []).append(each)
    found = []
    for word, lowest in lowest_of_words().items():
        group = groups.get(word, [])
        parts = quartiles(each.loss for each in group)
        if parts is not None:
            found.append(Losses(word, lowest, tuple(each.coin for each in group), parts))
    return tuple(found)


def lowest_of_words() -> dict[str, int]:
    """Give the lowest number of each word of the 70-point scale, in their order: 20 for VF."""
    found: dict[str, int] = {}
    for step in STEPS:
        found.setdefault(step.abbreviation, step.number)
    return found


def word_of(grade: Grade) -> str:
    """Find the word of the 70-point scale that a grade counts as, such as VF."""
    return STEPS[step_of(grade)].abbreviation


class AgainstAlloy(StrEnum):
    """Where a specific gravity lies against what the alloy should give."""

    AGREES = "agrees"
    HIGHER = "higher"
    LOWER = "lower"
    NOT_KNOWN = "not-known"
    TOO_COARSE = "too-coarse"


@dataclass(frozen=True, slots=True)
class WaterWeighing:
    """A specific gravity with what the balance's reading allows, beside what the alloy should give.

    The gravity is None where the balance was too coarse or the weighings cannot be, and the fault says so.
    """

    coin: str
    gravity: Gravity | None
    expected: Decimal | None
    fault: str = ""

    @property
    def against_alloy(self) -> AgainstAlloy:
        """Tell whether the reading's range and the alloy's, a hundredth either way, have any part in common."""
        if self.gravity is None:
            return AgainstAlloy.TOO_COARSE
        if self.expected is None:
            return AgainstAlloy.NOT_KNOWN
        expected = Fraction(self.expected)
        if Fraction(self.gravity.low) > expected * (1 + ALLOY_ALLOWANCE):
            return AgainstAlloy.HIGHER
        if Fraction(self.gravity.high) < expected * (1 - ALLOY_ALLOWANCE):
            return AgainstAlloy.LOWER
        return AgainstAlloy.AGREES


def weigh_in_water(
    coin: str, dry: Weight, wet: Weight, reading: Weight | None, expected: Decimal | None
) -> WaterWeighing:
    """Work out a coin's specific gravity; the reading is the balance's smallest step, None where not told."""
    try:
        return WaterWeighing(coin, specific_gravity(dry, wet, reading), expected)
    except Misread as misread:
        return WaterWeighing(coin, None, expected, misread.sentence)
