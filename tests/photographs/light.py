"""Light on metal: normals from heights, one lamp with a soft box, shade in the recesses, and lustre.

Knows no coin; colours come in as a field and leave lit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from relief import Field
from scipy import ndimage


@dataclass(frozen=True, slots=True)
class Lamp:
    """Where the lamp stands (degrees anticlockwise from the right, and above the table) and how hard it is."""

    bearing: float = 130.0
    elevation: float = 48.0
    hardness: float = 0.5


def normals(heights: Field, steepness: float) -> tuple[Field, Field, Field]:
    """Find the normals; heights are in coin radii, and steepness exaggerates them."""
    scale = steepness * heights.shape[0] / 2
    down, right = np.gradient(heights)
    nx, ny = -right * scale, -down * scale
    nz = 1 / np.sqrt(nx * nx + ny * ny + 1)
    return nx * nz, ny * nz, nz


def recesses(heights: Field, reach: float) -> Field:
    """Say how deep each place lies under its surroundings, within a reach in coin radii."""
    around = ndimage.gaussian_filter(heights, reach * heights.shape[0] / 2, mode="nearest", truncate=2.5)
    return np.maximum(around - heights, 0)


def lit(heights: Field, lamp: Lamp, gloss: Field | float, steepness: float = 1.0) -> tuple[Field, Field]:
    """Light a relief: the light it scatters (about 0.6 on a level field) and the glint on top of it.

    `gloss` runs from 0, dull, to 1, mirror-like.
    """
    nx, ny, nz = normals(heights, steepness)
    a, e = np.deg2rad(lamp.bearing), np.deg2rad(lamp.elevation)
    lx, ly, lz = np.cos(a) * np.cos(e), -np.sin(a) * np.cos(e), np.sin(e)
    facing = nx * lx + ny * ly + nz * lz
    rx, ry, rz = 2 * nz * nx, 2 * nz * ny, 2 * nz * nz - 1
    toward = rx * lx + ry * ly + rz * lz  # how nearly the reflection meets the lamp
    scatter = 0.10 + 0.60 * np.clip(facing, 0, 1) + 0.05 * np.clip(-facing, 0, 1)
    window = 1 / (1 + np.exp(-(toward - 0.70) * (5 + 6 * lamp.hardness)))
    floor = np.clip(-(rx * lx + ry * ly) * 1.1, 0, 1) * np.clip(1.15 - rz, 0, 1)
    bounce = np.exp(-(((rx * lx + ry * ly + 0.80) / 0.22) ** 2)) * 0.10  # light back from the paper
    sheen = 0.20 + 0.80 * window - 0.16 * floor + bounce
    scatter = scatter * (1 - 0.75 * gloss) + sheen * 0.75 * gloss
    shade = 1 - np.clip(recesses(heights, 0.03) * 20, 0, 0.40) - np.clip(recesses(heights, 0.09) * 6, 0, 0.22)
    glint = np.clip(toward, 0, 1) ** (10 + 22 * lamp.hardness) * (0.18 + 0.62 * gloss)
    return (scatter * shade).astype(np.float32), (glint * shade).astype(np.float32)
