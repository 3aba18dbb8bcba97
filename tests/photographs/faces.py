"""What every head has in common: a face modelled from its outline and landmarks, and an ear.

Faces look left; whoever looks right is mirrored when the head is done.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from relief import Field, Plate, Point, over


@dataclass(frozen=True, slots=True)
class Face:
    """A face to the left: its outline from the hair over nose and chin to the throat, and where features lie."""

    profile: Sequence[Point]
    jaw: Sequence[Point]  # from under the chin back to the ear
    crown: Sequence[Point]  # from the ear over the head back to the forehead, under the hair
    eye: Point
    brow: Sequence[Point]
    wing: Point
    lips: Point  # where the lips meet, at the front
    corner: Point
    chin: Point
    cheek: Point
    weight: float = 0.0  # how full the face is


def model_face(plate: Plate, face: Face) -> tuple[Field, Field]:
    """Model a face: heights in parts of the whole relief, and its mask."""
    mask = plate.fill([*face.profile, *face.jaw, *face.crown])
    # steep at the profile, then rising slowly to the cheek
    h = 0.30 * plate.swell(mask, 0.012, 0.03) + 0.42 * plate.swell(mask, 0.07, 0.16)
    ex, ey = face.eye
    h += 0.12 * plate.bump(face.cheek, 0.10, 0.075, -25)
    h -= 0.05 * plate.bump((face.cheek[0] - 0.02, face.cheek[1] + 0.125), 0.05, 0.05)
    # the socket under the brow
    h -= 0.16 * plate.bump((ex - 0.012, ey - 0.012), 0.048, 0.034, -8)
    h -= 0.07 * plate.bump((ex - 0.055, ey + 0.005), 0.022, 0.05)
    h += 0.10 * plate.stroke(face.brow, (0.018, 0.026, 0.014), "gauss")
    h += 0.025 * plate.stroke([(x, y - 0.004) for x, y in face.brow], (0.006, 0.009, 0.004), "gauss")
    # eyeball, lids and the crease
    h += 0.125 * plate.bump((ex - 0.006, ey), 0.024, 0.020)
    lid = [(ex - 0.036, ey + 0.006), (ex - 0.022, ey - 0.017), (ex + 0.006, ey - 0.019),
        (ex + 0.046, ey + 0.006)]
    h += 0.075 * plate.stroke(lid, (0.006, 0.009, 0.008, 0.004), "gauss")
    h -= 0.045 * plate.stroke([(x + 0.002, y - 0.018) for x, y in lid], (0.004, 0.006, 0.004), "gauss")
    h += 0.04 * plate.stroke(
        [(ex - 0.032, ey + 0.012), (ex - 0.012, ey + 0.021), (ex + 0.018, ey + 0.018),
            (ex + 0.042, ey + 0.008)],
        (0.004, 0.007, 0.004), "gauss",
    )
    h -= 0.05 * plate.bump((ex - 0.020, ey + 0.001), 0.007, 0.009)  # the pupil
    # wing of the nose and its furrow
    wx, wy = face.wing
    h += 0.12 * plate.bump((wx, wy), 0.024, 0.022)
    h -= 0.10 * plate.stroke(
        [(wx + 0.014, wy - 0.030), (wx + 0.031, wy - 0.008), (wx + 0.030, wy + 0.018)],
            (0.006, 0.009, 0.005), "gauss"
    )
    h -= 0.11 * plate.bump((wx - 0.022, wy + 0.018), 0.014, 0.007, 15)
    fold = [(wx + 0.035, wy - 0.002), (wx + 0.062, wy + 0.045),
        (face.corner[0] + 0.030, face.corner[1] - 0.01)]
    h -= (0.022 + 0.05 * face.weight) * plate.stroke(fold, (0.010, 0.014, 0.008), "gauss")
    # mouth
    lx, ly = face.lips
    cx, cy = face.corner
    middle = ((lx + cx) / 2, (ly + cy) / 2)
    upper = [(lx - 0.012, ly - 0.014), (middle[0] - 0.008, middle[1] - 0.017), (cx, cy - 0.004)]
    lower = [(lx - 0.004, ly + 0.019), (middle[0] - 0.006, middle[1] + 0.019), (cx - 0.008, cy + 0.008)]
    h += 0.075 * plate.stroke(upper, (0.010, 0.012, 0.004), "gauss")
    h += 0.085 * plate.stroke(lower, (0.013, 0.014, 0.004), "gauss")
    h -= 0.13 * plate.stroke([(lx - 0.03, ly - 0.001), (middle[0], middle[1] + 0.002), (cx, cy)],
        (0.005, 0.006, 0.004), "gauss")
    h -= 0.06 * plate.bump((cx + 0.006, cy + 0.003), 0.013, 0.016)
    h -= 0.06 * plate.bump((middle[0] - 0.006, middle[1] + 0.047), 0.030, 0.013)
    h += 0.08 * plate.bump(face.chin, 0.034, 0.030)
    h += 0.10 * face.weight * plate.bump((face.chin[0] + 0.12, face.chin[1] + 0.01), 0.07, 0.04, -10)
    return np.maximum(h, 0) * mask, mask


def model_ear(plate: Plate, h: Field, at: Point, tall: float, lean: float = -12.0) -> Field:
    """Set an ear on a head."""
    s = tall / 0.17
    cos, sin = np.cos(np.deg2rad(lean)) * s, np.sin(np.deg2rad(lean)) * s

    def put(points: Sequence[Point]) -> list[Point]:
        return [(at[0] + x * cos - y * sin, at[1] + x * sin + y * cos) for x, y in points]

    shell = plate.fill(put([(-0.028, -0.035), (-0.012, -0.078), (0.026, -0.085), (0.052, -0.055),
        (0.046, -0.005), (0.022, 0.035), (0.008, 0.075), (-0.018, 0.080), (-0.030, 0.045)]))
    h = over(h, np.maximum(h * 0.8, 0.52) + 0.20 * plate.swell(shell, 0.012 * s, 0.03 * s),
        plate.blur(shell, 0.003))
    helix = put([(-0.018, -0.015), (-0.022, -0.050), (0.002, -0.074), (0.032, -0.066), (0.040, -0.030),
        (0.028, 0.010), (0.008, 0.045)])
    h += 0.13 * plate.stroke(helix, (0.006 * s, 0.010 * s, 0.011 * s, 0.008 * s), "gauss")
    h += 0.07 * plate.stroke(put([(0.018, -0.045), (0.016, -0.010), (-0.004, 0.028)]),
        (0.006 * s, 0.009 * s, 0.006 * s), "gauss")
    h -= 0.22 * plate.bump(put([(-0.004, 0.004)])[0], 0.011 * s, 0.020 * s)
    h -= 0.08 * plate.bump(put([(0.012, -0.048)])[0], 0.012 * s, 0.014 * s)
    h += 0.06 * plate.bump(put([(-0.010, 0.060)])[0], 0.014 * s, 0.014 * s)
    h += 0.07 * plate.bump(put([(-0.022, 0.012)])[0], 0.008 * s, 0.012 * s)
    return h


