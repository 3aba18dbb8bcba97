"""Whether the variety, mint, type and standard that a coin names are those of its date."""

from collections.abc import Iterator, Sequence

from daterun.checks.belonging import regular_coins
from daterun.checks.places import place_of_word
from daterun.checks.wholeness import list_is_whole
from daterun.naming import listed
from daterun.problems import Place, Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin
from daterun.records.issuers import Issuer
from daterun.records.series import Series


def check_attributions(catalogue: Catalogue) -> Iterator[Problem]:
    """Find coins whose own word does not go with their date, or is wanting where the date leaves a choice."""
    for coin, series in regular_coins(catalogue):
        yield from _check_varieties(coin, series)
        yield from _check_mint(coin, series, catalogue.issuers.get(series.issuer))
        yield from _check_type(coin, series)
        yield from _check_standard(coin, series)


def _check_varieties(coin: Coin, series: Series) -> Iterator[Problem]:
    of_date = [each.id for each in series.varieties_of(coin.date)]
    whole = list_is_whole(series.at, "varieties", series.varieties)
    for named in coin.varieties:
        variety = series.variety(named)
        if variety is None:
            if whole:
                place = place_of_word(coin.at, "variety", named)
                yield _unknown("variety", named, [each.id for each in series.varieties], series, place)
        elif variety.spans and named not in of_date and _is_dated(coin, series):
            place = place_of_word(coin.at, "variety", named)
            yield _not_of_date("variety", coin, named, of_date, place, variety.at.place_of("dates"))
    yield from _check_said("variety", coin, bool(coin.varieties), of_date)


def _check_mint(coin: Coin, series: Series, issuer: Issuer | None) -> Iterator[Problem]:
    of_date = series.mints_of(coin.date)
    issue = series.issue(coin.date.key)
    if coin.mint is not None and issuer is not None and issuer.mints and coin.mint not in issuer.mints:
        yield Problem(
            "unknown mint",
            f'{issuer.name} has no mint with the mark "{coin.mint}"',
            coin.at.place_of("mint"),
            meant(coin.mint, issuer.mints),
            others=(issuer.at.place_of_key("mints"),),
        )
    elif coin.mint is not None and of_date and issue is not None and coin.mint not in of_date:
        bearing = "without a mint mark" if coin.mint == "none" else f'with the mint mark "{coin.mint}"'
        hint = f"{coin.date.key} has {listed(of_date)}"
        said = f"{coin.date.key} was not struck {bearing}"
        yield Problem("mint", said, coin.at.place_of("mint"), hint, others=(issue.place,))
    elif coin.mint not in (None, "none") and issue is not None and not of_date and _tells_mints(series):
        yield Problem(
            "mint",
            f'the series does not say that {coin.date.key} was struck with the mint mark "{coin.mint}"',
            coin.at.place_of("mint"),
            "look at the coin again; if it is right, divide the date in the series: by mint",
            Severity.ADVICE,
            others=(issue.place,),
        )
    yield from _check_said("mint", coin, coin.mint is not None, of_date)


def _tells_mints(series: Series) -> bool:
    return any(each.values_of("mint") for each in series.issues)


def _check_type(coin: Coin, series: Series) -> Iterator[Problem]:
    of_date = [each.id for each in series.types_of(coin.date)]
    if coin.type is not None:
        coin_type = series.type(coin.type)
        if coin_type is None:
            if list_is_whole(series.at, "types", series.types):
                place = coin.at.place_of("type")
                yield _unknown("type", coin.type, [each.id for each in series.types], series, place)
        elif coin.type not in of_date and _is_dated(coin, series):
            place = coin.at.place_of("type")
            yield _not_of_date("type", coin, coin.type, of_date, place, coin_type.at.place_of("dates"))
    yield from _check_said("type", coin, coin.type is not None, of_date)


def _check_standard(coin: Coin, series: Series) -> Iterator[Problem]:
    of_date = [each.name for each in series.standards_of(coin.date)]
    if coin.standard is not None:
        standard = series.standard(coin.standard)
        if standard is None:
            if list_is_whole(series.at, "standards", series.standards):
                known = [each.name for each in series.standards]
                place = coin.at.place_of("standard")
                yield _unknown("standard", coin.standard, known, series, place)
        elif standard.name not in of_date and _is_dated(coin, series):
            place = coin.at.place_of("standard")
            yield _not_of_date("standard", coin, coin.standard, of_date, place, standard.at.place_of("dates"))
    yield from _check_said("standard", coin, coin.standard is not None, of_date)


def _is_dated(coin: Coin, series: Series) -> bool:
    """Tell whether the date is one that the series struck, so that what belongs to it can be told."""
    return series.issue(coin.date.key) is not None and coin.date.year is not None


def _unknown(what: str, named: str, known: Sequence[str], series: Series, place: Place) -> Problem:
    hint = meant(named, known) if known else f"the series has no {_several(what)} at all"
    return Problem(what, f'the series {series.name} has no {what} "{named}"', place, hint)


def _not_of_date(
    what: str, coin: Coin, named: str, of_date: Sequence[str], place: Place, other: Place
) -> Problem:
    has = listed(of_date) if of_date else f"no {what} of its own"
    hint = f"{coin.date.key} has {has}"
    return Problem(what, f'the {what} "{named}" is not of {coin.date.key}', place, hint, others=(other,))


def _check_said(what: str, coin: Coin, said: bool, of_date: Sequence[str]) -> Iterator[Problem]:
    """Report a choice that the date leaves and the coin does not make; a misread word has been told."""
    if said or what in coin.at or len(of_date) < 2:
        return
    yield Problem(
        f"{what} not said",
        f"{coin.date.key} has {len(of_date)} {_several(what)}, and the coin does not say which it is",
        coin.at.place_of("date"),
        f"write {what}: {listed(of_date, 'or')}",
    )


def _several(what: str) -> str:
    return "varieties" if what == "variety" else f"{what}s"
