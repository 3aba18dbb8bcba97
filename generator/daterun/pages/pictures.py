"""Which pictures are made of a photo: how they are cropped, how wide they are, and what they are called.

A picture's address is made from what the photo holds and how it is cropped, so that a replaced photo has a new
address and a renamed one has not. The making is left to the press.
"""

import hashlib
import math
from collections.abc import Sequence
from dataclasses import dataclass

from daterun.photos.photo import Disc

MARGIN = 1.012
"""The side of a square picture in diameters of the disc: a disc is found to within one per cent."""

PRINTED = "printed"
"""The format of a picture for paper: a JPEG of fewer bytes, for a catalogue holds thousands."""

FACE_PX = 820
"""How wide a side stands on a plate. Narrower pictures are made through it, which halves what they take."""

SUFFIXES = {"jpeg": "jpg", "avif": "avif", "webp": "webp", PRINTED: "jpg"}


@dataclass(frozen=True, slots=True)
class Square:
    """The part of a photo that is shown: its corner and side in whole pixels, after orientation.

    Between pixels, a picture as wide as its square would have to be filtered, which takes 23 ms and its
    sharpest lines; from whole ones it is cut in 1 ms (1,300 px, one core).
    """

    left: int
    top: int
    side: int


@dataclass(frozen=True, slots=True)
class PictureOrder:
    """One picture to be made: from the photo of that content, the square of it, so wide, at that address.

    The steps are the wider pictures through which it is made, widest first, whether those are to be made or not,
    so that it has the same bytes in any company.
    """

    photo: str
    square: Square
    width_px: int
    format: str
    address: str
    steps: tuple[int, ...] = ()


def square_of(width_px: int, height_px: int, disc: Disc | None) -> Square:
    """Choose the square to show: round the disc, kept inside the photo, else the centred square."""
    short = min(width_px, height_px)
    if disc is None:
        return Square((width_px - short) // 2, (height_px - short) // 2, short)
    side = min(math.ceil(disc.diameter * MARGIN), short)
    left = _within(disc.x - side / 2, width_px - side)
    return Square(left, _within(disc.y - side / 2, height_px - side), side)


def _within(corner: float, most: int) -> int:
    """Round a corner to a whole pixel, and keep it where the square stays inside the photo."""
    return min(max(round(corner), 0), most)


def order_pictures(
    photo: str, width_px: int, height_px: int, disc: Disc | None, widths: tuple[int, ...], picture_format: str
) -> tuple[PictureOrder, ...]:
    """Order the pictures of a photo, smallest first; none is wider than what the photo has to show."""
    square = square_of(width_px, height_px, disc)
    possible = sorted({min(width, square.side) for width in widths})
    orders = []
    chain = {*possible, FACE_PX} if possible[-1] > FACE_PX else set(possible)
    for width in possible:
        made_from = f"{photo} {square.left} {square.top} {square.side} {width} {picture_format}"
        name = hashlib.blake2b(made_from.encode(), digest_size=10).hexdigest()
        address = f"pictures/{name[:2]}/{name[2:]}-{width}.{SUFFIXES[picture_format]}"
        steps = tuple(sorted((each for each in chain if each > width), reverse=True))
        orders.append(PictureOrder(photo, square, width, picture_format, address, steps))
    return tuple(orders)


def order_face(orders: Sequence[PictureOrder]) -> PictureOrder | None:
    """Order the face for plates that belongs to all pictures of one square of a photo.

    None where the widest is no wider than the face, and so serves itself.
    """
    wider = tuple(sorted((each.width_px for each in orders if each.width_px > FACE_PX), reverse=True))
    if not wider:
        return None
    photo, square = orders[0].photo, orders[0].square
    name = hashlib.blake2b(f"{square!r} {wider}".encode(), digest_size=8).hexdigest()
    return PictureOrder(photo, square, FACE_PX, "face", f"{photo}-{name}", wider)
