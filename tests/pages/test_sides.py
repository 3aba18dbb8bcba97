import pytest

from daterun.pages.sides import tone_of
from daterun.trade.metals import KNOWN_METALS


def sides(planned, coin, photos, *lines):
    found = planned({"content/coins/a.md": coin("1891", *lines)}, photos=photos)
    return found, found.coin("a").sides


def test_a_photo_is_shown_as_pictures_with_words_that_name_coin_and_side(planned, coin, photo):
    _, shown = sides(planned, coin, {("a", "obverse"): photo()})
    picture = shown[0].picture
    assert picture.text == "Ort 1891, obverse"
    assert picture.is_round
    assert [each.width_px for each in picture.sizes] == [48, 160, 640, 810]
    assert all(each.height_px == each.width_px for each in picture.sizes)
    assert picture.smallest.width_px == 48
    assert picture.largest.width_px == 810
    assert shown[0].drawing is None
    assert shown[0].design == "Crowned head to the left"


def test_a_photo_without_a_disc_is_a_square_with_its_reason(planned, coin, photo):
    _, shown = sides(planned, coin, {("a", "obverse"): photo(disc=None, fallback="two coins in it")})
    assert not shown[0].picture.is_round
    assert shown[0].picture.reason == "two coins in it"


def test_a_side_without_a_photo_is_drawn_with_its_legend(planned, coin):
    _, (obverse, reverse) = sides(planned, coin, {})
    assert obverse.drawing.legend == "INGRITH QUEEN OF VESSMARK"
    assert obverse.drawing.middle == "Ort"
    assert obverse.drawing.tone == "silver"
    assert obverse.drawing.text == "Ort 1891, obverse, drawn for want of a photograph"
    assert (reverse.drawing.legend, reverse.drawing.middle) == ("KINGDOM OF VESSMARK", "1891")


def test_a_coin_of_no_known_type_or_metal_is_drawn_blank(planned, coin, series):
    files = {"content/series/vessmark/ort.yaml": series("1891: 5"), "content/coins/a.md": coin("1891")}
    drawing = planned(files).coin("a").sides[0].drawing
    assert (drawing.legend, drawing.tone) == ("", "white")


def test_the_edge_is_shown_only_where_there_is_a_photo_of_it(planned, coin, photo):
    _, without = sides(planned, coin, {})
    assert [each.name for each in without] == ["obverse", "reverse"]
    _, shown = sides(planned, coin, {("a", "edge"): photo()})
    assert [each.name for each in shown] == ["obverse", "reverse", "edge"]
    assert shown[2].design == ""


@pytest.mark.parametrize(
    ("photographed", "shown"),
    [(("obverse", "reverse"), "reverse"), (("obverse",), "obverse"), (("edge",), "reverse"), ((), "reverse")],
)
def test_among_others_a_coin_is_told_by_its_reverse_else_by_what_was_photographed(
    planned, coin, photo, photographed, shown
):
    photos = {("a", each): photo(each[0] * 32) for each in photographed}
    found, _ = sides(planned, coin, photos)
    assert found.body("coins").groups[0].coins[0].side.name == shown


def test_a_crop_of_the_keepers_is_the_disc_that_is_shown(planned, coin, photo):
    photos = {("a", "obverse"): photo(disc=None, fallback="none found")}
    crop = "photos: {obverse: {file: a.jpg, crop: {x: 900, y: 600, diameter: 500}}}"
    _, shown = sides(planned, coin, photos, crop)
    assert shown[0].picture.is_round
    assert shown[0].picture.largest.width_px == 506


def test_a_photo_with_a_fault_is_no_photo(planned, coin, photo):
    broken = type(photo())("a" * 32, "a.jpg", 0, 0, None, "", "it cannot be read")
    _, shown = sides(planned, coin, {("a", "obverse"): broken})
    assert shown[0].picture is None


@pytest.mark.parametrize(
    ("metal", "tone"),
    [
        *[(each, "copper") for each in ("copper", "bronze", "brass", "nickel-brass", "aluminium-bronze")],
        *[(each, "white") for each in ("platinum", "cupro-nickel", "nickel", "aluminium", "zinc", "steel")],
        *[("gold", "gold"), ("silver", "silver"), ("billon", "silver")],
    ],
)
def test_a_metal_has_its_tone(metal, tone):
    assert tone_of(KNOWN_METALS[metal]) == tone


def test_a_metal_that_is_not_known_is_white():
    assert tone_of(None) == "white"
