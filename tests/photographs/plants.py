"""Devices that grow: the spruce, the sheaf of oats, the oak sprig and the wreath."""

from __future__ import annotations

import numpy as np

from relief import Field, Plate, Point, over, turned
from ship import sea


def spruce(plate: Plate) -> Field:
    """A spruce with hanging boughs, above three waves."""
    h = plate.blank()
    random = np.random.default_rng(61)
    plate.stroke_into(h, [(0.0, 0.245), (0.0, -0.1), (0.0, -0.62)], (0.040, 0.020, 0.006), height=0.5)
    tiers = 10
    for tier in range(tiers):  # from the ground up, so that upper boughs hang over lower ones
        share = 1 - tier / (tiers - 1)
        y = -0.555 + share**0.92 * 0.62
        reach = 0.055 + share * 0.315
        part = plate.blank()
        mask_lines = []
        for side in (-1, 1):
            for length, drop in ((1.0, 0.11), (0.78, 0.125), (0.50, 0.13), (0.22, 0.125)):
                far = reach * length * (1 + random.normal(0, 0.03))
                fall = drop * (0.55 + 0.55 * share) + random.normal(0, 0.004)
                bough = [(0.0, y), (side * far * 0.45, y + fall * 0.35), (side * far * 0.85, y + fall * 0.95), (side * far * 1.06, y + fall * 0.90)]
                mask_lines.append((bough, (0.012, 0.017, 0.015, 0.004)))
                for step in np.linspace(0.25, 0.95, 6):
                    bx = side * far * step
                    by = y + fall * (step**1.25) * 0.92
                    sway = side * 0.012
                    mask_lines.append(([(bx, by), (bx + sway, by + 0.028 + 0.018 * share), (bx + sway * 1.2, by + 0.040 + 0.030 * share)], (0.010, 0.009, 0.002)))
        for bough, wide in mask_lines:
            plate.stroke_into(part, bough, wide, height=0.8 + 0.2 * random.random())
        mask = plate.blur((part > 0.15).astype(np.float32), 0.0035)
        x, _ = plate.axes()
        rise = 0.22 + 0.22 * np.clip(1 - np.abs(x) / (reach * 1.1), 0, 1)
        h = over(h, rise + 0.30 * part, mask)
    plate.stroke_into(h, [(0.0, -0.66), (0.0, -0.54)], (0.004, 0.012), smooth=False, height=0.55)
    return np.maximum(h, sea(plate, plate.blank(), 0.270, 3, 0.44, crests=5))


def oat_head(plate: Plate, h: Field, stem: list[Point], seed: int) -> Field:
    """Hang a panicle of oats from the end of a stem."""
    random = np.random.default_rng(seed)
    plate.stroke_into(h, stem, (0.008, 0.007, 0.005), height=0.46)
    tip, before = np.array(stem[-1]), np.array(stem[-2])
    way = (tip - before) / max(np.linalg.norm(tip - before), 1e-9)
    aside = np.array([-way[1], way[0]])
    for index in range(9):
        back = 0.030 * index
        side = 1 if index % 2 else -1
        reach = 0.020 + 0.012 * min(index, 4)
        foot = tip - way * back
        grain = foot + aside * side * reach * (1.0 if index else 0) + way * 0.012
        plate.stroke_into(h, [tuple(foot - way * 0.02), tuple(grain)], 0.0045, smooth=False, height=0.42)
        lean = float(np.rad2deg(np.arctan2(way[1], way[0]))) + side * (18 if index else 0) + random.normal(0, 4)
        body = plate.dome(tuple(grain), 0.034, 0.0135, lean)
        h = np.maximum(h, (0.50 + 0.28 * body) * (body > 0.1))
        h -= 0.08 * plate.stroke(turned([(-0.03, 0.0), (0.03, 0.0)], lean, 1.0, tuple(grain)), 0.003, "gauss", smooth=False)
        plate.stroke_into(h, turned([(0.028, 0.0), (0.062, side * 0.010)], lean, 1.0, tuple(grain)), (0.004, 0.002), smooth=False, height=0.40)
    return h


