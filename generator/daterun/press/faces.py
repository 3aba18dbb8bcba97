"""Faces: sides of coins as they stand on plates, made with the pictures and kept beside what Daterun remembers.

A face is coded on its half of a plate, and laid into plates as it is: they are drawn again when a word on them
changes, and for each reader; their faces are not. Losing them costs time, nothing else: a face made again has the
same bytes.
"""

import io
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path

from PIL import Image, ImageDraw

from daterun.pages.pictures import FACE_PX, PictureOrder, order_face
from daterun.photos.bound import Bound
from daterun.photos.copied import copied
from daterun.photos.opened import BROKEN, Opened, decode, held_pixels, open_image
from daterun.press.cutting import FACE_FILTER, cut, encode, scale_for
from daterun.press.fingerprints import program_of_plates
from daterun.press.joined import code_part
from daterun.press.kept import fetch, keep
from daterun.problems import CannotContinue

GROUND = (250, 248, 242)
QUALITY = 73
"""It lies as near to what was drawn, 42.7 dB, as a face of 90 coded again at 76 did, in 1.6 % more bytes: its
codes are the usual ones, for the shortest would differ from part to part (means of ten photos of the demo)."""

HALF_PX, FACES_PX = 960, 880
"""How wide and how high the half of a plate is on which a face stands, above the words."""

_FACE_Y = 52


class FaceStore:
    """Keeps coded faces in a folder, by what they are made of and by what program."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def path_of(self, order: PictureOrder, is_round: bool) -> Path:
        outline = "round" if is_round else "square"
        return self._folder / f"{order.address}-{outline}-{program_of_plates()}.jpg"

    def put(self, order: PictureOrder, is_round: bool, face: bytes) -> None:
        """Keep a face; what cannot be kept is let go."""
        with suppress(OSError):
            keep(self.path_of(order, is_round), face)

    def face_of(self, order: PictureOrder, is_round: bool) -> bytes | None:
        """Give a face that is kept; None where it is not, or no longer as it was."""
        return fetch(self.path_of(order, is_round))

    def drop(self, orders: Sequence[PictureOrder]) -> None:
        """Let go of the face that belongs to these pictures of a photo that is no longer there."""
        face = order_face(orders) if orders else None
        if face is not None:
            for is_round in (True, False):
                with suppress(OSError):
                    self.path_of(face, is_round).unlink(missing_ok=True)

    def clear_all_but(self, photos: Iterable[str]) -> None:
        """Remove the faces of photos that are no longer there, and those that another program made."""
        kept = set(photos)
        ending = f"-{program_of_plates()}.jpg"
        with suppress(OSError):
            for entry in os.scandir(self._folder):
                if not entry.name.endswith(ending) or entry.name.partition("-")[0] not in kept:
                    Path(entry.path).unlink(missing_ok=True)


class Faces:
    """The faces of the pictures of one edition, in its folder; kept ones where there is a store.

    The fresh are pictures that do not lie in the folder yet, by their addresses.
    """

    def __init__(
        self,
        root: Path,
        store: FaceStore | None = None,
        orders: Iterable[PictureOrder] = (),
        photos: Mapping[str, tuple[Path, str]] | None = None,
        fresh: Mapping[str, bytes] | None = None,
    ) -> None:
        self._root = root
        self._fresh = fresh if fresh is not None else {}  # it may be filled later
        self._store = store
        self._orders = dict(_face_orders(orders))
        self._photos = photos or {}
        self._bound = Bound()

    def face_of(self, address: str, is_round: bool) -> bytes:
        """Give the face of the picture at an address, coded.

        Raise CannotContinue where the picture was taken away or spoilt meanwhile.
        """
        order = self._orders.get(address)
        if order is not None and self._store is not None:
            if (kept := self._store.face_of(order, is_round)) is not None:
                return kept
            if (face := self._make(order)) is not None:
                coded = code_face(face, is_round)
                self._store.put(order, is_round, coded)
                return coded
        path = self._root / address
        try:
            fresh = self._fresh.get(address)
            with open_image(io.BytesIO(fresh) if fresh is not None else path) as picture:
                picture.draft("RGB", (FACE_PX, FACE_PX))
                whole = picture if picture.mode == "RGB" else picture.convert("RGB")
                return code_face(whole.resize((FACE_PX, FACE_PX), FACE_FILTER), is_round)
        except BROKEN as error:
            why = error.strerror if isinstance(error, OSError) else ""
            raise CannotContinue(f"{path} cannot be shown on a plate: {why or error}; build again") from error

    def _make(self, order: PictureOrder) -> Image.Image | None:
        """Make a face of its photo; None where that is not to be had, and the picture must do."""
        with suppress(*BROKEN), copied(self._photos[order.photo][0]) as (source, key):
            if key != order.photo:
                return None
            with open_image(source) as image:
                scale = scale_for([order], image.size)
                with self._bound.holding(held_pixels(image, scale)):
                    return next(face for _, face in cut(decode(image, scale), [order]))
        return None


def make_open(
    opened: Opened,
    orders: Sequence[PictureOrder],
    face: PictureOrder | None,
    is_round: bool,
    store: FaceStore,
    put: Callable[[PictureOrder, bytes], object],
) -> None:
    """Make pictures, and a face, of the pixels that lie open, where those are as fine as they need them.

    Pictures are handed to ``put``, the face to the store. Raise what BROKEN lists.
    """
    wanted = [*orders, face] if face is not None else orders
    if not wanted or scale_for(wanted, opened.size) != opened.scale:
        return
    for order, picture in cut(opened, wanted):
        if order is face:
            store.put(order, is_round, code_face(picture, is_round))
        else:
            put(order, encode(picture, order.format))


def code_face(face: Image.Image, is_round: bool) -> bytes:
    """Code a face on its half of the ground; where it is not round it keeps its corners."""
    half = Image.new("RGB", (HALF_PX, FACES_PX), GROUND)
    half.paste(face, ((HALF_PX - FACE_PX) // 2, _FACE_Y), _disc() if is_round else None)
    return code_part(half, QUALITY)


@cache
def _disc() -> Image.Image:
    """Make the mask of a round coin, its edge smoothed."""
    mask = Image.new("L", (FACE_PX * 2, FACE_PX * 2), 0)
    ImageDraw.Draw(mask).ellipse((2, 2, FACE_PX * 2 - 3, FACE_PX * 2 - 3), fill=255)
    return mask.resize((FACE_PX, FACE_PX), Image.Resampling.BILINEAR)


def _face_orders(orders: Iterable[PictureOrder]) -> Iterator[tuple[str, PictureOrder]]:
    """Give for the address of each widest picture the order of its face, where it has one."""
    groups: dict[tuple[object, ...], list[PictureOrder]] = {}
    for each in orders:
        groups.setdefault((each.photo, each.square, each.format), []).append(each)
    for group in groups.values():
        face = order_face(group)
        if face is not None:
            yield max(group, key=lambda each: each.width_px).address, face
