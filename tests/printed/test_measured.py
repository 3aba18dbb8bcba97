"""What was printed, measured on the page at 600 pixels to the inch, and read by a reader of codes."""

import numpy
import pytest
import zxingcpp
from scipy import ndimage

from daterun.readers.reader import Reader

DPI = 600


def millimetres(pixels):
    return pixels / DPI * 25.4


def dark_parts(image, darker_than, at_least_mm):
    """Give width and height in millimetres of each connected dark part that is large enough."""
    dark = numpy.asarray(image) < darker_than
    labels, _ = ndimage.label(dark)
    found = []
    for down, across in ndimage.find_objects(labels):
        size = millimetres(across.stop - across.start), millimetres(down.stop - down.start)
        if min(size) >= at_least_mm:
            found.append(size)
    return found


def page_with(texts, path, words):
    return next(nth for nth, each in enumerate(texts(path), start=1) if words in each)


@pytest.mark.parametrize(
    ("what", "form", "words"),
    [
        ("catalogue", {"columns": 1}, "1 Ort 1891"),
        ("catalogue", {"columns": 2}, "1 Ort 1891"),
        ("catalogue", {"columns": 1, "paper": "letter"}, "1 Ort 1891"),
        ("catalogue", {"columns": 2, "paper": "letter"}, "1 Ort 1891"),
        ("schedule", {}, "1 Ort 1891"),
        ("schedule", {"paper": "letter"}, "1 Ort 1891"),
    ],
)
def test_every_disc_is_within_a_tenth_of_a_millimetre_of_its_diameter(
    folder, printed, texts, rendered, what, form, words
):
    (path,) = printed(folder, what, form=form).files
    discs = [
        each
        for each in dark_parts(rendered(path, page_with(texts, path, words), DPI), 150, 20)
        if max(each) < 40
    ]
    assert len(discs) >= 2  # those photographed, and the outlines of those that are not
    for size in discs:
        assert size == pytest.approx((26.5, 26.5), abs=0.1)


def test_a_coin_enlarged_is_as_wide_as_was_meant(folder, printed, texts, rendered):
    (path,) = printed(folder, "catalogue", plates=("ort/1891",)).files
    on_cover = dark_parts(rendered(path, 1, 300).resize((4960, 7016)), 150, 30)
    assert on_cover == [pytest.approx((62, 62), abs=0.3)] * 2
    plate = page_with(texts, path, "Plates 1 Ort 1891")
    assert dark_parts(rendered(path, plate, DPI), 150, 30) == [pytest.approx((76, 76), abs=0.1)] * 2


@pytest.mark.parametrize(
    ("what", "form"), [("catalogue", {}), ("schedule", {}), ("labels", {"is_test": True})]
)
def test_the_bar_is_a_hundred_millimetres_long(folder, printed, texts, rendered, what, form):
    (path,) = printed(folder, what, form=form).files
    image = rendered(path, page_with(texts, path, "This bar is 100"), DPI)
    bars = [wide for wide, _ in dark_parts(image, 140, 3.5) if 90 < wide < 110]
    assert bars == [pytest.approx(100, abs=0.1)]


@pytest.mark.parametrize("sheet", ["small", "medium", "large"])
@pytest.mark.parametrize("dpi", [300, 600])
def test_every_code_is_read_from_the_page(folder, printed, rendered, sheet, dpi):
    from daterun.press.labelsheets import read_label_sheet

    (path,) = printed(folder, "labels", form={"labels": read_label_sheet(sheet, "a4")}).files
    found = zxingcpp.read_barcodes(rendered(path, 1, dpi))
    assert sorted(each.text for each in found) == ["ort/1891", "ort/1893", "ort/1897", "ort/1900"]
    assert {each.format for each in found} == {zxingcpp.BarcodeFormat.QRCode}


def test_the_codes_of_the_public_lead_to_the_pages_of_the_coins(folder, printed, rendered):
    settings = folder / "content/catalogue.yaml"
    settings.write_text(settings.read_text() + "web: https://example.org/coins\n", encoding="utf-8")
    (path,) = printed(folder, "labels", Reader.PUBLIC).files
    found = {each.text for each in zxingcpp.read_barcodes(rendered(path, 1, 300))}
    assert "https://example.org/coins/coins/ort/1891/" in found
    assert len(found) == 4


def test_labels_lie_where_their_sheet_has_them(folder, printed, rendered):
    (path,) = printed(folder, "labels", form={"is_test": True}).files
    dark = numpy.asarray(rendered(path, 1, DPI)) < 140
    columns = numpy.flatnonzero(dark[: round(60 / 25.4 * DPI)].sum(axis=0) > 0.9 * 25 / 25.4 * DPI)
    edges = [each for nth, each in enumerate(columns) if nth == 0 or each > columns[nth - 1] + 3]
    meant = [11, 56, 58, 103, 105, 150, 152, 197]
    assert [millimetres(each) for each in edges] == [pytest.approx(each, abs=0.15) for each in meant]


@pytest.mark.parametrize(("mm", "shown"), [("44.0", 44), ("62.0", 62), ("118.0", 80)])
@pytest.mark.parametrize(
    ("what", "form"), [("catalogue", {"columns": 1}), ("catalogue", {}), ("schedule", {})]
)
def test_a_large_coin_stays_in_its_column_and_one_larger_still_says_that_it_is_reduced(
    folder, printed, texts, rendered, what, form, mm, shown
):
    series = folder / "content/series/vessmark/ort.yaml"
    series.write_text(series.read_text().replace("26.5 mm", f"{mm} mm"), encoding="utf-8")
    (path,) = printed(folder, what, form=form, coins=("ort/1891",)).files
    page = page_with(texts, path, "1 Ort 1891")
    discs = [each for each in dark_parts(rendered(path, page, 300), 150, 15) if abs(each[0] - each[1]) < 1]
    assert (
        discs == [pytest.approx((shown / 2, shown / 2), abs=0.1)] * 2
    )  # drawn at half the pixels to the inch
    assert ("Shown 80 mm across" in texts(path)[page - 1].replace("\u00a0", " ")) == (shown == 80)
