"""The colour and gloss of a side: toning by metal and grade, dirt in the recesses, mirrors, spots and lacquer."""

from __future__ import annotations

from dataclasses import dataclass

import light
import numpy as np
from coins import Coin
from light import Lamp
from metal import Colours, clouds, film, toning
from relief import Field, Plate
from strike import SIDES, Side, metal_of
from wear import wear_of


@dataclass(frozen=True, slots=True)
class Look:
    """A film: its colours, how thick at the rim and in the middle, how uneven."""

    film: str
    rim: float
    middle: float
    patchy: float = 0.04
    power: float = 2.6


# what the notes say of single coins
LOOKS: dict[str, Look] = {
    "ort/1897": Look("silver", 0.74, 0.26, 0.05),
    "ort/1891": Look("silver", 0.42, 0.26, 0.04),
    "ort/1882": Look("grey silver", 0.86, 0.70, 0.03),
    "daler/1894": Look("silver", 0.48, 0.06, 0.03, 7.0),
    "half-daler/1894-proof": Look("silver", 0.70, 0.54, 0.05),
    "half-daler/1916": Look("silver", 0.96, 0.80, 0.03, 6.0),
    "8-skilling/1909": Look("silver", 0.80, 0.56, 0.05),
    "2-skilling/1871-proof": Look("bronze", 0.74, 0.66, 0.015),
    "2-skilling/1913 obverse": Look("bronze", 0.34, 0.12, 0.05),
    "2-skilling/1913 reverse": Look("bronze", 0.62, 0.50, 0.03),
    "2-skilling/1891": Look("bronze", 0.34, 0.14, 0.05),
    "skilling/1908": Look("bronze", 0.58, 0.24, 0.12),
    "skilling/1883": Look("bronze", 0.62, 0.50, 0.04),
    "half-skilling/1899": Look("bronze", 0.56, 0.44, 0.22),
    "half-skilling/1908-proof": Look("bronze", 0.44, 0.20, 0.09),
    "half-skilling/1882": Look("bronze", 0.84, 0.76, 0.03),
    "quarter-skilling/1890": Look("bronze", 0.66, 0.54, 0.03),
}


def look_of(coin: Coin, side: str) -> Look:
    """Choose how a side is toned: as its notes say, else by metal, grade and chance."""
    told = LOOKS.get(f"{coin.id} {side}") or LOOKS.get(coin.id)
    if told:
        return told
    grade = min(coin.grades)
    random = coin.random("look")
    metal = metal_of(coin)
    if metal == "silver":
        if coin.strike == "proof":
            return Look("silver", 0.44, 0.02, 0.03, 4.0)
        if grade >= 50:
            rows = [(0.34, Look("silver", 0.16, 0.02, 0.02)), (0.28, Look("silver", 0.46, 0.08, 0.04)),
                (0.20, Look("silver", 0.78, 0.10, 0.06, 3.4)), (0.18, Look("silver", 0.70, 0.40, 0.07))]
        elif grade >= 35:
            rows = [(0.34, Look("grey silver", 0.46, 0.20, 0.04)),
                (0.28, Look("silver", 0.44, 0.16, 0.05)), (0.18, Look("silver", 0.76, 0.30, 0.06)),
                (0.20, Look("grey silver", 0.78, 0.52, 0.05))]
        else:
            rows = [(0.55, Look("grey silver", 0.56, 0.34, 0.04)),
                (0.25, Look("grey silver", 0.80, 0.56, 0.05)), (0.20, Look("grey silver", 0.44, 0.22, 0.06))]
        chance = random.random()
        for share, look in rows:
            if chance < share:
                return look
            chance -= share
        return rows[-1][1]
    if metal == "bronze":
        if coin.colour == "RD":
            return Look("bronze", 0.30, 0.08, 0.04)
        if coin.colour == "RB":
            return Look("bronze", 0.60, 0.26, 0.12)
        shift = random.normal(0, 0.05)
        middle = float(np.interp(grade, [3, 8, 12, 20, 30, 40, 50, 58, 64],
            [0.90, 0.86, 0.82, 0.74, 0.68, 0.58, 0.46, 0.36, 0.22])) + shift
        return Look("bronze", middle + 0.12, middle - 0.02, 0.05)
    if metal == "cupro-nickel":
        middle = float(np.interp(grade, [8, 20, 40, 60], [0.62, 0.42, 0.22, 0.04]))
        return Look("cupro-nickel", middle + 0.20, middle, 0.04)
    return Look(metal, 0.45, 0.30, 0.07)


def lustre(size: int, random: np.random.Generator, bearing: float) -> Field:
    """Make the turning bands of a fresh field, and the fine radial flow of its metal; about 0."""
    plate = Plate(size)
    x, y = plate.axes()
    r = plate.radius()
    around = np.arctan2(-y, x) - np.deg2rad(bearing)
    band = np.cos(2 * around)
    wheel = np.sign(band) * np.abs(band) ** 0.7 * np.clip(r * 1.5, 0, 1)
    lines = random.standard_normal(2400).astype(np.float32)
    lines = np.convolve(np.tile(lines, 3), [0.25, 0.5, 0.25], "same")[2400:4800]
    place = ((np.arctan2(y, x) + np.pi) / (2 * np.pi) * 2399).astype(int)
    return (0.75 * wheel + 0.10 * lines[place] * np.clip(r * 1.6 - 0.2, 0, 1)).astype(np.float32)


