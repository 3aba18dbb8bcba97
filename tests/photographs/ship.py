"""The daler's device: a three-masted ship under full sail, to the left."""

from __future__ import annotations

import numpy as np
from relief import Field, Plate, Point, over


def sail(plate: Plate, h: Field, top: tuple[Point, Point], foot: tuple[Point, Point], height: float) -> Field:
    """Hang one square sail, filled by wind from the right, between two yards."""
    (tl, tr), (fl, fr) = top, foot
    middle = (tl[1] + fl[1]) / 2
    bulge = 0.030
    outline = [
        tl, ((tl[0] + fl[0]) / 2 - bulge, middle), fl, fl, ((fl[0] + fr[0]) / 2 - 0.012, fl[1] - 0.022),
            fr, fr,
        ((tr[0] + fr[0]) / 2 - bulge * 0.8, middle), tr, tr, ((tl[0] + tr[0]) / 2, tl[1] - 0.002), tl,
    ]
    mask = plate.fill(outline)
    x, _ = plate.axes()
    slope = np.clip((x - (fl[0] + fr[0]) / 2) / max(fr[0] - fl[0], 0.01), -0.5, 0.5)
    cloth = height + 0.24 * plate.swell(mask, 0.012, 0.035, 0.06) - 0.10 * slope
    for share in (0.25, 0.5, 0.75):  # seams of the cloths
        seam = [
            (tl[0] + (tr[0] - tl[0]) * share, tl[1]),
            (tl[0] + (tr[0] - tl[0]) * share - bulge * 0.9, middle),
            (fl[0] + (fr[0] - fl[0]) * share, fl[1] - 0.012),
        ]
        cloth -= 0.045 * plate.stroke(seam, 0.005, "gauss")
    h = over(h, cloth, plate.blur(mask, 0.002))
    return np.maximum(h, 0.78 * plate.stroke([(tl[0] - 0.022, tl[1]), (tr[0] + 0.022, tr[1])],
        0.009, smooth=False))


