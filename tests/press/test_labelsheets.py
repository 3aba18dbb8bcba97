"""Sheets of labels, read from their measures."""

from decimal import Decimal

import pytest

from daterun.press.labelsheets import PAPERS, PRESETS, read_label_sheet
from daterun.problems import Misread

MEASURES = "across=3,down=8,width=63.5,height=33.9,left=7.2,top=13,gap=2.5x0"


def test_a_sheet_is_read_from_its_measures():
    sheet = read_label_sheet(MEASURES, "a4")
    assert (sheet.across, sheet.down, sheet.width) == (3, 8, Decimal("63.5"))
    assert (sheet.gap_across, sheet.gap_down) == (Decimal("2.5"), 0)
    assert sheet.right_end == Decimal("7.2") + 3 * Decimal("63.5") + 2 * Decimal("2.5")
    assert sheet.as_data()["height"] == 3390


def test_one_gap_stands_for_both_and_none_for_nought():
    assert read_label_sheet(MEASURES.replace("2.5x0", "1"), "a4").gap_down == 1
    assert read_label_sheet(MEASURES.rpartition(",")[0], "a4").gap_across == 0


@pytest.mark.parametrize("name", PRESETS)
@pytest.mark.parametrize("paper", PAPERS)
def test_every_preset_fits_every_paper(name, paper):
    assert read_label_sheet(name, paper) == PRESETS[name]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("smal", '"smal" is no sheet of labels'),
        ("across=3,down=8", "the sheet needs width and height and left and top"),
        (MEASURES.replace("top", "topp"), '"topp=13" is no measure of a sheet'),
        (f"{MEASURES},top=3", '"top=3" is no measure of a sheet'),
        (MEASURES.replace("63.5", "6.3.5"), "a measure that is no number"),
        (MEASURES.replace("across=3", "across=0"), "at least one label across"),
        (MEASURES.replace("across=3", "across=4"), "the paper has 210 by 297"),
    ],
)
def test_a_sheet_that_cannot_be_is_told(text, sentence):
    with pytest.raises(Misread, match=sentence):
        read_label_sheet(text, "a4")
