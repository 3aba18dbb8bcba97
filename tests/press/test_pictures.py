import hashlib
import io
from dataclasses import replace

import pytest
from PIL import Image, ImageCms, ImageOps, features

from daterun.pages.pictures import PictureOrder, Square
from daterun.press.cutting import raw_square
from daterun.press.pictures import make_pictures
from daterun.problems import Place

RED, GREEN, BLUE, WHITE = (220, 30, 30), (30, 160, 40), (30, 40, 200), (255, 255, 255)


def quarters(size=(400, 300)):
    """A picture whose four quarters tell which way up it is: red, green over blue, white."""
    image = Image.new("RGB", size)
    width, height = size
    half_width, half_height = width // 2, height // 2
    for colour, corner in (
        (RED, (0, 0)),
        (GREEN, (half_width, 0)),
        (BLUE, (0, half_height)),
        (WHITE, (half_width, half_height)),
    ):
        image.paste(colour, (*corner, corner[0] + half_width, corner[1] + half_height))
    return image


def saved(image, picture_format="JPEG", **kept):
    out = io.BytesIO()
    image.save(out, picture_format, **kept)
    return out.getvalue()


MIDDLE = Square(50, 0, 300)


def order(width=100, square=MIDDLE, picture_format="jpeg", photo="k"):
    return PictureOrder(photo, square, width, picture_format, f"pictures/{photo}-{width}.{picture_format}")


def key_of(path):
    return hashlib.blake2b(path.read_bytes(), digest_size=16).hexdigest()


@pytest.fixture
def make(tmp_path):
    """Make pictures of one photo; give them by address, with the bytes."""

    def run(data, *orders):
        path = tmp_path / "photo"
        path.write_bytes(data)
        made = {}
        of_photo = [replace(each, photo=key_of(path)) for each in orders]
        problems = make_pictures(of_photo, {key_of(path): (path, "content/photos/photo")}, made.__setitem__)
        assert problems == ()
        return made

    return run


