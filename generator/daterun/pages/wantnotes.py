"""The keeper's notes on what is wanted: which slot each is about, by one rule for the site and for print."""

from collections.abc import Mapping, Sequence

from daterun.checks.slots import Slot, name_without_needless, without_needless
from daterun.pages.binder import Binder
from daterun.readers.closed import ClosedWant
from daterun.records.coins import Strike

Key = tuple[str, str]
"""A series by its whole name, and the name of a slot within it."""


def read_notes(binder: Binder) -> Mapping[Key, ClosedWant]:
    """Find the keeper's notes by series and slot, in the names of slots without what is needless."""
    found = {}
    for each in binder.catalogue.settings.wants:
        name, _, slot = " ".join(each.slot.split()).partition(" ")
        series = binder.catalogue.find_series(name)
        if series is not None:
            found[series.key, name_without_needless(slot, series)] = each
    return found


def note_on(
    binder: Binder, notes: Mapping[Key, ClosedWant], slot: Slot, strikes: Sequence[Strike]
) -> ClosedWant | None:
    """Find the note on a slot that some strikes fill; None where there is none.

    A date that coins of several series fill has none, for a note is about the coin of one.
    """
    if slot.is_dated and len(slot.all_series) > 1:
        return None
    return next((notes[each] for each in meant_by(binder, slot, strikes) if each in notes), None)


def meant_by(binder: Binder, slot: Slot, strikes: Sequence[Strike]) -> tuple[Key, ...]:
    """Give the series and names under which a slot may be noted.

    A note is about ordinary strikes, and about proofs only where a date was struck in no other way. A slot that
    stands for all dates bears the first where nothing divides it, and no note on that date is about it.
    """
    if Strike.ORDINARY not in strikes and not slot.figures.proofs_only:
        return ()
    if not slot.is_dated and slot.name == slot.date.key:
        return ()
    name = without_needless(slot, binder.catalogue.series[slot.series]).name
    return tuple((series, name) for series in slot.all_series)
