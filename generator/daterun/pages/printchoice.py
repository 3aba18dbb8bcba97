"""What goes into print: the coins and aims that the keeper chose, found by their names."""

from collections.abc import Iterable
from dataclasses import dataclass

from daterun.pages.cabinet import Cabinet
from daterun.pages.standing import Standing
from daterun.pages.words import Words
from daterun.problems import CannotContinue, Misread, meant
from daterun.readers.closed import ClosedAim
from daterun.records.catalogue import find_series
from daterun.records.issuers import Monarch
from daterun.trade.dates import Day, parse_day


@dataclass(frozen=True, slots=True)
class Choice:
    """What was asked for; empty means all. Since is a day, month or year of the catalogue's ``added``."""

    monarchs: tuple[str, ...] = ()
    series: tuple[str, ...] = ()
    since: str = ""
    coins: tuple[str, ...] = ()
    aims: tuple[str, ...] = ()
    plates: tuple[str, ...] = ()
    introduction: str = ""

    @property
    def is_whole(self) -> bool:
        """Tell whether every coin goes in."""
        return not (self.monarchs or self.series or self.since or self.coins)


def choose_coins(cabinet: Cabinet, choice: Choice) -> tuple[Standing, ...]:
    """Choose the coins held that go in. Raise CannotContinue for a name that the catalogue does not know."""
    keys = _series_keys(cabinet, choice.series)
    monarchs = _known(
        choice.monarchs,
        {each.id for issuer in cabinet.catalogue.issuers.values() for each in issuer.monarchs},
        "monarch",
    )
    ids = _known(choice.coins, cabinet.by_id, "coin that this reader may see")
    since = _day(choice.since)
    chosen = tuple(
        each
        for each in cabinet.coins
        if each.coin.is_held
        and (not keys or each.series.key in keys)
        and (not monarchs or ((monarch := reigning(each)) is not None and monarch.id in monarchs))
        and (not ids or each.coin.id in ids)
        and (since is None or (each.coin.added is not None and _order(each.coin.added) >= _order(since)))
    )
    if not chosen and not choice.is_whole:
        raise CannotContinue("no coin answers to this choice, so there is nothing to print")
    return chosen


def reigning(standing: Standing) -> Monarch | None:
    """Find the monarch of a coin: that of its type, else the only one whose reign holds its year, if any.

    Patterns and other pieces without a type so stand among the coins of their time.
    """
    if standing.monarch is not None:
        return standing.monarch
    year = standing.coin.date.year
    monarchs = standing.issuer.monarchs if standing.issuer is not None else ()
    found = [each for each in monarchs if year is not None and each.reign.covers_year(year)]
    return found[0] if len(found) == 1 else None


def choose_aims(cabinet: Cabinet, choice: Choice) -> tuple[ClosedAim, ...]:
    """Choose the aims asked for, all unless said. Raise CannotContinue for one that is not there."""
    aims = cabinet.catalogue.settings.aims
    names = _known(choice.aims, [each.id for each in aims], "aim")
    return tuple(each for each in aims if not names or each.id in names)


def choose_plates(cabinet: Cabinet, choice: Choice) -> tuple[Standing, ...]:
    """Find the coins to be shown enlarged, in the order asked for."""
    _known(choice.plates, cabinet.by_id, "coin that this reader may see")
    return tuple(cabinet.by_id[each] for each in dict.fromkeys(choice.plates))


def say_choice(choice: Choice, cabinet: Cabinet, words: Words) -> str:
    """Word what was chosen, for the cover; empty where everything is in."""
    parts = []
    if choice.monarchs:
        named = {each.id: each.name for i in cabinet.catalogue.issuers.values() for each in i.monarchs}
        parts.append(", ".join(named.get(each, each) for each in choice.monarchs))
    if choice.series:
        found = [find_series(cabinet.catalogue.series, each) for each in choice.series]
        parts.append(", ".join(each.name for each in found if each is not None))
    if choice.since:
        parts.append(words.say("print.since", day=choice.since))
    if choice.coins:
        parts.append(words.say("print.chosen"))
    return " · ".join(parts)


def _series_keys(cabinet: Cabinet, names: Iterable[str]) -> frozenset[str]:
    keys = set()
    for name in names:
        found = find_series(cabinet.catalogue.series, name)
        if found is None:
            known = sorted({each.id for each in cabinet.catalogue.series.values()})
            raise CannotContinue(_unknown("series", name, known))
        keys.add(found.key)
    return frozenset(keys)


def _known(names: Iterable[str], known: Iterable[str], what: str) -> frozenset[str]:
    every = set(known)
    for name in names:
        if name not in every:
            raise CannotContinue(_unknown(what, name, sorted(every)))
    return frozenset(names)


def _unknown(what: str, name: str, known: list[str]) -> str:
    hint = meant(name, known)
    return f'there is no {what} "{name}"' + (f"; {hint}" if hint else "")


def _day(text: str) -> Day | None:
    if not text:
        return None
    try:
        return parse_day(text)
    except Misread as error:
        raise CannotContinue(f"--since: {error.sentence}") from error


def _order(day: Day) -> tuple[int, int, int]:
    return day.year, day.month or 0, day.day or 0
