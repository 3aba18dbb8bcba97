"""What is found out about one photo, however odd or broken."""

import io
import math
import struct
import zlib

import numpy as np
import pytest
from PIL import Image, ImageDraw

from daterun.photos import examine as examining
from daterun.photos.examine import examine


@pytest.fixture
def put(tmp_path):
    """Write bytes or a picture to a file and examine it."""

    def putting(content, name="a.jpg", **how):
        path = tmp_path / name
        if isinstance(content, bytes):
            path.write_bytes(content)
        else:
            content.save(path, **how)
        return examine(path, name)

    return putting


def encoded(image, kind="JPEG", **how):
    file = io.BytesIO()
    image.save(file, kind, **how)
    return file.getvalue()


def test_a_sound_photo_has_its_size_and_disc(put, photograph):
    photo = put(photograph(), quality=90)
    assert (photo.width_px, photo.height_px, photo.fault, photo.fallback) == (800, 800, "", "")
    assert photo.disc is not None
    assert abs(photo.disc.diameter - 640) < 6


def test_size_and_disc_are_those_after_the_orientation_is_obeyed(put, photograph):
    upright = photograph(size=(900, 700), disc=(300, 350, 480), seed=4)
    turned = upright.transpose(Image.Transpose.ROTATE_90)
    tags = Image.Exif()
    tags[0x0112] = 6
    photo = put(turned, exif=tags, quality=92)
    assert (photo.width_px, photo.height_px) == (900, 700)
    assert photo.disc is not None
    assert (round(photo.disc.x / 900, 2), round(photo.disc.y / 700, 2)) == (0.33, 0.5)


def test_a_disc_that_cannot_be_found_says_why(put):
    photo = put(Image.new("RGB", (400, 300), (230, 230, 228)))
    assert (photo.disc, photo.fault) == (None, "")
    assert photo.fallback == "nothing stands out from the background"


def test_what_is_no_picture_has_a_fault(put):
    assert put(b"these are words, not a picture").fault == "is not a picture that can be read"
    assert put(b"").fault == "is not a picture that can be read"


