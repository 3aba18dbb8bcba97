"""Pictures made ahead: while a photo is examined it lies decoded, and its pictures are made of the same pixels.

They wait beside what Daterun remembers until the edition asks for them, for only later is it known what it shows.
Those it does not ask for are thrown away; losing them costs time, nothing else.
"""

import hashlib
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from daterun.pages.pictures import PictureOrder, order_face, order_pictures
from daterun.photos.examine import Use
from daterun.photos.opened import BROKEN, Opened
from daterun.photos.photo import Disc, Photo
from daterun.press.cutting import cut, encode, scale_for
from daterun.press.faces import FaceStore
from daterun.press.fingerprints import mark_picture
from daterun.press.kept import fetch, keep
from daterun.records.catalogue import Catalogue
from daterun.records.series import Side


class Ahead:
    """Makes the pictures by which photos will most likely be shown, in a folder of their own, and hands them out.

    What lies in the edition already, by its address, is not made. Parted coins are passed over unless told.
    """

    def __init__(self, folder: Path, edition: Path, faces: FaceStore, with_parted: bool = False) -> None:
        self._folder = folder
        self._faces = faces
        self._edition = edition
        self._with_parted = with_parted

    def making(self, catalogue: Catalogue, claimed: Mapping[tuple[str, Side], str]) -> Use:
        """Tell what to do with each photo that lies open, where these are claimed by sides of coins."""
        settings = catalogue.settings.pictures
        crops = self._crops(catalogue, claimed)

        def make(photo: Photo, opened: Opened) -> None:
            if photo.path not in crops:
                return
            whole = order_pictures(
                photo.key,
                photo.width_px,
                photo.height_px,
                crops[photo.path] or photo.disc,
                settings.widths,
                settings.format.value,
            )
            orders = [each for each in whole if not (self._edition / each.address).is_file()]
            face = order_face(whole) if settings.plates else None
            if face is not None and not self._faces.path_of(face).is_file():
                orders.append(face)
            if not orders or scale_for(orders, opened.size) != opened.scale:
                return
            # Whatever goes wrong, who makes the picture for good meets it again and says so.
            with suppress(*BROKEN):
                for order, picture in cut(opened, orders):
                    if order is face:
                        self._faces.put(order, picture)
                    else:
                        keep(self._folder / _name(order), encode(picture, order.format))

        return make

    def _crops(self, catalogue: Catalogue, claimed: Mapping[tuple[str, Side], str]) -> dict[str, Disc | None]:
        """Give each photo that will be shown the disc by which the keeper crops it, None where none is said."""
        crops: dict[str, Disc | None] = {}
        for coin in catalogue.coins:
            if coin.parted is not None and not self._with_parted:
                continue
            for side in Side:
                named = coin.photos.get(side)
                crop = named.crop if named is not None else None
                if (path := claimed.get((coin.id, side))) is not None:
                    crops[path] = Disc(float(crop.x), float(crop.y), float(crop.diameter)) if crop else None
        return crops

    def take(self, order: PictureOrder) -> bytes | None:
        """Hand out a picture as it was ordered; None where it was not made ahead."""
        path = self._folder / _name(order)
        data = fetch(path)
        with suppress(OSError):
            path.unlink(missing_ok=True)
        return data

    def clear(self) -> None:
        """Throw away what nobody asked for."""
        shutil.rmtree(self._folder, ignore_errors=True)


def _name(order: PictureOrder) -> str:
    """Name a picture by all that it is made by, so that it is never taken for another."""
    return hashlib.blake2b(repr(mark_picture(order)).encode(), digest_size=16).hexdigest()
