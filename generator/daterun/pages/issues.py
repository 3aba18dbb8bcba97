"""How an issue is worded beside its numbers: that it is scarce, how it divides, what its sources remark."""

from daterun.checks.slots import figures_of
from daterun.pages.wording import name_mint_of, name_type, name_variety, say_struck
from daterun.pages.words import Words
from daterun.readers.closed import ClosedCoin
from daterun.records.issuers import Issuer
from daterun.records.series import Series
from daterun.records.struck import DateIssue, Part


def name_part(part: Part, series: Series, issuer: Issuer | None, words: Words) -> str:
    """Name a part of an issue by its mint, variety and type."""
    names = []
    if part.mint:
        names.append(name_mint_of(part.mint, issuer, words))
    if part.variety and (variety := series.variety(part.variety)) is not None:
        names.append(name_variety(variety))
    if part.type and (coin_type := series.type(part.type)) is not None:
        names.append(name_type(coin_type, series, issuer))
    return ", ".join(names)


def say_part(part: Part, series: Series, issuer: Issuer | None, words: Words) -> str:
    """Word a part with the number struck; its name alone where nothing is told of the number."""
    name = name_part(part, series, issuer, words)
    if not part.figures.mintage and part.figures.proofs is None:
        return name
    return words.say("remark.part", name=name, struck=say_struck(part.figures, words))


def part_of(issue: DateIssue, coin: ClosedCoin) -> Part | None:
    """Find the part of an issue that a coin is of; None where the coin leaves a choice, or there are no parts."""
    found = [
        part
        for part in issue.parts
        if part.mint in (None, coin.mint)
        and part.type in (None, coin.type)
        and (part.variety is None or part.variety in coin.varieties)
    ]
    return found[0] if len(found) == 1 else None


def remarks_on(issue: DateIssue, series: Series, issuer: Issuer | None, words: Words) -> list[str]:
    """Word what else is told of an issue. One part alone is named: its number is that of the date."""
    remarks = [words.say("remark.scarce")] if figures_of(issue).scarce else []
    if len(issue.parts) == 1:
        remarks.append(name_part(issue.parts[0], series, issuer, words))
    elif issue.parts:
        remarks.append("; ".join(say_part(each, series, issuer, words) for each in issue.parts))
    remarks += [issue.figures.note, *(part.figures.note for part in issue.parts)]
    return [each for each in dict.fromkeys(remarks) if each]


def sentences(remarks: list[str]) -> str:
    """Join remarks as sentences, each with a capital."""
    return ". ".join(each[:1].upper() + each[1:] for each in remarks)
