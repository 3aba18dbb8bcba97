"""One photo examined: whether it can be used, how large it is, which way up, and where the coin's disc lies."""

import hashlib
import struct
import warnings
from contextlib import AbstractContextManager
from pathlib import Path

from PIL import ExifTags, Image, ImageOps, UnidentifiedImageError

from daterun.photos.disc import NoDisc, find_disc
from daterun.photos.photo import Disc, Photo

MOST_PIXELS = 200_000_000
"""A photo of more is refused: it would take a gigabyte to look at, and no camera of a collector makes it."""

# Pillow would warn of half as many, and of a bomb below what the largest cameras make.
Image.MAX_IMAGE_PIXELS = MOST_PIXELS

LARGEST_FILE = 300_000_000
"""Bytes. More than a camera's largest uncompressed file."""

SEARCHED_PX = 1024
"""The least long side on which the disc is looked for; finer than that, the finding gains nothing."""

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "AVIF", "BMP", "GIF")
"""The forms that are read, whatever a file is named. For others Pillow would start programs."""

_TURNED = (5, 6, 7, 8)
"""The orientations in which width and height change places."""

_BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    struct.error,
    EOFError,
    MemoryError,
    OverflowError,
    KeyError,
    TypeError,
)
"""What Pillow raises for files that are not as they should be."""


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


def examine_quietly(path: Path, shown: str, key: str = "") -> Photo:
    """Examine a photo as ``examine`` does, but let warnings pass. The key, where known, is not made again."""
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            return Photo("", shown, 0, 0, fault=f"holds {size:,} bytes, too many for a photo")
        key = key or hash_of(path)
    except OSError as error:
        return Photo("", shown, 0, 0, fault=f"cannot be read: {error.strerror or error}")
    try:
        return _look(path, shown, key)
    except UnidentifiedImageError:
        return Photo(key, shown, 0, 0, fault="is not a picture that can be read")
    except Image.DecompressionBombError:
        return Photo(key, shown, 0, 0, fault=_too_large())
    except _BROKEN as error:
        return Photo(key, shown, 0, 0, fault=f"cannot be decoded: {_plain(error)}")


def hash_of(path: Path) -> str:
    """Hash a file's bytes, read in pieces: hex BLAKE2b of 128 bits."""
    found = hashlib.blake2b(digest_size=16)
    with path.open("rb") as file:
        while piece := file.read(1 << 20):
            found.update(piece)
    return found.hexdigest()


def _too_large() -> str:
    return f"has more than {MOST_PIXELS // 1_000_000} million pixels"


def _plain(error: Exception) -> str:
    """Word a decoder's complaint in one short line, without paths."""
    text = " ".join(str(error).split()) or type(error).__name__
    return "it breaks off before its end" if "truncated" in text.lower() else text[:100]


def _look(path: Path, shown: str, key: str) -> Photo:
    Image.init()
    with Image.open(path, formats=[each for each in FORMATS if each in Image.OPEN]) as image:
        width, height = image.size
        if width * height > MOST_PIXELS:
            return Photo(key, shown, 0, 0, fault=_too_large())
        if getattr(image, "n_frames", 1) > 1 and image.format in ("GIF", "PNG", "WEBP", "AVIF"):
            return Photo(key, shown, 0, 0, fault="is a moving picture")
        if image.format == "JPEG":
            scale = max(1, max(width, height) // SEARCHED_PX)
            image.draft("RGB", (max(1, width // scale), max(1, height // scale)))
        image.load()
        orientation = _orientation(image)  # only now, for a TIFF is turned while it is loaded
        small = as_rgb(image)
    if (factor := max(small.size) // SEARCHED_PX) > 1:
        small = small.reduce(factor)
    upright = _upright(small, orientation)
    if orientation in _TURNED:
        width, height = height, width
    found = find_disc(upright)
    if isinstance(found, NoDisc):
        return Photo(key, shown, width, height, fallback=found.reason)
    scale_x, scale_y = width / upright.width, height / upright.height
    disc = Disc(found.x * scale_x, found.y * scale_y, found.diameter * (scale_x + scale_y) / 2)
    return Photo(key, shown, width, height, disc)


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
    return image.convert("RGB")


def _orientation(image: Image.Image) -> int:
    """Read the EXIF orientation, 1 to 8; 1 where there is none or none that makes sense."""
    try:
        orientation = image.getexif().get(ExifTags.Base.Orientation, 1)
    except _BROKEN:
        return 1
    return orientation if orientation in range(1, 9) else 1


def _upright(image: Image.Image, orientation: int) -> Image.Image:
    if orientation == 1:
        return image
    image.getexif()[ExifTags.Base.Orientation] = orientation
    return ImageOps.exif_transpose(image)
