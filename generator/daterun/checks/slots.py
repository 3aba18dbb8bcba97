"""The slots of a run: one place for each thing that an aim asks a coin for.

A slot is a date, divided by mint, variety or type where the aim says so and the issue has more than one.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from daterun.records.aims import Divider
from daterun.records.coins import Strike
from daterun.records.series import Series
from daterun.records.struck import DateIssue, Figures, Part
from daterun.trade.dates import CoinDate, Span


@dataclass(frozen=True, slots=True)
class Slot:
    """One place to be filled by at most one coin.

    Mint, variety, type and monarch are None where the slot is not divided by them. The figures are those of
    the part that the slot stands for, or of the whole issue. A slot that is not dated stands for all its dates
    and bears the first. Members are the series and types of which a coin may be, a type of None meaning any;
    empty where they are the slot's own.
    """

    series: str
    date: CoinDate
    mint: str | None
    variety: str | None
    type: str | None
    figures: Figures
    monarch: str | None = None
    is_dated: bool = True
    members: frozenset[tuple[str, str | None]] = frozenset()

    @property
    def name(self) -> str:
        """The slot within its series: its date where it has one, then what divides it, as in ``1902 K``."""
        apart = " ".join(each for each in (self.mint, self.variety, self.type, self.monarch) if each)
        if not self.is_dated:
            return apart or self.date.key
        return f"{self.date.key} {apart}".rstrip()

    @property
    def all_series(self) -> tuple[str, ...]:
        """The series of which a coin may be: several where an aim goes across them."""
        return tuple(sorted({series for series, _ in self.members})) or (self.series,)

    def takes(self, series: str, coin_type: str | None) -> bool:
        """Tell whether a coin of a series and type is of what the slot stands for."""
        if self.members:
            return (series, coin_type) in self.members or (series, None) in self.members
        return series == self.series and self.type in (None, coin_type)


def without_needless(slot: Slot, series: Series) -> Slot:
    """Take from a slot its mint, type or monarch where its date has no other, so that it is the slot of the date.

    A variety stays, for one that is listed alone need not be all that was struck. A slot that is not dated, or
    of several series, is given back as it is.
    """
    if not slot.is_dated or len(slot.all_series) > 1 or not (slot.mint or slot.type or slot.monarch):
        return slot
    mints, types, monarchs = _dividers_of(series, slot.date)
    mint = slot.mint if len(mints) > 1 else None
    coin_type = slot.type if len(types) > 1 else None
    monarch = slot.monarch if len(monarchs) > 1 else None
    members = slot.members if coin_type or monarch else frozenset()
    return replace(slot, mint=mint, type=coin_type, monarch=monarch, members=members)


def name_without_needless(name: str, series: Series) -> str:
    """Shorten the name of a slot as ``without_needless`` does the slot; one without a date stays as it is."""
    key, *apart = name.split() or [""]
    issue = series.issue(key)
    if issue is None:
        return name
    each_of = _dividers_of(series, issue.date)
    needless = {value for values in each_of if len(values) == 1 for value in values}
    needless -= {value for values in each_of if len(values) > 1 for value in values}
    needless -= {each.id for each in series.varieties}
    return " ".join([key, *(each for each in apart if each not in needless)])


def _dividers_of(series: Series, date: CoinDate) -> tuple[set[str], set[str], set[str]]:
    """Give the mints, types and monarchs that a date has."""
    types = series.types_of(date)
    return set(series.mints_of(date)), {each.id for each in types}, {each.monarch for each in types}


MOST_SLOTS = 20_000
"""Slots into which the dates of one series may be divided in all; going through so many takes some seconds."""


def count_slots(series: Series) -> int:
    """Tell into how many slots the dates of a series come at most, divided by all that divides them."""
    dividers = (Divider.MINT, Divider.VARIETY, Divider.TYPE)
    return sum(
        math.prod(max(1, len(_values(series, issue, each))) for each in dividers) for issue in series.issues
    )


def slots_of(
    series: Series,
    span: Span | None = None,
    one_per: tuple[Divider, ...] = (Divider.DATE,),
    strikes: tuple[Strike, ...] = (Strike.ORDINARY,),
) -> tuple[Slot, ...]:
    """List the slots of a series in the order of its run; a span of None is the whole run.

    A date struck only as proofs is a slot only where proofs count. A double date belongs to a span by its
    first year; a date without a year belongs to the whole run alone. Where dates do not count, one slot
    stands for all the dates of a monarch, type, variety or mint, and bears the first of them with the figures
    of them all.
    """
    issues = [each for each in series.issues if _is_within(each, span)]
    slots = [slot for each in issues for slot in _slots_of_issue(series, each, one_per, strikes)]
    if Divider.DATE in one_per:
        return tuple(slots)
    groups: dict[tuple[str | None, ...], list[Slot]] = {}
    for slot in slots:
        groups.setdefault((slot.mint, slot.variety, slot.type, slot.monarch), []).append(slot)
    if len(groups) > 1:  # dates that nothing divides ask for nothing beside those that something does
        groups.pop((None, None, None, None), None)
    return tuple(
        replace(found[0], is_dated=False, figures=add_figures([each.figures for each in found]))
        for found in groups.values()
    )


def merge_across(slots: Iterable[Slot]) -> tuple[Slot, ...]:
    """Make one slot of those of several series of an issuer that ask for the same thing.

    It bears the first of them with the figures of them all. Slots come in order of date where dates count.
    """
    groups: dict[tuple[str | None, ...], list[Slot]] = {}
    for slot in slots:
        issuer = slot.series.partition("/")[0]
        key = (
            issuer,
            slot.date.key if slot.is_dated else "",
            slot.mint,
            slot.variety,
            slot.type,
            slot.monarch,
        )
        groups.setdefault(key, []).append(slot)
    merged = [
        replace(
            found[0],
            figures=add_figures([each.figures for each in found]),
            members=frozenset().union(*(each.members or {(each.series, each.type)} for each in found)),
        )
        for found in groups.values()
    ]
    return tuple(
        sorted(merged, key=lambda each: each.date.sort) if any(s.is_dated for s in merged) else merged
    )


def is_proofs_only(issue: DateIssue) -> bool:
    """Tell whether a date was struck only as proofs, by its own figures or by those of its every part."""
    return _is_proofs_only(issue, issue.parts)


def _is_proofs_only(issue: DateIssue, parts: Sequence[Part]) -> bool:
    if parts:
        return all(part.figures.proofs_only for part in parts)
    return issue.figures.proofs_only


def _is_within(issue: DateIssue, span: Span | None) -> bool:
    return span is None or (issue.date.year is not None and issue.date.year in span)


def _counts(issue: DateIssue, combination: dict[str, str], strikes: tuple[Strike, ...]) -> bool:
    """Tell whether an aim of some strikes can ask for a combination.

    Where proofs count and ordinary strikes do not, only what tells of proofs is asked for, by the part or by
    the date as a whole. No series tells of specimens, so that an aim of these alone asks for every date.
    """
    parts = _parts_of(issue, combination)
    if _is_proofs_only(issue, parts):
        return Strike.PROOF in strikes
    if Strike.ORDINARY in strikes or Strike.PROOF not in strikes:
        return True
    return any(each.proofs is not None for each in (issue.figures, *(part.figures for part in parts)))


def _slots_of_issue(
    series: Series, issue: DateIssue, one_per: tuple[Divider, ...], strikes: tuple[Strike, ...]
) -> list[Slot]:
    """Divide one issue by what the aim asks for; an issue that its parts do not divide is one slot."""
    if Divider.MONARCH in one_per and Divider.TYPE not in one_per:
        return _slots_by_monarch(series, issue, one_per, strikes)
    wanted = [each for each in (Divider.MINT, Divider.VARIETY, Divider.TYPE) if each in one_per]
    choices = [_values(series, issue, divider) for divider in wanted]
    combinations: list[dict[str, str]] = [{}]
    for divider, values in zip(wanted, choices, strict=True):
        if values:
            combinations = [{**each, divider.value: value} for each in combinations for value in values]
    struck = [each for each in combinations if _is_struck(issue, each)] or combinations
    return [
        Slot(
            series.key,
            issue.date,
            each.get("mint"),
            each.get("variety"),
            each.get("type"),
            _figures_of(issue, each, only=len(struck) == 1),
        )
        for each in struck
        if _counts(issue, each, strikes)
    ]


def _slots_by_monarch(
    series: Series, issue: DateIssue, one_per: tuple[Divider, ...], strikes: tuple[Strike, ...]
) -> list[Slot]:
    """Divide one issue by the monarchs of its types; one monarch alone has the figures of the whole."""
    less = tuple(each for each in one_per if each is not Divider.MONARCH)
    whole = {
        (slot.mint, slot.variety): slot.figures for slot in _slots_of_issue(series, issue, less, strikes)
    }
    monarchs = {each.id: each.monarch for each in series.types}
    groups: dict[tuple[str | None, str | None], dict[str, list[Slot]]] = {}
    for slot in _slots_of_issue(series, issue, (*less, Divider.TYPE), strikes):
        own = series.types_of(issue.date)
        coin_type = slot.type or (own[0].id if len(own) == 1 else "")
        of_part = groups.setdefault((slot.mint, slot.variety), {})
        of_part.setdefault(monarchs.get(coin_type, ""), []).append(slot)
    return [
        replace(
            found[0],
            type=None,
            monarch=monarch or None,
            figures=whole[part]
            if len(by_monarch) == 1 and part in whole
            else add_figures([each.figures for each in found]),
            members=frozenset(
                (series.key, each) for each, of in monarchs.items() if of == monarch and monarch
            ),
        )
        for part, by_monarch in groups.items()
        for monarch, found in by_monarch.items()
    ]


def _values(series: Series, issue: DateIssue, divider: Divider) -> tuple[str, ...]:
    match divider:
        case Divider.MINT:
            return series.mints_of(issue.date)
        case Divider.VARIETY:
            return tuple(each.id for each in series.varieties_of(issue.date))
        case Divider.TYPE:
            return tuple(each.id for each in series.types_of(issue.date))
        case Divider.DATE | Divider.MONARCH:
            return ()


def _agrees(part: Part, combination: dict[str, str]) -> bool:
    return all(part.value_of(divider) in (None, value) for divider, value in combination.items())


def _is_struck(issue: DateIssue, combination: dict[str, str]) -> bool:
    """Tell whether a combination can have been struck: some part agrees, or no part speaks of it at all."""
    named = {divider: value for divider, value in combination.items() if value in issue.values_of(divider)}
    return not named or any(_agrees(part, named) for part in issue.parts)


def _parts_of(issue: DateIssue, combination: dict[str, str]) -> list[Part]:
    """List the parts that are of a combination; all of them where it divides by nothing."""
    return [
        part
        for part in issue.parts
        if all(part.value_of(divider) == value for divider, value in combination.items())
    ]


def figures_of(issue: DateIssue) -> Figures:
    """Find the figures of a whole date: its own, else those of its parts added up.

    The number is not known where that of any part is not, or is disputed.
    """
    own = issue.figures
    if not issue.parts or own.mintage:
        return own
    whole = _together(issue.parts)
    return replace(
        whole,
        proofs=whole.proofs if own.proofs is None or whole.proofs_only else own.proofs,
        proofs_apart=own.proofs_apart,
        melted=whole.melted if own.melted is None else own.melted,
        scarce=own.scarce or whole.scarce,
        note=own.note,
        source=own.source,
        checked=own.checked and whole.checked,
    )


def _together(parts: Sequence[Part]) -> Figures:
    return add_figures([part.figures for part in parts])


def add_figures(figures: Sequence[Figures]) -> Figures:
    """Add up figures, as of one slot that any of their coins fills; it is scarce where they all are.

    One alone is as it is. The number is not known where that of any is not, or is disputed.
    """
    if len(figures) == 1:
        return figures[0]
    proofs = [each.proofs for each in figures if each.proofs is not None]
    melted = [each.melted for each in figures if each.melted is not None]
    apart = [each.proofs or 0 for each in figures if each.proofs_only or each.proofs_apart]
    known = all(each.proofs_only or len(each.mintage) == 1 for each in figures)
    proofs_only = all(each.proofs_only for each in figures)
    number = sum(sum(each.mintage) for each in figures) + sum(apart)
    return Figures(
        mintage=(number,) if known and not proofs_only else (),
        proofs=sum(proofs) if proofs else None,
        proofs_only=proofs_only,
        melted=sum(melted) if melted else None,
        scarce=all(each.scarce for each in figures),
        checked=all(each.checked for each in figures),
    )


def _figures_of(issue: DateIssue, combination: dict[str, str], only: bool) -> Figures:
    """Find the figures of a combination: of the part or parts it is, else of the whole issue.

    A combination that no part speaks of has no number known, unless it is the only one of its date.
    """
    if not combination or (not issue.parts and only):
        return figures_of(issue)
    parts = _parts_of(issue, combination)
    if len(parts) == 1:
        return parts[0].figures
    return _together(parts) if parts else Figures()
