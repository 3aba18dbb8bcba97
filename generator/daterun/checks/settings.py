"""Whether the aims, wants and metal prices of a catalogue name what is there."""

from collections.abc import Iterator
from itertools import combinations

from daterun.checks.belonging import unknown_series
from daterun.checks.dates import hint_for_date, run_hint
from daterun.checks.places import place_of_entry, place_of_word
from daterun.checks.series import check_same_id
from daterun.checks.slots import MOST_SLOTS, count_slots, slots_of
from daterun.checks.wholeness import misread_issues
from daterun.problems import Misread, Place, Problem, meant
from daterun.records.aims import Aim, Divider, Want
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Strike
from daterun.records.located import Items, Mapping
from daterun.records.series import Series
from daterun.trade.dates import CoinDate, parse_coin_date
from daterun.trade.metals import parse_metal

_PER = ("g", "oz t")
_DIVIDERS = (Divider.MINT, Divider.VARIETY, Divider.TYPE, Divider.MONARCH)


def check_settings(catalogue: Catalogue) -> Iterator[Problem]:
    """Find aims and wants of series and slots that are not there, and prices of no metal."""
    settings = catalogue.settings
    yield from check_same_id("aims", [(each.id, each.at.place_of("id")) for each in settings.aims])
    for aim in settings.aims:
        if isinstance(said := aim.at.get("series"), Items) and not said.items:
            yield Problem("empty aim", "the aim names no series", said.place, "for example series: [ort]")
        for name in aim.series:
            yield from unknown_series(catalogue, name, place_of_word(aim.at, "series", name))
        yield from _check_years(catalogue, aim)
        yield from _check_left_out(catalogue, aim)
    wanted: dict[tuple[str, str], Place] = {}
    for want in settings.wants:
        yield from _check_twice(catalogue, want, wanted)
        yield from _check_want(catalogue, want.slot, want.at.place_of("slot"))
    yield from _check_metals(catalogue)


def _series_of(catalogue: Catalogue, aim: Aim) -> list[Series]:
    return [found for name in aim.series if (found := catalogue.find_series(name)) is not None]


def _check_years(catalogue: Catalogue, aim: Aim) -> Iterator[Problem]:
    series = _series_of(catalogue, aim)
    if aim.span is None or len(series) < len(aim.series) or any(misread_issues(each) for each in series):
        return
    years = {each.date.year for one in series for each in one.issues}
    if years.isdisjoint(aim.span):
        which = "the series" if len(series) == 1 else "none of its series"
        has = "has no date" if len(series) == 1 else "has a date"
        yield Problem(
            "empty aim",
            f"{which} {has} in {aim.span}",
            aim.at.place_of("dates"),
            "the aim asks for nothing; look at its years again",
        )


def _check_left_out(catalogue: Catalogue, aim: Aim) -> Iterator[Problem]:
    mine = {each.key for each in _series_of(catalogue, aim)}
    at = aim.at.get("leave out")
    for name, slots in aim.leave_out.items():
        series = catalogue.find_series(name)
        place = place_of_entry(aim.at, "leave out", name)
        if series is None:
            yield from unknown_series(catalogue, name, place)
            continue
        if series.key not in mine:
            yield Problem("left out", f"the aim does not ask for the series {name} at all", place)
            continue
        if count_slots(series) > MOST_SLOTS:
            continue  # which is said of the series
        known = [each.name for each in slots_of(series, aim.span, aim.one_per, aim.strikes)]
        for slot in slots:
            if " ".join(slot.split()) not in known and not misread_issues(series):
                inside = at.get(name) if isinstance(at, Mapping) else None
                where = inside.place_of_key(slot) if isinstance(inside, Mapping) else place
                said = f'the aim asks for no "{slot}" of {name}'
                yield Problem("left out", said, where, _hint_for_left_out(series, aim, slot, known))


def _hint_for_left_out(series: Series, aim: Aim, slot: str, known: list[str]) -> str:
    if hint := _of_that_date(slot, known):
        return hint
    if Divider.DATE not in aim.one_per:
        return meant(slot, known)
    date = _date_of(series, slot)
    if aim.span is not None and (date is None or date.year not in aim.span.years):
        return f"its years are {aim.span}"
    issue = series.issue(date.key) if date is not None else None
    if issue is not None and issue.figures.proofs_only:
        return f"{issue.date.key} was struck only as proofs, for which it does not ask"
    return _hint_for_slot(series, slot)


def _check_twice(catalogue: Catalogue, want: Want, wanted: dict[tuple[str, str], Place]) -> Iterator[Problem]:
    """Report a want for a slot that has one already, of which a list can show but one."""
    name, _, slot = " ".join(want.slot.split()).partition(" ")
    series = catalogue.find_series(name)
    if series is None or not slot:
        return
    place = want.at.place_of("slot")
    first = wanted.setdefault((series.key, slot), place)
    if first is not place:
        said = f'"{want.slot}" is wanted twice; only one of the two can be shown'
        yield Problem("want", said, place, "make one want of them", others=(first,))


def _check_want(catalogue: Catalogue, text: str, place: Place) -> Iterator[Problem]:
    name, _, slot = " ".join(text.split()).partition(" ")
    series = catalogue.find_series(name)
    if series is None:
        yield from unknown_series(catalogue, name, place)
    elif not slot:
        yield Problem("want", f'"{text}" names no date', place, f"write it as in {name} {_example(series)}")
    elif misread_issues(series) or count_slots(series) > MOST_SLOTS:
        return  # which is said of the series
    elif slot not in _slot_names(series):
        hint = _of_that_date(slot, list(dict.fromkeys(_slot_names(series)))) or _hint_for_slot(series, slot)
        yield Problem("want", f'the series {name} has no "{slot}"', place, hint)


def _example(series: Series) -> str:
    return series.issues[0].date.key if series.issues else "1892"


def _date_of(series: Series, slot: str) -> CoinDate | None:
    """Read the date with which a slot begins, which may be of several words; None where there is none."""
    words = slot.split()
    for number in range(len(words), 0, -1):
        try:
            return parse_coin_date(" ".join(words[:number]), series.labels)
        except Misread:
            continue
    return None


def _hint_for_slot(series: Series, slot: str) -> str:
    date = _date_of(series, slot)
    return hint_for_date(series, date) if date is not None else run_hint(series)


def _of_that_date(slot: str, known: list[str]) -> str:
    """Word the hint for a slot whose date is there, but not what divides it."""
    date = slot.split(" ")[0]
    return meant(slot, [each for each in known if each.split(" ")[0] == date])


def _slot_names(series: Series) -> Iterator[str]:
    """Name every slot that some aim could ask of a series, the plain dates first, some of them more than once."""
    for number in range(len(_DIVIDERS) + 1):
        for dividers in combinations(_DIVIDERS, number):
            for one_per in ((Divider.DATE, *dividers), dividers):
                if one_per:
                    yield from (each.name for each in slots_of(series, None, one_per, tuple(Strike)))


def _check_metals(catalogue: Catalogue) -> Iterator[Problem]:
    for name, price in catalogue.settings.metals.items():
        try:
            parse_metal(name)
        except Misread as misread:
            place = place_of_entry(catalogue.settings.at, "metals", name)
            yield Problem("metal", misread.sentence, place, misread.hint)
        if price.per not in _PER:
            yield Problem(
                "measure",
                f'"{price.per}" is not what a price of metal is given for',
                price.at.place_of("per"),
                "write g or oz t",
            )
