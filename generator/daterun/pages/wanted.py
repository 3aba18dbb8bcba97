"""What to look for next: the missing in order of scarcity, what is to be upgraded, and what is spare.

Planned only for a reader whose edition shows wants; the most to pay and the remarks are there for the keeper.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from daterun.checks.aims import AimState
from daterun.checks.completeness import Filled, State
from daterun.checks.slots import without_needless
from daterun.checks.wanted import Upgrade, by_scarcity, spare_everywhere, struck_for, upgrades
from daterun.naming import listed
from daterun.pages import addresses
from daterun.pages.aimviews import ListingView
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Cabinet
from daterun.pages.pieces import Link, Table
from daterun.pages.slotnames import link_to_coin, link_to_slot, say_number
from daterun.pages.slots import name_slot
from daterun.pages.views import Page
from daterun.pages.wantnotes import meant_by, note_on, read_notes
from daterun.pages.wording import say_grade_line
from daterun.readers.reader import Reader
from daterun.records.coins import Strike

ORDINARY = (Strike.ORDINARY,)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A missing slot, the strikes that fill it, and the aims that ask for it or leave it out."""

    filled: Filled
    strikes: tuple[Strike, ...]
    aims: tuple[str, ...]
    left_out_of: tuple[str, ...]


def wanted_page(binder: Binder) -> Page:
    """Plan the one page of all that is wanted and all that is spare."""
    words = binder.words
    found = wanted_slots(binder.cabinet)
    ordinary = [each for each in found if Strike.ORDINARY in each.strikes]
    proofs = [each for each in found if Strike.ORDINARY not in each.strikes]
    tables = (
        _missing(binder, ordinary, words.say("wanted.missing"), words.say("table.ordinary")),
        _missing(binder, proofs, words.say("wanted.missing-proofs"), words.say("table.pieces")),
        _upgrades(binder),
        _spares(binder),
        _done(binder, found),
    )
    view = ListingView(
        words.say("wanted.heading"),
        words.count("wanted.lead", len(found)),
        tables=tuple(each for each in tables if each is not None),
        cautions=(words.say("caution.grades"),),
    )
    return binder.page(addresses.WANTED, "listing", view, view.lead)


def wanted_slots(cabinet: Cabinet) -> tuple[Wanted, ...]:
    """Gather what any run or aim misses, each slot once, the scarcest first and unknown numbers last.

    A date that some aim asks for by its mint, variety or type is not asked for again as a whole. One that has
    a single type, mint or monarch is the same slot whether an aim names these or not; its mint is shown where
    some aim does, for it can be seen on the coin.
    """
    series = cabinet.catalogue.series
    found: dict[tuple[tuple[str, ...], str, tuple[Strike, ...]], Filled] = {}
    aims: dict[tuple[tuple[str, ...], str, tuple[Strike, ...]], list[str]] = {}
    left_out: dict[tuple[tuple[str, ...], str], list[str]] = {}
    divided: set[tuple[str, str]] = set()
    for aim in cabinet.aims:
        for each in aim.states:
            if each.state not in (State.LEFT_OUT, State.MISSING):
                continue
            slot = without_needless(each.slot, series[each.slot.series])
            if each.state is State.LEFT_OUT:
                left_out.setdefault((slot.all_series, slot.name), []).append(aim.name)
            else:
                key = (slot.all_series, slot.name, aim.rules.strikes)
                if key not in found or (each.slot.mint and not found[key].slot.mint):
                    found[key] = replace(each, slot=replace(slot, mint=each.slot.mint))
                aims.setdefault(key, []).append(aim.name)
                if slot.is_dated and slot.name != slot.date.key and Strike.ORDINARY in aim.rules.strikes:
                    divided.add((slot.series, slot.date.key))
    for states in cabinet.runs.values():
        for each in states:
            if each.state is State.MISSING and (each.slot.series, each.slot.date.key) not in divided:
                found.setdefault((each.slot.all_series, each.slot.name, ORDINARY), each)
    wanted = [
        Wanted(
            filled,
            key[2],
            tuple(aims.get(key, ())),
            tuple(left_out.get(key[:2], ())) if key not in aims else (),
        )
        for key, filled in found.items()
    ]
    return tuple(sorted(wanted, key=_scarcity))


def _scarcity(wanted: Wanted) -> tuple[bool, int, tuple[int, int, int, str], str, str]:
    slot = wanted.filled.slot
    struck = struck_for(slot.figures, wanted.strikes)
    return not struck, min(struck, default=0), slot.date.sort, slot.series, slot.name


def missing_table(
    binder: Binder, states: Iterable[Filled], strikes: Sequence[Strike], caption: str
) -> Table | None:
    """Make a table of what is missing of an aim, the scarcest first; None where nothing is."""
    words = binder.words
    rows = tuple(
        (
            link_to_slot(binder, each, strikes),
            Link(say_number(binder, each, strikes)),
            Link(words.say("remark.scarce") if each.slot.figures.scarce else ""),
        )
        for each in by_scarcity(states, strikes)
    )
    heading = words.say("table.pieces" if Strike.ORDINARY not in strikes else "table.ordinary")
    return _finish(Table(caption, (words.say("table.date"), heading, words.say("table.remark")), rows, (1,)))


