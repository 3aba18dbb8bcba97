"""What is printed when one thing is asked for: its sheets as views, and the pictures that they may show."""

from dataclasses import dataclass

from daterun.pages.binder import Binder
from daterun.pages.cabinet import arrange
from daterun.pages.grids import Grids
from daterun.pages.notes import Notes
from daterun.pages.pictures import PictureOrder
from daterun.pages.printcatalogue import COINS_OF_A_VOLUME, plan_catalogue
from daterun.pages.printchoice import Choice
from daterun.pages.printlabels import plan_labels
from daterun.pages.printpieces import Sheets
from daterun.pages.printschedule import plan_schedule
from daterun.pages.printsides import DPI, DPI_OF_MANY, PrintedSides, sides_at
from daterun.pages.printwants import plan_wants
from daterun.pages.words import Words
from daterun.readers.closed import ClosedCatalogue

CATALOGUE, WANTS, LABELS, SCHEDULE = "catalogue", "wants", "labels", "schedule"

GRID_CELL, NOTE_PLATE = 1210, 4500
"""How wide a picture is in a grid and in a note at most, in hundredths of a millimetre."""


@dataclass(frozen=True, slots=True)
class PrintPlan:
    """The volumes of one printed thing, and every picture order by its address."""

    volumes: tuple[Sheets, ...]
    orders: dict[str, PictureOrder]


def plan_print(what: str, catalogue: ClosedCatalogue, words: Words, choice: Choice) -> PrintPlan:
    """Plan what is to be printed. Raise CannotContinue where the reader may not have it."""
    cabinet = arrange(catalogue)
    in_grids, in_notes = sides_at(GRID_CELL, words), sides_at(NOTE_PLATE, words)
    dpi = DPI if len(catalogue.coins) <= 2 * COINS_OF_A_VOLUME else DPI_OF_MANY
    sides = PrintedSides(words, dpi)
    binder = Binder(
        cabinet, words, in_notes, Grids(cabinet, in_grids, words), Notes(cabinet, in_notes, words)
    )
    volumes: tuple[Sheets, ...]
    if what == CATALOGUE:
        volumes = plan_catalogue(binder, sides, choice)
    elif what == WANTS:
        volumes = (plan_wants(binder, choice),)
    elif what == LABELS:
        volumes = (plan_labels(binder, choice),)
    else:
        volumes = plan_schedule(binder, sides, choice)
    return PrintPlan(volumes, in_grids.orders | in_notes.orders | sides.orders)
