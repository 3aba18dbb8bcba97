"""The want list on paper: every gap and upgrade of the chosen aims, each thing once, by series and date."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from daterun.checks.aims import AimState
from daterun.checks.completeness import Filled, State
from daterun.checks.slots import Slot, without_needless
from daterun.checks.wanted import struck_for
from daterun.naming import listed
from daterun.pages.amounts import say_money
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Cabinet
from daterun.pages.printchoice import Choice, choose_aims
from daterun.pages.printpieces import WantGroup, WantLine, WantSheets
from daterun.pages.printtitle import title_of
from daterun.pages.slotnames import say_strikes
from daterun.pages.wantnotes import Key, note_on, read_notes
from daterun.pages.wording import (
    name_mint_of,
    name_type,
    name_variety,
    say_date,
    say_grade_line,
    say_metal,
)
from daterun.problems import CannotContinue
from daterun.readers.closed import ClosedAim, ClosedWant
from daterun.records.coins import Strike
from daterun.records.series import Series
from daterun.trade.measures import show_millimetres

_ACROSS = ""
"""What no series is called: stands for the slots that a coin of any of several series fills."""

_LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class _Wanted:
    """One thing to look for, with the aims that ask for it and how far each is from it."""

    filled: Filled
    aims: tuple[int, ...]
    strikes: tuple[Strike, ...]


def plan_wants(binder: Binder, choice: Choice) -> WantSheets:
    """Plan the want list. Raise CannotContinue for a reader who is not shown one."""
    settings = binder.catalogue.settings
    if not settings.shows_wants:
        raise CannotContinue(
            "the public edition shows no want list; in catalogue.yaml readers: {public: {wants: yes}} turns it on"
        )
    aims = choose_aims(binder.cabinet, choice)
    by_id = {each.id: each for each in binder.cabinet.aims}
    states = [by_id[each.id] for each in aims]
    wanted = _gather(aims, states, binder.catalogue.series) if aims else _of_runs(binder.cabinet)
    groups = tuple(_groups(binder, aims, wanted))
    missing = sum(1 for each in wanted if each.filled.state is State.MISSING)
    words = binder.words
    return WantSheets(
        title=title_of(binder, "wants"),
        tally=words.say(
            "print.wanted", missing=words.number(missing), below=words.number(len(wanted) - missing)
        ),
        aims=tuple((_mark(nth), each.name) for nth, each in enumerate(aims)),
        groups=groups,
        cautions=(words.say("caution.grades"),),
    )


def _mark(nth: int) -> str:
    """Name an aim by a letter, and by two beyond the alphabet."""
    high, low = divmod(nth, len(_LETTERS))
    return (_LETTERS[high - 1] if high else "") + _LETTERS[low]


def _of_runs(cabinet: Cabinet) -> list[_Wanted]:
    """Without aims, what is missing of each run by the plain aim is wanted."""
    return [
        _Wanted(each, (), (Strike.ORDINARY,))
        for states in cabinet.runs.values()
        for each in states
        if each.state is State.MISSING
    ]


def _gather(
    aims: Iterable[ClosedAim], states: Iterable[AimState], series: Mapping[str, Series]
) -> list[_Wanted]:
    """Gather what is missing or below; what several aims ask for in the same words is one thing."""
    found: dict[tuple[object, ...], _Wanted] = {}
    for nth, (aim, state) in enumerate(zip(aims, states, strict=True)):
        for each in state.states:
            if each.state not in (State.MISSING, State.BELOW):
                continue
            slot = without_needless(each.slot, series[each.slot.series])
            key = (
                slot.all_series,
                slot.name,
                slot.is_dated,
                aim.strikes,
                aim.kinds,
                each.state,
                _least(aim),
                each.coin,
            )
            before = found.get(key)
            marks = (*before.aims, nth) if before is not None else (nth,)
            mint = each.slot.mint or (before.filled.slot.mint if before is not None else None)
            found[key] = _Wanted(replace(each, slot=replace(slot, mint=mint)), marks, aim.strikes)
    return list(found.values())


def _least(aim: ClosedAim) -> str:
    return aim.at_least.text if aim.at_least is not None else ""


def _groups(binder: Binder, aims: tuple[ClosedAim, ...], wanted: Iterable[_Wanted]) -> Iterable[WantGroup]:
    by_series: dict[str, list[_Wanted]] = {}
    for each in wanted:
        slot = each.filled.slot
        by_series.setdefault(slot.series if len(slot.all_series) < 2 else _ACROSS, []).append(each)
    notes = read_notes(binder)
    for denomination in binder.cabinet.denominations:
        for series in denomination.series:
            own = by_series.get(series.key, [])
            own.sort(key=lambda each: (each.filled.slot.date.sort, each.filled.slot.name))
            if own:
                heading = binder.of_issuer(series.name, series.issuer)
                lines = tuple(_line(binder, series, aims, each, notes) for each in own)
                yield WantGroup(heading, _size(binder, series), lines)
    if across := by_series.get(_ACROSS):
        across.sort(key=lambda each: (each.filled.slot.date.sort, each.filled.slot.name))
        found = [
            _line(binder, binder.catalogue.series[each.filled.slot.series], aims, each, notes)
            for each in across
        ]
        yield WantGroup(binder.words.say("print.across"), "", tuple(found))


def _size(binder: Binder, series: Series) -> str:
    """Word metal and diameter, by which a coin is found in a tray."""
    words = binder.words
    metals = dict.fromkeys(say_metal(each, words) for each in series.standards)
    sizes = dict.fromkeys(
        show_millimetres(each.diameter.mm) for each in series.standards if each.diameter is not None
    )
    return ", ".join([*metals, *sizes])


def _line(
    binder: Binder,
    series: Series,
    aims: tuple[ClosedAim, ...],
    wanted: _Wanted,
    notes: Mapping[Key, ClosedWant],
) -> WantLine:
    words, slot, filled = binder.words, wanted.filled.slot, wanted.filled
    figures = struck_for(slot.figures, wanted.strikes)
    numbers = listed([words.number(each) for each in figures], words.say("or"))
    held = binder.cabinet.by_id.get(filled.coin) if filled.coin is not None else None
    note = note_on(binder, notes, slot, wanted.strikes)
    least = _least(aims[wanted.aims[0]]) if wanted.aims else ""
    return WantLine(
        name=_name(binder, series, slot, wanted.strikes),
        struck=words.say("struck.number", n=numbers) if numbers else "",
        need=words.say("print.at-least", grade=least) if least else "",
        have=words.say("print.have", grade=say_grade_line(held.coin, words)) if held is not None else "",
        most=words.say("print.at-most", amount=say_money(note.at_most, words))
        if note is not None and note.at_most is not None
        else "",
        remark=note.remark if note is not None else "",
        marks=" ".join(_mark(each) for each in wanted.aims) if len(aims) > 1 else "",
        is_scarce=slot.figures.scarce,
    )


def _name(binder: Binder, series: Series, slot: Slot, strikes: tuple[Strike, ...]) -> str:
    words = binder.words
    issuer = binder.catalogue.issuers.get(series.issuer)
    parts = [say_date(slot.date, words)] if slot.is_dated else []
    if slot.mint:
        parts.append(name_mint_of(slot.mint, issuer, words))
    if slot.variety:
        variety = series.variety(slot.variety)
        parts.append(name_variety(variety) if variety is not None else slot.variety)
    if slot.type:
        coin_type = series.type(slot.type)
        parts.append(name_type(coin_type, series, issuer) if coin_type is not None else slot.type)
    if slot.monarch and issuer is not None and (monarch := issuer.monarch(slot.monarch)) is not None:
        parts.append(monarch.name)
    if said := say_strikes(words, strikes):
        parts.append(said)
    return ", ".join(parts) or series.name
