from dataclasses import replace

import pytest

from daterun.checks.completeness import Filled, State
from daterun.checks.slots import merge_across, slots_of
from daterun.pages.slots import DEFAULT_DIAMETER_MM, diameter_mm, grid_slot, name_slot
from daterun.records.aims import Divider
from daterun.trade.dates import Span

DATE = Divider.DATE


@pytest.fixture
def ort(planned):
    return planned().binder.cabinet.catalogue.series["vessmark/ort"]


@pytest.fixture
def vessmark(planned):
    return planned().binder.cabinet.catalogue.issuers["vessmark"]


def missing(slot):
    return Filled(slot, State.MISSING, None, ())


@pytest.mark.parametrize(
    ("year", "one_per", "names"),
    [
        (1891, (DATE,), ["Ort 1891"]),
        (1895, (DATE,), ["Ort 1895–96"]),
        (1902, (DATE,), ["Ort 1902"]),
        (1902, (DATE, Divider.MINT), ["Ort 1902, Vessborg", "Ort 1902, Kaldhamn (K)"]),
        (1891, (Divider.TYPE,), ["Ort Ingrith"]),
        (1899, (DATE, Divider.VARIETY), ["Ort 1899, old spelling", "Ort 1899, new spelling"]),
    ],
)
def test_a_slot_is_named_by_its_series_and_what_divides_it(ort, vessmark, words, year, one_per, names):
    found = slots_of(ort, Span(year, year), one_per)
    assert [name_slot(ort, missing(each), words, vessmark) for each in found][: len(names)] == names


def test_without_an_issuer_marks_and_ids_stand_for_names(ort, words):
    (none, k) = slots_of(ort, Span(1902, 1902), (DATE, Divider.MINT))
    assert name_slot(ort, missing(none), words) == "Ort 1902, no mint mark"
    assert name_slot(ort, missing(k), words) == "Ort 1902, K"
    assert name_slot(ort, missing(replace(k, mint=None, monarch="sunniva")), words) == "Ort 1902, sunniva"


def test_a_slot_of_a_monarch_is_named_by_the_monarch(ort, vessmark, words):
    slot = replace(slots_of(ort)[0], monarch="torvald-iii", is_dated=False)
    assert name_slot(ort, missing(slot), words, vessmark) == "Ort Torvald III"


def test_a_slot_across_series_names_none_of_them(planned, base_files, vessmark, words):
    daler = base_files["content/series/vessmark/ort.yaml"].replace("name: Ort", "name: Daler")
    catalogue = planned({"content/series/vessmark/daler.yaml": daler}).binder.cabinet.catalogue
    both = [slot for each in catalogue.series.values() for slot in slots_of(each, Span(1891, 1891))]
    (slot,) = merge_across(both)
    assert name_slot(catalogue.series["vessmark/ort"], missing(slot), words, vessmark) == "1891"


def test_the_size_of_a_slot_is_that_of_its_standard_else_a_middling_one(ort, planned, series):
    assert diameter_mm(ort, missing(slots_of(ort)[0])) == 26.5
    bare = planned({"content/series/vessmark/ort.yaml": series("1891: 5")}).binder.cabinet
    plain = bare.catalogue.series["vessmark/ort"]
    assert diameter_mm(plain, missing(slots_of(plain)[0])) == DEFAULT_DIAMETER_MM


@pytest.fixture
def sign(planned, words, coin):
    """Make the sign of the slot of 1891, in a state, filled by a coin of VF30."""

    def make(state, spares=()):
        files = {"content/coins/a.md": coin("1891", "grade: VF30"), "content/coins/b.md": coin("1891")}
        binder = planned(files).binder
        series = binder.cabinet.catalogue.series["vessmark/ort"]
        filled = Filled(slots_of(series)[0], state, None if state is State.MISSING else "a", spares)
        return grid_slot(filled, series, binder.cabinet, binder.sides, words, 26.5)

    return make


@pytest.mark.parametrize(
    ("state", "spares", "label", "address", "pieces", "rank"),
    [
        (State.FILLED, (), "Ort 1891: VF30", "coins/a/index.html", 1, 3000),
        (State.FILLED, ("b",), "Ort 1891: VF30, 2 pieces", "coins/a/index.html", 2, 3000),
        (State.BELOW, (), "Ort 1891: VF30, below the aim", "coins/a/index.html", 1, 3000),
        (State.MISSING, (), "Ort 1891: missing, 341,000 struck", "dates/1891/index.html", 0, 0),
        (State.LEFT_OUT, (), "Ort 1891: left out of the aim, 341,000 struck", "dates/1891/index.html", 0, 0),
    ],
)
def test_a_sign_tells_its_state_in_words(sign, state, spares, label, address, pieces, rank):
    found = sign(state, spares)
    assert (found.state, found.label, found.address) == (state.value, label, address)
    assert (found.pieces, found.rank, found.size, found.tone) == (pieces, rank, 1000, "silver")
