"""Whether a coin's weight goes with its standard; no weight proves a coin genuine, nor a light one false."""

from collections.abc import Iterator
from decimal import Decimal

from daterun.checks.belonging import regular_coins
from daterun.problems import Problem, Severity
from daterun.records.attribution import attribute
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.series import Standard

FAR = Decimal("0.05")
"""Wear seldom takes more, and nothing of the regular issue adds so much; a rule of thumb, no source."""

SHARP = 40
"""From this grade on, on the 70-point scale, there is too little wear for it to be felt in the weight."""

METAL_GONE = frozenset({"holed", "clipped", "rim filed"})


def check_weights(catalogue: Catalogue) -> Iterator[Problem]:
    """Find weights that the standard and the wear do not account for, and weighings that cannot be."""
    for coin, series in regular_coins(catalogue):
        standard = attribute(coin, series, None).standard
        if coin.weight is not None and standard is not None and standard.weight is not None:
            yield from _check_weight(coin, standard)
    for coin in catalogue.coins:
        if coin.gravity is not None and coin.gravity.wet >= coin.gravity.dry:
            yield Problem(
                "gravity",
                f"the coin weighs {coin.gravity.wet} in water and {coin.gravity.dry} in air",
                coin.gravity.at.place_of("wet"),
                "a coin is lighter in water; the two may have changed places",
            )


def _check_weight(coin: Coin, standard: Standard) -> Iterator[Problem]:
    assert coin.weight is not None and standard.weight is not None
    lawful = standard.weight.grams
    over = coin.weight.grams - lawful
    remedy = standard.remedy.grams if standard.remedy is not None else None
    apart = f"{abs(over) / lawful:.1%}".replace("%", " %")
    way = "over" if over > 0 else "under"
    said = f"the weight {coin.weight} is {apart} {way} the standard of {standard.weight}"
    if over > FAR * lawful:
        hint = "look for a slip of the pen; a coin that truly weighs this is none of the regular issue"
        yield _problem("far over the standard", said, hint, Severity.ERROR, coin, standard)
    elif remedy is not None and over > remedy + coin.weight.last_figure:
        hint = f"the remedy is {standard.remedy}; weigh it again, and look for dirt, solder or a mount"
        yield _problem("over the remedy", said, hint, Severity.ADVICE, coin, standard)
    elif METAL_GONE.intersection(each.casefold() for each in coin.problems):
        return
    elif -over > FAR * lawful:
        hint = "look for a slip of the pen, heavy wear, filing or a false coin"
        yield _problem("far under the standard", said, hint, Severity.ADVICE, coin, standard)
    elif remedy is not None and -over > remedy and _is_sharp(coin):
        hint = f"the remedy is {standard.remedy}, and a coin of this grade has lost next to nothing by wear"
        yield _problem("under the remedy", said, hint, Severity.ADVICE, coin, standard)


def _problem(rule: str, said: str, hint: str, severity: Severity, coin: Coin, standard: Standard) -> Problem:
    others = (standard.at.place_of("weight"),)
    return Problem(rule, said, coin.at.place_of("weight"), hint, severity, others)


def _is_sharp(coin: Coin) -> bool:
    return coin.grade is not None and coin.grade.counted("low") >= SHARP