def coloured(coin: Coin, side: str, struck: Side, lamp: Lamp) -> Colours:
    """Light a side and colour it, as red, green and blue from 0 to 1."""
    size = struck.heights.shape[0]
    plate = Plate(size)
    random = coin.random(side, "surface")
    grade = coin.grades[SIDES.index(side)]
    use = wear_of(grade)
    metal = metal_of(coin)
    look = look_of(coin, side)
    proof = coin.strike == "proof"
    thickness = toning(size, random, look.rim, look.middle, look.patchy, look.power)
    deep = np.clip(light.recesses(struck.heights, 0.022) / 0.012, 0, 1)
    high = np.clip((struck.heights - plate.blur(struck.heights, 0.05)) / 0.02, 0, 1)
    if metal == "bronze":
        fresh = 0.30 if 40 <= grade < 63 and not proof else 0.0  # red stays longest beside the letters
        thickness += deep * (0.30 * use - fresh) - high * 0.26 * min(1.0, use * 1.6)
    else:
        thickness += deep * (0.06 + 0.62 * use) - high * 0.22 * min(1.0, use * 2.0)
    if coin.id == "2-skilling/1897":  # the strap of an old folder kept a band red
        _, y = plate.axes()
        thickness -= 0.34 * np.exp(-((y / 0.24) ** 6))
    if coin.id == "8-skilling/1894-proof":
        thickness += 0.42 * np.clip((plate.bump((0.75, 0.1), 0.34) - 0.35) * 4, 0, 1)
    if "cleaned" in coin.problems:
        thickness = thickness * 0.22 + deep * 0.30
    colours = film(look.film, np.clip(thickness, 0, 1.1))
    if metal == "silver" and coin.date[:4] >= "1904":  # poorer silver is a little yellow
        colours = colours * np.array([1.0, 0.985, 0.950], dtype=np.float32)
    gloss = float(np.interp(use, [0, 0.1, 0.3, 0.6, 1], [0.75, 0.56, 0.42, 0.34, 0.26]))
    if "cleaned" in coin.problems:
        gloss = 0.62
    if "lacquered" in coin.problems:
        gloss = 0.80
    if metal in ("tin", "aluminium"):
        gloss *= 0.6
    if metal == "bronze":
        gloss = 0.12 + gloss * 0.9
        colours = colours * 1.22
    scatter, glint = light.lit(struck.heights, lamp, gloss)
    if grade >= 45 and not proof:
        level = np.clip(1 - struck.raised, 0, 1) * 0.85 + 0.15
        amount = float(np.interp(grade, [45, 58, 65], [0.05, 0.13, 0.20]))
        scatter = scatter * (1 + amount * lustre(size, random, lamp.bearing) * level)
    else:
        scatter = scatter * (1 + (0.012 + 0.014 * use) * clouds(size, random, 24, 0.8))
    if proof:
        scatter, glint = mirrored(struck, lamp, scatter, glint)
    lit = colours * (scatter * 1.42)[..., None] + (0.55 * colours + 0.45) * (glint * 0.85)[..., None]
    lit = lit + struck.scars[..., None] * 0.18 * scatter[..., None]
    for problem in coin.problems:
        lit = stained(problem, coin, side, lit, deep, scatter, random)
    # a soft shoulder, as film and sensors have
    return np.where(lit > 0.78, 0.78 + 0.22 * (1 - np.exp(-(lit - 0.78) / 0.22)),
        np.clip(lit, 0, 1)).astype(np.float32)


def mirrored(struck: Side, lamp: Lamp, scatter: Field, glint: Field) -> tuple[Field, Field]:
    """Turn the field into a dark mirror with one soft reflection, and frost the devices."""
    size = struck.heights.shape[0]
    plate = Plate(size)
    x, y = plate.axes()
    a = np.deg2rad(lamp.bearing)
    across = x * np.cos(a) - y * np.sin(a)
    nx, ny, _ = light.normals(struck.heights, 1.0)
    tilt = across * 0.5 + 2.2 * (nx * np.cos(a) - ny * np.sin(a))
    sky = 0.17 + 0.36 / (1 + np.exp(-(tilt - 0.30) * 9)) + 0.05 * np.exp(-(((tilt + 0.25) / 0.12) ** 2))
    frost = np.clip(struck.raised, 0, 1)
    light_off = sky * (1 - frost) + scatter * 1.12 * frost
    return light_off.astype(np.float32), (glint * (0.5 + 0.2 * frost)).astype(np.float32)


def stained(problem: str, coin: Coin, side: str, lit: Colours, deep: Field, scatter: Field,
    random: np.random.Generator) -> Colours:
    """Stain a side as its problem does."""
    size = lit.shape[0]
    broad = clouds(size, random, 4, 0.6)
    if problem == "verdigris":
        where = np.clip((broad - 0.75) * 1.3 + deep * 0.9, 0, 1)[..., None] * 0.85
        return lit * (1 - where) + where * np.array([0.36, 0.56, 0.46],
            dtype=np.float32) * (scatter * 1.35)[..., None]
    if problem in ("corrosion", "environmental damage"):
        where = np.clip((broad - 0.15) * 0.8, 0, 1)[..., None] * 0.55
        return lit * (1 - where * np.array([0.75, 0.82, 0.86], dtype=np.float32))
    if problem == "lacquered":
        drops = np.clip((broad - 1.2) * 2.0, 0, 1)[..., None]
        return lit * np.array([1.02, 0.965, 0.80], dtype=np.float32) * (1 - 0.12 * drops)
    return lit
