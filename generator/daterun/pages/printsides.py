"""The sides of coins for print: at what size each stands, and how fine its picture must be for that."""

from daterun.pages.measured import diameter_hundredths
from daterun.pages.pictures import PRINTED, PictureOrder, order_pictures, square_of
from daterun.pages.printpieces import PrintedSide
from daterun.pages.sides import FACES, Sides
from daterun.pages.standing import Standing
from daterun.pages.words import Words
from daterun.records.series import Side
from daterun.records.settings import PictureFormat, Pictures

DPI = 300
"""Pixels to the inch at the printed size; a picture is never made larger than its photo."""

DPI_OF_MANY = 200
"""The same for a catalogue of very many coins: its pictures are held in memory at once, some 3 bytes a pixel."""

UNKNOWN_DIAMETER = 2400
"""At what size a coin of no known diameter is printed, in hundredths of a millimetre; the entry says so."""


LARGEST = 8000
"""How wide a coin is printed at most, in hundredths of a millimetre: a column of A4, said of a larger one."""


def pixels_for(hundredths: int, dpi: int = DPI) -> int:
    """Reckon the pixels across a length on paper."""
    return max(round(hundredths / 2540 * dpi), 1)


def sides_at(width_hundredths: int, words: Words) -> Sides:
    """Make the sides of pictures that are all printed at one size or less."""
    return Sides(Pictures(PictureFormat.JPEG, (pixels_for(width_hundredths),)), words)


class PrintedSides:
    """Makes sides at a size on paper, and keeps the orders of all pictures that they show."""

    def __init__(self, words: Words, dpi: int = DPI) -> None:
        self.dpi = dpi
        self.orders: dict[str, PictureOrder] = {}
        self._sides = Sides(Pictures(PictureFormat.JPEG, (1,)), words)

    def faces(self, standing: Standing, diameter: int = 0) -> tuple[PrintedSide, ...]:
        """Show obverse and reverse: at the coin's own size, or as wide as asked for."""
        wide = min(diameter or diameter_hundredths(standing) or UNKNOWN_DIAMETER, LARGEST)
        return tuple(self.side(standing, each, wide) for each in FACES)

    def side(self, standing: Standing, side: Side, diameter: int) -> PrintedSide:
        """Show one side as wide as asked for, in hundredths of a millimetre."""
        view = self._sides.side(standing, side)
        photo = standing.coin.photos.get(side.value)
        if photo is None or view.picture is None:
            drawing = view.drawing
            assert drawing is not None
            return PrintedSide(
                side.value,
                "",
                drawing.text,
                diameter,
                1000,
                0,
                0,
                True,
                drawing.legend,
                drawing.middle,
                drawing.tone,
            )
        square, disc = square_of(photo.width_px, photo.height_px, photo.disc), photo.disc
        across = square.side / disc.diameter if disc is not None else 1.0
        (order,) = order_pictures(
            photo.key,
            photo.width_px,
            photo.height_px,
            disc,
            (pixels_for(round(diameter * across), self.dpi),),
            PRINTED,
        )
        self.orders[order.address] = order
        left = top = 0
        if disc is not None:
            left = round((square.left - (disc.x - disc.diameter / 2)) / disc.diameter * 1000)
            top = round((square.top - (disc.y - disc.diameter / 2)) / disc.diameter * 1000)
        return PrintedSide(
            side.value,
            order.address,
            view.picture.text,
            diameter,
            round(across * 1000),
            left,
            top,
            disc is not None,
            "",
            "",
            "",
        )
