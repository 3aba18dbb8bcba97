"""What figures say at a step of the scale is what they would say if all were filled anew with that as least."""

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from daterun.bundled import content_folder
from daterun.checks.aims import rules_of, slots_of_aim
from daterun.checks.completeness import Rules, State, fill, tally
from daterun.checks.slots import slots_of
from daterun.pages.aims import aim_at
from daterun.pages.binder import Binder
from daterun.pages.cabinet import Cabinet, arrange
from daterun.pages.counts import by_series
from daterun.pages.pieces import Link
from daterun.pages.recounts import STEPS, at_steps, fall, recounted
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.records.aims import Divider
from daterun.records.catalogue import read_catalogue


@pytest.fixture(scope="module")
def closed():
    catalogue, _ = read_catalogue(content_folder().parent)
    return close_catalogue(catalogue, {}, Reader.KEEPER)


@pytest.fixture(scope="module")
def cabinet(closed):
    return arrange(closed)


def filled_anew(aim, cabinet: Cabinet, state, least: int):
    """Fill an aim with a step as the lowest grade, unless it asks for more itself."""
    rules = rules_of(aim)
    asked = max(Fraction(least), rules.at_least or Fraction(0))
    left_out = frozenset(
        (series, each.slot.name)
        for each in state.states
        if each.state is State.LEFT_OUT
        for series in each.slot.all_series
    )
    coins = [each.coin for each in cabinet.coins]
    slots = slots_of_aim(aim, cabinet.catalogue.series)
    dated = Divider.DATE in aim.one_per
    return tally(fill(slots, coins, replace(rules, at_least=asked), left_out, dated)).filled


@pytest.mark.parametrize("least", STEPS)
def test_an_aim_counted_again_is_filled_as_far_as_if_it_were_filled_anew(closed, cabinet, least):
    for aim, state in zip(closed.settings.aims, cabinet.aims, strict=True):
        fallen = fall(state.states, cabinet, least, state.rules.counts)
        assert tally(fallen).filled == filled_anew(aim, cabinet, state, least), aim.id


def test_it_is_so_of_any_part_of_the_collection_where_a_coin_fits_several_slots(closed):
    """Aims by variety, type and monarch are filled by a matching; of half the coins some slots stay open."""
    chance = random.Random(4)
    for _ in range(12):
        some = tuple(each for each in closed.coins if chance.random() < 0.5)
        cabinet = arrange(replace(closed, coins=some))
        least = chance.choice(STEPS)
        for aim, state in zip(closed.settings.aims, cabinet.aims, strict=True):
            fallen = fall(state.states, cabinet, least, state.rules.counts)
            assert tally(fallen).filled == filled_anew(aim, cabinet, state, least), (aim.id, least)


@pytest.mark.parametrize("least", STEPS)
def test_a_run_counted_again_is_filled_as_far_as_if_it_were_filled_anew(cabinet, least):
    for count in by_series(cabinet):
        series = cabinet.catalogue.series[count.key]
        coins = [each.coin for each in cabinet.of_series(series)]
        anew = tally(fill(slots_of(series), coins, Rules(at_least=Fraction(least))))
        again = count.at(least, cabinet).tally
        assert (again.filled, again.slots) == (anew.filled, anew.slots), count.key


def test_what_falls_is_below_and_all_else_stays(cabinet):
    state = cabinet.aims[0]
    fallen = fall(state.states, cabinet, 40, state.rules.counts)
    assert [each.slot for each in fallen] == [each.slot for each in state.states]
    changed = [
        (one.state, other.state) for one, other in zip(state.states, fallen, strict=True) if one != other
    ]
    assert set(changed) == {(State.FILLED, State.BELOW)}


def test_a_figure_says_again_only_what_has_changed():
    said = {4: "9", 8: "9", 12: "7", 20: "7", 40: "7", 50: "0", 60: "0", 65: "0"}
    assert at_steps("9", said.__getitem__) == ((12, "7"), (50, "0"))


def test_a_figure_that_never_changes_is_a_plain_link():
    link = Link("9 of 9", "aims/index.html")
    assert recounted(link, [link] * len(STEPS)) is link


def test_the_best_of_a_range_counts_where_the_aim_says_so(cabinet):
    state = next(each for each in cabinet.aims if each.id == "one-of-each-type")
    lows = tally(fall(state.states, cabinet, 40)).filled
    highs = tally(fall(state.states, cabinet, 40, state.rules.counts)).filled
    assert highs > lows


def test_an_aim_counted_again_keeps_its_curve(cabinet):
    state = cabinet.aims[0]
    binder = Binder(cabinet, None, None, None, None)
    again = aim_at(binder, state, 65)
    assert again.curve == state.curve
    assert again.tally.filled < state.tally.filled
