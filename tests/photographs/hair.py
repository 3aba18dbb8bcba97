"""Hair that more than one head wears: plaits, short tufts combed along a flow, and wound knots."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from relief import Field, Plate, Point, curve, over


def plait(plate: Plate, path: Sequence[Point], width: float | Sequence[float], count: int) -> Field:
    """Plait three strands along a path: 0 to 1 high; `width` is half the plait's, and may taper."""
    line = curve(path, steps=16)
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    along /= along[-1]
    given = np.atleast_1d(np.asarray(width, dtype=float))

    def at(share: float, aside: float) -> Point:
        share = float(np.clip(share, 0, 1))
        x, y = (np.interp(share, along, line[:, axis]) for axis in (0, 1))
        ahead = min(share + 0.01, 1.0)
        dx, dy = (
            np.interp(ahead, along, line[:, axis]) - np.interp(ahead - 0.02, along, line[:,
                axis]) for axis in (0, 1)
        )
        size = max(np.hypot(dx, dy), 1e-9)
        wide = np.interp(share, np.linspace(0, 1, len(given)), given)
        return float(x - dy / size * aside * wide), float(y + dx / size * aside * wide)

    out = plate.blank()
    step = 1 / count
    for index in range(count):
        side = 1 if index % 2 else -1
        start = index * step
        wide = float(np.interp(start, np.linspace(0, 1, len(given)), given))
        # a leaf-shaped lock from the outer edge down to the middle, then its own furrows
        lock = [
            at(start - step * 0.65, side * 0.30),
            at(start + step * 0.05, side * 0.66),
            at(start + step * 0.75, side * 0.52),
            at(start + step * 1.70, side * -0.10),
        ]
        body = plate.stroke(lock, (wide * 0.22, wide * 0.46, wide * 0.44, wide * 0.12))
        for aside in (-0.16, 0.10):
            furrow = [(x + aside * wide, y + abs(aside) * wide * 0.3) for x, y in lock]
            body = body - 0.30 * plate.stroke(furrow, wide * 0.07, "gauss") * (body > 0)
        # each lock lies over the one before it
        out = over(out, np.maximum(body, 0.05), plate.blur((body > 0.15).astype(np.float32), 0.002))
    return out


def tufts(
    plate: Plate,
    mask: Field,
    flow: Callable[[float, float], float],
    length: float,
    spacing: float,
    seed: int,
    curl: float = 0.5,
) -> Field:
    """Lay short curved locks over a mask along a flow (degrees, clockwise from the right); 0 to 1 high."""
    random = np.random.default_rng(seed)
    out = plate.blank()
    rows = np.arange(-0.9, 0.9, spacing)
    places = [
        (x + (spacing / 2 if row % 2 else 0) + random.normal(0, spacing * 0.16),
            y + random.normal(0, spacing * 0.16))
        for row, y in enumerate(rows)
        for x in rows
    ]
    for x, y in places:
        column, line = int((x + 1) / 2 * plate.size), int((y + 1) / 2 * plate.size)
        if not (0 <= column < plate.size and 0 <= line < plate.size) or mask[line, column] < 0.5:
            continue
        angle = np.deg2rad(flow(x, y) + random.normal(0, 8))
        bend = curl * (1 if random.random() > 0.25 else -0.6)
        high = 0.72 + 0.28 * random.random()
        for strand in (-1, 0, 1):
            px, py = x - np.sin(angle) * strand * length * 0.14, y + np.cos(angle) * strand * length * 0.14
            points = [(px, py)]
            for part in range(4):
                turn = angle + bend * (part - 1.2) * 0.62
                px, py = px + np.cos(turn) * length / 4, py + np.sin(turn) * length / 4
                points.append((px, py))
            plate.stroke_into(
                out, points, (length * 0.07, length * 0.12, length * 0.11, length * 0.07, length * 0.02),
                height=high * (1.0 if strand == 0 else 0.86),
            )
    return out


def knot(plate: Plate, at: Point, size: float, seed: int) -> tuple[Field, Field]:
    """Wind hair into a knot: heights 0 to 1, and its mask."""
    def place(points: Sequence[Point]) -> list[Point]:
        return [(at[0] + x * size, at[1] + y * size) for x, y in points]

    outline = place([(-0.85, -0.55), (-0.35, -1.0), (0.35, -0.98), (0.88, -0.55), (1.02, 0.10),
        (0.72, 0.78), (0.10, 1.0), (-0.55, 0.82), (-0.95, 0.30)])
    mask = plate.fill(outline)
    upper = [
        place([(-0.95, 0.20), (-0.80, -0.55), (-0.25, -0.95), (0.45, -0.88), (0.92, -0.35), (0.88, 0.30),
            (0.45, 0.80)]),
        place([(-0.70, 0.22), (-0.55, -0.30), (-0.15, -0.62), (0.32, -0.56), (0.58, -0.18), (0.55, 0.22),
            (0.30, 0.52)]),
        place([(-0.45, 0.24), (-0.32, -0.08), (-0.08, -0.28), (0.18, -0.24), (0.28, -0.02), (0.22, 0.16),
            (0.10, 0.26)]),
    ]
    lower = [
        place([(-0.95, 0.25), (-0.60, 0.80), (0.05, 1.0), (0.65, 0.80), (0.98, 0.25)]),
        place([(-0.70, 0.28), (-0.42, 0.58), (0.00, 0.72), (0.42, 0.60), (0.70, 0.25)]),
        place([(-0.45, 0.30), (-0.25, 0.42), (0.02, 0.46), (0.22, 0.38), (0.40, 0.18)]),
    ]
    wide = size * 0.11
    strands = plate.locks(upper, 8, (wide * 0.6, wide, wide, wide * 0.7), size * 0.02, seed)
    under = plate.locks(lower, 6, (wide * 0.6, wide, wide, wide * 0.5), size * 0.02, seed + 1)
    heights = 0.62 * plate.swell(mask, size * 0.15, size * 0.45) + 0.38 * np.maximum(strands, under * 0.75)
    return heights * mask, mask
