"""Whatever becomes of a photo, it is examined and pictures are made of it, or it is said what is wrong."""

import hashlib
import io

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw, features

from daterun.pages.pictures import PictureOrder, Square
from daterun.photos.examine import examine
from daterun.press.pictures import make_pictures

KINDS = ["JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF", *(["AVIF"] if features.check("avif") else [])]


def saved(kind: str) -> bytes:
    image = Image.new("RGB", (120, 100), "white")
    ImageDraw.Draw(image).ellipse((20, 10, 100, 90), fill=(120, 110, 90))
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "A camera"
    out = io.BytesIO()
    image.save(out, kind, **({} if kind in ("BMP", "GIF") else {"exif": exif}))
    return out.getvalue()


PHOTOS = {kind: saved(kind) for kind in KINDS}
PIECES = [
    b"\0",
    b"\xff",
    b"\xff\xd8",
    b"\xff\xd9",
    b"\x7f\xff\xff\xff",
    b"\xff\xff\xff\xff",
    b"Exif\0\0",
    b"II*\0",
]
changes = st.lists(
    st.tuples(st.integers(0, 1 << 14), st.integers(0, 8), st.sampled_from(PIECES) | st.binary(max_size=4)),
    min_size=1,
    max_size=3,
)


def changed(data: bytes, pieces: list[tuple[int, int, bytes]]) -> bytes:
    for at, length, put in pieces:
        begin = at % (len(data) + 1) if at % 2 else at % 80  # as often in the head as anywhere
        data = data[:begin] + put + data[begin + length :]
    return data


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=100, suppress_health_check=list(HealthCheck))
@given(pieces=changes)
def test_a_photo_with_some_bytes_changed_is_shown_or_said_to_be_broken(tmp_path, kind, pieces):
    path = tmp_path / "photo"
    data = changed(PHOTOS[kind], pieces)
    path.write_bytes(data)
    photo = examine(path, "content/photos/a.jpg")
    assert photo.fault or (photo.width_px and photo.height_px)
    key, made = hashlib.blake2b(data, digest_size=16).hexdigest(), {}
    side = max(1, min(photo.width_px, photo.height_px))
    order = PictureOrder(key, Square(0, 0, side), 64, "jpeg", "a.jpeg")
    problems = make_pictures([order], {key: (path, photo.path)}, made.__setitem__)
    assert bool(made) != bool(problems)
