"""A photo replaced in a running preview: what its pictures, its plate and the pages that show it become.

Where it cannot be told that nothing else changes, nothing is told, and the edition is built as ever.
"""

from concurrent.futures import wait
from dataclasses import replace
from functools import partial
from pathlib import Path

from daterun.checks.photos import check_photo
from daterun.pages import addresses
from daterun.pages.findviews import DataFile
from daterun.pages.pictures import PictureOrder
from daterun.pages.replaced import Replaced, is_alike, replace_photo
from daterun.pages.shown import Shown
from daterun.pages.sides import FACES, order_pictures_of
from daterun.pages.standing import Standing
from daterun.pages.views import Page
from daterun.photos.examine import without_warnings
from daterun.photos.memory import PhotoMemory, Stamp, stamp_of
from daterun.photos.photo import Photo
from daterun.press.announcements import write_feed
from daterun.press.darkroom import Chosen, Darkroom, Developing
from daterun.press.fingerprints import mark_picture
from daterun.press.folders import MEMORY
from daterun.press.plates import PlatePress
from daterun.problems import CannotContinue
from daterun.readers.closing import close_photo
from daterun.records.coins import Coin
from daterun.records.series import Side
from daterun.revising import Revised
from daterun.site import Parts


class Replacing:
    """Takes up photos that were replaced, one at a time, after an edition was built with these parts."""

    def __init__(self, folder: Path, parts: Parts, darkroom: Darkroom) -> None:
        self.folder = folder
        self._darkroom = darkroom
        coins = {each.id: each for each in parts.checked.catalogue.coins}
        photos = parts.checked.photos
        self._sides = {photo.path: (coins[coin], side) for (coin, side), photo in photos.items()}
        self._plate_press = PlatePress(parts.press.theme)
        self._settings = parts.checked.catalogue.settings.pictures
        self._shown: Shown | None = None
        self._seen: dict[str, tuple[Photo, Stamp]] = {}
        self._gone: list[tuple[PictureOrder, ...]] = []

    def is_of(self, path: str) -> bool:
        """Tell whether a file is the photo of a side."""
        return path in self._sides

    def make_ready(self, parts: Parts) -> None:
        """Make ready for the next photo, and remember what was seen of the last ones, between two changes."""
        if self._shown is None:
            self._shown = Shown(parts.plan.pages)
            self._darkroom.warm(self._plate_press)
        self.remember()

    def remember(self) -> None:
        """Remember on disk what was seen of photos, and let go of the faces of those that are no more."""
        if self._seen:
            memory = PhotoMemory.load(self.folder / MEMORY / "photos.json")
            for photo, stamp in self._seen.values():
                memory.keep(photo, stamp)
            memory.save()
            self._seen.clear()
        for orders in self._gone:
            self._darkroom.store.drop(orders)
        self._gone.clear()

    def note(self, pages: tuple[Page, ...]) -> None:
        """Note what pages show that were planned anew meanwhile."""
        if self._shown is not None:
            for page in pages:
                self._shown.note(page)

    def replaced(self, path: str, parts: Parts) -> Revised[Parts] | None:
        """Tell what a replaced photo makes of the edition; None where more may change than its pictures."""
        coin, side = self._sides[path]
        file = self.folder / path
        stamp = stamp_of(file)
        if stamp is None or file.is_symlink() or parts.plan.binder is None:
            return None
        standing = parts.plan.binder.cabinet.by_id.get(coin.id)
        before = parts.checked.photos[coin.id, side]

        def choose(photo: Photo) -> Chosen:
            if standing is None or side.value not in standing.coin.photos or photo.key == before.key:
                return Chosen()
            closed, settings = close_photo(coin, side, photo), self._settings
            return Chosen(order_pictures_of(closed, settings), closed.disc is not None, settings.plates)

        with without_warnings():
            work = self._darkroom.develop(file, path, choose)
            try:
                photo = work.seen.result()
                if not self._is_alike(coin, side, photo, parts):
                    return None
                revised = self._revise(parts, coin, side, photo, standing, work)
                if revised is None or stamp_of(file) != stamp:
                    return None
            finally:
                assert work.done is not None, "it was begun"
                wait([work.done])
        if photo.key != before.key:
            self._seen[path] = (photo, stamp)
        return revised

    def _is_alike(self, coin: Coin, side: Side, photo: Photo, parts: Parts) -> bool:
        """Tell whether a photo is sound, no other shows the same, and there is to say of it what there was."""
        photos = parts.checked.photos
        before = photos[coin.id, side]
        if photo.fault or not photo.key:
            return False
        if any(each.key == photo.key for each in photos.values() if each is not before):
            return False
        if list(check_photo(coin, side, before)) != list(check_photo(coin, side, photo)):
            return False
        return is_alike(close_photo(coin, side, before), close_photo(coin, side, photo))

    def _revise(
        self, parts: Parts, coin: Coin, side: Side, photo: Photo, standing: Standing | None, work: Developing
    ) -> Revised[Parts] | None:
        before = parts.checked.photos[coin.id, side]
        if photo.key == before.key:
            return Revised(parts)
        photos = {**parts.checked.photos, (coin.id, side): photo}
        after = replace(parts, checked=replace(parts.checked, photos=photos))
        if standing is None or side.value not in standing.coin.photos:
            return Revised(after)  # no page shows it to this reader
        if self._shown is None:
            self._shown = Shown(parts.plan.pages)
        replaced = replace_photo(parts.plan, self._shown, standing, side, close_photo(coin, side, photo))
        if replaced is None:
            return None
        return self._made(replace(after, plan=replaced.plan), replaced, work, parts.plan.data)

    def _made(
        self, parts: Parts, replaced: Replaced, work: Developing, data: tuple[DataFile, ...]
    ) -> Revised[Parts] | None:
        """Print the pages while the pictures are made; the pictures are written first. Data are those before."""
        plan, photos, coin_id = parts.plan, parts.checked.photos, replaced.standing.coin.id
        shown_by = [photos[coin_id, each] for each in FACES if (coin_id, each) in photos]
        keys = {each.key: (self.folder / each.path, each.path) for each in shown_by}
        plate, drawn = replaced.plate, None
        if plate is not None:
            orders = [each for each in plan.pictures if each.photo in keys]
            drawn = self._darkroom.draw(plate, self._plate_press, parts.edition.root, work, orders, keys)
        revised = Revised(parts, replaced.gone)
        revised.print(replaced.pages, replaced.data, data)
        told = plan.announcements
        if told is not None and told.arrivals:
            revised.add(addresses.FEED, write_feed(told, addresses.FEED))
        assert work.done is not None, "it was begun"
        try:
            if work.done.result():
                return None
            if plate is not None and drawn is not None:
                revised.add_first(plate.address, drawn.result(), self._plate_press.mark(plate))
        except CannotContinue:
            return None  # whoever draws it for good meets it again
        for order in replaced.pictures:
            revised.add_first(order.address, work.made[order.address], mark_picture(order))
        revised.pictures = len(replaced.pictures) + (plate is not None)
        revised.settle = partial(self._settle, replaced)
        return revised

    def _settle(self, replaced: Replaced) -> None:
        assert self._shown is not None, "it was made before"
        self._gone.append(replaced.before)
        replaced.settle(self._shown)
