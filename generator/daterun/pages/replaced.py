"""A photo replaced: what else a plan holds once one side of a coin is shown by another photo.

The pages that show it differ in its pictures alone, and so do the data by which coins are found and compared,
the plate of the coin, and what is told of it elsewhere. That nothing more changes is held by a test.
"""

from bisect import bisect_left, insort
from collections.abc import Mapping
from dataclasses import dataclass, replace
from operator import is_
from typing import Any, TypeVar, cast

from daterun.pages import addresses
from daterun.pages.cabinet import Standing
from daterun.pages.findrows import lay_down_picture
from daterun.pages.findviews import DataFile
from daterun.pages.pictures import PictureOrder
from daterun.pages.pieces import Picture, SideView
from daterun.pages.plan import Plan
from daterun.pages.plates import HEIGHT_PX, WIDTH_PX, PlateOrder, plate_again, side_of
from daterun.pages.shown import Shown, names_of
from daterun.pages.sides import order_pictures_of, picture_of
from daterun.pages.tags import exchange_picture, web_of
from daterun.pages.tagviews import SocialPicture, Tags
from daterun.pages.views import Page
from daterun.readers.closed import ClosedPhoto
from daterun.records.series import Side

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Replaced:
    """A plan with another photo in it: the pages, data, pictures and plate that are new, and what is no more.

    Before are the pictures that were ordered of the photo. The renamed are the addresses by which pages tell
    what they show, before and after.
    """

    plan: Plan
    pages: tuple[Page, ...]
    data: tuple[DataFile, ...]
    pictures: tuple[PictureOrder, ...]
    plate: PlateOrder | None
    gone: tuple[str, ...]
    before: tuple[PictureOrder, ...]
    renamed: Mapping[str, str]
    standing: Standing
    side: Side
    photo: ClosedPhoto
    view: SideView

    def settle(self, shown: Shown) -> None:
        """Bring what the plan was made with in step, once the edition is as the plan says."""
        binder = self.plan.binder
        assert binder is not None, "the plan was made with one"
        # The photos of a closed coin are a dictionary of its own, and the coin is known in many places.
        cast(dict[str, ClosedPhoto], self.standing.coin.photos)[self.side.value] = self.photo
        binder.sides.put(self.standing.coin.id, self.side, self.view, self.pictures)
        binder.grids.forget()
        for before, after in self.renamed.items():
            shown.rename(before, after)


def is_alike(before: ClosedPhoto, after: ClosedPhoto) -> bool:
    """Tell whether pages say the same of two photos."""
    return (before.disc is None) == (after.disc is None) and before.fallback == after.fallback


def replace_photo(
    plan: Plan, shown: Shown, standing: Standing, side: Side, photo: ClosedPhoto
) -> Replaced | None:
    """Replace the photo of a side by one that is alike; None where no page shows the side."""
    binder, find = plan.binder, plan.find
    assert binder is not None and find is not None, "a plan is made with them"
    view = binder.sides.made(standing.coin.id, side)
    if view is None or view.picture is None:
        return None
    before = view.picture
    orders = order_pictures_of(photo, binder.catalogue.settings.pictures)
    after = picture_of(photo, orders, before.text)
    plates = plan.plates
    on_plate = side_of(before)
    plate = next((each for each in plates if on_plate in each.sides), None)
    other = plate_again(plate, on_plate, side_of(after)) if plate is not None else None
    data = lay_down_picture(find, standing.coin.id, before, after)
    texts = {
        old.address: new.address
        for old, new in zip(find.files, data.files, strict=True)
        if old.address != new.address
    }
    leading = (addresses.FIND, addresses.COMPARE) if texts else ()
    if plate is not None and other is not None:
        texts[plate.address] = other.address
        plates = tuple(other if each is plate else each for each in plates)
    social = _shown_elsewhere(web_of(binder), before, after, plate, other)
    texts |= {old: new.url for old, new in social.items()}
    renamed = {**texts, before.smallest.address: after.smallest.address}
    exchange = _Exchange({before.smallest.address: after}, texts, social)
    pages = list(plan.pages)
    new = []
    for nth in {*shown.places(renamed), *(shown.place(each) for each in leading)}:
        page = exchange.of(pages[nth])
        if page is not pages[nth]:
            new.append(page)
            pages[nth] = page
    told = plan.announcements
    if told is not None and social:
        told = replace(told, arrivals=exchange.of(told.arrivals))
    pictures, taken = _exchange_orders(plan.pictures, before, orders)
    whole = replace(
        plan,
        pages=tuple(pages),
        pictures=pictures,
        data=data.files,
        plates=plates,
        announcements=told,
        find=data,
    )
    no_more = [
        *(each.address for each in taken),
        *(each.address for each in find.files if each.address in texts),
    ]
    if plate is not None:
        no_more.append(plate.address)
    return Replaced(
        whole,
        tuple(sorted(new, key=lambda each: each.address)),
        tuple(each for each in data.files if each.address in texts.values()),
        orders,
        other,
        tuple(sorted(no_more)),
        taken,
        renamed,
        standing,
        side,
        photo,
        replace(view, picture=after),
    )


