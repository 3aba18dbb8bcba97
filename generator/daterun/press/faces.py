"""Faces: the sides of coins as plates show them, made with the pictures and kept beside what Daterun remembers.

A plate is drawn again when a word on it changes, and for each reader; its faces are not. Losing them costs time,
nothing else: a face made again has the same bytes.
"""

import io
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from PIL import Image

from daterun.pages.pictures import FACE_PX, PictureOrder, order_face
from daterun.photos.bound import Bound
from daterun.photos.copied import copied
from daterun.photos.opened import BROKEN, decode, held_pixels, open_image
from daterun.press.cutting import FACE_FILTER, cut, encode, scale_for
from daterun.press.fingerprints import program_of_pictures
from daterun.press.kept import fetch, keep
from daterun.problems import CannotContinue


class FaceStore:
    """Keeps faces in a folder, by what they are made of and by what program."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def path_of(self, order: PictureOrder) -> Path:
        return self._folder / f"{order.address}-{program_of_pictures()}.jpg"

    def put(self, order: PictureOrder, face: Image.Image) -> None:
        """Keep a face; what cannot be kept is let go."""
        with suppress(OSError):
            keep(self.path_of(order), encode(face, "face"))

    def face_of(self, order: PictureOrder) -> Image.Image | None:
        """Give a face that is kept; None where it is not, or no longer as it was."""
        data = fetch(self.path_of(order))
        if data is None:
            return None
        with Image.open(io.BytesIO(data), formats=("JPEG",)) as face:
            face.load()
            return face

    def clear_all_but(self, photos: Iterable[str]) -> None:
        """Remove the faces of photos that are no longer there, and those that another program made."""
        kept = set(photos)
        ending = f"-{program_of_pictures()}.jpg"
        with suppress(OSError):
            for entry in os.scandir(self._folder):
                if not entry.name.endswith(ending) or entry.name.partition("-")[0] not in kept:
                    Path(entry.path).unlink(missing_ok=True)


class Faces:
    """The faces of the pictures of one edition, in its folder; kept ones where there is a store."""

    def __init__(
        self,
        root: Path,
        store: FaceStore | None = None,
        orders: Iterable[PictureOrder] = (),
        photos: Mapping[str, tuple[Path, str]] | None = None,
    ) -> None:
        self._root = root
        self._store = store
        self._orders = dict(_face_orders(orders))
        self._photos = photos or {}
        self._bound = Bound()

    def face_of(self, address: str) -> Image.Image:
        """Give the face of the picture at an address, as wide as plates show it.

        Raise CannotContinue where the picture was taken away or spoilt meanwhile.
        """
        order = self._orders.get(address)
        if order is not None and self._store is not None:
            if (kept := self._store.face_of(order)) is not None:
                return kept
            self._make(order, self._store)
            if (kept := self._store.face_of(order)) is not None:
                return kept
        path = self._root / address
        try:
            with open_image(path) as picture:
                picture.draft("RGB", (FACE_PX, FACE_PX))
                whole = picture if picture.mode == "RGB" else picture.convert("RGB")
                return whole.resize((FACE_PX, FACE_PX), FACE_FILTER)
        except BROKEN as error:
            why = error.strerror if isinstance(error, OSError) else ""
            raise CannotContinue(f"{path} cannot be shown on a plate: {why or error}; build again") from error

    def _make(self, order: PictureOrder, store: FaceStore) -> None:
        """Make a face of its photo; where that is not to be had, the picture must do."""
        with suppress(*BROKEN), copied(self._photos[order.photo][0]) as (source, key):
            if key != order.photo:
                return
            with open_image(source) as image:
                scale = scale_for([order], image.size)
                with self._bound.holding(held_pixels(image, scale)):
                    for _, face in cut(decode(image, scale), [order]):
                        store.put(order, face)


def _face_orders(orders: Iterable[PictureOrder]) -> Iterator[tuple[str, PictureOrder]]:
    """Give for the address of each widest picture the order of its face, where it has one."""
    groups: dict[tuple[object, ...], list[PictureOrder]] = {}
    for each in orders:
        groups.setdefault((each.photo, each.square, each.format), []).append(each)
    for group in groups.values():
        face = order_face(group)
        if face is not None:
            yield max(group, key=lambda each: each.width_px).address, face
