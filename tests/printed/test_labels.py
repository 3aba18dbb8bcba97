"""Labels as they are set: one size for the sheet, what is left out first, and what is told of what is cut."""

import re

import pypdf
import pytest

from daterun.press.labelsheets import read_label_sheet


def sizes_of(path, wanted):
    """Give the sizes of type in which a text stands on the sheets of a PDF, to a tenth of a point."""
    found = []

    def seen(text, cm, tm, font, size):
        if re.search(wanted, text):
            found.append(round(abs(size * tm[3] * cm[3]), 1))

    for page in pypdf.PdfReader(path).pages:
        page.extract_text(visitor_text=seen)
    return found


def kept_at(folder, date, place):
    path = folder / f"content/coins/ort/{date}.md"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("\n---\n", f"\nkept: {place}\n---\n", 1), encoding="utf-8")


def small(**_):
    return {"labels": read_label_sheet("small", "a4")}


@pytest.mark.parametrize(("sheet", "size"), [("medium", 7.5), ("large", 10)])
def test_all_that_fits_is_set_in_one_size_the_larger_the_larger_the_label(folder, printed, sheet, size):
    (path,) = printed(folder, "labels", form={"labels": read_label_sheet(sheet, "a4")}).files
    found = sizes_of(path, r"Ort 1")
    assert len(found) == 4
    assert set(found) == {max(found)} and max(found) >= size


def test_the_id_is_left_out_before_anything_is_cut_and_nothing_is_told_of_it(folder, printed, texts):
    kept_at(
        folder, "1900", "cabinet two of the blue room, tray four on the left, row seven, and there the third"
    )
    result = printed(folder, "labels", form=small())
    text = texts(result.files[0])[0]
    assert "ort/1891" in text and "ort/1900" not in text
    assert "the third" in text
    assert result.advice == ()


def test_of_a_text_that_is_cut_the_name_stays_and_the_id_is_told_as_it_is_typed(
    folder, printed, texts, rendered, coin
):
    long = "ort/1904-a-very-long-name-for-a-coin"
    text = coin("1904", f"kept: {'a place that takes many words to tell, ' * 12}")
    (folder / f"content/coins/{long}.md").write_text(text, encoding="utf-8")
    result = printed(folder, "labels", form=small())
    assert result.advice == (f"the text of {long} does not fit its label, and is cut",)
    assert "Ort 1904" in texts(result.files[0])[0]
