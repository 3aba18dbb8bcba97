"""Pictures made ahead: while a photo is examined it lies decoded, and its pictures are made of the same pixels.

They wait beside what Daterun remembers until the edition asks for them, for only later is it known what it shows.
Those it does not ask for are thrown away; losing them costs time, nothing else.
"""

import hashlib
import os
import shutil
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path

from daterun.pages.pictures import PictureOrder, order_face, order_pictures
from daterun.photos.examine import Use
from daterun.photos.opened import BROKEN, Opened
from daterun.photos.photo import Disc, Photo
from daterun.press.faces import FaceStore, make_open
from daterun.press.fingerprints import mark_picture
from daterun.press.inspection import Inspection
from daterun.press.kept import put
from daterun.press.output import digest_of
from daterun.press.plaintext import beside_pixels
from daterun.records.catalogue import Catalogue
from daterun.records.series import Side


class Ahead:
    """Makes the pictures by which photos will most likely be shown, in a folder of their own, and hands them out.

    What lies in the edition already, by its address, is not made, nor what a build that was cut short left.
    Parted coins are passed over unless told.
    """

    def __init__(self, folder: Path, edition: Path, faces: FaceStore, with_parted: bool = False) -> None:
        self._folder = folder
        self._faces = faces
        self._edition = edition
        self._with_parted = with_parted
        self._of_before: frozenset[str] = frozenset()
        self._waiting: dict[str, Path] | None = None

    def making(self, catalogue: Catalogue, claimed: Mapping[tuple[str, Side], str]) -> Use:
        """Tell what to do with each photo that lies open, where these are claimed by sides of coins."""
        settings = catalogue.settings.pictures
        crops = self._crops(catalogue, claimed)
        self._of_before = frozenset(self._listed())
        there = {each.partition("-")[0] for each in self._of_before}
        self._waiting = None

        def make(photo: Photo, opened: Opened) -> None:
            if photo.path not in crops:
                return
            disc = crops[photo.path] or photo.disc
            whole = order_pictures(
                photo.key,
                photo.width_px,
                photo.height_px,
                disc,
                settings.widths,
                settings.format.value,
            )
            orders = [
                each
                for each in whole
                if _name(each) not in there and not (self._edition / each.address).is_file()
            ]
            face = order_face(whole) if settings.plates else None
            if face is not None and self._faces.path_of(face, disc is not None).is_file():
                face = None
            # Whatever goes wrong, who makes the picture for good meets it again and says so.
            with suppress(*BROKEN):
                make_open(opened, orders, face, disc is not None, self._faces, self._put)

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

    def _put(self, order: PictureOrder, data: bytes) -> None:
        """Have a picture wait under a name that tells its bytes, where it carries nothing beside its pixels."""
        if not beside_pixels(data):
            put(self._folder / f"{_name(order)}-{digest_of(data)}", data)

    def into(self, inspection: Inspection) -> Callable[[PictureOrder], bool]:
        """Hand pictures over to one edition, as ``hand_over`` does."""
        return lambda order: self.hand_over(order, inspection)

    def hand_over(self, order: PictureOrder, inspection: Inspection) -> bool:
        """Put a picture into the edition as it was ordered; tell whether it was made ahead.

        One that this build made itself is moved there where nothing lies yet; any other is read, and has to be
        as it was made.
        """
        if self._waiting is None:
            self._waiting = {each.partition("-")[0]: self._folder / each for each in self._listed()}
        path = self._waiting.pop(_name(order), None)
        if path is None:
            return False
        digest = path.name.partition("-")[2]
        if path.name not in self._of_before and inspection.edition.adopt(order.address, path, digest):
            return True
        try:
            data = path.read_bytes()
        except OSError:
            return False
        if digest_of(data) != digest:
            return False
        inspection.write(order.address, data)
        return True

    def _listed(self) -> list[str]:
        """List what waits, without what was half written by a build that was killed."""
        with suppress(OSError):
            return [each for each in os.listdir(self._folder) if not each.startswith(".")]  # noqa: PTH208
        return []

    def clear(self) -> None:
        """Throw away what nobody asked for."""
        shutil.rmtree(self._folder, ignore_errors=True)


def _name(order: PictureOrder) -> str:
    """Name a picture by all that it is made by, so that it is never taken for another."""
    return hashlib.blake2b(repr(mark_picture(order)).encode(), digest_size=16).hexdigest()
