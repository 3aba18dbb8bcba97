"""Whether the monarchs of a series' types are there, and reigned when the types were struck."""

from collections.abc import Iterator

from daterun.checks.wholeness import mapping_is_whole
from daterun.problems import Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.issuers import Issuer, Monarch
from daterun.records.series import CoinType

LAG = 2
"""Years for which the dies of the last reign may still be at work; common practice, no source."""


def check_reigns(catalogue: Catalogue) -> Iterator[Problem]:
    """Find types of no monarch of the issuer, or of years that the reign does not hold."""
    for issuer in catalogue.issuers.values():
        for monarch in issuer.monarchs:
            yield from _check_reign(monarch)
    for series in catalogue.series.values():
        issuer_found = catalogue.issuers.get(series.issuer)
        for each in series.types:
            if issuer_found is not None and each.monarch:
                yield from _check_type(each, issuer_found)


def _check_reign(monarch: Monarch) -> Iterator[Problem]:
    reign = monarch.reign
    if reign.last is not None and reign.last.last < reign.first.first:
        yield Problem(
            "reign",
            f"the reign of {monarch.name} ends on {reign.last}, before it begins",
            reign.at.place_of("to"),
            "look at both days again",
            others=(reign.at.place_of("from"),),
        )


def _check_type(coin_type: CoinType, issuer: Issuer) -> Iterator[Problem]:
    monarch = issuer.monarch(coin_type.monarch)
    if monarch is None:
        if mapping_is_whole(issuer.at, "monarchs", issuer.monarchs):
            known = [each.id for each in issuer.monarchs]
            yield Problem(
                "unknown monarch",
                f'{issuer.name} has no monarch "{coin_type.monarch}"',
                coin_type.at.place_of("monarch"),
                meant(coin_type.monarch, known),
            )
        return
    first = monarch.reign.first.year
    last = monarch.reign.last.year if monarch.reign.last is not None else None
    if last is not None and last < first:
        return
    span = coin_type.span
    if span.last < first or (last is not None and span.first > last + LAG):
        severity, said = Severity.ERROR, "lies wholly outside"
    elif span.first < first:
        severity, said = Severity.ADVICE, "begins before"
    elif last is not None and span.last > last + LAG:
        severity, said = Severity.ADVICE, f"ends more than {LAG} years after"
    else:
        return
    yield Problem(
        "reign",
        f"the type of {span} {said} the reign of {monarch.name}, {monarch.reign.years}",
        coin_type.at.place_of("dates"),
        "" if severity is Severity.ADVICE else "look at its years and its monarch again",
        severity,
        (monarch.reign.at.place_of("from"),),
    )