def sheaf(plate: Plate) -> Field:
    """A sheaf of oats, bound at the waist."""
    h = plate.blank()
    waist = 0.10
    left = [(-0.235, 0.375), (-0.150, 0.24), (-0.085, waist), (-0.120, -0.05), (-0.235, -0.20), (-0.40, -0.28)]
    centre = [(0.0, 0.390), (0.0, 0.24), (0.0, waist), (0.0, -0.10), (0.0, -0.30), (0.0, -0.44)]
    right = [(-x, y) for x, y in left]
    stalks = plate.locks([left, centre, right], 26, (0.012, 0.013, 0.0115, 0.011, 0.009, 0.005), 0.005, seed=71)
    mask = plate.fill([*left[:4], (-0.14, -0.12), (0.0, -0.16), (0.14, -0.12), *right[:4][::-1], (0.12, 0.385), (0.0, 0.392), (-0.12, 0.385)])
    h = np.maximum((0.20 + 0.25 * plate.swell(mask, 0.02, 0.08)) * plate.blur(mask, 0.003), 0)
    h = np.maximum(h, stalks * 0.34 + 0.24 * (stalks > 0.1) + 0.16 * plate.blur(mask, 0.04) * stalks)
    heads = []
    for index, share in enumerate(np.linspace(0.0, 1.0, 15)):
        spread = share * 2 - 1
        row = index % 2
        top = (spread * (0.50 if row else 0.40), -0.52 + 0.26 * abs(spread) ** 1.7 + (0.0 if row else 0.10))
        droop = (top[0] + np.sign(spread + 1e-9) * 0.055 * (0.4 + abs(spread)), top[1] + 0.035 + 0.10 * abs(spread) ** 1.5)
        bend = (spread * 0.25, -0.20 + 0.06 * abs(spread))
        heads.append((abs(spread) + row * 0.05, [(spread * 0.07, waist), bend, top, droop], 72 + index))
    for _, stem, seed in sorted(heads, key=lambda item: -item[0]):
        h = oat_head(plate, h, stem, seed)
    for side in (-1, 1):  # two leaves, bent over
        leaf = [(side * 0.10, 0.02), (side * 0.24, -0.08), (side * 0.36, -0.03), (side * 0.43, 0.10)]
        plate.stroke_into(h, leaf, (0.012, 0.022, 0.020, 0.003), height=0.58)
        h -= 0.10 * plate.stroke(leaf, 0.004, "gauss")
    band = [(-0.098, waist - 0.004), (0.0, waist + 0.020), (0.098, waist - 0.004)]
    tie = plate.stroke(band, 0.034, "flat")
    h = over(h, 0.74 + 0.08 * plate.stroke(band, 0.030), plate.blur(tie, 0.002))
    for index in range(9):
        x = -0.085 + index * 0.021
        h -= 0.10 * plate.stroke([(x, waist - 0.02), (x + 0.012, waist + 0.045)], 0.004, "gauss", smooth=False)
    for line in ([(0.02, waist + 0.02), (0.075, waist + 0.10), (0.060, waist + 0.18)], [(0.0, waist + 0.02), (-0.03, waist + 0.11), (0.0, waist + 0.17)]):
        plate.stroke_into(h, line, (0.014, 0.014, 0.008), height=0.72)
    return h


def oak_leaf(plate: Plate, h: Field, at: Point, degrees: float, scale: float, level: float) -> Field:
    """Lay one lobed leaf, its stem at a point, its tip along the given way."""
    side = [(0.0, 0.012), (0.06, 0.030), (0.09, 0.075), (0.135, 0.080), (0.150, 0.050), (0.175, 0.050), (0.205, 0.115), (0.265, 0.125), (0.285, 0.080), (0.300, 0.062), (0.335, 0.062),
            (0.365, 0.120), (0.425, 0.118), (0.440, 0.075), (0.450, 0.052), (0.480, 0.050), (0.515, 0.080), (0.560, 0.062), (0.585, 0.0)]
    outline = turned([*side, *[(x, -y * 0.96) for x, y in side[-2::-1]]], degrees, scale, at)
    mask = plate.fill(outline)
    leaf = level + 0.26 * plate.swell(mask, 0.012, 0.03, 0.06)
    veins = plate.blank()
    plate.stroke_into(veins, turned([(-0.02, 0.0), (0.3, 0.004), (0.56, 0.0)], degrees, scale, at), (0.011, 0.008, 0.004), "gauss")
    for x, y, foot in ((0.115, 0.068, 0.06), (0.240, 0.105, 0.15), (0.395, 0.100, 0.29), (0.520, 0.060, 0.44)):
        for sign in (-1, 1):
            plate.stroke_into(veins, turned([(foot, 0.0), ((foot + x) / 2 + 0.01, sign * y * 0.45), (x, sign * y)], degrees, scale, at), (0.008, 0.004), "gauss")
    leaf -= 0.13 * veins
    leaf += 0.07 * plate.blur(veins, 0.012)
    return over(h, leaf, plate.blur(mask, 0.0025))


