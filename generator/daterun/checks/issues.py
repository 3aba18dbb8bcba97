"""Whether a series' table of issues answers for every year of its run, once."""

from collections.abc import Iterator

from daterun.checks.dates import place_of_year
from daterun.checks.wholeness import dates_are_whole, misread_issues
from daterun.checks.wording import listed_years, verb
from daterun.naming import listed
from daterun.problems import Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.series import Series
from daterun.records.struck import DateIssue, Figures
from daterun.trade.dates import DateKind


def check_issues(catalogue: Catalogue) -> Iterator[Problem]:
    """Find years listed nowhere or twice, and figures whose source is not told."""
    for series in catalogue.series.values():
        yield from _check_gaps(series)
        yield from _check_twice(series)
        yield from _check_sources(series)


def _check_gaps(series: Series) -> Iterator[Problem]:
    struck = series.struck
    listed_here = {
        year
        for each in series.issues
        if each.date.year is not None and each.date.last_year is not None
        for year in range(each.date.year, each.date.last_year + 1)
    }
    if not listed_here or not dates_are_whole(series) or misread_issues(series):
        return
    gaps = [
        year
        for year in range(min(listed_here), max(listed_here) + 1)
        if year not in listed_here and not struck.is_not_struck(year) and not struck.is_not_known(year)
    ]
    if gaps:
        yield Problem(
            "year not listed",
            f"{listed_years(gaps)} {verb(len(gaps), 'lies', 'lie')} inside the run and "
            f"{verb(len(gaps), 'is', 'are')} listed nowhere",
            struck.at.place_of_key("struck"),
            "say of each year whether it was struck, not struck or is not known",
        )


def _check_twice(series: Series) -> Iterator[Problem]:
    struck = series.struck
    answers = (("not struck", struck.not_struck), ("not known", struck.not_known))
    for each in series.issues:
        for key, spans in answers:
            year = each.date.year
            if year is not None and each.date.kind is DateKind.YEAR and any(year in span for span in spans):
                yield Problem(
                    "struck or not",
                    f"{each.date.key} is listed as struck and as {key}",
                    each.place,
                    "leave it in one place",
                    others=(place_of_year(series, key, spans, year),),
                )
    for nth, span in enumerate(struck.not_known):
        both = [year for year in span if struck.is_not_struck(year)]
        if both:
            yield Problem(
                "struck or not",
                f"{listed_years(both)} {verb(len(both), 'is', 'are')} listed as not struck and as not known",
                struck.at.place_of("not known", nth),
                "leave it in one place",
                others=(place_of_year(series, "not struck", struck.not_struck, both[0]),),
            )


def _check_sources(series: Series) -> Iterator[Problem]:
    """Report figures without a source, all of a table at once; a source of the table answers for all."""
    if not series.struck.source:
        bare = [each.date.key for each in series.issues if _lacks_source(each)]
        if bare:
            which = listed(bare) if len(bare) <= 6 else f"{len(bare)} dates"
            yield Problem(
                "no source",
                f"the figures of {which} have no source",
                series.struck.at.place_of_key("struck"),
                "write source: beside struck: for all of them, or beside each figure",
                Severity.ADVICE,
            )
    for standard in series.standards:
        if not standard.source and (standard.weight is not None or standard.fineness is not None):
            yield Problem(
                "no source",
                f"the standard of {standard.span} has no source",
                standard.at.place_of("weight" if standard.weight is not None else "fineness"),
                "write source: with the law or book it is taken from",
                Severity.ADVICE,
            )


def _lacks_source(issue: DateIssue) -> bool:
    if issue.figures.source:
        return False
    return _has_number(issue.figures) or any(
        _has_number(each.figures) and not each.figures.source for each in issue.parts
    )


def _has_number(figures: Figures) -> bool:
    return bool(figures.mintage) or figures.proofs is not None or figures.melted is not None
