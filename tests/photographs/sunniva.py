"""The bust of Sunniva: to the right, under an open crown, a long plait over a draped shoulder."""

from __future__ import annotations

import numpy as np

from faces import Face, model_face
from hair import plait
from relief import Field, Plate, Point, over


def sunniva(plate: Plate) -> Field:
    """Draw the queen to the left, as faces are, and mirror her."""
    face = Face(
        profile=[
            (-0.220, -0.345), (-0.268, -0.280), (-0.292, -0.205), (-0.297, -0.150), (-0.290, -0.118), (-0.281, -0.090),
            (-0.300, -0.052), (-0.325, -0.014), (-0.350, 0.016), (-0.360, 0.034), (-0.354, 0.050), (-0.334, 0.058),
            (-0.305, 0.066), (-0.300, 0.085), (-0.312, 0.105), (-0.322, 0.119), (-0.314, 0.130), (-0.300, 0.136), (-0.312, 0.145), (-0.314, 0.160),
            (-0.300, 0.174), (-0.284, 0.184), (-0.280, 0.198), (-0.286, 0.218), (-0.280, 0.244), (-0.258, 0.264), (-0.225, 0.272),
        ],
        jaw=[(-0.165, 0.265), (-0.09, 0.232), (-0.015, 0.175), (0.055, 0.100), (0.090, 0.020)],
        crown=[(0.14, -0.06), (0.16, -0.22), (0.05, -0.36), (-0.10, -0.40)],
        eye=(-0.228, -0.078),
        brow=[(-0.290, -0.126), (-0.238, -0.148), (-0.160, -0.122)],
        wing=(-0.298, 0.036),
        lips=(-0.304, 0.136),
        corner=(-0.244, 0.140),
        chin=(-0.252, 0.228),
        cheek=(-0.150, 0.012),
    )
    head, head_mask = model_face(plate, face)
    bust_mask = plate.fill([
        (-0.12, 0.18), (-0.082, 0.275), (-0.070, 0.340), (-0.090, 0.410), (-0.160, 0.480), (-0.265, 0.540), (-0.360, 0.600), (-0.360, 0.600),
        (-0.26, 0.655), (-0.12, 0.695), (0.04, 0.705), (0.20, 0.680), (0.34, 0.630), (0.46, 0.550), (0.46, 0.550),
        (0.43, 0.48), (0.34, 0.435), (0.265, 0.380), (0.235, 0.300), (0.235, 0.160), (0.08, 0.02),
    ])
    bust = 0.20 * plate.swell(bust_mask, 0.012, 0.03) + 0.28 * plate.swell(bust_mask, 0.09, 0.20)
    bust += 0.06 * plate.stroke([(0.12, 0.12), (0.03, 0.30), (-0.06, 0.42)], (0.03, 0.033, 0.02), "gauss")
    bust += 0.05 * plate.stroke([(-0.06, 0.455), (-0.15, 0.505), (-0.24, 0.545)], (0.014, 0.018, 0.014), "gauss")  # the collar bone
    bust -= 0.10 * plate.stroke([(-0.16, 0.300), (-0.07, 0.262), (0.02, 0.200), (0.09, 0.11)], (0.02, 0.03, 0.03), "gauss")
    bust = np.maximum(bust, 0) * bust_mask
    # drapery over the shoulder, gathered under a brooch
    cloth_mask = plate.fill([
        (-0.36, 0.600), (-0.275, 0.578), (-0.16, 0.582), (-0.04, 0.545), (0.06, 0.480), (0.15, 0.415), (0.24, 0.385), (0.33, 0.425), (0.43, 0.475), (0.47, 0.55), (0.47, 0.55),
        (0.34, 0.633), (0.20, 0.683), (0.04, 0.708), (-0.12, 0.698), (-0.26, 0.658),
    ]) * bust_mask
    folds = plate.locks(
        [
            [(0.10, 0.475), (0.00, 0.540), (-0.12, 0.590), (-0.24, 0.600), (-0.34, 0.605)],
            [(0.11, 0.490), (0.02, 0.590), (-0.10, 0.650), (-0.20, 0.665), (-0.26, 0.660)],
            [(0.12, 0.500), (0.08, 0.600), (0.02, 0.670), (-0.02, 0.700), (-0.06, 0.705)],
            [(0.13, 0.495), (0.16, 0.590), (0.16, 0.650), (0.16, 0.680), (0.16, 0.700)],
            [(0.14, 0.480), (0.24, 0.550), (0.29, 0.600), (0.32, 0.630), (0.34, 0.640)],
            [(0.14, 0.460), (0.27, 0.480), (0.36, 0.520), (0.42, 0.550), (0.46, 0.560)],
        ],
        15, (0.008, 0.018, 0.026, 0.026, 0.020), 0.004, seed=14,
    )
    cloth = 0.36 * plate.swell(cloth_mask, 0.012, 0.04) + 0.14 * plate.swell(cloth_mask, 0.12) + 0.20 * plate.blur(folds, 0.004)
    bust = over(bust, cloth, plate.blur(cloth_mask, 0.003))
    h = over(bust, head, plate.blur(head_mask, 0.004))
    # hair, waved back from the brow
    hair_mask = plate.fill([
        (-0.270, -0.300), (-0.255, -0.365), (-0.205, -0.420), (-0.10, -0.470), (0.03, -0.485), (0.16, -0.455), (0.265, -0.380), (0.325, -0.265), (0.338, -0.140), (0.312, -0.020), (0.272, 0.085), (0.225, 0.150), (0.165, 0.155),
        (0.105, 0.105), (0.055, 0.055), (0.005, -0.020), (-0.040, -0.100), (-0.105, -0.165), (-0.180, -0.220), (-0.235, -0.262),
    ])
    strands = plate.locks(
        [
            [(-0.262, -0.290), (-0.160, -0.215), (-0.070, -0.140), (0.010, -0.030), (0.090, 0.070), (0.190, 0.135)],
            [(-0.265, -0.325), (-0.130, -0.290), (-0.010, -0.210), (0.080, -0.090), (0.150, 0.020), (0.215, 0.110)],
            [(-0.240, -0.385), (-0.090, -0.390), (0.050, -0.320), (0.150, -0.190), (0.215, -0.050), (0.240, 0.080)],
            [(-0.180, -0.440), (0.000, -0.475), (0.150, -0.430), (0.265, -0.300), (0.300, -0.120), (0.265, 0.060)],
        ],
        26, (0.008, 0.015, 0.018, 0.016, 0.009), 0.007, seed=13,
    )
    x, y = plate.axes()
    hair = 0.34 * plate.swell(hair_mask, 0.015, 0.04) + 0.40 * plate.swell(hair_mask, 0.10, 0.2) + 0.18 * strands
    hair += 0.035 * np.sin((x * 0.9 - y * 0.5) * 30 + 1.5 * np.sin(y * 8)) * plate.blur(hair_mask, 0.03)
    h = over(h, hair * hair_mask, plate.blur(hair_mask, 0.003))
    # the plait, from behind the ear down over the shoulder
    path = [(0.225, 0.070), (0.290, 0.150), (0.305, 0.250), (0.262, 0.350), (0.190, 0.440), (0.150, 0.530), (0.165, 0.625)]
    braid = plait(plate, path, (0.066, 0.074, 0.070, 0.060, 0.042), 12)
    h = over(h, 0.42 + 0.42 * braid, plate.blur((braid > 0.03).astype(np.float32), 0.003))
    tie = plate.stroke([(0.128, 0.622), (0.200, 0.632)], 0.017)
    h = over(h, 0.66 + 0.12 * tie, (tie > 0.2).astype(np.float32))
    tassel = plate.locks([[(0.145, 0.635), (0.132, 0.675), (0.125, 0.705)], [(0.188, 0.640), (0.205, 0.675), (0.215, 0.700)]], 5, (0.010, 0.013, 0.004), seed=2)
    h = over(h, 0.40 + 0.2 * tassel, plate.blur((tassel > 0.15).astype(np.float32), 0.002))
    h = np.maximum(h, 0.62 * (plate.dome((0.088, 0.485), 0.040) > 0) + 0.14 * plate.dome((0.088, 0.485), 0.040))
    h += 0.12 * plate.dome((0.088, 0.485), 0.020)
    h += 0.20 * plate.dome((0.072, 0.085), 0.013) + 0.24 * plate.dome((0.072, 0.120), 0.013, 0.022)
    return np.ascontiguousarray(open_crown(plate, h)[:, ::-1])


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
    inside = plate.fill(place([(-0.285, -0.02), (-0.25, -0.10), (-0.10, -0.13), (0.10, -0.13), (0.26, -0.09), (0.292, -0.01), (0.15, 0.03), (0.0, 0.04), (-0.15, 0.025)]))
    h = over(h, 0.40 + 0.18 * plate.swell(inside, 0.02, 0.06), plate.blur(inside, 0.003))
    for reach, size in [(-0.262, 0.62), (-0.14, 0.92), (0.0, 1.0), (0.14, 0.92), (0.268, 0.62)]:
        foot = (reach, 0.03 - 0.75 * reach * reach)
        lean = reach * 0.9
        leaf = [(0.0, 0.0), (-0.030 * size, -0.040), (-0.052 * size, -0.085), (-0.030 * size, -0.095), (-0.026 * size, -0.110), (0.0, -0.165),
                (0.026 * size, -0.110), (0.030 * size, -0.095), (0.052 * size, -0.085), (0.030 * size, -0.040)]
        outline = place([(foot[0] + px - lean * py * 0.9, foot[1] + py) for px, py in leaf])
        mask = plate.fill(outline)
        h = over(h, 0.62 + 0.22 * plate.swell(mask, 0.008, 0.02), plate.blur(mask, 0.002))
        h -= 0.07 * plate.stroke(place([(foot[0], foot[1] - 0.03), (foot[0] + lean * 0.11, foot[1] - 0.135)]), 0.005, "gauss")
    for reach in (-0.208, -0.07, 0.07, 0.208):
        foot = (reach, 0.03 - 0.75 * reach * reach)
        lean = reach * 0.9
        top = place([(foot[0] + lean * 0.09, foot[1] - 0.100)])[0]
        h = np.maximum(h, 0.60 * plate.stroke(place([foot, (foot[0] + lean * 0.09, foot[1] - 0.09)]), 0.010, "round", smooth=False))
        h = np.maximum(h, 0.86 * plate.dome(top, 0.021))
    h = over(h, np.full_like(h, 0.74), plate.blur(wide, 0.002))
    for dy in (-0.027, 0.027):
        h += 0.08 * plate.stroke([(px, py + dy) for px, py in place(band)], 0.007, "gauss")
    for index, reach in enumerate(np.linspace(-0.25, 0.25, 9)):
        at = place([(float(reach), 0.042 - 0.75 * reach * reach)])[0]
        h += 0.16 * (plate.dome(at, 0.017) if index % 2 else plate.dome(at, 0.022, 0.016))
    return h
