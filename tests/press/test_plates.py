"""Plates drawn of small pictures, in the letters of the default theme."""

import dataclasses

import pytest
from PIL import Image

from daterun.bundled import themes_folder
from daterun.pages.plates import PlateOrder, PlateSide
from daterun.press.faces import Faces
from daterun.press.plates import PlatePress, draw_plates
from daterun.press.theme import find_theme
from daterun.problems import Place

GROUND = (250, 248, 242)


@pytest.fixture
def theme(tmp_path):
    return find_theme("tray", tmp_path, themes_folder(), Place(""))


@pytest.fixture
def root(tmp_path):
    for name, colour in (("a", (200, 40, 40)), ("b", (40, 40, 200))):
        Image.new("RGB", (300, 300), colour).save(tmp_path / f"{name}.png")
    return tmp_path


def order(*sides, caption="Ort 1897"):
    return PlateOrder(sides, caption, "VF30", "The Wrenfield cabinet", "pictures/plates/x.jpg")


def drawn(theme, root, plate, tmp_path):
    path = tmp_path / "plate.jpg"
    path.write_bytes(PlatePress(theme).draw(plate, Faces(root)))
    with Image.open(path) as image:
        assert not image.getexif() and "icc_profile" not in image.info
        return image.convert("RGB")


def near(image, at, colour):
    return all(abs(have - want) < 12 for have, want in zip(image.getpixel(at), colour, strict=True))


def test_both_sides_stand_side_by_side_on_a_plain_ground(theme, root, tmp_path):
    plate = order(PlateSide("a.png", True), PlateSide("b.png", True))
    image = drawn(theme, root, plate, tmp_path)
    assert image.size == (1920, 1080)
    assert near(image, (480, 462), (200, 40, 40))
    assert near(image, (1440, 462), (40, 40, 200))
    for corner in ((4, 4), (1915, 4), (4, 1075), (960, 462), (80, 62)):
        assert near(image, corner, GROUND), corner


def test_a_picture_that_is_not_round_keeps_its_corners(theme, root, tmp_path):
    image = drawn(theme, root, order(PlateSide("a.png", False), PlateSide("b.png", True)), tmp_path)
    assert near(image, (80, 62), (200, 40, 40))


def test_one_side_alone_stands_in_the_middle(theme, root, tmp_path):
    image = drawn(theme, root, order(PlateSide("a.png", True)), tmp_path)
    assert near(image, (960, 462), (200, 40, 40))
    assert near(image, (300, 462), GROUND)


def test_a_caption_is_written_under_the_sides_and_a_long_one_within_the_plate(theme, root, tmp_path):
    short = drawn(theme, root, order(PlateSide("a.png", True)), tmp_path)
    blank = drawn(theme, root, order(PlateSide("a.png", True), caption=""), tmp_path)
    assert short.crop((700, 900, 1220, 965)).getextrema() != blank.crop((700, 900, 1220, 965)).getextrema()
    long = drawn(theme, root, order(PlateSide("a.png", True), caption="Ort 1897, " * 40), tmp_path)
    edge = long.crop((0, 880, 40, 1080))
    assert all(low > 225 for low, _ in edge.getextrema())


def test_one_plate_is_marked_by_what_it_shows_and_by_the_letters(theme):
    press = PlatePress(theme)
    one = order(PlateSide("a.png", True))
    assert press.mark(one) == press.mark(one)
    assert press.mark(one) != press.mark(dataclasses.replace(one, address="pictures/plates/y.jpg"))


def test_plates_are_handed_over_as_they_are_drawn(theme, root):
    made, told = {}, []
    orders = [
        dataclasses.replace(order(PlateSide("a.png", True)), address=f"pictures/plates/{n}.jpg")
        for n in range(3)
    ]
    draw_plates(
        orders,
        PlatePress(theme),
        Faces(root),
        made.__setitem__,
        lambda done, total: told.append((done, total)),
    )
    assert sorted(made) == [each.address for each in orders]
    assert told == [(1, 3), (2, 3), (3, 3)]
    assert len(set(made.values())) == 1
