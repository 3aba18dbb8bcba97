"""What the queens wear on their heads: a fillet that binds the veil, and an open crown of leaves."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, Point, over


def fillet(plate: Plate, h: Field) -> Field:
    """Bind the veil of her later years with a broad band of plaited cord, set with stones and knotted behind."""
    line: list[Point] = [(-0.262, -0.292), (-0.190, -0.352), (-0.070, -0.388), (0.070, -0.376),
        (0.200, -0.318), (0.300, -0.226)]  # fmt: skip
    band = plate.stroke(line, 0.058, "flat")
    h = over(h, np.full_like(h, 0.66), plate.blur(band, 0.002))
    for edge in (-0.024, 0.024):
        h += 0.09 * plate.stroke([(x, y + edge) for x, y in line], 0.009, "gauss")
    along = np.array(line)
    places = np.linspace(0, 1, len(line))
    for nth, share in enumerate(np.linspace(0.03, 0.97, 19)):
        at = (float(np.interp(share, places, along[:, 0])), float(np.interp(share, places, along[:, 1])))
        if nth % 3 == 1:
            h += 0.20 * plate.dome(at, 0.016, 0.014)
        else:
            h += 0.09 * plate.dome(at, 0.011, 0.018)
    ends = (
        [(0.300, -0.226), (0.345, -0.150), (0.352, -0.050)],
        [(0.300, -0.226), (0.318, -0.130), (0.300, -0.030)],
    )
    for end in ends:
        cord = plate.stroke(end, (0.030, 0.026, 0.034), "flat")
        h = over(h, np.full_like(h, 0.60), plate.blur(cord, 0.002))
    return np.maximum(h, 0.80 * plate.dome((0.302, -0.222), 0.036))


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
