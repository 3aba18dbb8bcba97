"""Photos are decoded no finer than they are needed, and discs are turned as their photos are."""

import io

import pytest
from PIL import Image

from daterun.photos.opened import Opened, decode, held_pixels, open_image, scale_to_examine, scale_to_make
from daterun.photos.photo import Disc


def stored(size, kind="JPEG", **how):
    out = io.BytesIO()
    Image.new("RGB", size, (90, 120, 60)).save(out, kind, **how)
    out.seek(0)
    return out


@pytest.mark.parametrize(
    ("size", "scale"),
    [((1600, 1600), 1), ((4000, 3000), 1), ((6000, 4000), 2), ((3200, 9000), 2), ((13_000, 12_800), 8)],
)
def test_a_photo_is_examined_as_fine_as_the_widest_usual_picture(size, scale):
    assert scale_to_examine(size) == scale


@pytest.mark.parametrize(
    ("detail", "scale"), [(0.6, 1), (0.5, 2), (0.3, 2), (0.1, 2), (2.0, 1)], ids=lambda each: f"{each}"
)
def test_pictures_are_made_as_fine_as_they_need_and_no_coarser_than_the_photo_is_examined(detail, scale):
    assert scale_to_make((6000, 4000), detail) == scale


def test_a_jpeg_is_reduced_while_it_is_decoded_and_other_forms_are_not():
    for kind, size, scale in (("JPEG", (805, 603), 2), ("PNG", (1609, 1205), 1)):
        with open_image(stored((1609, 1205), kind)) as image:
            assert held_pixels(image, 2) == size[0] * size[1]
            opened = decode(image, 2)
        assert (opened.image.size, opened.size, opened.scale) == (size, (1609, 1205), scale)


@pytest.mark.parametrize(
    ("orientation", "size", "place"),
    [
        (1, (600, 400), (350, 220)),
        (2, (600, 400), (250, 220)),
        (3, (600, 400), (250, 180)),
        (4, (600, 400), (350, 180)),
        (5, (400, 600), (220, 350)),
        (6, (400, 600), (180, 350)),
        (7, (400, 600), (180, 250)),
        (8, (400, 600), (220, 250)),
    ],
)
def test_a_disc_is_turned_with_its_photo(orientation, size, place):
    """Where it comes to lie follows from the definition of the tag (Exif 2.32, 0x0112)."""
    opened = Opened(Image.new("L", (60, 40)), (600, 400), 10, orientation, None)
    assert opened.upright_size == size
    assert opened.upright(Disc(350, 220, 100)) == Disc(*place, 100)


def test_a_profile_is_kept_and_an_orientation_that_makes_no_sense_is_not():
    exif = Image.Exif()
    exif[0x0112] = 99
    with open_image(stored((60, 40), exif=exif, icc_profile=b"a profile")) as image:
        opened = decode(image, 1)
    assert (opened.orientation, opened.profile) == (1, b"a profile")
