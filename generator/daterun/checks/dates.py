"""Whether a coin's series struck its date, and not as proofs alone."""

from collections.abc import Iterator

from daterun.checks.belonging import regular_coins
from daterun.checks.wholeness import dates_are_whole, misread_issues
from daterun.naming import listed
from daterun.problems import Place, Problem, Severity
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, Strike
from daterun.records.series import Series
from daterun.records.struck import DateIssue
from daterun.trade.dates import CoinDate, DateKind, Span

_MOST_FITTING = 5
"""Years that a worn date may fit to be told one by one."""


def check_dates(catalogue: Catalogue) -> Iterator[Problem]:
    """Find coins whose date their series never struck, struck only as proofs, or is silent about."""
    for coin, series in regular_coins(catalogue):
        issue = series.issue(coin.date.key)
        if coin.date.kind is DateKind.WORN:
            yield from _check_worn(coin, series)
        elif issue is not None:
            yield from _check_proofs(coin, issue)
        elif coin.date.kind is not DateKind.UNDATED and coin.date.key not in misread_issues(series):
            yield from _never_struck(coin, series)


def _check_worn(coin: Coin, series: Series) -> Iterator[Problem]:
    possible = any(
        coin.date.possible(year)
        for each in series.issues
        if each.date.year is not None and each.date.last_year is not None
        for year in range(each.date.year, each.date.last_year + 1)
    )
    if not possible and dates_are_whole(series) and not misread_issues(series):
        yield Problem(
            "worn date",
            f'no date of the series {series.name} can have been "{coin.date.text}"',
            coin.at.place_of("date"),
            hint_for_date(series, coin.date),
        )


def _check_proofs(coin: Coin, issue: DateIssue) -> Iterator[Problem]:
    if coin.strike is not Strike.ORDINARY or "strike" in coin.at.misread:
        return
    fitting = [
        each
        for each in issue.parts
        if (coin.mint is None or each.mint in (None, coin.mint))
        and (not coin.varieties or each.variety is None or each.variety in coin.varieties)
        and (coin.type is None or each.type in (None, coin.type))
    ]
    if issue.figures.proofs_only or (fitting and all(each.figures.proofs_only for each in fitting)):
        which = "" if issue.figures.proofs_only or len(fitting) == len(issue.parts) else ", as this one is,"
        yield Problem(
            "proofs only",
            f"{coin.date.key}{which} was struck only as proofs",
            coin.at.place_of("date"),
            "write strike: proof, or look at the date again",
            others=(issue.place,),
        )


def _never_struck(coin: Coin, series: Series) -> Iterator[Problem]:
    """Report a date without an issue; its year may be not struck, not known, or half a double date."""
    place = coin.at.place_of("date")
    year = coin.date.year
    if year is not None and coin.date.kind is not DateKind.DOUBLE and series.struck.is_not_known(year):
        yield Problem(
            "not known",
            f"whether {coin.date.key} was struck is not known here, and this coin is one",
            place,
            "if the coin is sound, enter the date in the series under struck",
            Severity.ADVICE,
            others=(place_of_year(series, "not known", series.struck.not_known, year),),
        )
        return
    others: tuple[Place, ...] = ()
    hint = hint_for_date(series, coin.date)
    said = f'the series {series.name} has no date "{coin.date.text}"'
    if year is not None and series.struck.is_not_struck(year):
        said = f"none of the series {series.name} was struck with the date {coin.date.key}"
        hint = "look at the date again; if the coin is no regular one, say so with kind: and departs:"
        others = (place_of_year(series, "not struck", series.struck.not_struck, year),)
        hint = _double_of(series, coin.date) or hint
    yield Problem("not struck", said, place, hint, others=others)


def place_of_year(series: Series, key: str, spans: tuple[Span, ...], year: int) -> Place:
    """Find the place of the span that holds a year, among those written under a key of the table."""
    at = next((nth for nth, span in enumerate(spans) if year in span), 0)
    return series.struck.at.place_of(key, at)


def hint_for_date(series: Series, date: CoinDate) -> str:
    """Word the hint for a date that a series does not have: its run where it lies outside, else what is so."""
    run = series.struck.years
    if run is None:
        return ""
    if hint := _double_of(series, date):
        return hint
    if date.kind is DateKind.WORN:
        fitting = [f"{year:04}" for year in run if date.possible(year)]
        if not 0 < len(fitting) <= _MOST_FITTING:
            return run_hint(series) if not fitting else ""
        which = "which is not" if len(fitting) == 1 else "none of them"
        return f"of the years of its run only {listed(fitting)} would fit, {which} listed as struck"
    if date.year is None or date.year not in run:
        return run_hint(series)
    if date.kind is not DateKind.DOUBLE and series.struck.is_not_struck(date.year):
        return f"{date.key} is listed as not struck"
    if date.kind is not DateKind.DOUBLE and series.struck.is_not_known(date.year):
        return f"whether {date.key} was struck is not known here"
    dated = sorted((each.date for each in series.issues if each.date.year is not None), key=_by_sort)
    before = [each.key for each in dated if each.sort < date.sort]
    after = [each.key for each in dated if date.sort < each.sort]
    near = before[-1:] + after[:1]
    which = "nearest dates are" if len(near) > 1 else "nearest date is"
    return f"its {which} {listed(near)}" if near else ""


def _by_sort(date: CoinDate) -> tuple[int, int, int, str]:
    return date.sort


def _double_of(series: Series, date: CoinDate) -> str:
    """Word the hint for a year that is half a double date; empty for any other date."""
    doubles = [
        each.date.key
        for each in series.issues
        if each.date.kind is DateKind.DOUBLE and date.year is not None and each.date.possible(date.year)
    ]
    if not doubles or date.kind is DateKind.DOUBLE:
        return ""
    return f"a coin of that year bears the double date {' or '.join(doubles)}"


def run_hint(series: Series) -> str:
    """Word the hint for a date outside a run; nothing for a run without a year."""
    years = series.struck.years
    if years is None:
        return ""
    if years.first == years.last:
        return f"its one year is {years.first:04}"
    return f"its run goes from {years.first:04} to {years.last:04}"
