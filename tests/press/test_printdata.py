"""Texts made fit for paper, and views made into plain data."""

import json

from daterun.pages.pieces import Fact, Note, Picture, Size
from daterun.pages.printpieces import Entry, IndexTerm
from daterun.press.printdata import PrintData, break_runs, say_lacking

LATIN = frozenset(range(0x20, 0x250)) | {0x2013, 0x200B}


def data():
    return PrintData(LATIN, lambda note: [{"kind": "text", "text": note.markdown}])


def test_signs_that_steer_are_taken_out_and_spaces_of_a_kind_are_spaces():
    assert data().text("a\u202eb\u0007c\u2003d\ue000e") == "abc de"


def test_a_letter_that_the_fonts_lack_is_noted_with_the_entry_it_stands_in():
    made = data()
    made.make(
        Entry(1, "Ort 1899", "coins/a/index.html", "", (), "", (Fact("a", "明b"),), Note("治", ()), True)
    )
    made.text("明")
    assert made.gathered.lacking == {"Ort 1899": {"明", "治"}, "": {"明"}}
    assert list(say_lacking({"Ort 1899": {"明"}})) == [("Ort 1899", "明 (U+660E)")]


def test_a_long_run_may_be_broken_and_a_short_one_may_not():
    assert break_runs("a" * 24) == "a" * 24
    assert break_runs("a" * 30).replace("\u200b", "") == "a" * 30
    assert max(len(each) for each in break_runs("x" * 400).split("\u200b")) <= 24


def test_a_number_stays_with_its_unit():
    assert data().text("8.97 g and 26.5 mm, 3 gold pieces, 5 % more") == (
        "8.97\u00a0g and 26.5\u00a0mm, 3 gold pieces, 5\u00a0% more"
    )


def test_addresses_and_kinds_are_left_as_they_are():
    made = data().make({"address": "明", "kind": "明", "text": "明"})
    assert made == {"address": "明", "kind": "明", "text": "¤"}


def test_pictures_shown_are_gathered():
    made = data()
    made.make(Picture((Size("pictures/a.jpg", 9, 9),), "a text", True))
    assert made.gathered.pictures == {"pictures/a.jpg"}


def test_a_view_becomes_what_json_can_hold():
    made = data().make(IndexTerm("1899", (1, 2)))
    assert json.loads(json.dumps(made)) == {"term": "1899", "numbers": [1, 2]}
