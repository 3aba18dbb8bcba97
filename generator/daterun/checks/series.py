"""Whether a series hangs together: its issuer, face value, names, and a standard and type for every date."""

from collections.abc import Iterator, Sequence

from daterun.checks.places import place_of_entry
from daterun.checks.slots import MOST_SLOTS, count_slots
from daterun.checks.wholeness import is_broken, list_is_whole, misread_issues
from daterun.naming import listed
from daterun.problems import Misread, Place, Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.series import Series
from daterun.trade.dates import parse_span


def check_series(catalogue: Catalogue) -> Iterator[Problem]:
    """Find what a series' standards, types, varieties and labels leave open or say twice."""
    for series in catalogue.series.values():
        yield from _check_issuer(catalogue, series)
        yield from _check_names(series)
        yield from _check_cover(series)
        yield from _check_use(series)
        yield from _check_labels(series)
        if (slots := count_slots(series)) > MOST_SLOTS:
            said = f"mints, varieties and types divide the dates into {slots:,} slots, too many to go through"
            place = series.at.place_of("varieties")
            yield Problem("division", said, place, "give each variety its own dates")


def _check_issuer(catalogue: Catalogue, series: Series) -> Iterator[Problem]:
    issuer = catalogue.issuers.get(series.issuer)
    if issuer is None:
        if not is_broken(catalogue, "issuers", series.issuer):
            place = series.at.place_of("issuer")
            hint = meant(series.issuer, catalogue.issuers)
            hint = hint or f"it is written in content/issuers/{series.issuer}.yaml"
            yield Problem("unknown issuer", f'there is no issuer "{series.issuer}"', place, hint)
        return
    if series.face and issuer.money is not None:
        try:
            issuer.money.parse_face(series.face)
        except Misread as misread:
            place = series.at.place_of("face")
            others = (issuer.at.place_of_key("money"),)
            yield Problem("face value", misread.sentence, place, misread.hint, others=others)


def _check_names(series: Series) -> Iterator[Problem]:
    """Find two types, varieties or standards that a coin could not tell apart by name."""
    types = [(each.id, each.at.place_of("id")) for each in series.types]
    varieties = [(each.id, each.at.place_of("id")) for each in series.varieties]
    standards = [(each.name, each.at.place_of("id" if each.id else "dates")) for each in series.standards]
    yield from check_same_id("types", types)
    yield from check_same_id("varieties", varieties)
    yield from check_same_id("standards", standards, "give each a short name: id:")


def check_same_id(what: str, named: Sequence[tuple[str, Place]], hint: str = "") -> Iterator[Problem]:
    """Report each short name that stands for two things of a kind."""
    first: dict[str, Place] = {}
    for name, place in named:
        if name in first:
            others = (first[name],)
            yield Problem("same short name", f'two {what} are called "{name}"', place, hint, others=others)
        first.setdefault(name, place)


def _check_cover(series: Series) -> Iterator[Problem]:
    dated = [each for each in series.issues if each.date.year is not None]
    for what, key, values, found in (
        ("standard", "standards", series.standards, series.standards_of),
        ("type", "types", series.types, series.types_of),
    ):
        bare = [each.date.key for each in dated if not found(each.date)]
        if values and bare and list_is_whole(series.at, key, values):
            yield Problem(
                f"no {what}",
                f"no {what} covers {listed(bare)}",
                series.at.place_of_key(key),
                "lengthen the dates of one, or add one",
            )


def _check_use(series: Series) -> Iterator[Problem]:
    """Find standards, types and varieties of dates on which nothing was struck; most likely a slip."""
    if misread_issues(series) or not series.issues:
        return
    dates = [each.date for each in series.issues]
    used = {id(each) for date in dates for each in series.standards_of(date)}
    used |= {id(each) for date in dates for each in series.types_of(date)}
    used |= {id(each) for date in dates for each in series.varieties_of(date)}
    unused = [("standard", each.at) for each in series.standards if id(each) not in used]
    unused += [("type", each.at) for each in series.types if id(each) not in used]
    unused += [("variety", each.at) for each in series.varieties if each.spans and id(each) not in used]
    for what, at in unused:
        yield Problem(
            "of no date",
            f"no date was struck of this {what}",
            at.place_of("dates"),
            "look at its years again, or add the dates to the table of issues",
            Severity.ADVICE,
        )


def _check_labels(series: Series) -> Iterator[Problem]:
    first: dict[str, str] = {}
    for label in series.labels:
        where = place_of_entry(series.at, "labels", label)
        folded = " ".join(label.split()).casefold()
        if folded in first:
            yield Problem("label", f'the labels "{first[folded]}" and "{label}" cannot be told apart', where)
        first.setdefault(folded, label)
        try:
            parse_span(label)
        except Misread:
            continue
        yield Problem(
            "label",
            f'the label "{label}" reads as a year of the usual calendar',
            where,
            f"write it with its calendar, as in AH {label}",
        )
