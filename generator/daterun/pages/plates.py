"""The plate of a coin to take away: both sides on a plain ground with a caption, for slides, films and articles.

Which coins have one, and what stands on it, is decided here; the drawing is left to the press.
"""

import hashlib
from dataclasses import dataclass

from daterun.pages.binder import Binder
from daterun.pages.cabinet import Standing
from daterun.pages.pieces import Picture
from daterun.pages.sides import FACES
from daterun.pages.wording import name_coin, say_grade_line

WIDTH_PX, HEIGHT_PX = 1920, 1080


@dataclass(frozen=True, slots=True)
class PlateSide:
    """A picture on a plate, by its address; one that is not round is shown as a square."""

    address: str
    is_round: bool


@dataclass(frozen=True, slots=True)
class PlateOrder:
    """One plate to be made: one or two pictures, a caption, a line under it, whose it is, and its address."""

    sides: tuple[PlateSide, ...]
    caption: str
    line: str
    credit: str
    address: str


def plate_of(binder: Binder, standing: Standing) -> PlateOrder | None:
    """Order the plate of a coin; None where it has no photo of either side, or plates are left out."""
    if not binder.catalogue.settings.pictures.plates:
        return None
    shown = [binder.sides.side(standing, each).picture for each in FACES]
    sides = tuple(side_of(each) for each in shown if each is not None)
    if not sides:
        return None
    settings = binder.catalogue.settings
    caption = name_coin(standing, binder.words)
    line = say_grade_line(standing.coin, binder.words) if standing.coin.grade is not None else ""
    credit = settings.title
    return _order(sides, caption, line, credit)


def side_of(picture: Picture) -> PlateSide:
    """Put a picture on a plate, in its largest size."""
    return PlateSide(picture.largest.address, picture.is_round)


def plate_again(plate: PlateOrder, before: PlateSide, after: PlateSide) -> PlateOrder:
    """Order a plate again on which one picture is another."""
    sides = tuple(after if each == before else each for each in plate.sides)
    return _order(sides, plate.caption, plate.line, plate.credit)


def _order(sides: tuple[PlateSide, ...], caption: str, line: str, credit: str) -> PlateOrder:
    digest = hashlib.blake2b(repr((sides, caption, line, credit)).encode(), digest_size=10).hexdigest()
    return PlateOrder(sides, caption, line, credit, f"pictures/plates/{digest}.jpg")


def plate_orders(binder: Binder) -> tuple[PlateOrder, ...]:
    """Order every plate once: two coins that show the same share one."""
    found = (plate_of(binder, each) for each in binder.cabinet.coins)
    return tuple({each.address: each for each in found if each is not None}.values())
