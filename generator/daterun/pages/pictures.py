"""Which pictures are made of a photo: how they are cropped, how wide they are, and what they are called.

A picture's address is made from what the photo holds and how it is cropped, so that a replaced photo has a new
address and a renamed one has not. The making is left to the press.
"""

import hashlib
from dataclasses import dataclass

from daterun.photos.photo import Disc

MARGIN = 1.012
"""The side of a square picture in diameters of the disc: a disc is found to within one per cent."""

SUFFIXES = {"jpeg": "jpg", "avif": "avif", "webp": "webp"}


@dataclass(frozen=True, slots=True)
class Square:
    """The part of a photo that is shown: its corner and side in pixels, to a tenth, after orientation."""

    left: float
    top: float
    side: float


@dataclass(frozen=True, slots=True)
class PictureOrder:
    """One picture to be made: from the photo of that content, the square of it, so wide, at that address."""

    photo: str
    square: Square
    width_px: int
    format: str
    address: str


def square_of(width_px: int, height_px: int, disc: Disc | None) -> Square:
    """Choose the square to show: round the disc, kept inside the photo, else the centred square."""
    short = float(min(width_px, height_px))
    if disc is None:
        return Square((width_px - short) / 2, (height_px - short) / 2, short)
    side = int(min(disc.diameter * MARGIN, short) * 10)
    left = _within(disc.x * 10 - side / 2, width_px * 10 - side)
    top = _within(disc.y * 10 - side / 2, height_px * 10 - side)
    return Square(left / 10, top / 10, side / 10)


def _within(corner: float, most: int) -> int:
    """Round a corner, in tenths of a pixel, and keep it where the square stays inside the photo."""
    return min(max(round(corner), 0), most)


def order_pictures(
    photo: str, width_px: int, height_px: int, disc: Disc | None, widths: tuple[int, ...], picture_format: str
) -> tuple[PictureOrder, ...]:
    """Order the pictures of a photo, smallest first; none is wider than what the photo has to show."""
    square = square_of(width_px, height_px, disc)
    possible = sorted({min(width, max(int(square.side), 1)) for width in widths})
    orders = []
    for width in possible:
        made_from = f"{photo} {square.left} {square.top} {square.side} {width} {picture_format}"
        name = hashlib.blake2b(made_from.encode(), digest_size=10).hexdigest()
        address = f"pictures/{name[:2]}/{name[2:]}-{width}.{SUFFIXES[picture_format]}"
        orders.append(PictureOrder(photo, square, width, picture_format, address))
    return tuple(orders)
