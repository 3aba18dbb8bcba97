"""The two crowns: small and closed over the veil, open with leaves for the last queen."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, Point, over


def small_crown(plate: Plate, h: Field) -> Field:
    """Set the little crown of her later years on the veil."""
    tilt = np.deg2rad(-8)

    def place(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
        return [
            (-0.055 + px * np.cos(tilt) - py * np.sin(tilt), -0.465 + px * np.sin(tilt) + py * np.cos(tilt))
            for px, py in points
        ]

    cap_mask = plate.fill(place([(-0.125, 0.015), (-0.140, -0.045), (-0.115, -0.095), (-0.045, -0.115),
        (0.045, -0.115), (0.115, -0.095), (0.140, -0.045), (0.125, 0.015)]))
    h = over(h, 0.50 + 0.22 * plate.swell(cap_mask, 0.02, 0.05), plate.blur(cap_mask, 0.003))
    for reach in (-0.115, -0.06, 0.0, 0.06, 0.115):
        arch = place([(reach, 0.0), (reach * 1.28, -0.055), (reach * 0.85, -0.105), (reach * 0.12, -0.125)])
        for share in np.linspace(0.08, 0.95, 8):
            line = np.array(arch)
            px = np.interp(share, np.linspace(0, 1, 4), line[:, 0])
            py = np.interp(share, np.linspace(0, 1, 4), line[:, 1])
            h = np.maximum(h, 0.74 * (plate.dome((px, py), 0.0105) > 0) + 0.12 * plate.dome((px, py), 0.0105))
    band = plate.stroke(place([(-0.128, 0.018), (0.0, 0.030), (0.128, 0.018)]), 0.026, "flat")
    h = over(h, np.full_like(h, 0.72), band)
    for reach in np.linspace(-0.11, 0.11, 7):
        at = place([(float(reach), 0.026 - 0.6 * reach**2)])[0]
        h += 0.14 * plate.dome(at, 0.014, 0.012)
    ball = place([(0.0, -0.140)])[0]
    h = np.maximum(h, 0.85 * plate.dome(ball, 0.022))
    for points in ([(0.0, -0.155), (0.0, -0.205)], [(-0.022, -0.182), (0.022, -0.182)]):
        h = np.maximum(h, 0.72 * plate.stroke(place(points), 0.009, "flat", smooth=False))
    return h


def open_crown(plate: Plate, h: Field) -> Field:
    """Set an open crown of leaves and pearls across the hair."""
    tilt = np.deg2rad(-9)

    def place(points: list[Point]) -> list[Point]:
        return [
            (0.02 + px * np.cos(tilt) - py * np.sin(tilt), -0.385 + px * np.sin(tilt) + py * np.cos(tilt))
            for px, py in points
        ]

    band = [(-0.285, -0.020), (-0.15, 0.025), (0.0, 0.042), (0.15, 0.030), (0.292, -0.010)]
    wide = plate.stroke(place(band), 0.034, "flat")
    inside = plate.fill(place([(-0.285, -0.02), (-0.25, -0.10), (-0.10, -0.13), (0.10, -0.13),
        (0.26, -0.09), (0.292, -0.01), (0.15, 0.03), (0.0, 0.04), (-0.15, 0.025)]))
    h = over(h, 0.40 + 0.18 * plate.swell(inside, 0.02, 0.06), plate.blur(inside, 0.003))
    for reach, size in [(-0.262, 0.62), (-0.14, 0.92), (0.0, 1.0), (0.14, 0.92), (0.268, 0.62)]:
        foot = (reach, 0.03 - 0.75 * reach * reach)
        lean = reach * 0.9
        leaf = [(0.0, 0.0), (-0.030 * size, -0.040), (-0.052 * size, -0.085), (-0.030 * size, -0.095),
            (-0.026 * size, -0.110), (0.0, -0.165),
                (0.026 * size, -0.110), (0.030 * size, -0.095), (0.052 * size, -0.085),
                    (0.030 * size, -0.040)]
        outline = place([(foot[0] + px - lean * py * 0.9, foot[1] + py) for px, py in leaf])
        mask = plate.fill(outline)
        h = over(h, 0.62 + 0.22 * plate.swell(mask, 0.008, 0.02), plate.blur(mask, 0.002))
        h -= 0.07 * plate.stroke(place([(foot[0], foot[1] - 0.03),
            (foot[0] + lean * 0.11, foot[1] - 0.135)]), 0.005, "gauss")
    for reach in (-0.208, -0.07, 0.07, 0.208):
        foot = (reach, 0.03 - 0.75 * reach * reach)
        lean = reach * 0.9
        top = place([(foot[0] + lean * 0.09, foot[1] - 0.100)])[0]
        h = np.maximum(h, 0.60 * plate.stroke(place([foot, (foot[0] + lean * 0.09, foot[1] - 0.09)]),
            0.010, "round", smooth=False))
        h = np.maximum(h, 0.86 * plate.dome(top, 0.021))
    h = over(h, np.full_like(h, 0.74), plate.blur(wide, 0.002))
    for dy in (-0.027, 0.027):
        h += 0.08 * plate.stroke([(px, py + dy) for px, py in place(band)], 0.007, "gauss")
    for index, reach in enumerate(np.linspace(-0.25, 0.25, 9)):
        at = place([(float(reach), 0.042 - 0.75 * reach * reach)])[0]
        h += 0.16 * (plate.dome(at, 0.017) if index % 2 else plate.dome(at, 0.022, 0.016))
    return h