def test_a_photo_that_breaks_off_has_a_fault(put, photograph):
    whole = encoded(photograph())
    photo = put(whole[: len(whole) // 2])
    assert photo.fault == "cannot be decoded: it breaks off before its end"


BREAKABLE = [
    ("a.jpg", "JPEG", {}),
    ("a.jpg", "JPEG", {"progressive": True}),
    ("a.png", "PNG", {}),
    ("a.webp", "WEBP", {}),
    ("a.tif", "TIFF", {}),
    ("a.tif", "TIFF", {"compression": "tiff_lzw"}),
    ("a.bmp", "BMP", {}),
]


@pytest.mark.parametrize(("name", "kind", "how"), BREAKABLE)
@pytest.mark.parametrize("share", [0.02, 0.5, 0.9, 0.99])
def test_every_kind_of_picture_that_breaks_off_has_a_fault(put, name, kind, how, share):
    shades = np.random.default_rng(1).integers(0, 255, (90, 120, 3), dtype=np.uint8)
    whole = encoded(Image.fromarray(shades), kind, **how)
    assert put(whole, name).fault == ""
    assert put(whole[: int(share * len(whole))], name).fault


def test_a_jpeg_without_its_last_two_bytes_has_a_fault(put, photograph):
    assert put(encoded(photograph(size=(200, 200), disc=(100, 100, 150)))[:-2]).fault


def test_a_photo_that_is_not_there_has_a_fault(tmp_path):
    assert examine(tmp_path / "a.jpg", "a.jpg").fault.startswith("cannot be read: ")


def test_a_folder_named_like_a_photo_has_a_fault(tmp_path):
    (tmp_path / "a.jpg").mkdir()
    assert examine(tmp_path / "a.jpg", "a.jpg").fault.startswith("cannot be read: ")


def empty_png(width, height):
    """Write a PNG that promises so many pixels and holds next to none."""

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(bytes(1000)))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("side", [15_000, 30_000, 2**31 - 1])
def test_a_bomb_has_a_fault_and_raises_no_warning(put, side):
    assert put(empty_png(side, side), "a.png").fault == "has more than 200 million pixels"


def test_a_photo_of_a_hundred_million_pixels_is_looked_at(put):
    assert put(empty_png(10_000, 10_000), "a.png").fault == "cannot be decoded: it breaks off before its end"


@pytest.mark.parametrize("kind", ["EPS", "ICO", "JPEG2000"])
def test_what_only_other_programs_read_is_no_photo_whatever_its_name(put, kind):
    whole = encoded(Image.new("RGB", (60, 60)), kind)
    assert put(whole, "a.jpg").fault == "is not a picture that can be read"


def test_a_file_larger_than_any_photo_is_not_read(put, monkeypatch):
    monkeypatch.setattr(examining, "LARGEST_FILE", 10)
    photo = put(b"0123456789ab")
    assert (photo.key, photo.fault) == ("", "holds 12 bytes, too many for a photo")


def test_a_bomb_is_refused_before_it_is_decoded(put, monkeypatch):
    monkeypatch.setattr(examining, "MOST_PIXELS", 10_000)
    assert put(Image.new("RGB", (200, 100))).fault == "has more than 0 million pixels"


def test_a_moving_picture_has_a_fault(put):
    frames = [Image.new("RGB", (60, 60), (shade, 0, 0)) for shade in (0, 120, 240)]
    photo = put(encoded(frames[0], "WEBP", save_all=True, append_images=frames[1:]), "a.webp")
    assert photo.fault == "is a moving picture"


@pytest.mark.parametrize(
    ("name", "how", "change"),
    [
        ("a.jpg", {"kind": "JPEG"}, lambda image: image.convert("CMYK")),
        ("a.png", {"kind": "PNG"}, lambda image: image.convert("P")),
        ("a.png", {"kind": "PNG"}, lambda image: image.convert("LA")),
        ("a.tif", {"kind": "TIFF"}, lambda image: image.convert("L")),
        ("a.tif", {"kind": "TIFF"}, lambda image: image.convert("CMYK")),
        ("a.tif", {"kind": "TIFF"}, lambda image: image.convert("LAB")),
        ("a.tif", {"kind": "TIFF"}, lambda image: unit_floats(image)),
        ("a.png", {"kind": "JPEG"}, lambda image: image),
        ("a.png", {"kind": "PNG"}, lambda image: sixteen_bits(image)),
    ],
    ids=[
        "CMYK",
        "palette",
        "alpha",
        "grey TIFF",
        "CMYK TIFF",
        "Lab TIFF",
        "floats",
        "wrong ending",
        "16 bits",
    ],
)
def test_every_kind_of_picture_shows_its_disc(put, photograph, name, how, change):
    photo = put(encoded(change(photograph(metal="toned", shadow=0)), **how), name)
    assert photo.fault == ""
    assert photo.disc is not None
    assert abs(photo.disc.diameter - 640) < 7


def sixteen_bits(image):
    levels = np.asarray(image.convert("L")).astype(np.uint16) * 257
    return Image.fromarray(levels)


def unit_floats(image):
    return Image.fromarray(np.asarray(image.convert("L")).astype(np.float32) / 255)


def test_a_coin_cut_out_on_nothing_is_found(put, photograph):
    coin = photograph(size=(400, 400), disc=(190, 210, 300), metal="copper", quality=None)
    shape = Image.new("L", coin.size)
    ImageDraw.Draw(shape).ellipse((40, 60, 340, 360), fill=255)
    coin.putalpha(shape)
    photo = put(coin, "a.png")
    assert photo.disc is not None
    assert math.dist((photo.disc.x, photo.disc.y), (190, 210)) < 3
    assert abs(photo.disc.diameter - 300) < 3


@pytest.mark.parametrize(("name", "kind"), [("a.jpg", "JPEG"), ("a.png", "PNG"), ("a.tif", "TIFF")])
@pytest.mark.parametrize(
    ("orientation", "size", "centre"),
    [
        (1, (600, 400), (350, 220)),
        (2, (600, 400), (250, 220)),
        (3, (600, 400), (250, 180)),
        (4, (600, 400), (350, 180)),
        (5, (400, 600), (220, 350)),
        (6, (400, 600), (180, 350)),
        (7, (400, 600), (180, 250)),
        (8, (400, 600), (220, 250)),
        (99, (600, 400), (350, 220)),
    ],
)
def test_every_orientation_is_obeyed_in_every_kind_of_file(
    put, photograph, name, kind, orientation, size, centre
):
    """Where the centre comes to lie follows from the definition of the tag (Exif 2.32, 0x0112)."""
    tags = Image.Exif()
    tags[0x0112] = orientation
    image = photograph(size=(600, 400), disc=(350, 220, 300), metal="copper", quality=None)
    photo = put(encoded(image, kind, exif=tags), name)
    assert (photo.width_px, photo.height_px) == size
    assert photo.disc is not None
    assert math.dist((photo.disc.x, photo.disc.y), centre) < 3


def test_a_photo_with_broken_metadata_is_taken_as_it_lies(put):
    tags = b"Exif\0\0MM\0*\0\0\0\x08\xff\xff" + b"\1" * 60
    photo = put(encoded(Image.new("RGB", (90, 60)), exif=tags))
    assert (photo.width_px, photo.height_px, photo.fault) == (90, 60, "")


def test_the_disc_of_a_large_photo_is_in_its_own_pixels(put, photograph):
    small = photograph(size=(1000, 750), disc=(1600 / 3, 1100 / 3, 500), quality=None)
    large = small.resize((3000, 2250), Image.Resampling.BICUBIC)
    for content, name in ((encoded(large), "a.jpg"), (encoded(large, "WEBP"), "a.webp")):
        disc = put(content, name).disc
        assert disc is not None
        assert math.dist((disc.x, disc.y), (1600, 1100)) < 15
        assert abs(disc.diameter - 1500) < 15


@pytest.mark.parametrize("kind", ["PNG", "GIF"])
def test_a_picture_that_moves_has_a_fault_in_every_form(put, kind):
    frames = [Image.new("RGB", (60, 60), (shade, 0, 0)) for shade in (0, 120, 240)]
    photo = put(encoded(frames[0], kind, save_all=True, append_images=frames[1:]), "a.png")
    assert photo.fault == "is a moving picture"


@pytest.mark.parametrize(("kind", "name"), [("TIFF", "a.tif"), ("MPO", "a.jpg")])
def test_of_several_still_pictures_in_a_file_the_first_counts(put, photograph, kind, name):
    coin = photograph(size=(400, 400), disc=(200, 200, 300))
    photo = put(encoded(coin, kind, save_all=True, append_images=[Image.new("RGB", (40, 30))]), name)
    assert (photo.width_px, photo.fault) == (400, "")
    assert photo.disc is not None


@pytest.mark.parametrize("size", [(1, 1), (3, 20_000), (3000, 20)])
def test_a_photo_of_any_shape_is_examined(put, size):
    photo = put(Image.new("RGB", size, (200, 10, 10)), "a.png")
    assert (photo.width_px, photo.height_px, photo.fault) == (*size, "")
    assert photo.fallback == "the photo has too few pixels"


def test_the_key_follows_what_the_photo_holds_and_not_its_name(put):
    grey, white = Image.new("RGB", (60, 60), (90, 90, 90)), Image.new("RGB", (60, 60), (255, 255, 255))
    assert put(grey, "a.png").key == put(grey, "b.png").key != put(white, "c.png").key
