"""Pictures made of photos: each photo opened once, every size made from the next larger, all else left behind.

Which pictures there are is left to ``pages/pictures.py``.
"""

import io
import math
import os
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path
from typing import Any

from PIL import ExifTags, Image, features

from daterun.pages.pictures import PictureOrder, Square
from daterun.press.colours import flatten, to_srgb
from daterun.problems import CannotContinue, Place, Problem

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
"""Reducing in whole steps before the fine filter: 1600 to 640 pixels costs 14 ms in place of 30, and what it
loses lies far below what the encoders lose."""

_MOST_THREADS = 8
"""Each thread holds one photo in memory, some 40 MB at 12 megapixels."""

_SMALL = 320
"""Pixels up to which a JPEG is coded twice for the shortest code: at 160 it saves 6 % for a hundredth of a
millisecond, at 1600 it saves 5 % for twice the time."""

_SAVING: dict[str, dict[str, Any]] = {
    "jpeg": {"format": "JPEG", "quality": 82},
    "avif": {"format": "AVIF", "quality": 60, "speed": 10, "max_threads": 1},
    "webp": {"format": "WEBP", "quality": 82, "method": 0},
}


def make_pictures(
    orders: Iterable[PictureOrder],
    photos: Mapping[str, tuple[Path, str]],
    write: Callable[[str, bytes], object],
    progress: Callable[[int, int], None] = lambda done, total: None,
) -> tuple[Problem, ...]:
    """Make pictures on all cores and hand each to ``write``, which several threads call at once.

    The photos are found by the hash that orders name: the path on disk, and how it is shown to the keeper.
    A photo that cannot be used gives a problem; the others are made all the same. Progress counts pictures.
    """
    by_photo: dict[str, list[PictureOrder]] = {}
    for order in orders:
        by_photo.setdefault(order.photo, []).append(order)
    check_formats(order.format for each in by_photo.values() for order in each)
    total = sum(len(each) for each in by_photo.values())
    done = 0
    problems: list[Problem] = []
    if not total:
        return ()
    threads = min(os.cpu_count() or 1, _MOST_THREADS, len(by_photo))
    with ThreadPoolExecutor(threads, thread_name_prefix="pictures") as pool:
        working = {
            pool.submit(_make_of_photo, photos[key][0], ordered, write): key
            for key, ordered in by_photo.items()
        }
        try:
            for finished in as_completed(working):
                key = working[finished]
                try:
                    finished.result()
                except (_Unusable, Image.DecompressionBombError, SyntaxError) as error:
                    shown = photos[key][1]
                    problems.append(
                        Problem("photo", f"no picture can be made of this photo: {error}", Place(shown))
                    )
                done += len(by_photo[key])
                progress(done, total)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise
    return tuple(sorted(problems, key=lambda each: each.place))


def check_formats(formats: Iterable[str]) -> None:
    """Raise CannotContinue for a format that this installation of Pillow cannot write."""
    for each in sorted(set(formats)):
        if each != "jpeg" and not features.check(each):
            raise CannotContinue(
                f"pictures cannot be written as {each}: this installation of Pillow lacks it"
            )


class _Unusable(Exception):
    """A photo that cannot be read."""


def _make_of_photo(path: Path, orders: list[PictureOrder], write: Callable[[str, bytes], object]) -> None:
    by_square: dict[Square, list[PictureOrder]] = {}
    for order in orders:
        by_square.setdefault(order.square, []).append(order)
    try:
        with Image.open(path) as photo:
            pictures = _cut(photo, by_square)
    except (OSError, ValueError, EOFError) as error:
        raise _Unusable(str(error)) from error
    for order, picture in pictures:
        write(order.address, encode(picture, order.format))


def _cut(
    photo: Image.Image, by_square: Mapping[Square, list[PictureOrder]]
) -> list[tuple[PictureOrder, Image.Image]]:
    """Cut every square from a photo in all its sizes, widest first, each made from the one before."""
    profile = photo.info.get("icc_profile")
    if photo.format == "TIFF":
        photo.load()  # Pillow turns a TIFF upright while it loads, and no other format
    orientation = photo.getexif().get(ExifTags.Base.Orientation, 1)
    full = photo.size
    detail = max(max(order.width_px for order in each) / square.side for square, each in by_square.items())
    if detail < 1:
        photo.draft(None, (math.ceil(full[0] * detail), math.ceil(full[1] * detail)))
    photo.load()
    flat = flatten(photo)
    made = []
    for square, orders in by_square.items():
        box = _scale(raw_square(square, full, orientation), full, flat.size)
        picture: Image.Image | None = None
        for order in sorted(orders, key=lambda each: -each.width_px):
            size = (order.width_px, order.width_px)
            if picture is None:
                picture = flat.resize(size, Image.Resampling.LANCZOS, box=box, reducing_gap=_GAP)
                picture = to_srgb(picture, profile if isinstance(profile, bytes) else None)
                if orientation in _TURNS:
                    picture = picture.transpose(_TURNS[orientation])
            elif picture.size != size:
                picture = picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=_GAP)
            made.append((order, picture))
    return made


def raw_square(square: Square, size: tuple[int, int], orientation: int) -> tuple[float, float, float]:
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


def _scale(
    square: tuple[float, float, float], full: tuple[int, int], drafted: tuple[int, int]
) -> tuple[float, float, float, float]:
    """Bring a square to the scale at which the photo was decoded, inside its edges."""
    left, top, side = square
    across, down = drafted[0] / full[0], drafted[1] / full[1]
    return (
        max(left * across, 0.0),
        max(top * down, 0.0),
        min((left + side) * across, float(drafted[0])),
        min((top + side) * down, float(drafted[1])),
    )


def encode(picture: Image.Image, picture_format: str) -> bytes:
    """Encode a picture with nothing beside its pixels; the same picture gives the same bytes."""
    bare = picture.copy()
    bare.info = {}
    out = io.BytesIO()
    bare.save(out, **_SAVING[picture_format], optimize=picture.width <= _SMALL)
    return out.getvalue()
