import pytest
from hypothesis import given
from hypothesis import strategies as st

from daterun.pages.pictures import MARGIN, order_pictures, square_of
from daterun.photos.photo import Disc

WIDTHS = (1600, 640, 160)
KEY = "0123456789abcdef" * 2

sides = st.integers(1, 9000)
places = st.floats(-2000, 11000)
discs = st.none() | st.builds(Disc, places, places, st.floats(0.5, 12000))


def order(width_px=1800, height_px=1200, disc=None, key=KEY, widths=WIDTHS, picture_format="jpeg"):
    return order_pictures(key, width_px, height_px, disc, widths, picture_format)


def test_the_square_lies_round_the_disc_with_a_margin():
    square = square_of(1800, 1200, Disc(900.0, 600.0, 800.0))
    assert 800 * MARGIN <= square.side < 800 * MARGIN + 1
    assert square.left + square.side / 2 == pytest.approx(900, abs=0.5)
    assert square.top + square.side / 2 == pytest.approx(600, abs=0.5)


def test_without_a_disc_the_square_is_the_middle_of_the_photo():
    square = square_of(1800, 1200, None)
    assert (square.left, square.top, square.side) == (300, 0, 1200)
    upright = square_of(1200, 1800, None)
    assert (upright.left, upright.top, upright.side) == (0, 300, 1200)


@pytest.mark.parametrize(
    ("disc", "left", "top"),
    [(Disc(100.0, 600.0, 800.0), 0, 195), (Disc(1790.0, 1190.0, 800.0), 990, 390)],
)
def test_a_disc_that_reaches_over_the_edge_is_shown_as_far_as_the_photo_goes(disc, left, top):
    square = square_of(1800, 1200, disc)
    assert (square.left, square.top) == (left, top)


@given(sides, sides, discs)
def test_the_square_never_leaves_the_photo(width_px, height_px, disc):
    square = square_of(width_px, height_px, disc)
    assert square.side > 0
    assert square.left >= 0
    assert square.top >= 0
    assert square.left + square.side <= width_px
    assert square.top + square.side <= height_px


@given(sides, sides, discs, st.sets(st.integers(16, 8000), min_size=2, max_size=4))
def test_no_picture_is_wider_than_what_the_photo_has_to_show(width_px, height_px, disc, widths):
    orders = order(width_px, height_px, disc, widths=tuple(widths))
    found = [each.width_px for each in orders]
    assert found == sorted(set(found))
    assert all(each <= orders[0].square.side for each in found)
    assert set(found) <= widths | {orders[0].square.side}
    assert len({each.address for each in orders}) == len(orders)


def test_pictures_come_in_the_widths_asked_for_smallest_first():
    assert [each.width_px for each in order(4000, 3000)] == [160, 640, 1600]
    assert [each.width_px for each in order(4000, 500)] == [160, 500]
    assert [each.width_px for each in order(100, 100)] == [100]


def test_a_picture_names_the_wider_ones_through_which_it_is_made():
    assert [each.steps for each in order(4000, 3000)] == [(1600, 820, 640), (1600, 820), ()]


def test_an_address_tells_its_width_and_format():
    for picture_format, ending in (("jpeg", ".jpg"), ("avif", ".avif"), ("webp", ".webp")):
        for each in order(picture_format=picture_format):
            assert each.address.startswith("pictures/")
            assert each.address.endswith(f"-{each.width_px}{ending}")
            assert each.format == picture_format


def test_the_same_photo_cropped_alike_has_the_same_addresses():
    disc = Disc(900.0, 600.0, 800.0)
    assert order(disc=disc) == order(disc=Disc(900.0, 600.0, 800.0))
    assert [each.address for each in order(disc=disc)] == [
        "pictures/70/5c6a8eeb7245d1659c-160.jpg",
        "pictures/2f/5c7a4f9bc141a2fc3d-640.jpg",
        "pictures/30/2097544a64d72fdcf7-810.jpg",
    ]


@pytest.mark.parametrize(
    "other",
    [
        {"key": "f" * 32},
        {"disc": Disc(901.0, 600.0, 800.0)},
        {"disc": Disc(900.0, 600.0, 801.0)},
        {"disc": None},
        {"picture_format": "webp"},
    ],
)
def test_whatever_changes_the_picture_changes_its_address(other):
    usual = {"disc": Disc(900.0, 600.0, 800.0)}
    first = {each.address for each in order(**usual)}
    assert first.isdisjoint(each.address for each in order(**{**usual, **other}))