def _missing(binder: Binder, found: Sequence[Wanted], caption: str, heading: str) -> Table | None:
    words = binder.words
    notes = read_notes(binder)
    rows = []
    for each in found:
        note = note_on(binder, notes, each.filled.slot, each.strikes)
        wanted_for = listed(each.aims, words.say("and"))
        if each.left_out_of:
            wanted_for = words.say("wanted.left-out", aims=listed(each.left_out_of, words.say("and")))
        rows.append(
            (
                link_to_slot(binder, each.filled, each.strikes),
                Link(say_number(binder, each.filled, each.strikes)),
                Link(wanted_for),
                Link(str(note.at_most) if note is not None and note.at_most is not None else ""),
                Link(note.remark if note is not None else ""),
            )
        )
    rest = (words.say(f"table.{key}") for key in ("wanted-for", "at-most", "remark"))
    return _finish(Table(caption, (words.say("table.date"), heading, *rest), tuple(rows), (1, 3)))


def _done(binder: Binder, found: Sequence[Wanted]) -> Table | None:
    """List the keeper's notes on slots that are wanted no more, so that they can be taken out."""
    if binder.catalogue.reader is not Reader.KEEPER:
        return None
    words = binder.words
    still = {key for each in found for key in meant_by(binder, each.filled.slot, each.strikes)}
    rows = tuple(
        (Link(each.slot), Link(str(each.at_most) if each.at_most is not None else ""), Link(each.remark))
        for key, each in read_notes(binder).items()
        if key not in still
    )
    headings = (words.say("table.date"), words.say("table.at-most"), words.say("table.remark"))
    return _finish(Table(words.say("wanted.done"), headings, rows, (1,)))


def upgrades_of(cabinet: Cabinet, aim: AimState) -> tuple[Upgrade, ...]:
    """List the slots below an aim, furthest short first."""
    coins = {each.coin for each in aim.states if each.coin is not None}
    grades = {each: cabinet.by_id[each].coin.grade for each in coins}
    problems = frozenset(each for each in coins if cabinet.by_id[each].coin.is_problem)
    return upgrades(aim.states, aim.rules, grades, problems)


def upgrades_table(binder: Binder, aims: Sequence[AimState], caption: str) -> Table | None:
    """Make a table of what is to be upgraded, furthest short first; the aim is named where there are several."""
    words = binder.words
    found = [(each, aim) for aim in aims for each in upgrades_of(binder.cabinet, aim)]
    found.sort(key=lambda each: (each[0].steps is None, -(each[0].steps or 0)))
    rows = tuple(
        (
            link_to_slot(binder, each.filled, aim.rules.strikes),
            link_to_coin(binder, each.filled.coin or "", with_name=not each.filled.slot.is_dated),
            Link(_say_short(binder, each)),
            Link(aim.name if len(aims) > 1 else ""),
        )
        for each, aim in found
    )
    headings = tuple(words.say(f"table.{key}") for key in ("date", "held", "short", "aim"))
    return _finish(Table(caption, headings, rows, notes=(words.say("upgrades.note"),)))


def _say_short(binder: Binder, upgrade: Upgrade) -> str:
    words = binder.words
    parts = []
    if upgrade.steps is None:
        parts.append(words.say("grade.none"))
    elif upgrade.steps:
        parts.append(words.count("steps", upgrade.steps))
    if upgrade.is_problem:
        parts.append(words.say("mark.problem"))
    return ", ".join(parts)


def _upgrades(binder: Binder) -> Table | None:
    return upgrades_table(binder, binder.cabinet.aims, binder.words.say("wanted.upgrades"))


def spares_table(binder: Binder, states: Iterable[Filled], caption: str) -> Table | None:
    """Make a table of the coins that are spare beside the one that fills the slot."""
    words = binder.words
    found = [(each, spare) for each in states for spare in each.spares]
    rows = tuple(
        (
            link_to_coin(binder, spare),
            Link(name_slot(binder.catalogue.series[each.slot.series], each, words)),
            link_to_coin(binder, each.coin) if each.coin is not None else Link(""),
        )
        for each, spare in found
    )
    headings = tuple(words.say(f"table.{key}") for key in ("spare", "of-slot", "stands"))
    return _finish(Table(caption, headings, rows))


def _spares(binder: Binder) -> Table | None:
    """List the coins that stand in no slot of any run or aim: these are free to be swapped."""
    words, cabinet = binder.words, binder.cabinet
    free = set(spare_everywhere([*cabinet.runs.values(), *(each.states for each in cabinet.aims)]))
    rows = []
    for standing in cabinet.coins:
        coin = standing.coin.id
        if coin not in free:
            continue
        state = cabinet.state(standing.series, standing.coin.date)
        beside = cabinet.by_id.get(state.coin) if state is not None and state.coin else None
        stands = Link("")
        if beside is not None and beside.coin.id != coin:
            stands = Link(say_grade_line(beside.coin, words), addresses.of_coin(beside.coin.id))
        rows.append((link_to_coin(binder, coin), stands))
    headings = (words.say("table.spare"), words.say("table.stands"))
    notes = (words.say("wanted.spare-note"),)
    return _finish(Table(words.say("wanted.spares"), headings, tuple(rows), notes=notes))


def _finish(table: Table) -> Table | None:
    """Take out the columns in which nothing stands. None for a table without rows."""
    rows = table.rows
    if not rows:
        return None
    keep = [nth for nth in range(len(table.headings)) if nth == 0 or any(row[nth].text for row in rows)]
    return Table(
        table.caption,
        tuple(table.headings[nth] for nth in keep),
        tuple(tuple(row[nth] for nth in keep) for row in rows),
        tuple(keep.index(nth) for nth in table.numeric if nth in keep),
        table.notes,
    )
