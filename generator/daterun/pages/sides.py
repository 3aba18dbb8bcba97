"""The sides of a coin as pages show them: a picture of its photo, or a drawing where there is none.

Every picture shown is ordered here, so that nothing is made that no page shows.
"""

from collections.abc import Iterable

from daterun.pages import addresses
from daterun.pages.cabinet import Standing
from daterun.pages.once import Once
from daterun.pages.pictures import PictureOrder, order_pictures
from daterun.pages.pieces import Drawing, Link, Picture, SideView, Size
from daterun.pages.wording import name_coin, say_date
from daterun.pages.words import Words
from daterun.readers.closed import ClosedPhoto
from daterun.records.series import CoinType, Face, Series, Side
from daterun.records.settings import Pictures
from daterun.trade.metals import Metal

TONES = {"gold": "gold", "silver": "silver", "billon": "silver", "platinum": "white"} | dict.fromkeys(
    ("copper", "bronze", "brass", "nickel-brass", "aluminium-bronze"), "copper"
)
"""The tone in which a coin of a metal is drawn; all others are white."""

FACES = (Side.OBVERSE, Side.REVERSE)

_VIEWS = {Side.REVERSE: 0, Side.OBVERSE: 1, Side.EDGE: 2}
"""Where the views of each side are kept."""


def tone_of(metal: Metal | None) -> str:
    """Choose the tone of a metal; white where it is not known."""
    return TONES.get(metal.name, "white") if metal is not None else "white"


class Sides:
    """Makes the views of coins' sides, each once, and keeps the orders of all pictures that they show.

    A coin's name and the link to it are kept as well, and whatever else is made once for many pages.
    """

    def __init__(self, pictures: Pictures, words: Words) -> None:
        self.settings = pictures
        self.words = words
        self.orders: dict[str, PictureOrder] = {}
        self.once = Once()
        self._links: dict[str, Link] = {}
        self._views: tuple[dict[str, SideView], ...] = ({}, {}, {})

    def link(self, standing: Standing) -> Link:
        """Lead to the page of a coin by its name."""
        coin_id = standing.coin.id
        found = self._links.get(coin_id)
        if found is None:
            found = Link(name_coin(standing, self.words), addresses.of_coin(coin_id))
            self._links[coin_id] = found
        return found

    def name(self, standing: Standing) -> str:
        """Name a coin as ``wording.name_coin`` does."""
        return self.link(standing).text

    def side(self, standing: Standing, side: Side) -> SideView:
        """Show one side of a coin."""
        # A side is slow to hash, and this is asked often.
        nth = 0 if side is Side.REVERSE else 1 if side is Side.OBVERSE else 2
        views, coin_id = self._views[nth], standing.coin.id
        found = views.get(coin_id)
        if found is None:
            found = views[coin_id] = self._make(standing, side)
        return found

    def _make(self, standing: Standing, side: Side) -> SideView:
        place = standing.place
        face = face_of(place.type, side)
        design = face.design if face else ""
        picture = self._picture(standing, side)
        if picture is not None:
            return SideView(side.value, picture, None, design)
        alike = (side, self.name(standing), standing.series.key, id(place.type), id(place.standard))
        return self.once.of(
            ("drawn", *alike), lambda: SideView(side.value, None, self._drawing(standing, side), design)
        )

    def faces(self, standing: Standing) -> tuple[SideView, ...]:
        """Show obverse and reverse, and the edge where there is a photo of it."""
        shown = [self.side(standing, each) for each in FACES]
        if Side.EDGE.value in standing.coin.photos:
            shown.append(self.side(standing, Side.EDGE))
        return tuple(shown)

    def telling(self, standing: Standing) -> SideView:
        """Show the side that tells most among others of its series: the reverse, else one with a photo."""
        for side in (Side.REVERSE, Side.OBVERSE) if standing.coin.photos else ():
            if side.value in standing.coin.photos:
                return self.side(standing, side)
        return self.side(standing, Side.REVERSE)

    def portrait(self, standing: Standing) -> SideView:
        """Show the side with the portrait: the obverse."""
        return self.side(standing, Side.OBVERSE)

    def _picture(self, standing: Standing, side: Side) -> Picture | None:
        photo = standing.coin.photos.get(side.value)
        if photo is None:
            return None
        orders = order_pictures_of(photo, self.settings)
        for order in orders:
            self.orders[order.address] = order
        text = self.words.say(
            "picture.text", coin=self.name(standing), side=self.words.say(f"side.{side.value}")
        )
        return picture_of(photo, orders, text)

    def made(self, coin_id: str, side: Side) -> SideView | None:
        """Give the view of a side, where some page has asked for it."""
        return self._views[_VIEWS[side]].get(coin_id)

    def put(self, coin_id: str, side: Side, view: SideView, orders: Iterable[PictureOrder]) -> None:
        """Put another view of a side in place of what was made, its pictures ordered anew.

        What was worked out for many pages is forgotten, for it may show the side.
        """
        before = self._views[_VIEWS[side]][coin_id].picture
        for size in before.sizes if before is not None else ():
            self.orders.pop(size.address, None)
        self.orders.update((each.address, each) for each in orders)
        self._views[_VIEWS[side]][coin_id] = view
        self.once.forget()

    def _drawing(self, standing: Standing, side: Side) -> Drawing:
        text = self.words.say(
            "drawing.text", coin=self.name(standing), side=self.words.say(f"side.{side.value}")
        )
        date = say_date(standing.coin.date, self.words)
        middle = date if side is Side.REVERSE else ""
        return draw(standing.series, standing.place.type, side, middle, self._tone(standing), text)

    def _tone(self, standing: Standing) -> str:
        return tone_of(standing.place.standard.metal if standing.place.standard is not None else None)


def order_pictures_of(photo: ClosedPhoto, pictures: Pictures) -> tuple[PictureOrder, ...]:
    """Order the pictures by which a photo is shown, smallest first."""
    return order_pictures(
        photo.key, photo.width_px, photo.height_px, photo.disc, pictures.widths, pictures.format.value
    )


def picture_of(photo: ClosedPhoto, orders: Iterable[PictureOrder], text: str) -> Picture:
    """Show a photo by the pictures ordered of it."""
    sizes = tuple(Size(each.address, each.width_px, each.width_px) for each in orders)
    return Picture(sizes, text, photo.disc is not None, photo.fallback)


def face_of(coin_type: CoinType | None, side: Side) -> Face | None:
    """Find the legend and design of one side of a type; None where they are not told."""
    if coin_type is None or side is Side.EDGE:
        return None
    return coin_type.obverse if side is Side.OBVERSE else coin_type.reverse


def draw(
    series: Series, coin_type: CoinType | None, side: Side, middle: str, tone: str, text: str
) -> Drawing:
    """Draw a side of a coin as an outline with its legend round the rim."""
    face = face_of(coin_type, side)
    return Drawing(face.legend if face is not None else "", middle or series.name, tone, text)
