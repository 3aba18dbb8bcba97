"""Colours of metal: bright silver and its toning, bronze from red to brown, nickel, aluminium and tin.

Toning is a film whose thickness runs through straw, russet, lilac and blue; the colours are by eye.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from relief import Field, Plate
from scipy import ndimage

Colours = NDArray[np.float32]

SILVER_FILM = [(0.00, (0.985, 0.980, 0.965)), (0.22, (0.95, 0.91, 0.80)), (0.38, (0.86, 0.74, 0.53)),
    (0.52, (0.70, 0.52, 0.44)), (0.66, (0.60, 0.52, 0.64)), (0.80, (0.46, 0.56, 0.68)), (0.92,
    (0.50, 0.60, 0.58)), (1.10, (0.40, 0.41, 0.42))]
GREY_FILM = [(0.00, (0.985, 0.980, 0.970)), (0.30, (0.84, 0.83, 0.805)), (0.60, (0.64, 0.63, 0.615)),
    (0.85, (0.47, 0.465, 0.46)), (1.10, (0.31, 0.31, 0.31))]
BRONZE_FILM = [(0.00, (0.93, 0.58, 0.40)), (0.22, (0.84, 0.50, 0.33)), (0.42, (0.66, 0.41, 0.28)), (0.62,
    (0.52, 0.34, 0.25)), (0.80, (0.40, 0.28, 0.215)), (1.00, (0.29, 0.23, 0.185)), (1.15,
    (0.22, 0.195, 0.165))]
NICKEL_FILM = [(0.00, (0.93, 0.945, 0.965)), (0.40, (0.84, 0.845, 0.85)), (0.80, (0.66, 0.655, 0.64)),
    (1.10, (0.46, 0.455, 0.44))]
ALUMINIUM_FILM = [(0.00, (0.97, 0.975, 0.985)), (1.10, (0.70, 0.71, 0.72))]
TIN_FILM = [(0.00, (0.78, 0.78, 0.77)), (0.5, (0.60, 0.60, 0.585)), (1.10, (0.34, 0.335, 0.32))]
FILMS = {"silver": SILVER_FILM, "grey silver": GREY_FILM, "bronze": BRONZE_FILM,
    "cupro-nickel": NICKEL_FILM, "aluminium": ALUMINIUM_FILM, "tin": TIN_FILM}


def film(name: str, thickness: Field) -> Colours:
    """Look up the colours of a film by its thickness, 0 for fresh metal."""
    table = FILMS[name]
    at = [row[0] for row in table]
    return np.stack([np.interp(thickness, at, [row[1][c] for row in table]) for c in range(3)],
        axis=-1).astype(np.float32)


def clouds(size: int, random: np.random.Generator, cells: int, fall: float = 0.55) -> Field:
    """Make soft noise of several sizes, about 0 with a spread of 1."""
    total = np.zeros((size, size), dtype=np.float32)
    weight = 1.0
    while cells < size / 3:
        grid = random.standard_normal((cells + 3, cells + 3)).astype(np.float32)
        zoomed = ndimage.zoom(grid, (size + size / cells * 2) / (cells + 3), order=1 if cells > 40 else 3)
        total += zoomed[:size, :size] * weight
        weight *= fall
        cells *= 2
    return total / total.std()


def toning(size: int, random: np.random.Generator, rim: float, middle: float, patchy: float,
    power: float = 2.6) -> Field:
    """Lay a film that thickens from the middle to the rim, uneven by clouds."""
    plate = Plate(size)
    x, y = plate.axes()
    lean = random.normal(0, 0.22 / power, 2)
    r = np.sqrt((x - lean[0]) ** 2 + (y - lean[1]) ** 2)
    cloud = clouds(size, random, 3)
    return (middle + (rim - middle) * np.clip(r, 0, 1.06) ** power + patchy * cloud).astype(np.float32)
