"""Devices that grow: the spruce, the sheaf of oats, the oak sprig and the wreath."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, Point, curve, over, turned
from ship import sea


def spruce(plate: Plate, waves: bool = True) -> Field:
    """A spruce with hanging boughs, above three waves, or on bare ground as on the pattern."""
    h = plate.blank()
    random = np.random.default_rng(61)
    plate.stroke_into(h, [(0.0, 0.245), (0.0, -0.1), (0.0, -0.62)], (0.040, 0.020, 0.006), height=0.5)
    tiers = 8
    for tier in range(tiers):  # from the ground up, so that upper boughs hang over lower ones
        share = 1 - tier / (tiers - 1)
        y = -0.585 + share**0.95 * 0.625
        reach = 0.075 + share * 0.330
        fall = 0.085 + 0.060 * share
        skirt = [(0.0, y - 0.05)]
        for side in (1, -1):
            lobes = [(side * reach * a, y + fall * b + random.normal(0, 0.004)) for a, b in (
                (0.45, 0.15), (0.80, 0.62), (1.06, 0.78), (0.88, 0.98), (0.70, 0.86), (0.58, 1.16),
                    (0.40, 0.98), (0.26, 1.26), (0.10, 1.02))]
            skirt += lobes if side == 1 else lobes[::-1]
        mask = plate.fill(skirt)
        part = plate.blank()
        for side in (-1, 1):
            for length, drop in ((1.04, 0.80), (0.86, 0.98), (0.70, 1.02), (0.56, 1.14), (0.40, 1.12),
                (0.25, 1.24), (0.10, 1.15)):
                far, low = side * reach * length, y + fall * drop
                bough = [(side * 0.006, y - 0.03), (far * 0.45, y + fall * drop * 0.30),
                    (far * 0.84, y + fall * drop * 0.80), (far, low)]
                plate.stroke_into(part, bough, (0.008, 0.017, 0.019, 0.005),
                    height=0.75 + 0.25 * random.random())
        mask = np.maximum(mask, (part > 0.25).astype(np.float32))
        x, _ = plate.axes()
        rise = 0.20 + 0.20 * np.clip(1 - np.abs(x) / (reach * 1.1),
            0, 1) + 0.10 * plate.swell(mask, 0.012, 0.03)
        h = over(h, rise + 0.26 * part, plate.blur(mask, 0.003))
    plate.stroke_into(h, [(0.0, -0.66), (0.0, -0.54)], (0.004, 0.012), smooth=False, height=0.55)
    if not waves:
        ground = plate.fill([(-0.36, 0.262), (-0.2, 0.238), (0.0, 0.230), (0.2, 0.240), (0.36, 0.262),
            (0.24, 0.285), (0.0, 0.300), (-0.24, 0.285)])
        return over(h, 0.30 + 0.2 * plate.swell(ground, 0.012, 0.03), plate.blur(ground, 0.003))
    return np.maximum(h, sea(plate, plate.blank(), 0.270, 3, 0.44, crests=5))


def ear_of_oats(plate: Plate, h: Field, foot: Point, tip: Point, droop: float, seed: int) -> Field:
    """Stand one ear on its stem, its grains in pairs, its tip bent aside."""
    random = np.random.default_rng(seed)
    (x0, y0), (x1, y1) = foot, tip
    stem = [foot, (x0 + (x1 - x0) * 0.5, y0 + (y1 - y0) * 0.5), tip, (tip[0] + droop, tip[1] - 0.055)]
    plate.stroke_into(h, stem, (0.010, 0.010, 0.006), height=0.46)
    line = curve(stem, steps=24)[24:]
    count = 7
    for index in range(count):
        share = index / (count - 1)
        place = line[int(share * (len(line) - 4))]
        ahead = line[min(int(share * (len(line) - 4)) + 3, len(line) - 1)] - place
        way = float(np.rad2deg(np.arctan2(ahead[1], ahead[0])))
        size = 1.0 - 0.35 * share
        for side in (-1, 1):
            lean = way + side * (30 - 12 * share) + random.normal(0, 3)
            grain = turned([(0.030 * size, 0.0)], lean, 1.0, tuple(place))[0]
            body = plate.dome(grain, 0.040 * size, 0.0165 * size, lean)
            furrow = plate.stroke(turned([(-0.03 * size, 0.0), (0.035 * size, 0.0)], lean, 1.0, grain),
                0.0035, "gauss", smooth=False)
            h = over(h, 0.46 + 0.34 * body - 0.10 * furrow, plate.blur((body > 0.12).astype(np.float32),
                0.0015))
            plate.stroke_into(h, turned([(0.036 * size, 0.0), (0.085 * size, side * 0.010)],
                lean, 1.0, grain), (0.005, 0.002), smooth=False, height=0.42)
    end = line[-1]
    body = plate.dome((float(end[0]), float(end[1])), 0.032, 0.013, float(np.rad2deg(np.arctan2(-0.055,
        droop))))
    return np.maximum(h, (0.5 + 0.28 * body) * (body > 0.12))


def sheaf(plate: Plate, ears: int = 5) -> Field:
    """A sheaf of oats, bound at the waist, with so many ears above the band."""
    h = plate.blank()
    waist = 0.10
    left = [(-0.235, 0.375), (-0.150, 0.24), (-0.085, waist), (-0.115, -0.02), (-0.190, -0.12),
        (-0.270, -0.20)]
    centre = [(0.0, 0.390), (0.0, 0.24), (0.0, waist), (0.0, -0.04), (0.0, -0.15), (0.0, -0.26)]
    right = [(-x, y) for x, y in left]
    stalks = plate.locks([left, centre, right], 26, (0.012, 0.013, 0.0115, 0.011, 0.009, 0.005),
        0.005, seed=71)
    mask = plate.fill([*left[:4], (-0.14, -0.12), (0.0, -0.16), (0.14, -0.12), *right[:4][::-1],
        (0.12, 0.385), (0.0, 0.392), (-0.12, 0.385)])
    h = np.maximum((0.20 + 0.25 * plate.swell(mask, 0.02, 0.08)) * plate.blur(mask, 0.003), 0)
    h = np.maximum(h, stalks * 0.34 + 0.24 * (stalks > 0.1) + 0.16 * plate.blur(mask, 0.04) * stalks)
    order = sorted(range(ears), key=lambda index: -abs(index - (ears - 1) / 2))
    for index in order:  # from the sides inward, so that the middle ear lies on top
        spread = (index - (ears - 1) / 2) / ((ears - 1) / 2)
        tip = (spread * 0.455, -0.555 + 0.235 * abs(spread) ** 1.8)
        foot = (spread * 0.075, waist - 0.03)
        h = ear_of_oats(plate, h, foot, tip, 0.030 * spread + (0.012 if spread == 0 else 0.0), 72 + index)
    for side in (-1, 1):  # two leaves, bent over
        leaf = [(side * 0.10, 0.02), (side * 0.24, -0.08), (side * 0.36, -0.03), (side * 0.43, 0.10)]
        plate.stroke_into(h, leaf, (0.012, 0.022, 0.020, 0.003), height=0.58)
        h -= 0.10 * plate.stroke(leaf, 0.004, "gauss")
    band = [(-0.098, waist - 0.004), (0.0, waist + 0.020), (0.098, waist - 0.004)]
    tie = plate.stroke(band, 0.034, "flat")
    h = over(h, 0.74 + 0.08 * plate.stroke(band, 0.030), plate.blur(tie, 0.002))
    for index in range(9):
        x = -0.085 + index * 0.021
        h -= 0.10 * plate.stroke([(x, waist - 0.02), (x + 0.012, waist + 0.045)],
            0.004, "gauss", smooth=False)
    for line in ([(0.02, waist + 0.02), (0.075, waist + 0.10), (0.060, waist + 0.18)],
        [(0.0, waist + 0.02), (-0.03, waist + 0.11), (0.0, waist + 0.17)]):
        plate.stroke_into(h, line, (0.014, 0.014, 0.008), height=0.72)
    return h


def oak_leaf(plate: Plate, h: Field, at: Point, degrees: float, scale: float, level: float) -> Field:
    """Lay one lobed leaf, its stem at a point, its tip along the given way."""
    side = [(0.0, 0.012), (0.06, 0.030), (0.09, 0.075), (0.135, 0.080), (0.150, 0.050), (0.175, 0.050),
        (0.205, 0.115), (0.265, 0.125), (0.285, 0.080), (0.300, 0.062), (0.335, 0.062),
            (0.365, 0.120), (0.425, 0.118), (0.440, 0.075), (0.450, 0.052), (0.480, 0.050), (0.515, 0.080),
                (0.560, 0.062), (0.585, 0.0)]
    outline = turned([*side, *[(x, -y * 0.96) for x, y in side[-2::-1]]], degrees, scale, at)
    mask = plate.fill(outline)
    leaf = level + 0.26 * plate.swell(mask, 0.012, 0.03, 0.06)
    veins = plate.blank()
    plate.stroke_into(veins, turned([(-0.02, 0.0), (0.3, 0.004), (0.56, 0.0)], degrees, scale, at),
        (0.011, 0.008, 0.004), "gauss")
    for x, y, foot in ((0.115, 0.068, 0.06), (0.240, 0.105, 0.15), (0.395, 0.100, 0.29),
        (0.520, 0.060, 0.44)):
        for sign in (-1, 1):
            plate.stroke_into(veins, turned([(foot, 0.0), ((foot + x) / 2 + 0.01, sign * y * 0.45),
                (x, sign * y)], degrees, scale, at), (0.008, 0.004), "gauss")
    leaf -= 0.13 * veins
    leaf += 0.07 * plate.blur(veins, 0.012)
    return over(h, leaf, plate.blur(mask, 0.0025))


def acorn(plate: Plate, h: Field, at: Point, degrees: float, scale: float) -> Field:
    """Set an acorn in its cup, its point along the given way."""
    nut = plate.fill(turned([(0.0, -0.090), (0.08, -0.100), (0.17, -0.088), (0.235, -0.050),
        (0.262, -0.012), (0.290, 0.0), (0.262, 0.012), (0.235, 0.050), (0.17, 0.088), (0.08, 0.100),
        (0.0, 0.090)], degrees, scale, at))
    h = over(h, 0.42 + 0.42 * plate.swell(nut, 0.015, 0.04, 0.07), plate.blur(nut, 0.002))
    for y in (-0.05, 0.0, 0.05):
        h -= 0.04 * plate.stroke(turned([(0.04, y), (0.14, y), (0.23, y * 0.5)], degrees, scale, at),
            0.004, "gauss")
    cup = plate.fill(turned([(-0.10, 0.0), (-0.085, -0.060), (-0.035, -0.105), (0.035, -0.122),
        (0.050, -0.10), (0.062, 0.0), (0.050, 0.10), (0.035, 0.122), (-0.035, 0.105), (-0.085, 0.060)],
        degrees, scale, at))
    knobs = plate.blank()
    for column, x in enumerate(np.linspace(-0.085, 0.040, 5)):
        half = 0.118 * np.sqrt(max(0.05, 1 - ((x - 0.045) / 0.15) ** 2))
        count = max(3, round(half * 2 / 0.040))
        for row in range(count):
            y = (row + 0.5 + (0.25 if column % 2 else -0.25)) / count * 2 * half - half
            knobs = np.maximum(knobs, plate.dome(turned([(float(x), float(y))], degrees, scale, at)[0],
                0.020 * scale))
    return over(h, 0.54 + 0.26 * plate.swell(cup, 0.015, 0.04) + 0.15 * knobs, plate.blur(cup, 0.002))


def oak_sprig(plate: Plate) -> Field:
    """A sprig of oak: three leaves and one acorn."""
    h = plate.blank()
    for line in ([(0.0, 0.36), (0.015, 0.24), (0.0, 0.12), (0.0, 0.02)], [(0.008, 0.21), (0.10, 0.13),
        (0.16, 0.08)]):
        plate.stroke_into(h, line, (0.022, 0.016, 0.013), height=0.56)
    for at, way, scale in (((-0.035, 0.06), -152.0, 0.90), ((0.035, 0.06), -28.0, 0.90), ((0.0, 0.04),
        -90.0, 1.08)):
        h = oak_leaf(plate, h, at, way, scale, 0.34)
    h = acorn(plate, h, (0.205, 0.140), 42.0, 0.92)
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
                leaf = [point(degrees, 0.004 * np.sign(aside)),
                    point(degrees + ahead * 0.45 * size, aside * 0.85 * size),
                    point(degrees + ahead * size, aside * 0.95 * size)]
                part = plate.stroke(leaf, (0.006, 0.030 * size, 0.026 * size, 0.003))
                part -= 0.35 * plate.stroke(leaf, 0.004, "gauss") * (part > 0)
                h = over(h, 0.34 + 0.32 * part, plate.blur((part > 0.08).astype(np.float32), 0.002))
            if index % 3 == 1:
                h = np.maximum(h, 0.66 * plate.dome(point(degrees + 4, 0.030), 0.018))
    bow = plate.blank()
    for side in (-1, 1):
        plate.stroke_into(bow, [(0.0, radius), (side * 0.075, radius - 0.045), (side * 0.10, radius),
            (side * 0.06, radius + 0.028), (0.0, radius)], (0.010, 0.014, 0.014, 0.010))
        plate.stroke_into(bow, [(0.0, radius), (side * 0.05, radius + 0.060),
            (side * 0.085, radius + 0.085)], (0.012, 0.016, 0.010))
    bow = np.maximum(bow, plate.dome((0.0, radius), 0.026))
    return over(h, 0.46 + 0.30 * bow, plate.blur((bow > 0.1).astype(np.float32), 0.002))




def wheel(plate: Plate) -> Field:
    """A wheel of ten spokes, on the pattern of 1912."""
    h = plate.blank()
    at, radius = (0.0, -0.13), 0.44
    for index in range(10):
        angle = np.deg2rad(index * 36 - 90)
        cos, sin = float(np.cos(angle)), float(np.sin(angle))
        plate.stroke_into(h, [(at[0] + cos * 0.06, at[1] + sin * 0.06),
            (at[0] + cos * 0.24, at[1] + sin * 0.24), (at[0] + cos * 0.40, at[1] + sin * 0.40)],
            (0.030, 0.018, 0.026), height=0.62)
    for far, wide, high in ((radius - 0.020, 0.052, 0.74), (radius + 0.035, 0.014, 0.62),
        (0.075, 0.045, 0.80), (0.0, 0.034, 0.9)):
        ring = [(at[0] + far * np.cos(t), at[1] + far * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 61)]
        plate.stroke_into(h, ring, wide, "round", smooth=False, height=high)
    return h