def acorn(plate: Plate, h: Field, at: Point, degrees: float, scale: float) -> Field:
    """Set an acorn in its cup, its point along the given way."""
    nut = plate.fill(turned([(0.0, -0.090), (0.08, -0.100), (0.17, -0.088), (0.235, -0.050), (0.262, -0.012), (0.290, 0.0), (0.262, 0.012), (0.235, 0.050), (0.17, 0.088), (0.08, 0.100), (0.0, 0.090)], degrees, scale, at))
    h = over(h, 0.42 + 0.42 * plate.swell(nut, 0.015, 0.04, 0.07), plate.blur(nut, 0.002))
    for y in (-0.05, 0.0, 0.05):
        h -= 0.04 * plate.stroke(turned([(0.04, y), (0.14, y), (0.23, y * 0.5)], degrees, scale, at), 0.004, "gauss")
    cup = plate.fill(turned([(-0.10, 0.0), (-0.085, -0.060), (-0.035, -0.105), (0.035, -0.122), (0.050, -0.10), (0.062, 0.0), (0.050, 0.10), (0.035, 0.122), (-0.035, 0.105), (-0.085, 0.060)], degrees, scale, at))
    knobs = plate.blank()
    for column, x in enumerate(np.linspace(-0.085, 0.040, 5)):
        half = 0.118 * np.sqrt(max(0.05, 1 - ((x - 0.045) / 0.15) ** 2))
        count = max(3, round(half * 2 / 0.040))
        for row in range(count):
            y = (row + 0.5 + (0.25 if column % 2 else -0.25)) / count * 2 * half - half
            knobs = np.maximum(knobs, plate.dome(turned([(float(x), float(y))], degrees, scale, at)[0], 0.020 * scale))
    h = over(h, 0.54 + 0.26 * plate.swell(cup, 0.015, 0.04) + 0.15 * knobs, plate.blur(cup, 0.002))
    return h


def oak_sprig(plate: Plate) -> Field:
    """A sprig of oak: three leaves and two acorns."""
    h = plate.blank()
    for line in ([(0.0, 0.36), (0.015, 0.24), (0.0, 0.12), (0.0, 0.02)], [(0.008, 0.21), (0.10, 0.13), (0.16, 0.08)], [(0.010, 0.17), (-0.08, 0.11), (-0.15, 0.10)]):
        plate.stroke_into(h, line, (0.022, 0.016, 0.013), height=0.56)
    for at, way, scale in (((-0.035, 0.06), -152.0, 0.90), ((0.035, 0.06), -28.0, 0.90), ((0.0, 0.04), -90.0, 1.08)):
        h = oak_leaf(plate, h, at, way, scale, 0.34)
    h = acorn(plate, h, (0.215, 0.150), 38.0, 0.82)
    h = acorn(plate, h, (-0.205, 0.160), 142.0, 0.82)
    stub = plate.dome((0.0, 0.365), 0.026, 0.016)
    return np.maximum(h, 0.6 * (stub > 0.1))


def wreath(plate: Plate, radius: float = 0.64) -> Field:
    """Two branches of leaves and berries, tied below and open above."""
    h = plate.blank()
    for side in (-1, 1):
        def point(degrees: float, aside: float, side: int = side) -> Point:
            angle = np.deg2rad(degrees)
            return float(side * np.sin(angle) * (radius + aside)), float(np.cos(angle) * (radius + aside))

        stem = [point(d, 0.0) for d in np.linspace(-6, 158, 14)]
        plate.stroke_into(h, stem, (0.014, 0.011, 0.006), height=0.46)
        for index, degrees in enumerate(np.linspace(14, 152, 13)):
            size = 1.0 - 0.25 * index / 12
            for aside, ahead in ((0.085, 17.0), (-0.080, 20.0)):
                leaf = [point(degrees, 0.004 * np.sign(aside)), point(degrees + ahead * 0.45 * size, aside * 0.85 * size), point(degrees + ahead * size, aside * 0.95 * size)]
                part = plate.stroke(leaf, (0.006, 0.030 * size, 0.026 * size, 0.003))
                part -= 0.35 * plate.stroke(leaf, 0.004, "gauss") * (part > 0)
                h = over(h, 0.34 + 0.32 * part, plate.blur((part > 0.08).astype(np.float32), 0.002))
            if index % 3 == 1:
                h = np.maximum(h, 0.66 * plate.dome(point(degrees + 4, 0.030), 0.018))
    bow = plate.blank()
    for side in (-1, 1):
        plate.stroke_into(bow, [(0.0, radius), (side * 0.075, radius - 0.045), (side * 0.10, radius), (side * 0.06, radius + 0.028), (0.0, radius)], (0.010, 0.014, 0.014, 0.010))
        plate.stroke_into(bow, [(0.0, radius), (side * 0.05, radius + 0.060), (side * 0.085, radius + 0.085)], (0.012, 0.016, 0.010))
    bow = np.maximum(bow, plate.dome((0.0, radius), 0.026))
    return over(h, 0.46 + 0.30 * bow, plate.blur((bow > 0.1).astype(np.float32), 0.002))