def _exchange_orders(
    pictures: tuple[PictureOrder, ...], before: Picture, orders: tuple[PictureOrder, ...]
) -> tuple[tuple[PictureOrder, ...], tuple[PictureOrder, ...]]:
    """Exchange the orders of a picture, which stand in the order of their addresses; give those taken out too."""
    found, taken = list(pictures), []
    for size in before.sizes:
        taken.append(found.pop(bisect_left(found, size.address, key=_address)))
    for order in orders:
        insort(found, order, key=_address)
    return tuple(found), tuple(taken)


def _address(order: PictureOrder) -> str:
    return order.address


def _shown_elsewhere(
    web: str, before: Picture, after: Picture, plate: PlateOrder | None, other: PlateOrder | None
) -> dict[str, SocialPicture]:
    """Give for each whole address by which the photo may be shown elsewhere what takes its place."""
    if not web:
        return {}
    if plate is not None and other is not None:
        url = web + other.address
        return {web + plate.address: SocialPicture(url, WIDTH_PX, HEIGHT_PX, other.caption)}
    size = after.largest
    return {
        web + before.largest.address: SocialPicture(
            web + size.address, size.width_px, size.height_px, after.text
        )
    }


class _Exchange:
    """Exchanges pictures and addresses in views; what holds none of them stays the very object that it was."""

    def __init__(
        self, pictures: Mapping[str, Picture], texts: Mapping[str, str], social: Mapping[str, SocialPicture]
    ) -> None:
        self.pictures = pictures
        self.texts = texts
        self.social = social
        self._done: dict[int, Any] = {}  # by where it lies in memory: the plan before outlives this

    def of(self, value: T) -> T:
        """Exchange what a view holds."""
        return cast(T, self._of(value))

    def _of(self, value: Any) -> Any:
        kind: type = type(value)
        if kind is str:
            return self.texts.get(value, value)
        if kind is Picture:
            return self.pictures.get(value.sizes[0].address, value)
        if kind is tuple:
            if not value:
                return value
            names = None
        elif not (names := names_of(kind)):
            return value
        done = self._done.get(id(value))
        if done is None:
            if kind is Tags:
                done = self._tags(value)
            else:
                done = self._in_tuple(value) if names is None else self._in_view(value, names)
            self._done[id(value)] = done
        return done

    def _in_tuple(self, value: tuple[Any, ...]) -> tuple[Any, ...]:
        others = [self._of(each) for each in value]
        return value if all(map(is_, others, value)) else tuple(others)

    def _in_view(self, value: Any, names: tuple[str, ...]) -> Any:
        changes = {}
        for name in names:
            part = getattr(value, name)
            other = self._of(part)
            if other is not part:
                changes[name] = other
        return replace(value, **changes) if changes else value

    def _tags(self, tags: Tags) -> Tags:
        if tags.picture is None or (other := self.social.get(tags.picture.url)) is None:
            return tags
        return exchange_picture(tags, other)
