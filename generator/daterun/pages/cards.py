"""Coins and pages as cards among others."""

from collections.abc import Iterable

from daterun.pages.cabinet import Standing
from daterun.pages.pieces import CoinCard, SideView
from daterun.pages.sides import Sides
from daterun.pages.slots import DEFAULT_DIAMETER_MM
from daterun.pages.wording import say_grade_line, say_kind
from daterun.pages.words import Words
from daterun.records.coins import CoinKind


def marks_of(standing: Standing, words: Words) -> tuple[str, ...]:
    """Name what must not be overlooked about a coin: that it is a problem coin, not regular, or parted with."""
    marks = []
    if standing.coin.kind is not CoinKind.REGULAR:
        marks.append(say_kind(standing.coin.kind, words))
    if standing.coin.is_problem:
        marks.append(words.say("mark.problem"))
    if not standing.coin.is_held:
        marks.append(words.say("mark.parted"))
    return tuple(marks)


def diameter_of(standing: Standing) -> float:
    """Find the diameter a coin is shown at, in millimetres: its own, else the standard's, else a middling."""
    standard = standing.place.standard
    found = standing.coin.diameter or (standard.diameter if standard is not None else None)
    return float(found.mm) if found is not None else DEFAULT_DIAMETER_MM


def card(
    standing: Standing,
    sides: Sides,
    words: Words,
    side: SideView | None = None,
    largest_mm: float | None = None,
) -> CoinCard:
    """Make a coin's card; the side that tells most is shown unless another is given.

    Its size is in proportion to the largest coin beside it; without one it is shown at its full width.
    """
    size = min(round(diameter_of(standing) / largest_mm * 1000), 1000) if largest_mm else 1000

    def make() -> CoinCard:
        return CoinCard(
            sides.link(standing),
            side or sides.telling(standing),
            say_grade_line(standing.coin, words),
            marks_of(standing, words),
            size,
        )

    return make() if side is not None else sides.once.of(("card", standing.coin.id, size), make)


def cards(
    standings: Iterable[Standing], sides: Sides, words: Words, largest_mm: float = 0
) -> tuple[CoinCard, ...]:
    """Make cards of coins in the order given, in proportion to the largest of them, or to a larger one."""
    held = tuple(standings)
    largest = max((diameter_of(each) for each in held), default=largest_mm)
    return tuple(card(each, sides, words, largest_mm=max(largest, largest_mm)) for each in held)
