"""One photo examined: whether it can be used, how large it is, which way up, and where the coin's disc lies."""

import hashlib
import struct
import warnings
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from daterun.photos.disc import NoDisc, find_disc
from daterun.photos.photo import Disc, Photo

MOST_PIXELS = 200_000_000
"""A photo of more is refused: it would take a gigabyte to look at, and no camera of a collector makes it."""

LARGEST_FILE = 300_000_000
"""Bytes. More than a camera's largest uncompressed file."""

SEARCHED_PX = 1024
"""The long side on which the disc is looked for; finer than that, the finding gains nothing."""

_TURNED = (5, 6, 7, 8)
"""The orientations in which width and height change places."""


def examine(path: Path, shown: str) -> Photo:
    """Examine the photo at a path; shown is its path relative to the catalogue folder.

    Nothing is raised for a bad photo: its fault says what is wrong with it.
    """
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            return Photo("", shown, 0, 0, fault=f"holds {size:,} bytes, too many for a photo")
        key = hash_of(path)
    except OSError as error:
        return Photo("", shown, 0, 0, fault=f"cannot be read: {error.strerror or error}")
    with warnings.catch_warnings():
        warnings.simplefilter(
            "ignore"
        )  # of bombs, which are measured here, and of odd metadata, which is dropped
        try:
            return _look(path, shown, key)
        except UnidentifiedImageError:
            return Photo(key, shown, 0, 0, fault="is not a picture that can be read")
        except Image.DecompressionBombError:
            return Photo(key, shown, 0, 0, fault=_too_large())
        except (
            OSError,
            SyntaxError,
            ValueError,
            struct.error,
            EOFError,
            MemoryError,
            OverflowError,
        ) as error:
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
    with Image.open(path) as image:
        width, height = image.size
        if width * height > MOST_PIXELS:
            return Photo(key, shown, 0, 0, fault=_too_large())
        if getattr(image, "n_frames", 1) > 1 and image.format in ("GIF", "PNG", "WEBP", "AVIF"):
            return Photo(key, shown, 0, 0, fault="is a moving picture")
        orientation = image.getexif().get(0x0112, 1)
        if image.format == "JPEG":
            scale = max(1, max(width, height) // SEARCHED_PX)
            image.draft("RGB", (max(1, width // scale), max(1, height // scale)))
        image.load()
        small = as_rgb(image)
    if max(small.size) > SEARCHED_PX:
        small.thumbnail((SEARCHED_PX, SEARCHED_PX), Image.Resampling.BOX, reducing_gap=None)
    upright = ImageOps.exif_transpose(_tagged(small, orientation))
    if orientation in _TURNED:
        width, height = height, width
    found = find_disc(upright)
    if isinstance(found, NoDisc):
        return Photo(key, shown, width, height, fallback=found.reason)
    scale_x, scale_y = width / upright.width, height / upright.height
    disc = Disc(found.x * scale_x, found.y * scale_y, found.diameter * (scale_x + scale_y) / 2)
    return Photo(key, shown, width, height, disc)


def as_rgb(image: Image.Image) -> Image.Image:
    """Turn a picture of any mode into RGB; what is transparent becomes white, 16-bit greys are brought to 8."""
    if image.mode in ("I;16", "I;16B", "I;16L", "I", "F"):
        low, high = image.getextrema()
        assert isinstance(low, int | float) and isinstance(high, int | float)
        most = 65535.0 if high > 255 else 255.0
        return (
            image.convert("F").point(lambda value: value * (255.0 / most) + 0.0).convert("L").convert("RGB")
        )
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        rgba = image.convert("RGBA")
        white = Image.new("RGBA", rgba.size, (255, 255, 255, 255))
        return Image.alpha_composite(white, rgba).convert("RGB")
    return image.convert("RGB")


def _tagged(image: Image.Image, orientation: int) -> Image.Image:
    tagged = image.copy()
    tagged.getexif()[0x0112] = orientation if orientation in range(1, 9) else 1
    return tagged
