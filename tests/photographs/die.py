"""Dies: a portrait or a device with its legend, value, date, border and rim, as one field of heights.

Heights are in coin radii over the field; `Die` says what is cut and knows nothing of any one coin's fate.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from devices import DEVICES, PLACES
from lettering import legend, line, ring, ring_span
from portraits import PORTRAITS
from relief import Field, Plate

DEVICE_HEIGHT = 0.078
LETTER_HEIGHT = 0.030
RIM_HEIGHT = 0.050
LEGEND_RADIUS = 0.792


@dataclass(frozen=True, slots=True)
class Die:
    """One side to be struck."""

    picture: str  # a portrait type, or a device
    legend: str
    series: str
    diameter_mm: float
    value: str = ""  # none on an obverse
    date: str = ""
    mint: str = ""
    border: str = "denticles"  # or beads
    over: str = ""  # a figure under the last one
    tall_date: bool = False
    spread: float = 0.0  # room between the figures of the date, in their heights

    @property
    def is_obverse(self) -> bool:
        return self.picture in PORTRAITS

    @property
    def coarseness(self) -> float:
        """Small coins carry larger letters and fewer beads for their size."""
        return float((26.5 / self.diameter_mm) ** 0.32)


@dataclass(frozen=True, slots=True)
class Relief:
    """What a die gives: all heights, and where the picture lies."""

    heights: Field
    picture: Field


@lru_cache(maxsize=40)
def picture(name: str, series: str, size: int) -> Field:
    """Engrave a portrait or a device, kept for the next coin of its kind."""
    if name in PORTRAITS:
        return PORTRAITS[name](Plate(size, 0.985, (0.0, 0.0)))
    scale, down = PLACES[series]
    return DEVICES[name](Plate(size, scale, (0.0, down)))


def border(plate: Plate, die: Die) -> Field:
    """Raise the rim and set denticles or beads inside it."""
    x, y = plate.axes()
    r = plate.radius()
    rim = np.clip((r - 0.946) / 0.014, 0, 1)
    rim = rim * rim * (3 - 2 * rim) * (1 - 0.9 * np.clip((r - 0.972) / 0.028, 0, 1) ** 2)
    around = np.arctan2(y, x)
    if die.border == "beads":
        count = round(118 / die.coarseness**1.6)
        step = 2 * np.pi / count
        off = (np.mod(around, step) - step / 2) * 0.916
        bead = np.sqrt(np.clip(1 - (off**2 + (r - 0.916) ** 2) / (step * 0.916 * 0.46) ** 2, 0, 1))
        tooth = bead * 0.8
    else:
        count = round(150 / die.coarseness**1.7)
        across = np.abs(np.sin(around * count / 2))
        along = np.clip((r - 0.893) / 0.012, 0, 1) * np.clip((0.965 - r) / 0.01, 0, 1)
        tooth = np.sqrt(np.clip(across - 0.25, 0, 1) / 0.75) * along * 0.75
    return (RIM_HEIGHT * np.maximum(rim, tooth * 0.82)).astype(np.float32)


def words(plate: Plate, die: Die) -> Field:
    """Set the legend, and on a reverse the value, the date and the mint mark."""
    tall = 0.092 * die.coarseness
    radius = LEGEND_RADIUS + 0.012 - 0.25 * (tall - 0.092)
    text = legend(die.legend)
    wanted = 238.0 if die.is_obverse else 196.0
    tracking = 0.04
    span = ring_span(text, radius, tall, tracking)
    tracking += np.deg2rad(wanted - span) * radius / (tall * len(text))
    tracking = float(np.clip(tracking, -0.02, 0.42))
    cut = ring(plate, text, radius, tall, tracking, bold=0.006)
    if die.is_obverse:
        return cut
    figures = 0.118 * die.coarseness * (1.16 if die.tall_date else 1.0)
    figure_room = 0.10 + die.spread
    value_at, date_at, mint_at = 0.475, 0.640, 0.800
    if die.series == "ort":
        one, _, unit = die.value.partition(" ")
        small = 0.080 * die.coarseness
        cut = np.maximum(cut, line(plate, one, (-0.462, -0.215), small, 0.04, bold=0.006))
        cut = np.maximum(cut, line(plate, unit, (0.468, -0.215), small, 0.04, bold=0.006))
        date_at, mint_at = 0.590, 0.765
    elif die.series in ("quarter-skilling", "4-skilling-nickel"):
        low = ring(plate, die.value, radius, tall, 0.10, below=True, bold=0.006)
        cut = np.maximum(cut, low)
        date_at, mint_at = (0.520, 0.650) if die.series == "quarter-skilling" else (0.330, 0.470)
        figures *= 0.90
    else:
        cut = np.maximum(cut, line(plate, die.value, (0.0, value_at + 0.02),
            0.086 * die.coarseness, 0.14, bold=0.006))
        if die.mint:
            date_at = 0.630
    if len(die.date) > 4:
        figures *= 0.86
    date = dated(plate, die, (0.0, date_at), figures, figure_room)
    cut = np.maximum(cut, date)
    if die.mint:
        cut = np.maximum(cut, line(plate, die.mint, (0.0, mint_at), 0.074 * die.coarseness, bold=0.006))
    return cut


def dated(plate: Plate, die: Die, at: tuple[float, float], tall: float, room: float) -> Field:
    """Cut the date, over an earlier figure where the die was used again; "?" leaves a gap."""
    shown = die.date.replace("?", " ").replace("–", "-")
    cut = line(plate, shown, at, tall, room, bold=0.006)
    if die.over:
        before = shown[:-1] + die.over
        under = line(plate, before, (at[0] + 0.006, at[1] - 0.006), tall, room, bold=0.006)
        x, _ = plate.axes()
        last = x > at[0] + tall * (0.30 + room / 2) * (len(shown) / 2 - 1.0)
        cut = np.where(last, np.maximum(cut, under * (0.58 if die.over == "8" else 0.30)), cut)
    return cut


@lru_cache(maxsize=24)
def engrave(die: Die, size: int) -> Relief:
    """Cut the whole die at so many pixels from rim to rim."""
    plate = Plate(size)
    r = plate.radius()
    field = 0.012 * r * r
    shape = np.clip(picture(die.picture, die.series, size), 0, None)
    shape = plate.blur(shape, 0.0016)
    letters = words(plate, die)
    letters = 0.55 * plate.blur(letters, 0.0022) + 0.45 * plate.blur(letters, 0.0050)
    raised = np.maximum(shape * DEVICE_HEIGHT * 1.06, letters * LETTER_HEIGHT * 1.08)
    heights = field + np.maximum(raised, border(plate, die))
    inside = (shape > 0.03).astype(np.float32)
    return Relief(heights.astype(np.float32), plate.blur(inside, 0.003))
