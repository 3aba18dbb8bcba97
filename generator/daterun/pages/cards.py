"""Coins and pages as cards among others."""

from collections.abc import Iterable

from daterun.pages import addresses
from daterun.pages.cabinet import Standing
from daterun.pages.sides import Sides
from daterun.pages.views import CoinCard, Link, SideView
from daterun.pages.wording import name_coin, say_grade_line, say_kind
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


def card(standing: Standing, sides: Sides, words: Words, side: SideView | None = None) -> CoinCard:
    """Make a coin's card; the side that tells most is shown unless another is given."""
    return CoinCard(
        Link(name_coin(standing, words), addresses.of_coin(standing.coin.id)),
        side or sides.telling(standing),
        say_grade_line(standing.coin, words),
        marks_of(standing, words),
    )


def cards(standings: Iterable[Standing], sides: Sides, words: Words) -> tuple[CoinCard, ...]:
    """Make cards of coins in the order given."""
    return tuple(card(each, sides, words) for each in standings)
