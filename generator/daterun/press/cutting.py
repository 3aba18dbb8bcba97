"""Pictures cut from one opened photo: the widest from its pixels, each other from the next wider, and encoded.

An order gives the same bytes whatever else is cut with it. Which there are is left to ``pages/pictures.py``.
"""

import io
from collections.abc import Iterable, Iterator
from typing import Any

from PIL import Image, features

from daterun.pages.pictures import FACE_PX, PRINTED, PictureOrder, Square
from daterun.photos.opened import Opened, scale_to_make
from daterun.press.colours import flatten, to_srgb
from daterun.problems import CannotContinue

_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""What brings a photo of each EXIF orientation upright (Exif 2.32, tag 0x0112)."""

_GAP = 1.25
"""Reducing in whole steps before the fine filter: 1600 to 640 pixels costs 10 ms in place of 30, and what it
loses lies far below what the encoders lose."""

_FINE, FACE_FILTER = Image.Resampling.BICUBIC, Image.Resampling.HAMMING
"""The filters for pictures, and for the face on a plate. From 2550 to 1600 pixels the first takes 50 ms and
LANCZOS 69; from 1360 to 820 they take 14 and 18, the second 9. From LANCZOS the first differs by 46 dB, the
second by 41, and what is encoded by 37 (one core, Pillow 13)."""

_SMALL = 320
"""Pixels up to which a JPEG is coded twice for the shortest code: at 160 it saves 6 % for a hundredth of a
millisecond, at 1600 it saves 5 % for twice the time."""

_SAVING: dict[str, dict[str, Any]] = {
    "jpeg": {"format": "JPEG", "quality": 82},
    "avif": {"format": "AVIF", "quality": 60, "speed": 10, "max_threads": 1},
    "webp": {"format": "WEBP", "quality": 82, "method": 0},
    PRINTED: {"format": "JPEG", "quality": 75, "optimize": True},
}
"""How each format is encoded. A picture of noise for print, 317 pixels wide, takes 23 kB in place of 28 at 82;
progressive it would take 3 % less, and Typst 1.6 s more for the 2,300 pictures of 1,000 coins (one core)."""


def check_formats(formats: Iterable[str]) -> None:
    """Raise CannotContinue for a format that this installation of Pillow cannot write."""
    for each in sorted(set(formats)):
        if _SAVING[each]["format"] != "JPEG" and not features.check(each):
            raise CannotContinue(
                f"pictures cannot be written as {each}: this installation of Pillow lacks it"
            )


def scale_for(orders: Iterable[PictureOrder], size: tuple[int, int]) -> int:
    """Choose by how much a photo of that size is reduced while it is decoded for all of the orders."""
    detail = max(max((each.width_px, *each.steps)) / each.square.side for each in orders)
    return scale_to_make(size, detail)


def cut(opened: Opened, orders: Iterable[PictureOrder]) -> Iterator[tuple[PictureOrder, Image.Image]]:
    """Cut every picture ordered from a photo, with nothing but its pixels, widest first."""
    by_square: dict[tuple[Square, int], list[PictureOrder]] = {}
    for order in orders:
        widest = max((order.width_px, *order.steps))
        by_square.setdefault((order.square, widest), []).append(order)
    flat = flatten(opened.image)
    for (square, widest), each in by_square.items():
        picture = _cut_out(flat, opened, square, widest)
        yield from ((order, picture) for order in each if order.width_px == widest)
        steps = {width for order in each for width in (order.width_px, *order.steps)} - {widest}
        for width in sorted(steps, reverse=True):
            picture = picture.resize(
                (width, width), FACE_FILTER if width == FACE_PX else _FINE, reducing_gap=_GAP
            )
            yield from ((order, picture) for order in each if order.width_px == width)


def _cut_out(flat: Image.Image, opened: Opened, square: Square, width: int) -> Image.Image:
    """Cut a square out of the photo, so wide, bring its colours to sRGB and turn it upright."""
    left, top, side = raw_square(square, opened.size, opened.orientation)
    scale = opened.scale
    box = (
        left / scale,
        top / scale,
        min((left + side) / scale, flat.width),
        min((top + side) / scale, flat.height),
    )
    picture = flat.resize((width, width), _FINE, box=box, reducing_gap=_GAP)
    picture = to_srgb(picture, opened.profile)
    if opened.orientation in _TURNS:
        picture = picture.transpose(_TURNS[opened.orientation])
    return picture


def raw_square(square: Square, size: tuple[int, int], orientation: int) -> tuple[int, int, int]:
    """Find where a square of the upright photo lies in the photo as it is stored: left, top and side."""
    width, height = size
    left, top, side = square.left, square.top, square.side
    if orientation >= 5:
        left, top = top, left
    right, bottom = width - left - side, height - top - side
    if orientation in (2, 3, 7, 8):
        left = right
    if orientation in (3, 4, 6, 7):
        top = bottom
    return left, top, side


def encode(picture: Image.Image, picture_format: str) -> bytes:
    """Encode a picture with nothing beside its pixels; the same picture gives the same bytes."""
    picture.info = {}
    out = io.BytesIO()
    picture.save(out, **{"optimize": picture.width <= _SMALL, **_SAVING[picture_format]})
    return out.getvalue()
