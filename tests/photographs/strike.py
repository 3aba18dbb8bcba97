"""Strikes a coin: which dies it takes, what went wrong at the mint, and what happened to it since.

The departures of single coins follow the notes in their files, and are kept here by the coin's id.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
import wear
from coins import VALUES, Coin
from die import Die, Relief, engrave
from lettering import line
from relief import Field, Plate, Point
from scipy import ndimage

SIDES = ("obverse", "reverse")


@dataclass(frozen=True, slots=True)
class Departure:
    """How one piece departs from its kind, by side where the sides differ."""

    metal: str = ""
    picture: str = ""  # another reverse device
    stamps: tuple[tuple[str, Point, float], ...] = ()  # words punched into the obverse: text, place, height
    clip: float | None = None  # bearing on the obverse, degrees clockwise from the top
    shift: Point = (0.0, 0.0)  # of the strike on the obverse, in radii
    cast: bool = False
    tall_date: bool = False
    over: str = ""
    cracks: tuple[tuple[Point, ...], ...] = ()  # raised lines on the reverse
    turned: float = 0.0  # degrees that the reverse stands off
    weak: dict[str, tuple[Point, float]] = field(default_factory=dict)
    scratch: dict[str, tuple[Point, ...]] = field(default_factory=dict)


DEPARTURES: dict[str, Departure] = {
    "2-skilling/1877-counterstamped": Departure(stamps=(("HARBOUR", (0.02, 0.335), 0.135), ("14",
        (0.03, 0.525), 0.150))),
    "2-skilling/1900-clipped": Departure(clip=150.0),
    "4-skilling-nickel/1908-bronze": Departure(metal="bronze"),
    "half-daler/1898-forgery": Departure(metal="tin", cast=True),
    "half-skilling/1897-silver": Departure(metal="silver"),
    "ort/1870-pattern": Departure(picture="ort, bare ground"),
    "ort/1881-doubtful": Departure(tall_date=True),
    "ort/1892-forgery": Departure(over="3"),
    "ort/1900-turned-dies": Departure(turned=180.0),
    # the blank lay towards seven o'clock, so that the strike missed its crown and not its date
    "skilling/1889-off-centre": Departure(shift=(0.15, -0.26), weak={"obverse": ((-0.03, -0.60), 0.17)}),
    "skilling/1912-pattern": Departure(metal="aluminium", picture="skilling, wheel"),
    "ort/1882": Departure(cracks=(((-0.02, 0.385), (0.03, 0.345), (0.06, 0.30)),)),
    "ort/1883": Departure(cracks=(((-0.93, -0.10), (-0.5, 0.02), (-0.05, 0.10), (0.3, 0.12), (0.62, 0.22),
        (0.92, 0.26)),)),
    "2-skilling/1879": Departure(cracks=(((0.44, -0.52), (0.36, -0.62), (0.24, -0.76)),)),
    "2-skilling/1907-k": Departure(cracks=(((-0.94, 0.10), (-0.6, 0.02), (-0.3, -0.06)), ((0.5, 0.80),
        (0.42, 0.5), (0.5, 0.2)), ((0.30, -0.90), (0.36, -0.6), (0.30, -0.2)))),
    "daler/1872": Departure(cracks=(((-0.36, -0.46), (-0.50, -0.62), (-0.60, -0.74)),)),
    "2-skilling/1893": Departure(weak={"reverse": ((-0.5, 0.5), 0.30), "obverse": ((0.5, 0.5), 0.30)}),
    "half-daler/1871": Departure(weak={"reverse": ((-0.16, -0.08), 0.12)}),
    "ort/1897": Departure(weak={"reverse": ((0.0, -0.62), 0.10)}, scratch={"obverse": ((0.66, 0.30),
        (0.58, 0.05), (0.52, -0.30))}),
    "ort/1878": Departure(weak={"reverse": ((0.0, 0.24), 0.10)}),
    "half-daler/1882": Departure(scratch={"obverse": ((0.06, 0.0), (-0.10, -0.35), (-0.28, -0.76))}),
    "half-skilling/1896": Departure(scratch={"reverse": ((-0.42, 0.42), (-0.1, 0.36), (0.30, 0.14))}),
}


@dataclass(frozen=True, slots=True)
class Side:
    """One side of one coin, ready to be lit."""

    heights: Field
    there: Field  # 0 where metal is gone
    raised: Field  # 1 on device and letters
    scars: Field  # bright fresh metal in scratches


def departure(coin: Coin) -> Departure:
    return DEPARTURES.get(coin.id, Departure())


def metal_of(coin: Coin) -> str:
    return departure(coin).metal or coin.metal


def die_of(coin: Coin, side: str) -> Die:
    """Choose the die that struck a side of a coin."""
    apart = departure(coin)
    border = "denticles" if coin.metal == "silver" else "beads"
    if side == "obverse":
        return Die(coin.type, coin.obverse_legend, coin.series, coin.diameter_mm, border=border)
    value = VALUES.get(coin.series, "ONE OORT" if "old-spelling" in coin.varieties else "ONE ORT")
    if coin.id == "ort/1870-pattern":
        value = "ONE OORT"
    picture = apart.picture or {
        ("12-skilling", "cable-behind"): "12-skilling, cable behind",
        ("2-skilling", "short-beams"): "2-skilling, short beams",
        ("skilling", "seven-ears"): "skilling, seven ears",
    }.get((coin.series, coin.varieties[0] if coin.varieties else ""), coin.series)
    spread = {"wide-date": 0.42, "narrow-date": -0.06}.get(coin.varieties[0] if coin.varieties else "", 0.0)
    return Die(
        picture, coin.reverse_legend, coin.series, coin.diameter_mm, value, coin.date, coin.mint, border,
        over="8" if "nine-over-eight" in coin.varieties else apart.over, tall_date=apart.tall_date,
            spread=spread,
    )


def struck(coin: Coin, side: str, size: int) -> Side:
    """Strike one side and let its fate befall it."""
    apart = departure(coin)
    random = coin.random(side, "strike")
    relief: Relief = engrave(replace(die_of(coin, side)), size)
    heights = relief.heights
    plate = Plate(size)
    r = plate.radius()
    if side == "reverse":
        for crack in apart.cracks:
            heights = heights + 0.012 * plate.stroke(crack, 0.006, "gauss")
    if side in apart.weak:
        heights = wear.softly_struck(heights, *apart.weak[side], depth=0.97 if coin.kind == "error" else 0.72)
    raised = np.clip((heights - 0.012 * r * r - 0.006) / 0.006, 0, 1)
    grade = coin.grades[SIDES.index(side)]
    flip = 1.0 if side == "obverse" else -1.0
    if apart.shift != (0.0, 0.0):
        heights = wear.off_centre(heights, (apart.shift[0] * flip, apart.shift[1]))
        raised = ndimage.shift(raised, (apart.shift[1] * size / 2, apart.shift[0] * flip * size / 2), order=1)
    if apart.cast:
        heights = plate.blur(heights, 0.0075)
        heights = heights - 0.0035 * np.clip(plate.blur(random.standard_normal((size,
            size)).astype(np.float32), 0.006) * 9 - 1.3, 0, 3)
    heights = wear.worn(heights, grade, random)
    for text, at, tall in apart.stamps if side == "obverse" else ():
        punch = line(plate, text, at, tall, 0.16, bold=0.02)
        soft = plate.blur(punch, 0.003)
        heights = heights + 0.010 * plate.blur(punch, 0.016) - 0.055 * soft
    there = np.ones((size, size), dtype=np.float32)
    if apart.clip is not None:
        damage = wear.clipped(heights, apart.clip * flip, 0.13)
        heights, there = damage.heights, damage.there
    scars = np.zeros((size, size), dtype=np.float32)
    use = wear.wear_of(grade)
    if coin.strike == "proof":
        hairs = wear.scratches(size, 26, random, 0.25, 0.0008)
    else:
        hairs = wear.scratches(size, int(10 + 55 * use), random, 0.17, 0.0010 + 0.0008 * use)
        heights = heights + wear.marks(size, int(5 + 34 * min(1.0, use * 2.2)), random, 0.006)
    heights = heights - hairs
    if side in apart.scratch:
        heights = wear.cut(heights, list(apart.scratch[side]), 0.006, 0.012)
    for problem in coin.problems:
        heights, there, scars = befall(problem, coin, side, heights, there, scars, random)
    return Side(heights.astype(np.float32), there, raised.astype(np.float32), scars)


def befall(problem: str, coin: Coin, side: str, heights: Field, there: Field, scars: Field,
    random: np.random.Generator) -> tuple[Field, Field, Field]:
    """Let one problem of a coin happen to a side; both sides agree on where."""
    size = heights.shape[0]
    plate = Plate(size)
    shared = coin.random("problem", problem)
    flip = 1.0 if side == "obverse" else -1.0
    if problem == "holed":
        damage = wear.holed(heights, (flip * shared.uniform(-0.03, 0.03), -0.918), 0.050)
        return damage.heights, there * damage.there, scars
    if problem == "scratched" and coin.id not in DEPARTURES:
        heights = wear.cut(heights, [(-0.4, -0.2), (0.0, 0.05), (0.5, 0.2)], 0.007, 0.016)
    if problem == "rim damage":
        for bearing, wide, deep in ((62.0, 0.10, 0.045), (71.0, 0.06, 0.025), (200.0, 0.05, 0.018)):
            damage = wear.dented_rim(heights, bearing * flip, wide, deep)
            heights, there = damage.heights, there * damage.there
    if problem == "mount removed":
        x, y = plate.axes()
        for bearing in (0.0,):
            patch = plate.bump((np.sin(np.deg2rad(bearing)) * flip, -np.cos(np.deg2rad(bearing)) * 0.95),
                0.11, 0.06)
            patch = np.clip(patch * 2.2, 0, 1)
            heights = heights * (1 - patch) + patch * (plate.blur(heights, 0.03) * 0.8)
            filed = wear.scratches(size, 1500, random, 0.04, 1.0, angle=0.2)
            heights = heights - 0.004 * filed * patch
            scars = np.maximum(scars, 0.75 * patch)
    if problem == "bent":
        x, y = plate.axes()
        along = x * 0.80 + y * 0.60 * flip
        heights = heights + flip * 0.055 * np.sqrt(along**2 + 0.02)
    if problem == "cleaned":
        hairs = wear.scratches(size, 420, random, 0.30, 1.0, angle=float(shared.uniform(0.3, 1.2)) * flip,
            spread=6.0)
        heights = heights - 0.0014 * hairs
    if problem in ("corrosion", "environmental damage", "verdigris"):
        heights = wear.pitted(heights, random, 0.0075 if problem != "verdigris" else 0.004, 0.55)
    return heights, there, scars
