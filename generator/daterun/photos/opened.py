"""A photo opened once: its pixels as they are stored, decoded no finer than they are needed.

Examining and the making of pictures share it, so that no photo is decoded twice. What is seen in it is left to
``examine``, what is made of it to the press.
"""

import math
import struct
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from PIL import ExifTags, Image

from daterun.photos.photo import Disc

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "AVIF", "BMP", "GIF")
"""The forms that are read, whatever a file is named. For others Pillow would start programs."""

EXAMINED_PX = 1600
"""The least short side at which a photo is decoded: as fine as the widest picture that is usual."""

BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    struct.error,
    EOFError,
    MemoryError,
    ArithmeticError,
    LookupError,
    TypeError,
    AttributeError,
    RuntimeError,
)
"""What Pillow raises for files that are not as they should be."""

_SCALES = (8, 4, 2)
"""By how much the decoder of JPEG reduces on its way, beside not at all."""


@dataclass(frozen=True, slots=True)
class Opened:
    """The pixels of a photo, each standing for a square of scale by scale of its own.

    The size is that of the whole as stored; the orientation, 1 to 8, says how it is to be turned (Exif 2.32, tag
    0x0112). The profile is that of its colours, None where the file has none.
    """

    image: Image.Image
    size: tuple[int, int]
    scale: int
    orientation: int
    profile: bytes | None

    @property
    def upright_size(self) -> tuple[int, int]:
        width, height = self.size
        return (height, width) if self.orientation >= 5 else (width, height)

    def upright(self, disc: Disc) -> Disc:
        """Give a disc of the photo as stored as it lies once that is turned."""
        (width, height), x, y = self.size, disc.x, disc.y
        if self.orientation in (2, 3, 7, 8):
            x = width - x
        if self.orientation in (3, 4, 6, 7):
            y = height - y
        if self.orientation >= 5:
            x, y = y, x
        return Disc(x, y, disc.diameter)


def know_formats() -> None:
    """Have Pillow get to know the forms of pictures, which takes it 20 ms once."""
    Image.init()


def open_image(source: Path | BinaryIO) -> Image.Image:
    """Open a photo of a form that is read, without decoding it; the caller closes it."""
    know_formats()
    return Image.open(source, formats=[each for each in FORMATS if each in Image.OPEN])


def scale_to_examine(size: tuple[int, int]) -> int:
    """Choose by how much a photo may be reduced while it is decoded, whatever comes to be made of it."""
    return next((each for each in _SCALES if min(size) >= EXAMINED_PX * each), 1)


def scale_to_make(size: tuple[int, int], detail: float) -> int:
    """Choose the same for pictures, of which the finest has so many pixels for one of the photo.

    It is never more than when the photo is examined, so that what was decoded then mostly serves.
    """
    coarsest = next((each for each in _SCALES if each * detail <= 1), 1)
    return min(coarsest, scale_to_examine(size))


def decode(image: Image.Image, scale: int) -> Opened:
    """Decode an opened photo, reduced by so much where its form allows. Raise what BROKEN lists."""
    size = image.size
    if scale > 1 and image.draft(None, (size[0] // scale, size[1] // scale)) is not None:
        scale = round(max(size) / max(image.size))
    else:
        scale = 1
    image.load()
    if scale == 1:
        size = image.size
    profile = image.info.get("icc_profile")
    # The orientation is read only now: Pillow turns a TIFF upright while it loads, and no other form.
    return Opened(image, size, scale, _orientation(image), profile if isinstance(profile, bytes) else None)


def held_pixels(image: Image.Image, scale: int) -> int:
    """Tell how many pixels a photo takes in memory once decoded at that scale."""
    across, down = (
        math.ceil(each / scale) if image.format in ("JPEG", "MPO") else each for each in image.size
    )
    return across * down


def _orientation(image: Image.Image) -> int:
    """Read the EXIF orientation, 1 to 8; 1 where there is none or none that makes sense."""
    try:
        orientation = image.getexif().get(ExifTags.Base.Orientation, 1)
    except BROKEN:
        return 1
    return orientation if orientation in range(1, 9) else 1
