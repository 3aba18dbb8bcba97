"""Whether an issue's parts are things that the series has on that date, and add up to the whole."""

from collections.abc import Iterator

from daterun.checks.wholeness import list_is_whole, mapping_is_whole
from daterun.problems import Place, Problem, meant
from daterun.records.catalogue import Catalogue
from daterun.records.issuers import Issuer
from daterun.records.located import Mapping, Node
from daterun.records.series import Series
from daterun.records.struck import DateIssue, Figures, Part


def check_divisions(catalogue: Catalogue) -> Iterator[Problem]:
    """Find parts of no mint, variety or type of their date, and figures that cannot all be right."""
    for series in catalogue.series.values():
        issuer = catalogue.issuers.get(series.issuer)
        for issue in series.issues:
            yield from _check_mints(issue, issuer)
            yield from _check_varieties(issue, series)
            yield from _check_types(issue, series)
            yield from _check_figures(issue.figures, issue.at, issue.place)
            for part in issue.parts:
                yield from _check_figures(part.figures, part.at, part.at.place)
            yield from _check_sum(issue)


def _check_mints(issue: DateIssue, issuer: Issuer | None) -> Iterator[Problem]:
    if issuer is None or not issuer.mints or not mapping_is_whole(issuer.at, "mints", issuer.mints):
        return
    for mark in issue.values_of("mint"):
        if mark not in issuer.mints:
            yield Problem(
                "unknown mint",
                f'{issuer.name} has no mint with the mark "{mark}"',
                _place_of(issue, "mint", mark),
                meant(mark, issuer.mints),
                others=(issuer.at.place_of_key("mints"),),
            )


def _check_varieties(issue: DateIssue, series: Series) -> Iterator[Problem]:
    for named in issue.values_of("variety"):
        variety = series.variety(named)
        place = _place_of(issue, "variety", named)
        if variety is None:
            if list_is_whole(series.at, "varieties", series.varieties):
                yield _unknown("variety", named, place, [each.id for each in series.varieties])
        elif issue.date.year is not None and variety.spans and not variety.is_of(issue.date):
            yield _not_of_date("variety", named, issue, place, variety.at.place_of("dates"))


def _check_types(issue: DateIssue, series: Series) -> Iterator[Problem]:
    """Check the types; that of a double date may be of either year."""
    for named in issue.values_of("type"):
        found = series.type(named)
        place = _place_of(issue, "type", named)
        if found is None:
            if list_is_whole(series.at, "types", series.types):
                yield _unknown("type", named, place, [each.id for each in series.types])
        elif issue.date.year is not None and issue.date.last_year is not None:
            years = range(issue.date.year, issue.date.last_year + 1)
            if not any(year in found.span for year in years):
                yield _not_of_date("type", named, issue, place, found.at.place_of("dates"))


def _unknown(divider: str, named: str, place: Place, known: list[str]) -> Problem:
    return Problem("division", f'the series has no {divider} "{named}"', place, meant(named, known))


def _not_of_date(divider: str, named: str, issue: DateIssue, place: Place, other: Place) -> Problem:
    return Problem(
        "division",
        f'the {divider} "{named}" is divided off from {issue.date.key}, which is none of its years',
        place,
        f"lengthen its years, or take it from {issue.date.key}",
        others=(other,),
    )


def _place_of(issue: DateIssue, divider: str, value: str) -> Place:
    """Find where a part's mint, variety or type is written: as a key of a division or in a list of parts."""
    if isinstance(issue.at, Mapping):
        division = issue.at.get(f"by {divider}")
        if isinstance(division, Mapping) and value in division.entries:
            return division.place_of_key(value)
    for part in issue.parts:
        if part.value_of(divider) == value and isinstance(part.at, Mapping):
            return part.at.place_of(divider)
    return issue.place


def _check_figures(figures: Figures, at: Node, place: Place) -> Iterator[Problem]:
    def place_of(key: str) -> Place:
        return at.place_of(key) if isinstance(at, Mapping) else place

    others = (place_of("mintage"),) if figures.mintage else ()
    most = max(figures.mintage, default=None)
    if most is not None and figures.proofs is not None and figures.proofs > most and not figures.proofs_apart:
        yield Problem(
            "proofs",
            f"{figures.proofs:,} proofs are more than the {most:,} struck",
            place_of("proofs"),
            "write proofs apart: yes where the mintage does not include them",
            others=others,
        )
    if most is not None and figures.proofs_apart:
        most += figures.proofs or 0
    if figures.proofs_only:
        most = figures.proofs
    if most is not None and figures.melted is not None and figures.melted > most:
        yield Problem(
            "melted",
            f"{figures.melted:,} were melted, more than the {most:,} struck",
            place_of("melted"),
            "look at both figures again",
            others=others,
        )


def _check_sum(issue: DateIssue) -> Iterator[Problem]:
    """Compare the parts with the whole; a disputed figure on either side proves nothing."""
    whole, parts = issue.figures, issue.parts
    if not parts or not isinstance(issue.at, Mapping):
        return
    said = tuple(each.figures.mintage for each in parts)
    if len(whole.mintage) == 1 and all(len(each) < 2 for each in said):
        total = sum(each[0] for each in said if each)
        every = all(said) and _are_all_read(issue)
        whole_number = whole.mintage[0]
        if total > whole_number or (every and total != whole_number):
            so_far = "" if every else " already"
            yield Problem(
                "parts and whole",
                f"the parts of {issue.date.key} add up to {total:,}{so_far}, the whole is {whole_number:,}",
                issue.at.place_of("mintage"),
                others=(_first_place(parts),),
            )
    proofs = sum(each.figures.proofs or 0 for each in parts)
    if whole.proofs is not None and proofs > whole.proofs:
        yield Problem(
            "parts and whole",
            f"the proofs of {issue.date.key} add up to {proofs:,} by parts, the whole has {whole.proofs:,}",
            issue.at.place_of("proofs"),
            others=(_first_place(parts),),
        )


def _are_all_read(issue: DateIssue) -> bool:
    assert isinstance(issue.at, Mapping)
    divisions = [issue.at.get(f"by {divider}") for divider in ("mint", "variety", "type")]
    longest = max((len(each.entries) for each in divisions if isinstance(each, Mapping)), default=0)
    if longest:
        return len(issue.parts) == longest
    return list_is_whole(issue.at, "issues", issue.parts)


def _first_place(parts: tuple[Part, ...]) -> Place:
    return parts[0].at.place
