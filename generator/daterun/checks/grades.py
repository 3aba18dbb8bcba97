"""Whether a coin's grades go with its strike and each other, and its problems are called by name."""

from collections.abc import Iterator
from itertools import pairwise

from daterun.checks.places import place_of_word
from daterun.problems import Problem, Severity, nearest
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, Strike
from daterun.records.located import Mapping
from daterun.trade.grading import NO_PROBLEMS, PROBLEM_REASONS, Grade


def check_grades(catalogue: Catalogue) -> Iterator[Problem]:
    """Find grades of another strike, grades out of order, and misspelt problems; all of it is advice."""
    for coin in catalogue.coins:
        if "strike" not in coin.at.misread:
            for own in coin.own_grades:
                yield from _check_strike(coin, own.grade, own.at)
            for certificate in coin.certificates:
                yield from _check_strike(coin, certificate.grade, certificate.at)
        yield from _check_order(coin)
        for word in coin.problems:
            yield from _check_problem(word, coin.at)
        for certificate in coin.certificates:
            for word in certificate.problem:
                yield from _check_problem(word, certificate.at)


def _check_strike(coin: Coin, grade: Grade, at: Mapping) -> Iterator[Problem]:
    if grade.strike is not None and grade.strike != coin.strike.value:
        said = f'grade "{grade.text}" is that of a {grade.strike}, and the coin is {_named(coin.strike)}'
        hint = f"write strike: {grade.strike}, or look at the grade again"
    elif coin.strike is Strike.PROOF and grade.strike is None and grade.text.upper().startswith("MS"):
        said = f'grade "{grade.text}" is that of an ordinary strike, and the coin is a proof'
        hint = "the grade of a proof begins with PF"
    else:
        return
    yield Problem("grade of another strike", said, at.place_of("grade"), hint, Severity.ADVICE)


def _named(strike: Strike) -> str:
    return "an ordinary strike" if strike is Strike.ORDINARY else f"a {strike.value}"


def _check_order(coin: Coin) -> Iterator[Problem]:
    dated = [each for each in coin.own_grades if each.on is not None]
    for earlier, later in pairwise(dated):
        assert earlier.on is not None and later.on is not None
        if later.on.last < earlier.on.first:
            yield Problem(
                "order of grades",
                f"the grade of {later.on} stands below that of {earlier.on}",
                later.at.place_of("on"),
                "the newest stands last, and is the one that counts",
                Severity.ADVICE,
                (earlier.at.place_of("on"),),
            )


def _check_problem(word: str, at: Mapping) -> Iterator[Problem]:
    known = {each.casefold() for each in PROBLEM_REASONS}
    if word.casefold() in {each.casefold() for each in NO_PROBLEMS}:
        hint = "it is no damage, and does not make a problem coin; describe it under design"
        said = f'"{word}" comes of the making or of age'
    elif word.casefold() not in known and (close := nearest(word, PROBLEM_REASONS)) is not None:
        hint = f'did you mean "{close}"?'
        said = f'"{word}" is not a usual word for a problem'
    else:
        return
    yield Problem("problem word", said, place_of_word(at, "problem", word), hint, Severity.ADVICE)
