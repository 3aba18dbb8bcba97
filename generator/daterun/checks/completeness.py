"""Which slots of an aim are filled, and by which coin: a pure function of the slots and the coins held.

No coin fills two slots. Which slots can be filled at all is settled first, in their order, then which coins
fill them, best first; both by augmenting paths, so that one more coin never empties a slot and a stricter aim
never fills one (coins and slots are complements in a matching: Shapley, Naval Research Logistics 9, 1962).
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Protocol

from daterun.checks.slots import Slot, slots_of
from daterun.records.aims import Divider, End, Problems
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Series
from daterun.trade.dates import CoinDate, Span
from daterun.trade.grading import Grade
from daterun.trade.measures import Weight


class Fitting(Protocol):
    """What completeness needs to know of a coin; its mint, type and varieties are as attributed.

    Graded by is the grading firm where a sealed certificate is in force, else empty.
    """

    @property
    def id(self) -> str: ...
    @property
    def series(self) -> str: ...
    @property
    def date(self) -> CoinDate: ...
    @property
    def varieties(self) -> tuple[str, ...]: ...
    @property
    def mint(self) -> str | None: ...
    @property
    def type(self) -> str | None: ...
    @property
    def strike(self) -> Strike: ...
    @property
    def kind(self) -> CoinKind: ...
    @property
    def grade(self) -> Grade | None: ...
    @property
    def graded_by(self) -> str: ...
    @property
    def problems(self) -> tuple[str, ...]: ...
    @property
    def is_problem(self) -> bool: ...
    @property
    def weight(self) -> Weight | None: ...
    @property
    def is_held(self) -> bool: ...


class State(StrEnum):
    """How far a slot is filled."""

    FILLED = "filled"
    BELOW = "below"
    MISSING = "missing"
    LEFT_OUT = "left-out"


@dataclass(frozen=True, slots=True)
class Rules:
    """What an aim asks of a coin. At least of None means any grade, and coins without one too."""

    strikes: tuple[Strike, ...] = (Strike.ORDINARY,)
    kinds: tuple[CoinKind, ...] = (CoinKind.REGULAR,)
    at_least: Fraction | None = None
    counts: End = End.LOW
    problems: Problems = Problems.ACCEPTED

    @property
    def accepts_problems(self) -> bool:
        return self.problems is Problems.ACCEPTED

    def accept(self, coin: Fitting) -> bool:
        """Tell whether a coin that fits a slot is good enough to fill it."""
        if coin.is_problem and not self.accepts_problems:
            return False
        if self.at_least is None:
            return True
        if coin.grade is None:
            return False
        counted, least = coin.grade.counted(self.counts.value), self.at_least
        return counted.numerator * least.denominator >= least.numerator * counted.denominator


PLAIN = Rules()
"""The aim of a page about a series: ordinary strikes, any grade, problem coins accepted and marked."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A slot with its state, the coin that fills it or comes nearest, and the spare ones, best first.

    The coin is an id, None where the slot is missing; a slot left out has the coin that would fill it.
    """

    slot: Slot
    state: State
    coin: str | None
    spares: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tally:
    """How many slots there are, and in which state; the four states add up to the slots."""

    slots: int
    filled: int
    below: int
    missing: int
    left_out: int


def tally(states: Iterable[Filled]) -> Tally:
    """Count slots by state."""
    found = [each.state for each in states]
    count = found.count
    return Tally(
        len(found), count(State.FILLED), count(State.BELOW), count(State.MISSING), count(State.LEFT_OUT)
    )


def missing_dates(states: Iterable[Filled]) -> tuple[str, ...]:
    """Name the slots that are missing, in the order of the run."""
    return tuple(each.slot.name for each in states if each.state is State.MISSING)


def fits(coin: Fitting, slot: Slot, rules: Rules, dated: bool = True) -> bool:
    """Tell whether a coin is one of what a slot stands for, whatever its grade.

    A coin that does not say a mint, variety or type that the slot asks for does not fit it.
    """
    return (
        coin.is_held
        and slot.takes(coin.series, coin.type)
        and (not dated or coin.date.key == slot.date.key)
        and (slot.mint is None or coin.mint == slot.mint)
        and (slot.variety is None or slot.variety in coin.varieties)
        and coin.strike in rules.strikes
        and coin.kind in rules.kinds
    )


Quality = tuple[int, float, int, int, Decimal, str]


def quality(coin: Fitting, rules: Rules, standard_g: Decimal | None = None) -> Quality:
    """Place a coin in the order of what fills a slot best; the least is the best.

    First what the aim accepts, then the grade, a certificate before an opinion at the same grade, then
    fewer problems, then the weight closest to the standard (in grams; None where there is none), then the id.
    """
    counted = coin.grade.counted(rules.counts.value) if coin.grade is not None else None
    # exact, for a grade counts quarters of a step at the finest, and compared sooner than a fraction
    grade = counted.numerator / counted.denominator if counted is not None else 0.0
    off = abs(coin.weight.grams - standard_g) if coin.weight and standard_g is not None else Decimal(10**6)
    return (
        0 if rules.accept(coin) else 1,
        -grade,
        0 if coin.graded_by else 1,
        len(coin.problems) + (1 if coin.is_problem else 0),
        off,
        coin.id,
    )


StandardWeight = Callable[[Fitting], Decimal | None]


def _no_standard(_: Fitting) -> Decimal | None:
    return None


def fill(
    slots: Sequence[Slot],
    coins: Iterable[Fitting],
    rules: Rules = PLAIN,
    left_out: frozenset[tuple[str, str]] = frozenset(),
    dated: bool = True,
    standard: StandardWeight = _no_standard,
) -> tuple[Filled, ...]:
    """Fill slots with coins, as far as the rules allow; the slots come back in their order.

    Left out are pairs of series and slot name. Dated is False where a slot stands for all dates of its type,
    variety or mint.
    """
    return fill_from(slots, coins_by_slot(slots, coins, rules, dated), rules, left_out, standard)


def fill_from(
    slots: Sequence[Slot],
    by_place: Sequence[Sequence[Fitting]],
    rules: Rules,
    left_out: frozenset[tuple[str, str]] = frozenset(),
    standard: StandardWeight = _no_standard,
) -> tuple[Filled, ...]:
    """Fill slots with the coins that fit each, as ``coins_by_slot`` lists them."""
    wanted = [nth for nth, slot in enumerate(slots) if not is_left_out(slot, left_out)]
    order = {coin.id: quality(coin, rules, standard(coin)) for found in by_place for coin in found}
    good = [[coin for coin in found if order[coin.id][0] == 0] for found in by_place]
    filled = _match(wanted, good, order)
    used = set(filled.values())
    open_slots = [nth for nth in wanted if nth not in filled]
    rest = [[coin for coin in found if coin.id not in used] for found in by_place]
    below = _match(open_slots, rest, order)
    used |= set(below.values())
    out = sorted(set(range(len(slots))).difference(wanted))
    beside = _match(out, [[coin for coin in found if coin.id not in used] for found in by_place], order)
    used |= set(beside.values())
    states = []
    for nth, slot in enumerate(slots):
        state = (
            State.FILLED if nth in filled
            else State.BELOW if nth in below
            else State.LEFT_OUT if is_left_out(slot, left_out)
            else State.MISSING
        )  # fmt: skip
        coin = filled.get(nth) or below.get(nth) or beside.get(nth)
        spare = sorted((each.id for each in by_place[nth] if each.id not in used), key=order.__getitem__)
        states.append(Filled(slot, state, coin, tuple(spare)))
    return tuple(states)


def is_left_out(slot: Slot, left_out: frozenset[tuple[str, str]]) -> bool:
    """Tell whether a slot is left out, by any of its series."""
    return any((series, slot.name) in left_out for series in slot.all_series)


def coins_by_slot(
    slots: Sequence[Slot], coins: Iterable[Fitting], rules: Rules, dated: bool
) -> list[list[Fitting]]:
    """List, slot by slot, the coins that fit; coins are looked up by series and date, not tried one by one."""
    places: dict[tuple[str, str], list[int]] = {}
    for nth, slot in enumerate(slots):
        for series in slot.all_series:
            places.setdefault((series, slot.date.key if dated else ""), []).append(nth)
    found: list[list[Fitting]] = [[] for _ in slots]
    for coin in coins:
        for nth in places.get((coin.series, coin.date.key if dated else ""), ()):
            if fits(coin, slots[nth], rules, dated):
                found[nth].append(coin)
    return found


def _match(
    wanted: Sequence[int], fitting: Sequence[Sequence[Fitting]], order: dict[str, Quality]
) -> dict[int, str]:
    """Match slots with coin ids: the first slots that can be filled together, with the best coins for them."""
    choices = {nth: sorted((coin.id for coin in fitting[nth]), key=order.__getitem__) for nth in wanted}
    claims: dict[str, int] = {}
    for nth in wanted:
        for coin in choices[nth]:
            claims[coin] = claims.get(coin, 0) + 1
    if all(count == 1 for count in claims.values()):  # no coin fits two slots, as nearly always
        return {nth: found[0] for nth, found in choices.items() if found}
    holder: dict[str, int] = {}
    fillable = [nth for nth in wanted if _augment(nth, choices, holder, set())]
    slots_of_coin: dict[str, list[int]] = {}
    for nth in fillable:
        for coin in choices[nth]:
            slots_of_coin.setdefault(coin, []).append(nth)
    taken: dict[int, str] = {}
    for coin in sorted(slots_of_coin, key=order.__getitem__):
        _place(coin, slots_of_coin, taken, set())
    return taken


def _augment(nth: int, choices: dict[int, list[str]], holder: dict[str, int], seen: set[str]) -> bool:
    for coin in choices[nth]:
        if coin in seen:
            continue
        seen.add(coin)
        if coin not in holder or _augment(holder[coin], choices, holder, seen):
            holder[coin] = nth
            return True
    return False


def _place(coin: str, slots_of_coin: dict[str, list[int]], taken: dict[int, str], seen: set[int]) -> bool:
    """Find a slot for a coin: a free one of its own, else one whose coin can go to another."""
    for nth in slots_of_coin[coin]:
        if nth not in taken:
            taken[nth] = coin
            return True
    for nth in slots_of_coin[coin]:
        if nth not in seen:
            seen.add(nth)
            if _place(taken[nth], slots_of_coin, taken, seen):
                taken[nth] = coin
                return True
    return False


def fill_series(
    series: Series,
    coins: Iterable[Fitting],
    one_per: tuple[Divider, ...] = (Divider.DATE,),
    span: Span | None = None,
    standard: StandardWeight = _no_standard,
) -> tuple[Filled, ...]:
    """Fill a series by the plain aim: one coin per issue date, ordinary strikes, any grade."""
    return fill(slots_of(series, span, one_per), coins, standard=standard)
