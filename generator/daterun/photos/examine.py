"""One photo examined: whether it can be used, how large it is, which way up, and where the coin's disc lies."""

import warnings
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from pathlib import Path
from typing import BinaryIO

from PIL import Image, UnidentifiedImageError

from daterun.photos.bound import Bound
from daterun.photos.copied import copied
from daterun.photos.disc import NoDisc, find_disc
from daterun.photos.opened import BROKEN, Opened, decode, held_pixels, open_image, scale_to_examine
from daterun.photos.photo import Disc, Photo

MOST_PIXELS = 200_000_000
"""A photo of more is refused: it would take a gigabyte to look at, and no camera of a collector makes it."""

# Pillow would warn of half as many, and of a bomb below what the largest cameras make.
Image.MAX_IMAGE_PIXELS = MOST_PIXELS

LARGEST_FILE = 300_000_000
"""Bytes. More than a camera's largest uncompressed file."""

SEARCHED_PX = 512
"""The least long side on which the disc is looked for; finer than that, the finding gains nothing."""

Use = Callable[[Photo, Opened], object]
"""Is handed each photo that was found sound, with its pixels, which are let go afterwards; it raises nothing."""


def examine(path: Path, shown: str) -> Photo:
    """Examine the photo at a path; shown is its path relative to the catalogue folder.

    Nothing is raised for a bad photo: its fault says what is wrong with it. Warnings are kept back, which is
    done for the whole process: several threads at once call ``examine_quietly`` under one ``without_warnings``.
    """
    with without_warnings():
        return examine_quietly(path, shown)


def without_warnings() -> AbstractContextManager[object]:
    """Keep back what Pillow warns of: bombs, which are measured here, and odd metadata, which is dropped."""
    return warnings.catch_warnings(action="ignore")


def examine_quietly(
    path: Path,
    shown: str,
    recall: Callable[[str], Photo | None] = lambda key: None,
    use: Use | None = None,
    bound: Bound | None = None,
) -> Photo:
    """Examine a photo as ``examine`` does, but let warnings pass, and do not look at what is recalled by its key.

    The bound is that of all threads at work.
    """
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            return Photo("", shown, 0, 0, fault=f"holds {size:,} bytes, too many for a photo")
        with copied(path) as (source, key):
            if (known := recall(key)) is not None:
                return known
            return examine_source(source, Photo(key, shown, 0, 0), use, bound or Bound())
    except OSError as error:
        return Photo("", shown, 0, 0, fault=f"cannot be read: {error.strerror or error}")


def examine_source(source: BinaryIO, photo: Photo, use: Use | None, bound: Bound) -> Photo:
    """Find out all about a photo of which the key and the path are known."""
    try:
        with open_image(source) as image:
            return _look(image, photo, use, bound)
    except UnidentifiedImageError:
        return replace(photo, fault="is not a picture that can be read")
    except Image.DecompressionBombError:
        return replace(photo, fault=_too_large())
    except BROKEN as error:
        return replace(photo, fault=f"cannot be decoded: {_plain(error)}")


def _too_large() -> str:
    return f"has more than {MOST_PIXELS // 1_000_000} million pixels"


def _plain(error: Exception) -> str:
    """Word a decoder's complaint in one short line, without paths."""
    text = " ".join(str(error).split()) or type(error).__name__
    return "it breaks off before its end" if "truncated" in text.lower() else text[:100]


def _look(image: Image.Image, photo: Photo, use: Use | None, bound: Bound) -> Photo:
    width, height = image.size
    if width * height > MOST_PIXELS:
        return replace(photo, fault=_too_large())
    if getattr(image, "n_frames", 1) > 1 and image.format in ("GIF", "PNG", "WEBP", "AVIF"):
        return replace(photo, fault="is a moving picture")
    scale = scale_to_examine(image.size)
    with bound.holding(held_pixels(image, scale)):
        opened = decode(image, scale)
        width, height = opened.upright_size
        found = _find(opened)
        if isinstance(found, NoDisc):
            photo = replace(photo, width_px=width, height_px=height, fallback=found.reason)
        else:
            photo = replace(photo, width_px=width, height_px=height, disc=opened.upright(found))
        if use is not None:
            use(photo, opened)
    return photo


def _find(opened: Opened) -> Disc | NoDisc:
    """Look for the disc on a reduction of the photo as stored; it is given in the photo's own pixels."""
    image = opened.image
    factor = max(1, max(image.size) // SEARCHED_PX)
    if factor > 1 and image.mode in ("RGB", "L", "CMYK") and "transparency" not in image.info:
        found = find_disc(as_rgb(image.reduce(factor)))
    else:
        small = as_rgb(image)
        found = find_disc(small.reduce(factor) if factor > 1 else small)
    if isinstance(found, NoDisc):
        return found
    scale = factor * opened.scale
    return Disc(found.x * scale, found.y * scale, found.diameter * scale)


def as_rgb(image: Image.Image) -> Image.Image:
    """Turn a picture of any mode into RGB; what is transparent becomes white.

    Greys of more than 8 bits are spread over the 8, from the darkest to the lightest.
    """
    if image.mode.startswith(("I", "F")):
        levels = image.convert("F")
        low, high = levels.getextrema()
        assert isinstance(low, float) and isinstance(high, float)
        scale = 255.0 / (high - low) if high > low else 1.0
        return levels.point(lambda value: value * scale - low * scale).convert("L").convert("RGB")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        rgba = image.convert("RGBA")
        white = Image.new("RGBA", rgba.size, (255, 255, 255, 255))
        return Image.alpha_composite(white, rgba).convert("RGB")
    return image if image.mode == "RGB" else image.convert("RGB")
