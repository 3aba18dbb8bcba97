"""The index of the printed catalogue: which entries each name and each date leads to."""

from collections.abc import Iterable

from daterun.pages.binder import Binder
from daterun.pages.printpieces import IndexPart, IndexTerm
from daterun.pages.standing import Standing
from daterun.pages.wording import name_mint, name_variety, say_date, say_kind
from daterun.records.coins import CoinKind, Strike


def index_of(binder: Binder, coins: Iterable[Standing], numbers: dict[str, int]) -> tuple[IndexPart, ...]:
    """Make the index in two parts: names, mints and kinds by the alphabet, and dates in their order."""
    dates: dict[str, dict[int, None]] = {}
    names: dict[str, dict[int, None]] = {}
    for each in sorted(coins, key=lambda each: each.coin.date.sort):
        dates.setdefault(say_date(each.coin.date, binder.words), {})[numbers[each.coin.id]] = None
        for term in _terms(binder, each):
            names.setdefault(term, {})[numbers[each.coin.id]] = None
    parts = (
        ("print.index-names", [(term, names[term]) for term in sorted(names, key=str.casefold)]),
        ("print.index-dates", list(dates.items())),
    )
    return tuple(
        IndexPart(
            binder.words.say(heading), tuple(IndexTerm(term, tuple(sorted(found))) for term, found in terms)
        )
        for heading, terms in parts
        if terms
    )


def _terms(binder: Binder, standing: Standing) -> Iterable[str]:
    words, coin, place = binder.words, standing.coin, standing.place
    if place.monarch is not None:
        yield place.monarch.name
    for variety in place.varieties if "variety" in standing.divided else ():
        yield name_variety(variety)
    if coin.mint and (coin.mint != "none" or "mint" in standing.divided):
        yield name_mint(coin.mint, standing, words)
    if coin.strike is not Strike.ORDINARY:
        yield words.say(f"strike.{coin.strike.value}")
    if coin.kind is not CoinKind.REGULAR:
        yield say_kind(coin.kind, words)
    for owner in coin.provenance:
        if owner.publish:
            yield owner.owner