def ship(plate: Plate) -> Field:
    """Draw hull, masts, sails, flags and the sea."""
    h = plate.blank()
    rigging = [
        ((-0.66, -0.045), (-0.265, -0.46)), ((-0.66, -0.045), (-0.265, -0.26)), ((-0.265, -0.50),
            (0.0, -0.58)), ((0.0, -0.585), (0.26, -0.48)),
        ((0.26, -0.48), (0.50, 0.05)), ((0.26, -0.30), (0.50, 0.05)), ((-0.265, -0.24), (-0.0, -0.10)),
            ((0.0, -0.28), (0.26, -0.06)),
    ]
    for start, end in rigging:
        plate.stroke_into(h, [start, end], 0.0045, "round", smooth=False, height=0.34)
    for x, top in ((-0.265, -0.520), (0.0, -0.605), (0.260, -0.500)):
        plate.stroke_into(h, [(x, 0.14), (x - 0.006, top)], (0.017, 0.007),
            "round", smooth=False, height=0.55)
    for x, top, run in ((-0.271, -0.515, 0.10), (-0.006, -0.600, 0.13), (0.254, -0.495, 0.10)):
        flag = [(x, top), (x - run * 0.4, top - 0.020), (x - run * 0.7, top + 0.004),
            (x - run * 1.2, top - 0.010), (x - run * 1.2, top - 0.010), (x - run * 0.7, top + 0.030),
            (x - run * 0.35, top + 0.022), (x, top + 0.040), (x, top + 0.040)]
        mask = plate.fill(flag)
        h = over(h, 0.34 + 0.16 * plate.swell(mask, 0.006, 0.015), mask)
    # jibs and the spanker
    for outline in (
        [(-0.630, -0.060), (-0.440, -0.150), (-0.300, -0.370), (-0.300, -0.370), (-0.318, -0.200),
            (-0.345, -0.040), (-0.345, -0.040), (-0.480, -0.035)],
        [(0.275, -0.235), (0.345, -0.210), (0.415, -0.195), (0.415, -0.195), (0.440, -0.060),
            (0.480, 0.055), (0.480, 0.055), (0.370, 0.080), (0.285, 0.070), (0.285, 0.070)],
    ):
        mask = plate.fill(outline)
        h = over(h, 0.36 + 0.26 * plate.swell(mask, 0.012, 0.035, 0.07), plate.blur(mask, 0.002))
    for (a, b) in (((-0.625, -0.058), (-0.300, -0.340)), ((0.272, -0.240), (0.425, -0.200)),
        ((0.272, 0.075), (0.50, 0.060))):
        plate.stroke_into(h, [a, b], 0.007, "round", smooth=False, height=0.6)
    h -= 0.06 * plate.stroke([(-0.60, -0.05), (-0.42, -0.10), (-0.315, -0.26)], 0.006, "gauss")
    for x, wide, tops in (
        (0.260, 0.78, (-0.435, -0.320, -0.180, 0.02)),
        (-0.265, 0.92, (-0.460, -0.330, -0.165, 0.045)),
        (0.0, 1.0, (-0.535, -0.390, -0.200, 0.040)),
    ):
        if x > 0.2:
            tops = tops[:3]
        widths = (0.062 * wide, 0.094 * wide, 0.122 * wide, 0.138 * wide)
        for level in range(len(tops) - 2, -1, -1):
            w0, w1 = widths[level], widths[level + 1]
            top, foot = tops[level], tops[level + 1] - 0.016
            h = sail(plate, h, ((x - w0, top), (x + w0, top)), ((x - w1, foot), (x + w1, foot)), 0.46)
    plate.stroke_into(h, [(-0.44, 0.070), (-0.70, -0.050)], (0.014, 0.007), "round", smooth=False, height=0.6)
    hull = plate.fill([
        (-0.490, 0.050), (-0.400, 0.085), (-0.20, 0.105), (0.05, 0.105), (0.28, 0.085), (0.42, 0.050),
            (0.515, 0.010), (0.515, 0.010),
        (0.500, 0.090), (0.465, 0.180), (0.430, 0.250), (0.430, 0.250), (0.10, 0.270), (-0.20, 0.270),
            (-0.370, 0.255), (-0.370, 0.255), (-0.430, 0.190), (-0.465, 0.110), (-0.490, 0.050),
    ])
    body = 0.42 + 0.34 * plate.swell(hull, 0.012, 0.04, 0.09)
    for drop, size in ((0.030, 0.011), (0.075, 0.008), (0.112, 0.008)):
        wale = [(-0.475 + drop * 0.4, 0.058 + drop), (-0.20, 0.108 + drop), (0.10, 0.108 + drop),
            (0.32, 0.078 + drop), (0.505 - drop * 0.25, 0.016 + drop)]
        body += 0.09 * plate.stroke(wale, size, "gauss")
    for x in np.linspace(-0.34, 0.36, 10):
        y = 0.158 - 0.30 * float(x - 0.0) ** 2 * 0.9
        port = plate.fill([(x - 0.013, y - 0.012), (x + 0.013, y - 0.012), (x + 0.013, y + 0.012),
            (x - 0.013, y + 0.012)], smooth=False)
        body -= 0.14 * plate.blur(port, 0.002)
    h = over(h, body, plate.blur(hull, 0.0025))
    return sea(plate, h, 0.255, 3, 0.60)


def sea(plate: Plate, h: Field, top: float, rows: int, half: float, crests: int = 7) -> Field:
    """Roll rows of waves under a device, each row's crests set between those above."""
    for row in range(rows):
        y = top + row * 0.055
        reach = half - row * 0.05
        t = np.linspace(-1, 1, crests * 8 + 1)
        phase = np.pi * row
        wave = np.abs(np.sin((t + 1) / 2 * crests * np.pi + phase / 2))
        line = np.stack([t * reach, y - 0.030 * wave + 0.012], axis=1)
        taper = (0.004, *([0.014] * 6), 0.004)
        skirt = plate.fill([*map(tuple, line.tolist()), (reach, y + 0.045), (-reach, y + 0.045)],
            smooth=False)
        if row == 0:
            h = h * (1 - plate.blur(skirt, 0.002))
        h = over(h, 0.30 * plate.swell(skirt, 0.02, 0.03), plate.blur(skirt, 0.003) * 0.9)
        h = np.maximum(h, 0.62 * plate.stroke(line, taper, "round", smooth=False))
    return h