def opened(data):
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def corners(image):
    """The colour in the middle of each quarter."""
    width, height = image.size
    return [
        image.convert("RGB").getpixel((x, y))
        for x, y in (
            (width // 4, height // 4),
            (3 * width // 4, height // 4),
            (width // 4, 3 * height // 4),
            (3 * width // 4, 3 * height // 4),
        )
    ]


def near(one, other, by=12):
    return all(abs(a - b) <= by for a, b in zip(one, other, strict=True))


def test_a_picture_is_the_square_at_its_width(make):
    made = make(saved(quarters(), quality=95), order(100))
    image = opened(made["pictures/k-100.jpeg"])
    assert image.size == (100, 100)
    assert all(near(*pair) for pair in zip(corners(image), (RED, GREEN, BLUE, WHITE), strict=True))


def test_every_size_is_made_and_shows_the_same(make):
    made = make(
        saved(quarters((1600, 1200)), quality=95), *(order(w, Square(200, 0, 1200)) for w in (600, 200, 40))
    )
    for width in (600, 200, 40):
        image = opened(made[f"pictures/k-{width}.jpeg"])
        assert image.size == (width, width)
        assert all(near(*pair) for pair in zip(corners(image), (RED, GREEN, BLUE, WHITE), strict=True))


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_stands_upright_whatever_its_orientation(make, orientation):
    upright = quarters()
    back = {1: None, 2: 0, 3: 3, 4: 1, 5: 5, 6: 2, 7: 6, 8: 4}[orientation]
    stored = upright if back is None else upright.transpose(Image.Transpose(back))
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = saved(stored, quality=95, exif=exif.tobytes())
    assert near(corners(ImageOps.exif_transpose(opened(data)))[0], RED)
    off_centre = Square(120, 60, 200)
    image = opened(make(data, order(100, off_centre))["pictures/k-100.jpeg"])
    expected = upright.crop((120, 60, 320, 260)).resize((100, 100))
    assert all(near(*pair) for pair in zip(corners(image), corners(expected), strict=True))
    for point, colour in (((35, 20), RED), ((46, 20), GREEN), ((20, 40), RED), ((20, 51), BLUE)):
        assert near(image.getpixel(point), colour, 20)


def test_a_turned_tiff_stands_upright_too(make):
    exif = Image.Exif()
    exif[0x0112] = 6
    stored = quarters().transpose(Image.Transpose.ROTATE_90)
    address = "pictures/k-100.jpeg"
    turned = opened(make(saved(stored, "TIFF", exif=exif), order())[address])
    upright = opened(make(saved(quarters(), "PNG"), order())[address])
    assert all(near(*pair) for pair in zip(corners(turned), corners(upright), strict=True))


def test_a_square_lies_where_it_was_in_the_photo_as_stored():
    square = Square(10, 20, 100)
    size = (400, 300)
    assert raw_square(square, size, 1) == (10, 20, 100)
    assert raw_square(square, size, 3) == (290, 180, 100)
    assert raw_square(square, size, 6) == (20, 190, 100)
    assert raw_square(square, size, 8) == (280, 10, 100)


def test_nothing_but_the_pixels_is_carried_over(make):
    exif = Image.Exif()
    exif[0x010F] = "Secret Camera"
    exif[0x013B] = "Ida Quennell"
    exif.get_ifd(0x8825)[1] = "N"
    data = saved(
        quarters(),
        exif=exif.tobytes(),
        comment=b"tray 4",
        dpi=(300, 300),
        xmp=b"<x:xmpmeta>Kaldhamn</x:xmpmeta>",
        icc_profile=ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
    )
    assert b"Secret" in data and b"tray 4" in data and b"Kaldhamn" in data
    for picture_format in ("jpeg", *(each for each in ("webp", "avif") if features.check(each))):
        (picture,) = make(data, order(100, picture_format=picture_format)).values()
        for secret in (
            b"Secret",
            b"Quennell",
            b"tray 4",
            b"Kaldhamn",
            b"Exif",
            b"http",
            b"ICC_PROFILE",
            b"sRGB",
        ):
            assert secret not in picture
        image = opened(picture)
        assert not image.getexif()
        assert {"comment", "icc_profile", "xmp", "exif"} & set(image.info) == set()


def test_colours_are_brought_to_srgb(make):
    """A profile that swaps red and blue: what is stored as blue is meant as red."""
    swapped = swapped_profile()
    image = opened(
        make(
            saved(Image.new("RGB", (300, 300), (200, 40, 40)), quality=95, icc_profile=swapped),
            order(100, Square(0, 0, 300)),
        )["pictures/k-100.jpeg"]
    )
    assert near(image.getpixel((50, 50)), (40, 40, 200), 20)


def swapped_profile():
    """An sRGB profile with the columns of red and blue exchanged."""
    data = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    count = int.from_bytes(data[128:132], "big")
    for n in range(count):
        at = 132 + 12 * n
        name = bytes(data[at : at + 4])
        if name == b"rXYZ":
            data[at : at + 4] = b"bXYZ"
        elif name == b"bXYZ":
            data[at : at + 4] = b"rXYZ"
        elif name == b"desc":
            start = int.from_bytes(data[at + 4 : at + 8], "big")
            size = int.from_bytes(data[at + 8 : at + 12], "big")
            old = bytes(data[start : start + size])
            data[start : start + size] = old.replace(b"s\0R\0G\0B", b"o\0d\0d\0!").replace(b"sRGB", b"odd!")
    return bytes(data)


def test_a_broken_profile_is_passed_over(make):
    data = saved(Image.new("RGB", (300, 300), RED), quality=95, icc_profile=b"no profile at all" * 20)
    image = opened(make(data, order(100, Square(0, 0, 300)))["pictures/k-100.jpeg"])
    assert near(image.getpixel((50, 50)), RED)


@pytest.mark.parametrize(
    ("image", "picture_format", "shown"),
    [
        (Image.new("L", (300, 300), 90), "PNG", (90, 90, 90)),
        (Image.new("1", (300, 300), 1), "PNG", (255, 255, 255)),
        (Image.new("I;16", (300, 300), 90 * 256), "PNG", (90, 90, 90)),
        (Image.new("RGB", (300, 300), RED).quantize(4), "PNG", RED),
        (Image.new("RGBA", (300, 300), (*RED, 0)), "PNG", (255, 255, 255)),
        (Image.new("RGBA", (300, 300), (0, 0, 0, 128)), "PNG", (127, 127, 127)),
        (Image.new("LA", (300, 300), (0, 0)), "PNG", (255, 255, 255)),
        (Image.new("CMYK", (300, 300), (0, 255, 255, 0)), "JPEG", (254, 0, 0)),
        (Image.new("CMYK", (300, 300), (0, 255, 255, 0)), "TIFF", (255, 0, 0)),
        (Image.new("LAB", (300, 300), (255, 128, 128)), "TIFF", (255, 255, 255)),
    ],
    ids=[
        "grey",
        "black and white",
        "16 bits",
        "palette",
        "clear",
        "half clear",
        "clear grey",
        "cmyk jpeg",
        "cmyk",
        "lab",
    ],
)
def test_every_kind_of_image_is_shown_in_its_colours_on_white(make, image, picture_format, shown):
    made = make(saved(image, picture_format), order(100, Square(0, 0, 300)))
    picture = opened(made["pictures/k-100.jpeg"])
    assert picture.mode == "RGB"
    assert near(picture.getpixel((50, 50)), shown, 14)


def test_a_palette_with_a_clear_colour_lies_on_white(make):
    image = Image.new("P", (300, 300), 0)
    image.putpalette([0, 0, 0, 255, 0, 0])
    made = make(saved(image, "PNG", transparency=0), order(100, Square(0, 0, 300)))
    assert near(opened(made["pictures/k-100.jpeg"]).getpixel((50, 50)), (255, 255, 255))


def test_the_same_photo_gives_the_same_bytes(make):
    data = saved(quarters((1600, 1200)))
    orders = [
        order(w, Square(200, 0, 1200), f)
        for w in (640, 160)
        for f in ("jpeg", "webp", "avif")
        if f == "jpeg" or features.check(f)
    ]
    assert make(data, *orders) == make(data, *orders)


def test_a_photo_that_cannot_be_read_gives_a_problem_and_the_others_are_made(tmp_path):
    (tmp_path / "good").write_bytes(saved(quarters()))
    (tmp_path / "bad").write_bytes(saved(quarters())[:900])
    made = {}
    good, bad = key_of(tmp_path / "good"), key_of(tmp_path / "bad")
    problems = make_pictures(
        [order(100, photo=good), order(100, photo=bad)],
        {
            good: (tmp_path / "good", "content/photos/good.jpg"),
            bad: (tmp_path / "bad", "content/photos/bad.jpg"),
        },
        made.__setitem__,
    )
    assert [(each.rule, each.place) for each in problems] == [("photo", Place("content/photos/bad.jpg"))]
    assert list(made) == [f"pictures/{good}-100.jpeg"]


@pytest.mark.parametrize("left", [b"", b"another", saved(quarters((200, 200)))])
def test_no_picture_is_made_of_a_photo_that_was_changed_since_it_was_ordered(tmp_path, left):
    path, made = tmp_path / "p", {}
    path.write_bytes(saved(quarters()))
    key = key_of(path)
    path.write_bytes(left)
    (problem,) = make_pictures([order(photo=key)], {key: (path, "content/photos/p.jpg")}, made.__setitem__)
    assert (problem.rule, problem.place, made) == ("photo", Place("content/photos/p.jpg"), {})
    assert problem.sentence == (
        "no picture can be made of this photo: it was changed while this build was at work; build again"
    )


def test_progress_counts_pictures(tmp_path):
    (tmp_path / "p").write_bytes(saved(quarters()))
    key, told = key_of(tmp_path / "p"), []
    make_pictures(
        [order(100, photo=key), order(50, photo=key)],
        {key: (tmp_path / "p", "p")},
        lambda address, data: None,
        lambda *n: told.append(n),
    )
    assert told == [(2, 2)]


def test_a_failure_to_write_is_not_taken_for_a_bad_photo(tmp_path):
    (tmp_path / "p").write_bytes(saved(quarters()))
    key = key_of(tmp_path / "p")

    def full(address, data):
        raise RuntimeError("the disk is full")

    with pytest.raises(RuntimeError, match="the disk is full"):
        make_pictures([order(100, photo=key)], {key: (tmp_path / "p", "p")}, full)
