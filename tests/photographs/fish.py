"""The herring: one, two crossed, and two crossed for the wreath of the nickel coin."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, Point, over, turned


def fish(plate: Plate, degrees: float, at: Point, scale: float, mirrored: bool) -> tuple[Field, Field]:
    """Lay one herring along a line, head first; heights and mask."""
    flip = -1.0 if mirrored else 1.0

    def place(points: list[Point]) -> list[Point]:
        return turned([(x, y * flip) for x, y in points], degrees, scale, at)

    body = [
        (-0.60, 0.004), (-0.555, -0.038), (-0.46, -0.078), (-0.32, -0.108), (-0.12, -0.118),
            (0.10, -0.098), (0.28, -0.060), (0.42, -0.026), (0.47, -0.020), (0.47, 0.022), (0.42, 0.030),
            (0.28, 0.075), (0.10, 0.116), (-0.12, 0.130), (-0.32, 0.112), (-0.46, 0.076), (-0.56, 0.034),
    ]
    tail = [(0.44, 0.0), (0.50, -0.045), (0.58, -0.105), (0.66, -0.145), (0.66, -0.145), (0.625, -0.070),
        (0.605, 0.0), (0.625, 0.075), (0.66, 0.150), (0.66, 0.150), (0.58, 0.110), (0.50, 0.048)]
    fins = [
        [(-0.10, -0.105), (-0.06, -0.185), (0.02, -0.195), (0.02, -0.195), (0.06, -0.150), (0.10, -0.095)],
        [(0.10, 0.105), (0.18, 0.170), (0.24, 0.165), (0.24, 0.165), (0.26, 0.120), (0.28, 0.072)],
        [(-0.08, 0.122), (-0.03, 0.185), (0.02, 0.180), (0.02, 0.180), (0.03, 0.150), (0.04, 0.120)],
    ]
    mask = plate.fill(place(body))
    h = (0.30 + 0.48 * plate.swell(mask, 0.015 * scale, 0.05 * scale, 0.09 * scale)) * mask
    scales = plate.blank()
    for column in range(17):
        x = -0.33 + column * 0.045
        half = 0.118 * (1 - ((x + 0.10) / 0.66) ** 2)
        for row in range(-3, 4):
            y = (row + (0.5 if column % 2 else 0)) * 0.038
            if abs(y) > half - 0.018:
                continue
            arc = [(x + 0.022 * np.cos(t) - 0.012, y + 0.021 * np.sin(t)) for t in np.linspace(-1.5, 1.5, 5)]
            plate.stroke_into(scales, place(arc), 0.0065 * scale, "gauss")
    h -= 0.085 * scales * mask
    gill = [(-0.405, -0.082), (-0.365, -0.030), (-0.365, 0.035), (-0.405, 0.088)]
    h -= 0.16 * plate.stroke(place(gill), 0.010 * scale, "gauss") * mask
    h += 0.08 * plate.stroke(place([(x - 0.028, y) for x, y in gill]), 0.016 * scale, "gauss") * mask
    h -= 0.10 * plate.stroke(place([(-0.595, 0.010), (-0.545, 0.020), (-0.515, 0.038)]),
        0.006 * scale, "gauss")
    eye = place([(-0.495, -0.022)])[0]
    h += 0.14 * plate.dome(eye, 0.026 * scale)
    h -= 0.18 * plate.bump(eye, 0.008 * scale)
    for outline in [tail, *fins]:
        part = plate.fill(place(outline))
        h = np.maximum(h, (0.32 + 0.16 * plate.swell(part, 0.01 * scale, 0.03 * scale)) * part)
        mask = np.maximum(mask, part)
    rays = plate.blank()
    for share in np.linspace(-0.9, 0.9, 9):
        plate.stroke_into(rays, place([(0.48, share * 0.018), (0.63, share * 0.125)]),
            0.006 * scale, "gauss", smooth=False)
    for foot, tip in (((-0.07, -0.115), (-0.03, -0.185)), ((-0.02, -0.112), (0.015, -0.185)),
        ((0.03, -0.105), (0.045, -0.155)), ((0.15, 0.10), (0.20, 0.16)), ((0.21, 0.09), (0.24, 0.145))):
        plate.stroke_into(rays, place([foot, tip]), 0.006 * scale, "gauss", smooth=False)
    h -= 0.11 * rays * mask
    fin = [(-0.335, 0.020), (-0.26, 0.048), (-0.20, 0.085), (-0.20, 0.085), (-0.25, 0.080), (-0.33, 0.055)]
    paddle = plate.fill(place(fin))
    h = over(h, 0.80 + 0.08 * plate.swell(paddle, 0.006 * scale, 0.012 * scale), paddle)
    return h * mask, mask


def crossed_fish(plate: Plate, at: Point = (0.0, -0.10), scale: float = 0.80) -> Field:
    """Two herring in saltire, heads upward, the right-hand one on top."""
    h, _ = fish(plate, 48.0, at, scale, mirrored=True)
    upper, mask = fish(plate, 132.0, at, scale, mirrored=False)
    return over(h * 0.85, upper, plate.blur(mask, 0.002))
