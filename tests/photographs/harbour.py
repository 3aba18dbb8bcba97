"""Devices of the harbour: the fouled anchor and the lighthouse on its rock."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, curve, over
from ship import sea


def anchor(plate: Plate, before: bool = True) -> Field:
    """An anchor with its cable, which passes before the shank or behind it."""
    h = plate.blank()

    def rope(path: list[tuple[float, float]], level: float) -> None:
        nonlocal h
        line = curve(path, steps=30)
        far = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
        body = plate.stroke(path, 0.026)
        h = over(h, level + 0.20 * body, plate.blur((body > 0.12).astype(np.float32), 0.002))
        lay = plate.blank()
        for place in np.arange(0.012, far[-1], 0.026):
            x, y = np.interp(place, far, line[:, 0]), np.interp(place, far, line[:, 1])
            dx = np.interp(place + 0.005, far, line[:, 0]) - np.interp(place - 0.005, far, line[:, 0])
            dy = np.interp(place + 0.005, far, line[:, 1]) - np.interp(place - 0.005, far, line[:, 1])
            size = max(np.hypot(dx, dy), 1e-9)
            dx, dy = dx / size, dy / size
            plate.stroke_into(
                lay, [(x - dy * 0.026 - dx * 0.013, y + dx * 0.026 - dy * 0.013),
                    (x + dy * 0.026 + dx * 0.013, y - dx * 0.026 + dy * 0.013)],
                0.006, "gauss", smooth=False,
            )
        h = h - 0.15 * lay * (body > 0.05)

    # what passes behind
    rope([(0.0, -0.555), (0.10, -0.530), (0.185, -0.430), (0.150, -0.315), (0.0, -0.235)], 0.26)
    rope([(0.0, -0.225), (-0.125, -0.150), (-0.150, -0.050), (-0.060, 0.020), (0.02, 0.045)], 0.26)
    # ring, shank, arms
    ring = [(0.062 * np.cos(t), -0.565 + 0.062 * np.sin(t)) for t in np.linspace(0, 2 * np.pi, 25)]
    h = np.maximum(h, 0.70 * plate.stroke(ring, 0.019, smooth=False))
    shank = plate.fill([(-0.026, -0.52), (0.026, -0.52), (0.036, 0.22), (0.060, 0.32), (-0.060, 0.32),
        (-0.036, 0.22)], smooth=False)
    h = over(h, 0.42 + 0.34 * plate.swell(shank, 0.012, 0.03), plate.blur(shank, 0.002))
    arms = plate.fill([
        (-0.455, 0.055), (-0.415, 0.150), (-0.330, 0.225), (-0.200, 0.280), (-0.060, 0.300), (0.0, 0.285),
            (0.060, 0.300), (0.200, 0.280), (0.330, 0.225), (0.415, 0.150), (0.455, 0.055), (0.455, 0.055),
        (0.462, 0.165), (0.385, 0.270), (0.240, 0.345), (0.100, 0.370), (0.0, 0.415), (0.0, 0.415),
            (-0.100, 0.370), (-0.240, 0.345), (-0.385, 0.270), (-0.462, 0.165), (-0.455, 0.055),
    ])
    h = over(h, 0.44 + 0.34 * plate.swell(arms, 0.012, 0.035), plate.blur(arms, 0.002))
    for side in (-1, 1):
        fluke = plate.fill([(side * x, y) for x, y in [(0.480, -0.015), (0.480, -0.015), (0.530, 0.150),
            (0.515, 0.215), (0.515, 0.215), (0.440, 0.180), (0.350, 0.115), (0.335, 0.085), (0.335, 0.085),
            (0.405, 0.050)]])
        h = over(h, 0.56 + 0.26 * plate.swell(fluke, 0.012, 0.04), plate.blur(fluke, 0.002))
        h += 0.07 * plate.stroke([(side * 0.475, 0.01), (side * 0.445, 0.165)], 0.012, "gauss", smooth=False)
    stock = plate.fill([(-0.335, -0.460), (-0.10, -0.478), (0.10, -0.478), (0.335, -0.460),
        (0.350, -0.430), (0.335, -0.400), (0.10, -0.382), (-0.10, -0.382), (-0.335, -0.400),
        (-0.350, -0.430)])
    h = over(h, 0.58 + 0.26 * plate.swell(stock, 0.012, 0.035), plate.blur(stock, 0.002))
    for x in (-0.23, -0.095, 0.095, 0.23):
        h += 0.09 * plate.stroke([(x, -0.472), (x, -0.388)], 0.012, "flat", smooth=False)
    # what passes in front
    rope([(0.02, 0.045), (0.150, 0.085), (0.235, 0.020), (0.300, -0.055), (0.370, -0.060),
        (0.400, -0.130)], 0.36)
    if before:
        rope([(0.150, -0.315), (0.075, -0.272), (0.0, -0.235), (-0.075, -0.190), (-0.125, -0.150)], 0.66)
        rope([(-0.105, -0.005), (-0.060, 0.018), (0.0, 0.038), (0.085, 0.062)], 0.66)
    return h


def lighthouse(plate: Plate, beams: float = 0.60) -> Field:
    """A lighthouse, its lamp lit, on a rock in the sea; `beams` is how far the light reaches."""
    h = plate.blank()
    for side in (-1, 1):  # the beams
        for degrees in (-27, -9, 9):
            a = np.deg2rad(degrees)
            start, end = 0.125, beams * (0.86 if degrees == -27 else 1.0)
            plate.stroke_into(
                h, [(side * np.cos(a) * start, -0.455 + np.sin(a) * start),
                    (side * np.cos(a) * end, -0.455 + np.sin(a) * end)],
                (0.008, 0.018, 0.024), smooth=False, height=0.40,
            )
    tower = plate.fill([(-0.082, -0.345), (0.082, -0.345), (0.100, -0.10), (0.145, 0.235), (-0.145, 0.235),
        (-0.100, -0.10)], smooth=False)
    x, y = plate.axes()
    wide = 0.082 + 0.063 * np.clip((y + 0.345) / 0.58, 0, 1)
    round_tower = np.sqrt(np.clip(1 - (x / wide) ** 2, 0, 1))
    body = 0.30 + 0.44 * round_tower
    courses = np.linspace(-0.345, 0.235, 13)
    for index, level in enumerate(courses):
        body -= 0.09 * plate.stroke([(-0.2, level), (0.0, level + 0.012), (0.2, level)], 0.0045, "gauss")
        half = 0.082 + 0.063 * (level + 0.345) / 0.58
        for joint in (np.array([-0.55, 0.1, 0.72]) if index % 2 else np.array([-0.78, -0.2, 0.45])):
            px = joint * half
            body -= 0.06 * plate.stroke([(px, level + 0.012), (px * 1.02, level + 0.050)],
                0.0035, "gauss", smooth=False)
    h = over(h, body, plate.blur(tower, 0.002))
    for level in (-0.21, -0.03):
        window = plate.fill([(-0.018, level + 0.03), (-0.018, level - 0.01), (0.0, level - 0.028),
            (0.018, level - 0.01), (0.018, level + 0.03)], smooth=False)
        h = h * (1 - window) + 0.46 * window
    door = plate.fill([(-0.034, 0.215), (-0.034, 0.145), (-0.018, 0.115), (0.0, 0.105), (0.018, 0.115),
        (0.034, 0.145), (0.034, 0.215)], smooth=False)
    h = h * (1 - door) + 0.48 * door
    h += 0.07 * plate.stroke([(-0.038, 0.215), (-0.038, 0.145), (0.0, 0.098), (0.038, 0.145),
        (0.038, 0.215)], 0.006, "gauss", smooth=False)
    gallery = plate.fill([(-0.135, -0.372), (0.135, -0.372), (0.115, -0.335), (-0.115, -0.335)], smooth=False)
    h = over(h, 0.60 + 0.16 * plate.swell(gallery, 0.01, 0.02), plate.blur(gallery, 0.002))
    for px in np.linspace(-0.125, 0.125, 11):
        plate.stroke_into(h, [(px, -0.372), (px, -0.412)], 0.0055, smooth=False, height=0.56)
    plate.stroke_into(h, [(-0.130, -0.414), (0.130, -0.414)], 0.007, smooth=False, height=0.64)
    room = plate.fill([(-0.062, -0.372), (-0.062, -0.505), (0.062, -0.505), (0.062, -0.372)], smooth=False)
    h = over(h, np.maximum(h, 0.44 + 0.20 * np.sqrt(np.clip(1 - (x / 0.066) ** 2, 0, 1))), room)
    for px in (-0.056, -0.021, 0.021, 0.056):
        plate.stroke_into(h, [(px, -0.415), (px, -0.505)], 0.0055, smooth=False, height=0.72)
    h = np.maximum(h, 0.86 * plate.dome((0.0, -0.458), 0.022, 0.030))
    roof = plate.fill([(-0.088, -0.502), (-0.075, -0.545), (-0.035, -0.585), (0.0, -0.598),
        (0.035, -0.585), (0.075, -0.545), (0.088, -0.502)])
    h = over(h, 0.50 + 0.30 * plate.swell(roof, 0.012, 0.03), plate.blur(roof, 0.002))
    h = np.maximum(h, 0.66 * plate.dome((0.0, -0.612), 0.017))
    plate.stroke_into(h, [(0.0, -0.62), (0.0, -0.665)], (0.006, 0.003), smooth=False, height=0.5)
    # the rock, in facets
    rock = plate.fill([(-0.46, 0.345), (-0.40, 0.275), (-0.355, 0.270), (-0.300, 0.215), (-0.235, 0.222),
        (-0.190, 0.175), (-0.130, 0.205), (-0.05, 0.215), (0.06, 0.205), (0.130, 0.210), (0.185, 0.185),
        (0.245, 0.235), (0.320, 0.230), (0.375, 0.290), (0.440, 0.300), (0.490, 0.350)], smooth=False)
    random = np.random.default_rng(81)
    seeds = np.stack([random.uniform(-0.5, 0.5, 46), random.uniform(0.15, 0.37, 46)], axis=1)
    best = np.full_like(h, 9.0)
    facet = plate.blank()
    for sx, sy in seeds:
        near = (x - sx) ** 2 + ((y - sy) * 1.5) ** 2
        tilt = 0.48 + (x - sx) * random.normal(0, 1.2) + (y - sy) * random.normal(-0.4,
            1.2) + random.normal(0, 0.04)
        facet = np.where(near < best, tilt, facet)
        best = np.minimum(best, near)
    stone = np.clip(plate.blur(facet.astype(np.float32), 0.004), 0.25, 0.75)
    h = over(h, stone * (0.5 + 0.5 * plate.swell(rock, 0.015, 0.04)), plate.blur(rock, 0.002))
    waves = sea(plate, plate.blank(), 0.340, 2, 0.56)
    return np.where(waves > 0.02, np.maximum(waves, h * 0.0), h) * (y < 0.47)
