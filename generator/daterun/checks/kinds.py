"""Whether a coin that is out of the ordinary says how, and a file for several alike stands for any."""

import re
from collections.abc import Iterator

from daterun.naming import listed
from daterun.problems import Misread, Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, CoinKind
from daterun.trade.dates import parse_span

_FOUR_FIGURES = re.compile(r"[0-9]{4}\b.*")


def check_kinds(catalogue: Catalogue) -> Iterator[Problem]:
    """Find kinds without their departure, departures without a kind, and quantities below one."""
    for coin in catalogue.coins:
        if coin.kind is not CoinKind.REGULAR and "departs" not in coin.at:
            yield Problem(
                "departs",
                f"the coin is {_named(coin.kind)} and does not say how it departs from the regular issue",
                coin.at.place_of("kind"),
                "write departs: with what is different",
                Severity.ADVICE,
            )
        if coin.kind is CoinKind.REGULAR and coin.departs and "kind" not in coin.at.misread:
            yield Problem(
                "departs",
                "the coin says how it departs from the regular issue, and is said to be regular",
                coin.at.place_of_key("departs"),
                f"name its kind: {listed([each.value for each in CoinKind][1:], 'or')}",
                Severity.ADVICE,
            )
        if coin.quantity < 1:
            yield Problem(
                "quantity",
                "a file stands for one coin or more",
                coin.at.place_of("quantity"),
                "a coin that has left keeps its file: write parted: instead",
            )
        yield from _check_struck_in(coin)


def _check_struck_in(coin: Coin) -> Iterator[Problem]:
    """Compare the years alone; a coin can be dated ahead by the turn of a year, but not by more."""
    if coin.date.year is None or coin.date.last_year is None or not _FOUR_FIGURES.fullmatch(coin.struck_in):
        return
    try:
        years = parse_span(coin.struck_in[:4])
    except Misread:
        return
    if coin.struck_in == coin.date.key:
        yield Problem(
            "struck in",
            f"{coin.struck_in} is the date of the coin, which goes without saying",
            coin.at.place_of("struck in"),
            "take the line out, or write the year in which it was truly struck",
            Severity.ADVICE,
        )
    elif years.first < coin.date.year - 1:
        yield Problem(
            "struck in",
            f"a coin dated {coin.date.key} is said to have been struck in {coin.struck_in}, years before",
            coin.at.place_of("struck in"),
            "look at both figures again",
            Severity.ADVICE,
        )


def _named(kind: CoinKind) -> str:
    if kind in (CoinKind.OFF_METAL, CoinKind.COUNTERSTAMPED, CoinKind.DOUBTFUL):
        return kind.value
    return f"{'an' if kind is CoinKind.ERROR else 'a'} {kind.value}"
